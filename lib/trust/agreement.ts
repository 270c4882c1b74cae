import { daySums } from "../grid/daySums.js";
import { regularGrid } from "../grid/regularGrid.js";
import { requireReadings } from "../ground/complaint.js";
import { tQuantile } from "../ground/distributions.js";
import { type Estimate, estimate } from "../ground/estimate.js";
import { longRunVariance } from "../ground/longRunVariance.js";
import { olsAr1 } from "../ground/regressionAr1.js";
import { mean } from "../ground/summary.js";
import type { AirRecord, PlaceRecord } from "../record/airRecord.js";
import { stoodTogether } from "../record/eventPlaces.js";
import { flagBit } from "../record/flag.js";
import { meanAndSpread } from "./faults/meanAndSpread.js";
import { stepFrame, stepMeans } from "./faults/stepMeans.js";
import { type Quantity, quantities } from "../record/quantity.js";
import type { Series } from "../record/series.js";

/** How two sensors agree. */
export interface Agreement {
  readonly a: string;
  readonly b: string;
  readonly quantity: Quantity;
  readonly basis: "co-location" | "pressure";
  /** a minus b. */
  readonly bias: Estimate;
  /** 95 % of later single differences lie between, under like conditions. */
  readonly limits: { readonly low: number; readonly high: number };
  /** Change of the bias a year; null under 90 days, and side by side. */
  readonly drift: Estimate | null;
  /** Hours with a reading of both. */
  readonly hours: number;
  readonly warnings: readonly string[];
}

const hourMs = 3600000;
const differenceUnit = (unit: string): string => (unit === "degC" ? "K" : unit);

/**
 * Agreement of every two places: each quantity while they stood side by side, and their barometers always.
 *
 * Barometers are compared over the whole record without what stands on a shifted level (flag `step`): a jump of 1.4 hPa is a
 * fault to be told, not a bias. Limits hold for the conditions of those hours: sun, wind and damp differ later.
 *
 * @param record flagged; faulty readings are left out
 * @returns      frozen; empty with one place
 * @source hourly mean differences with the long-run variance of lib/ground; coverage measured by simulation, see there
 * @example agreementOf(record)[0].quantity // "air_temperature"
 */
export function agreementOf(record: AirRecord): readonly Agreement[] {
  const found: Agreement[] = [];
  const names = Object.keys(record.places);
  for (let i = 0; i < names.length; i++) {
    for (let j = i + 1; j < names.length; j++) {
      for (const event of record.events) {
        if (event.kind !== "co-location" || event.to === null || event.at > record.to || event.to < record.from) continue;
        const [a, b] = [record.places[names[i]], record.places[names[j]]];
        const span = { from: event.at, to: event.to };
        if (!stoodTogether(record, event, a.name, b.name, () => temperatureDifferences(a, b, span))) continue;
        for (const quantity of quantities) push(found, a, b, quantity, "co-location", span);
      }
      push(found, record.places[names[i]], record.places[names[j]], "surface_air_pressure", "pressure", { from: -Infinity, to: Infinity });
    }
  }
  return Object.freeze(found);
}

/** Hourly temperature of a minus b while it lasted · K · nothing where one logs none. */
function temperatureDifferences(a: PlaceRecord, b: PlaceRecord, span: Span): Float64Array {
  const [sa, sb] = [a, b].map((p) => p.series.air_temperature).map((s) => (s === undefined ? s : only(s, "co-location", span)));
  if (sa === undefined || sb === undefined || sa.seconds.length === 0 || sb.seconds.length === 0) return new Float64Array(0);
  const [va, vb] = regularGrid([sa, sb], { step: 3600, method: "none" }).columns.map((c) => c.values);
  return va.map((v, k) => v - vb[k]);
}

interface Span {
  readonly from: number;
  readonly to: number;
}

function push(found: Agreement[], a: PlaceRecord, b: PlaceRecord, quantity: Quantity, basis: Agreement["basis"], span: Span): void {
  const [sa, sb] = [a.series[quantity], b.series[quantity]];
  if (sa === undefined || sb === undefined) return;
  const one = agreement(only(sa, basis, span), only(sb, basis, span), basis);
  if (one !== null) found.push(one);
}

/** The readings of [from, to), epoch ms, without what stands on a shifted level where the whole record is the basis. */
function only(s: Series, basis: Agreement["basis"], { from, to }: Span): Series {
  let [first, end] = [0, s.seconds.length];
  while (first < end && !(s.start + 1000 * s.seconds[first] >= from)) first++;
  while (end > first && !(s.start + 1000 * s.seconds[end - 1] < to)) end--;
  const part = { ...s, seconds: s.seconds.subarray(first, end), values: s.values.subarray(first, end), flags: s.flags.subarray(first, end) };
  if (basis === "co-location" || !part.flags.some((bits) => (bits & flagBit.step) !== 0)) return part;
  return { ...part, values: part.values.map((v, i) => ((part.flags[i] & flagBit.step) === 0 ? v : Number.NaN)) };
}

/** Fewer hours side by side leave too little to see how the difference wanders. */
const leastHours = 6;
const enoughHours = 24;
/** From so many hours on, and so many days with one, a difference is looked at day by day. */
const hoursOfLong = 720;
const daysOfLong = 20;

/**
 * Agreement of two series of one quantity: bias and spread of their hourly means.
 *
 * @param a     one series · faulty readings are left out
 * @param b     the other, of the same quantity · differences are a minus b
 * @param basis why they may be compared: "co-location" (they stood side by side) or "pressure" (barometers, which may be apart)
 * @returns     see Agreement, frozen · null with fewer than 6 common hours, with a warning under 24
 * @throws RangeError when an hour that counts is beyond ±1e60
 * @example agreement(insidePressure, pressure, "pressure")?.bias.value // -0.242 hPa
 */
export function agreement(a: Series, b: Series, basis: Agreement["basis"]): Agreement | null {
  if (a.seconds.length === 0 || b.seconds.length === 0) return null;
  const grid = regularGrid([a, b], { step: 3600, method: "none" });
  const [va, vb] = grid.columns.map((c) => c.values);
  requireReadings("agreement", "a", va);
  requireReadings("agreement", "b", vb);
  const all = va.map((v, k) => v - vb[k]);
  // The long-run variance counts hours from the first to the last that has both.
  const first = all.findIndex((d) => !Number.isNaN(d));
  const differences = first < 0 ? new Float64Array(0) : all.slice(first, all.findLastIndex((d) => !Number.isNaN(d)) + 1);
  const present = differences.filter((d) => !Number.isNaN(d));
  if (present.length < leastHours || !differences.some((d, k) => k > 0 && !Number.isNaN(d + differences[k - 1]))) return null;
  const bias = mean(present);
  const run = longRunVariance(influences(differences.map((d) => d - bias)));
  const standardError = Math.sqrt(run.varianceOfSum) / present.length;
  const reach = tQuantile(0.975, run.terms) * standardError;
  const sd = meanAndSpread(singleDifferences(a, b)).spread;
  const effective = Math.min(present.length, Math.max(2, standardError > 0 ? (sd / standardError) ** 2 : present.length));
  const half = tQuantile(0.975, effective - 1) * sd * Math.sqrt(1 + 1 / effective);
  const unit = differenceUnit(a.unit);
  const warnings: string[] = [];
  if (present.length < enoughHours) warnings.push(`only ${present.length} h with both sensors: leave them together for at least 24 h, better 48 h`);
  if (run.isShort) warnings.push("the difference wanders slowly: its interval may be too narrow");
  return Object.freeze({
    a: a.place,
    b: b.place,
    quantity: a.quantity,
    basis,
    bias: estimate({ value: bias, standardError, low: bias - reach, high: bias + reach, unit }),
    limits: Object.freeze({ low: bias - half, high: bias + half }),
    drift: basis === "pressure" ? drift(differences, grid.start + first * hourMs, unit) : null,
    hours: present.length,
    warnings: Object.freeze(warnings),
  });
}

/**
 * Hours of a short span; of a long one the sums of each 24: barometers wander for days on end, and the cosines of many hours look at
 * hours and never at that.
 */
function influences(parts: Float64Array): Float64Array {
  if (parts.length < hoursOfLong) return parts;
  const days = daySums(parts);
  const isThere = days.map((v) => (Number.isNaN(v) ? 0 : 1));
  const isEnough = isThere.reduce((sum, v) => sum + v, 0) >= daysOfLong && isThere.some((v, k) => v === 1 && isThere[k + 1] === 1);
  return isEnough ? days : parts;
}

/** Differences of single readings on the finer of the two usual steps. */
function singleDifferences(a: Series, b: Series): Float64Array {
  const frame = stepFrame([a, b]);
  const [va, vb] = [stepMeans(a, frame, "values"), stepMeans(b, frame, "values")];
  let n = 0;
  for (let k = 0; k < va.length; k++) if (!Number.isNaN(va[k] - vb[k])) va[n++] = va[k] - vb[k];
  return va.subarray(0, n);
}

/** Slope of the daily mean difference · unit per year, by regression with residuals that remember; null under 90 days. */
function drift(differences: Float64Array, start: number, unit: string): Estimate | null {
  const days: number[] = [];
  const values: number[] = [];
  const first = Math.floor(start / (24 * hourMs));
  for (let k = 0; k < differences.length; ) {
    const day = Math.floor((start + k * hourMs) / (24 * hourMs));
    let sum = 0;
    let n = 0;
    for (; k < differences.length && Math.floor((start + k * hourMs) / (24 * hourMs)) === day; k++) {
      if (Number.isNaN(differences[k])) continue;
      sum += differences[k];
      n++;
    }
    if (n >= 12) {
      days.push(day - first);
      values.push(sum / n);
    }
  }
  if (days.length < 30 || days[days.length - 1] - days[0] < 89) return null;
  const middle = mean(days);
  const fit = olsAr1([days.map(() => 1), days.map((d) => (d - middle) / 365.25)], values, days);
  return estimate({ value: fit.coefficients[1], standardError: fit.standardErrors[1], low: fit.low[1], high: fit.high[1], unit: `${unit} year-1` });
}
