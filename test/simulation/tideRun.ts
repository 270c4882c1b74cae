import { fitTides } from "../../lib/cycles/tide/fitTides.js";
import { type LineInterval, lineInterval } from "../../lib/cycles/tide/lineInterval.js";
import { random, type Random } from "../../lib/ground/random.js";
import { series } from "../../lib/record/series.js";
import { drawNoise, planted, type PlantedLine } from "../tideRecord.js";
import { exactTide } from "./exactTide.js";
import type { TideScenario } from "./tideScenarios.js";

/** Seeds for judging; those with which the method was built were others. */
export const firstSeed = 7_310_000;
/** True amplitudes in standard errors of the exact bound. */
export const sizes: readonly number[] = [0, 1, 2, 4, 10];
/** Tides that stand in the readings themselves, in turn from record to record · hPa of S1, S2, S3. */
const tides: readonly (readonly [number, number, number])[] = [[0, 0, 0], [0.2, 0.1, 0.03], [0.6, 1.1, 0.15]];
const start = Date.UTC(2023, 0, 1);

export interface Tally { held: number; asked: number }

/** What a scenario's records added up to; plain JSON, so that runs can be stopped and gone on with. */
export interface Outcome {
  /** Amplitude and time held, and line found, at each of `sizes` (added to the coefficients: the fit is equivariant). */
  readonly amplitude: Tally[];
  readonly time: Tally[];
  readonly found: Tally[];
  /** No, weak and strong tide in the readings: amplitude held, and time held or the whole circle. */
  readonly plantedAmplitude: Tally[];
  readonly plantedTime: Tally[];
  /** Squared errors of S1, S2, S3 of the fit and of the exact bound, paired. */
  readonly squares: number[];
  readonly bounds: number[];
  records: number;
  /** Jumps at which fits were split. */
  jumps: number;
}

const tallies = (n: number): Tally[] => Array.from({ length: n }, () => ({ held: 0, asked: 0 }));
export const empty = (): Outcome => ({
  amplitude: tallies(sizes.length), time: tallies(sizes.length), found: tallies(sizes.length), plantedAmplitude: tallies(3), plantedTime: tallies(3),
  squares: [0, 0, 0], bounds: [0, 0, 0], records: 0, jumps: 0,
});

export function addOutcome(into: Outcome, more: Outcome): void {
  for (const key of ["amplitude", "time", "found", "plantedAmplitude", "plantedTime"] as const) {
    for (const [j, t] of more[key].entries()) {
      into[key][j].held += t.held;
      into[key][j].asked += t.asked;
    }
  }
  for (let k = 0; k < 3; k++) {
    into.squares[k] += more.squares[k];
    into.bounds[k] += more.bounds[k];
  }
  into.records += more.records;
  into.jumps += more.jumps;
}

export const percent = ({ held, asked }: Tally): number => (100 * held) / asked;
/** Binomial standard error of a share near 95 %, in %. */
export const binomialError = (asked: number, share = 0.95): number => 100 * Math.sqrt((share * (1 - share)) / asked);
const add = (tally: Tally, held: boolean): void => {
  tally.held += held ? 1 : 0;
  tally.asked++;
};

/** Takes readings away, as the scenario says. */
function loseSome(values: Float64Array, scenario: TideScenario, { uniform, integer }: Random): void {
  const { gaps, days, stepMinutes } = scenario;
  const perDay = 1440 / stepMinutes;
  if (typeof gaps === "object") {
    const [off, on] = gaps;
    for (let i = 0; i < values.length; i++) {
      const hour = (i * stepMinutes / 60) % 24;
      if (off < on ? hour >= off && hour < on : hour >= off || hour < on) values[i] = Number.NaN;
    }
    return;
  }
  if (gaps === "random" || gaps === "both") for (let i = 0; i < values.length; i++) if (uniform() < 0.2) values[i] = Number.NaN;
  if (gaps === "random" || gaps === "none") return;
  for (const block of days >= 180 ? [10, 5, 3] : [1, 3]) {
    const from = integer(values.length - block * perDay);
    values.fill(Number.NaN, from, from + block * perDay);
  }
}

/** Whether a true phase lies in an interval's arc. */
function holds(arc: LineInterval, truth: number): boolean {
  const turns = (truth - arc.phase) / (2 * Math.PI);
  const later = (turns - Math.round(turns)) * 2 * Math.PI;
  return -arc.phaseBefore <= later && later <= arc.phaseAfter;
}

/** One record: noise, every third with no, a weak or a strong tide in its readings, fitted the whole way. */
export function oneRecord(scenario: TideScenario, seed: number, into: Outcome): void {
  const { noise, days, stepMinutes } = scenario;
  const chance = random(seed);
  const perDay = 1440 / stepMinutes;
  const values = drawNoise(noise, days * perDay, 1 / perDay, chance.normal);
  scenario.swell?.(values, days, chance);
  loseSome(values, scenario, chance);
  const exact = exactTide(noise, values, 1 / perDay);
  scenario.disturb?.(values, perDay, chance);
  const kind = seed % 3;
  const phases = [0, 1, 2].map(() => 2 * Math.PI * chance.uniform());
  const tide = tides[kind].map((amplitude, k): PlantedLine => ({ cyclesPerDay: k + 1, amplitude, crest: (24 * phases[k]) / (2 * Math.PI) / (k + 1) }));
  const times = Array.from(values, (_, i) => start + (i * 86_400_000) / perDay);
  const fit = fitTides(series({ times, values: values.map((v, i) => v + 1000 + planted(tide, times[i])), quantity: "surface_air_pressure" }), { longitude: 0, climatology: false, events: scenario.events?.map((day) => start + 86_400_000 * day) });
  into.records++;
  into.jumps += fit.jumps.length;
  for (let k = 0; k < 3; k++) {
    const line = fit.coefficients[k];
    const whole = lineInterval(line);
    const { amplitude } = tide[k];
    add(into.plantedAmplitude[kind], whole.low <= amplitude && amplitude <= whole.high);
    if (amplitude > 0) add(into.plantedTime[kind], holds(whole, phases[k]));
    // What is left when the planted tide is taken off is the error of the fit.
    const cosine = line.cosine - amplitude * Math.cos(phases[k]);
    const sine = line.sine - amplitude * Math.sin(phases[k]);
    const bound = Math.hypot(exact.errors[2 * k], exact.errors[2 * k + 1]) / Math.SQRT2;
    into.squares[k] += cosine ** 2 + sine ** 2;
    into.bounds[k] += exact.beta[2 * k] ** 2 + exact.beta[2 * k + 1] ** 2;
    for (const [j, size] of sizes.entries()) {
      const phase = 2 * Math.PI * chance.uniform();
      const truth = size * bound;
      const got = lineInterval({ ...line, cosine: cosine + truth * Math.cos(phase), sine: sine + truth * Math.sin(phase) });
      add(into.amplitude[j], got.low <= truth && truth <= got.high);
      add(into.found[j], got.detected);
      if (size > 0) add(into.time[j], holds(got, phase));
    }
  }
}

/** Heads of the table, as a Markdown row and its rule. */
export const tableHead: readonly string[] = [
  "| noise, length, step | records | RMS over exact bound S1 S2 S3 | amplitude held, % at 0 1 2 4 10 s.e. | time held, % at 1 2 4 10 s.e. | no, weak, strong tide in the readings: amplitude held, % | time held, % (weak, strong) | false detections, % | binomial error, % |",
  "|---|---|---|---|---|---|---|---|---|",
];

/** One row of the table. */
export function tableRow(name: string, outcome: Outcome, withBound = true): string {
  const { amplitude, time, found, plantedAmplitude, plantedTime, squares, bounds, records } = outcome;
  const shares = (list: readonly Tally[]): string => list.map((t) => percent(t).toFixed(1)).join(" ");
  const ratios = withBound ? squares.map((s, k) => Math.sqrt(s / bounds[k]).toFixed(3)).join(" ") : "";
  return `| ${name} | ${records} | ${ratios} | ${shares(amplitude)} | ${shares(time.slice(1))} | ${shares(plantedAmplitude)} | ${shares(plantedTime.slice(1))} | ${percent(found[0]).toFixed(1)} | ${binomialError(amplitude[0].asked).toFixed(1)} |`;
}

/** How far a share may lie from its promise: 1.5 % with about 1000 records (3000 lines), four binomial errors with fewer. */
export function roomFor(records: number): number {
  return records >= 1000 ? 1.5 : 4 * binomialError(3 * records);
}

/** Sentences on every bar that a scenario's outcome misses; none when it keeps them all. Bars are two-sided. */
export function missedBars(outcome: Outcome, room: number = roomFor(outcome.records)): string[] {
  const { amplitude, time, found, squares, bounds, records } = outcome;
  const missed: string[] = [];
  const bar = (what: string, got: number, low: number, high: number): void => {
    if (!(got >= low && got <= high)) missed.push(`${what}: ${got.toFixed(3)}, not ${low.toFixed(2)} to ${high.toFixed(2)}`);
  };
  for (const [j, size] of sizes.entries()) {
    bar(`amplitude at ${size} s.e., %`, percent(amplitude[j]), 95 - room, 95 + room);
    // Below 1.5 standard errors an undetected line has the whole circle: more than 95 % there, and honest.
    if (size > 0) bar(`time at ${size} s.e., %`, percent(time[j]), 95 - room, size < 1.5 ? 100 : 95 + room);
  }
  bar("false detections, %", percent(found[0]), 5 - room, 5 + room);
  bar("found at 10 s.e., %", percent(found[4]), 99.5, 100);
  for (const [j, t] of outcome.plantedAmplitude.entries()) bar(`amplitude of a tide in the readings (${j}), %`, percent(t), 95 - Math.max(room, 4 * binomialError(t.asked)), 95 + Math.max(room, 4 * binomialError(t.asked)));
  // Paired on the same records: the ratio errs by far less than 1/√records.
  for (let k = 0; k < 3; k++) bar(`S${k + 1} RMS over the exact bound`, Math.sqrt(squares[k] / bounds[k]), 0.97 - 0.3 / Math.sqrt(records), 1.05 + 0.3 / Math.sqrt(records));
  return missed;
}
