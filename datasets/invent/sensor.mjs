import { redNoise } from "./redNoise.mjs";

/** Value of an evenly stepped series at an instant: a straight line between its two neighbors. */
export function valueAt(values, start, stepHours, ms) {
  const position = (ms - start) / (stepHours * 3600000);
  const i = Math.min(values.length - 2, Math.max(0, Math.floor(position)));
  return values[i] + (values[i + 1] - values[i]) * (position - i);
}

/**
 * What a sensor says about the truth: truth + offset + drift + slow wander + white noise, held within its scale.
 *
 * @param random  a stream of `chance`
 * @param truth   [n]
 * @param days    days since the sensor began, [n]
 * @param sensor  { offset, driftPerYear = 0, white, wander = { sd, memoryHours } | null, low = −∞, high = ∞ }
 * @param stepHours step of the readings, for the wander
 * @returns Float64Array [n], not yet rounded
 */
export function reading(random, truth, days, sensor, stepHours) {
  const { offset, driftPerYear = 0, white, wander = null, low = -Infinity, high = Infinity } = sensor;
  const wandering = wander === null ? new Float64Array(truth.length) : redNoise(random, truth.length, stepHours, wander.memoryHours, wander.sd);
  return Float64Array.from(truth, (value, i) => {
    const said = value + offset + (driftPerYear * days[i]) / 365.25 + wandering[i] + white * random.normal();
    return Math.min(high, Math.max(low, said));
  });
}

/** A number as a logger prints it: fixed decimals, never "-0.0"; "" for NaN is left to the caller. */
export function printed(value, decimals) {
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? (0).toFixed(decimals) : text;
}
