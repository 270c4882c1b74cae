import { chance } from "../invent/chance.mjs";
import { saturation } from "../invent/moistAir.mjs";
import { reading, valueAt } from "../invent/sensor.mjs";
import { utc } from "../invent/stamp.mjs";
import * as plan from "./plan.mjs";

const zoneMs = plan.zoneHours * 3600000;
const points = plan.corrections.map(({ at, ahead }) => ({ at: utc(at), ahead }));

/** Seconds that a told clock is ahead, at its own written time (ms as if UTC): straight between points, constant outside. */
export function toldAhead(written) {
  if (written <= points[0].at) return points[0].ahead;
  for (let k = 1; k < points.length; k++) {
    const a = points[k - 1];
    const b = points[k];
    if (written <= b.at) return a.ahead + ((b.ahead - a.ahead) * (written - a.at)) / (b.at - a.at);
  }
  return points[points.length - 1].ahead;
}

/** The instant (epoch ms) at which a reader who applies the told corrections puts a written time (ms as if UTC). */
export function instantRead(written) {
  return written - zoneMs - toldAhead(written) * 1000;
}

/** From the true air, (instant) → how much the sun under the eaves heats the veranda's sensor, K. */
export function sunOnSensor(air) {
  const { firstDay, days, fromHour, toHour, leastFactor, peak } = plan.sun;
  const lit = [];
  for (let d = 0; d < days; d++) {
    const midnight = plan.local(`${firstDay}T00:00`) + d * 86400000;
    const from = midnight + fromHour * 3600000;
    const to = midnight + toHour * 3600000;
    const factor = valueAt(air.clouds, air.axis.start, air.axis.stepHours, (from + to) / 2);
    if (factor >= leastFactor) lit.push({ from, to, size: peak * factor });
  }
  return (ms) => {
    const now = lit.find(({ from, to }) => ms > from && ms < to);
    return now === undefined ? 0 : now.size * Math.sin((Math.PI * (ms - now.from)) / (now.to - now.from)) ** 2;
  };
}

/**
 * What one logger would have written without any fault but the sun on its sensor: rows at each 5 minutes of its own clock.
 *
 * @param place "veranda" or "library"
 * @param air   from `trueAir`
 * @returns rows { logger, letter, at (true instant), written (ms as if UTC), air_temperature, relative_humidity,
 *          surface_air_pressure, heated K, marks [] } in time order
 */
export function soundRows(place, air) {
  const { start, stepHours } = air.axis;
  const { clockSetBack: back, together } = plan;
  const heat = sunOnSensor(air);
  const rows = [];
  for (let w = plan.start + zoneMs; w < plan.end + zoneMs; w += plan.stepSeconds * 1000) {
    const at = instantRead(w) - plan.untoldAhead[place] * 1000;
    const civil = w - zoneMs;
    const shifted = place === back.place && civil >= back.from && civil < back.to;
    rows.push({ logger: place, letter: plan.letters[place], at, written: shifted ? w + back.seconds * 1000 : w, marks: [] });
  }
  const of = (values) => rows.map(({ at }) => valueAt(values, start, stepHours, at));
  const here = (key) => {
    const own = of(air[place][key]);
    const table = of(air.veranda[key]);
    return own.map((value, i) => (rows[i].at < together.to ? table[i] : value));
  };
  const heated = rows.map(({ at }) => (place === "veranda" ? heat(at) : 0));
  const t = here("t").map((value, i) => value + heated[i]);
  const rh = here("e").map((e, i) => Math.min(100, (100 * e) / saturation(t[i])));
  const truths = { air_temperature: t, relative_humidity: rh, surface_air_pressure: of(air.pressure) };
  const days = rows.map(({ at }) => (at - plan.start) / 86400000);
  for (const [quantity, truth] of Object.entries(truths)) {
    const random = chance(plan.seed, `${place} ${quantity}`);
    const said = reading(random, truth, days, plan.sensors[place][quantity], plan.stepSeconds / 3600);
    rows.forEach((row, i) => { row[quantity] = said[i]; });
  }
  rows.forEach((row, i) => { row.heated = heated[i]; });
  return rows;
}
