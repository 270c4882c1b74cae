import { redNoise, smoothRedNoise } from "./redNoise.mjs";
import { solarHour, tide } from "./tide.mjs";

const dayMs = 86400000;

/**
 * Invented air pressure at the station: base + tide + slow smooth swings + slower swings + small fast noise.
 *
 * @param chanceOf (name) → a stream of `chance`
 * @param axis     { start epoch ms, stepHours, n }
 * @param climate  { base hPa, lines, longitude, smooth: {memoryHours, sd}, slow: {…}, fast: {…},
 *                 strength (ms) → factor on smooth and slow (1 where swings do not change with the season) }
 * @returns Float64Array [n], hPa
 */
export function pressureOfAir(chanceOf, axis, climate) {
  const { start, stepHours, n } = axis;
  const smooth = smoothRedNoise(chanceOf("pressure smooth"), n, stepHours, climate.smooth.memoryHours, climate.smooth.sd);
  const slow = redNoise(chanceOf("pressure slow"), n, stepHours, climate.slow.memoryHours, climate.slow.sd);
  const fast = redNoise(chanceOf("pressure fast"), n, stepHours, climate.fast.memoryHours, climate.fast.sd);
  return Float64Array.from(smooth, (value, i) => {
    const ms = start + i * stepHours * 3600000;
    return climate.base + tide(climate.lines, ms, climate.longitude) + climate.strength(ms) * (value + slow[i]) + fast[i];
  });
}

/**
 * A factor for the size of the daily cycle that changes from day to day with the clouds: one value for each noon of
 * local mean solar time, AR(1) about 1, held within limits, a straight line from noon to noon.
 *
 * @param random    a stream of `chance`
 * @param axis      { start, stepHours, n }
 * @param longitude degrees east
 * @param options   { sd, memoryDays, low, high }
 * @returns Float64Array [n]
 */
export function cloudFactor(random, axis, longitude, { sd, memoryDays, low, high }) {
  const days = Math.ceil((axis.n * axis.stepHours) / 24) + 3;
  const noons = redNoise(random, days, 1, memoryDays, sd).map((x) => Math.min(high, Math.max(low, 1 + x)));
  // Days counted from the last local noon before the first step.
  const firstNoon = Math.floor((axis.start + (longitude / 360) * dayMs) / dayMs - 0.5);
  return Float64Array.from({ length: axis.n }, (_, i) => {
    const ms = axis.start + i * axis.stepHours * 3600000;
    const position = (ms + (longitude / 360) * dayMs) / dayMs - 0.5 - firstNoon;
    const day = Math.floor(position);
    return noons[day] + (noons[day + 1] - noons[day]) * (position - day);
  });
}

/**
 * Shape of a fair day's temperature about its mean: first harmonic at its highest at `warmestAt`, second harmonic
 * highest at the same hour, so that the afternoon is peaked and the night flat.
 *
 * @param ms        epoch ms
 * @param longitude degrees east
 * @param shape     { first K, second K, warmestAt hours of local mean solar time }
 * @returns K
 */
export function fairDay(ms, longitude, { first, second, warmestAt }) {
  const angle = (2 * Math.PI * (solarHour(ms, longitude) - warmestAt)) / 24;
  return first * Math.cos(angle) + second * Math.cos(2 * angle);
}
