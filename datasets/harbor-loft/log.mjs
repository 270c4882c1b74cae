import { chance } from "../invent/chance.mjs";
import { saturation } from "../invent/moistAir.mjs";
import { printed, reading, valueAt } from "../invent/sensor.mjs";
import { clockParts } from "../invent/stamp.mjs";
import { offsetHours } from "./civilClock.mjs";
import * as plan from "./plan.mjs";

const hourMs = 3600000;
const places = Object.keys(plan.sensors);

/** House units to what this logger prints: °F, %, inHg (1 inHg = 33.86388640341 hPa, conventional mercury). */
const inLoggerUnits = {
  air_temperature: (t) => t * 1.8 + 32,
  relative_humidity: (rh) => rh,
  surface_air_pressure: (p) => p / 33.86388640341,
};

/** Readings of one place at the instants, house units: { quantity: Float64Array }. */
function said(place, air, instants) {
  const { start, stepHours } = air.axis;
  const of = (values) => Float64Array.from(instants, (ms) => valueAt(values, start, stepHours, ms));
  const t = of(air[place].t);
  const truths = {
    air_temperature: t,
    relative_humidity: of(air[place].e).map((e, i) => Math.min(100, (100 * e) / saturation(t[i]))),
    surface_air_pressure: of(air.pressure),
  };
  const days = instants.map((ms) => (ms - plan.start) / (24 * hourMs));
  return Object.fromEntries(Object.entries(truths).map(([quantity, truth]) => {
    const random = chance(plan.seed, `${place} ${quantity}`);
    return [quantity, reading(random, truth, days, plan.sensors[place][quantity], 1)];
  }));
}

/** The column names in their order: when, then temperature, humidity and barometer of each place. */
export const header = ["when", ...places.flatMap((place) => Object.values(plan.columns).map((name) => `${place}_${name}`))].join(",");

/**
 * Every hourly row that reached the log.
 *
 * @param air from `trueAir`
 * @returns rows { at epoch ms, line, present: { place: { quantity: true|false } } } in time order
 */
export function logRows(air) {
  const instants = [];
  for (let ms = plan.start; ms < plan.end; ms += plan.stepSeconds * 1000) instants.push(ms);
  const values = Object.fromEntries(places.map((place) => [place, said(place, air, instants)]));
  const lost = chance(plan.seed, "lost rows");
  const missing = chance(plan.seed, "missing values");
  const rows = [];
  for (const [i, at] of instants.entries()) {
    const silent = plan.gaps.filter(({ from, to }) => at >= from && at < to).map((gap) => gap.places);
    const isLost = lost.uniform() < plan.lostShare;
    const present = {};
    const fields = [];
    for (const place of places) {
      present[place] = {};
      for (const [quantity, decimals] of Object.entries(plan.decimals)) {
        const isMissing = missing.uniform() < plan.missingShare || silent.some((who) => who.includes(place));
        present[place][quantity] = !isMissing;
        fields.push(isMissing ? "" : printed(inLoggerUnits[quantity](values[place][quantity][i]), decimals));
      }
    }
    if (isLost || silent.some((who) => who.length === places.length)) continue;
    const { year, month, day, hour, minute } = clockParts(at + offsetHours(at) * hourMs);
    rows.push({ at, line: [`${day}/${month}/${year} ${hour}:${minute}`, ...fields].join(","), present });
  }
  return rows;
}

/** The log files: [{ path, text, rows }], each with the header on its first line. */
export function writeLogs(rows) {
  return plan.logs.map(({ path, from, to }) => {
    const own = rows.filter(({ at }) => at >= from && at < to);
    return { path, text: `${[header, ...own.map(({ line }) => line)].join("\n")}\n`, rows: own };
  });
}
