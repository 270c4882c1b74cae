import { random, type Random } from "../../lib/ground/random.js";
import type { AirRecord, Exposure, PlaceRecord, Site } from "../../lib/record/airRecord.js";
import type { Quantity } from "../../lib/record/quantity.js";
import { series } from "../../lib/record/series.js";

/** What is invented, before a number is drawn. Everything is made up; nothing imitates a measured place. */
export interface HousePlan {
  readonly days: number;
  readonly step: number;
  readonly climate: "tropics" | "middle";
  readonly room: "free" | "thermostat";
  /** Reading steps of temperature (K), humidity (%), pressure (hPa); 0 keeps all digits. */
  readonly digits: readonly [number, number, number];
  /** Inside barometer minus outside · hPa. */
  readonly offset?: number;
  readonly elevation?: number;
  readonly start?: number;
}

/** Readings of a place as plain arrays, open to have faults planted. */
export interface Readings {
  times: Float64Array;
  air_temperature: Float64Array;
  relative_humidity: Float64Array;
  surface_air_pressure: Float64Array;
}

const saturation = (t: number): number => 6.112 * Math.exp((17.62 * t) / (243.12 + t));

/** Outside and inside readings of one invented house: weather with fronts, squalls, flicker, fog, opened windows, showers. */
export function inventedHouse(seed: number, plan: HousePlan): { site: Site; outside: Readings; inside: Readings } {
  const dice = random(seed);
  const { days, step, climate, room, digits, offset = -0.6, elevation = climate === "tropics" ? 1380 : 60 } = plan;
  const start = plan.start ?? Date.UTC(2024, 2, 1);
  const fine = Math.min(step, 300);
  const h = fine / 3600;
  const n = Math.round((days * 24) / h);
  const isTropics = climate === "tropics";
  const red = (memory: number, sd: number): Float64Array => redNoise(dice, n, h, memory, sd);
  const slowP = twice(dice, n, h, isTropics ? 30 : 40, isTropics ? 1 : 7);
  const fastP = red(0.6, isTropics ? 0.06 : 0.12);
  const slowT = red(60, isTropics ? 1.2 : 3);
  const fastT = red(1.5, 0.35);
  const flicker = red(0.4, isTropics ? 0.5 : 0.7);
  const clouds = red(40, 0.3);
  const slowE = red(90, isTropics ? 1.1 : 1.5);
  const habits = red(30, 0.3);
  const base = 1013.25 * (1 - (0.0065 * elevation) / 288.15) ** 5.2559;
  const p = new Float64Array(n);
  const t = new Float64Array(n);
  const e = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const hour = (i * h) % 24;
    const w = (2 * Math.PI) / 24;
    const tide = (isTropics ? 1 : 0.35) * (0.56 * Math.cos(w * (hour - 5.6)) + 1.08 * Math.cos(2 * w * (hour - 9.8)) + 0.1 * Math.cos(3 * w * (hour - 1.9)));
    p[i] = base + tide + slowP[i] + fastP[i];
    const sun = Math.max(0, Math.sin((Math.PI * (hour - 6)) / 12));
    const fair = 3.6 * Math.cos(w * (hour - 14)) + 0.9 * Math.cos(2 * w * (hour - 14));
    t[i] = (isTropics ? 19.6 : 9) + slowT[i] + fastT[i] + Math.min(1.5, Math.max(0.3, 1 + clouds[i])) * fair + flicker[i] * sun;
    e[i] = (isTropics ? 17 : 8) + slowE[i];
  }
  for (const at of drawn(dice, n, (days / 6) * (isTropics ? 1 : 0.6))) squall(dice, { p, t, e }, at, h);
  if (!isTropics) for (const at of drawn(dice, n, days / 7)) front(dice, { p, t, e }, at, h);
  for (let i = 0; i < n; i++) e[i] = Math.max(2, Math.min(e[i], saturation(t[i])));
  const inT = new Float64Array(n);
  const inE = new Float64Array(n);
  const tau = 12;
  let state = t[0] + 2;
  let vapor = e[0] + 1.5;
  for (let i = 0; i < n; i++) {
    state += (h / tau) * (t[i] + 1.2 - state);
    vapor += (h / 1.5) * (e[i] + 1.5 - vapor);
    const hour = (i * h) % 24;
    const heated = (hour > 6 && hour < 22 ? 20.5 : 18) + 0.3 * Math.sin((2 * Math.PI * i * h) / 0.7);
    inT[i] = room === "thermostat" ? Math.max(heated + 0.2 * habits[i], state) : state + habits[i];
    inE[i] = vapor;
  }
  for (const at of drawn(dice, n, 1.2 * days)) airing(dice, inT, inE, t, e, at, h);
  for (const at of drawn(dice, n, 0.7 * days)) shower(dice, inE, at, h);
  const site: Site = { latitude: isTropics ? -7.1 : 52, longitude: 0, elevation };
  const stride = Math.round(step / fine);
  const place = (airT: Float64Array, airE: Float64Array, shift: number, humid: number): Readings => {
    const sensed = lagged(airT, h, 0.13);
    const vaporSensed = lagged(airE, h, 0.13);
    const count = Math.floor(n / stride);
    const pick = (of: (i: number) => number): Float64Array => Float64Array.from({ length: count }, (_, k) => of(k * stride));
    const wander = red(8, 0.05);
    return {
      times: Float64Array.from({ length: count }, (_, k) => start + k * step * 1000),
      air_temperature: pick((i) => rounded(sensed[i] + wander[i] + 0.05 * dice.normal(), digits[0])),
      relative_humidity: pick((i) => rounded(Math.min(100, Math.max(1, (100 * vaporSensed[i]) / saturation(sensed[i]) + humid + 0.3 * dice.normal())), digits[1])),
      surface_air_pressure: pick((i) => rounded(p[i] + shift + 0.04 * dice.normal(), digits[2])),
    };
  };
  return { site, outside: place(t, e, 0.2, 1), inside: place(inT, inE, 0.2 + offset, -1.5) };
}

/** A record of one or two places from plain readings. */
export function recordOf(site: Site | null, places: Readonly<Record<string, { exposure: Exposure | null; readings: Readings }>>): AirRecord {
  const built: Record<string, PlaceRecord> = {};
  let from = Infinity;
  let to = -Infinity;
  for (const [name, { exposure, readings }] of Object.entries(places)) {
    const names: Quantity[] = ["air_temperature", "relative_humidity", "surface_air_pressure"];
    const all = names.map((quantity) => series({ times: readings.times, values: readings[quantity as "air_temperature"], quantity, place: name }));
    built[name] = {
      name,
      title: name,
      exposure,
      elevation: null,
      readings: readings.times.length,
      repeated: 0,
      conflicting: 0,
      start: all[0].start,
      seconds: all[0].seconds,
      series: Object.fromEntries(all.map((s) => [s.quantity, s])),
    };
    from = Math.min(from, readings.times[0]);
    to = Math.max(to, readings.times[readings.times.length - 1]);
  }
  return {
    name: "invented",
    title: "An invented house",
    site,
    zone: "Z",
    places: built,
    events: [],
    files: [],
    jumps: [],
    zoneChanges: [],
    corrections: 0,
    averagedOver: 0,
    from,
    to,
    notes: [],
  };
}

/** Writes readings in a logger's reading steps again, after something was added to them. */
export function rewritten(readings: Readings, digits: readonly [number, number, number]): Readings {
  const { times, air_temperature: t, relative_humidity: rh, surface_air_pressure: p } = readings;
  return {
    times,
    air_temperature: t.map((v) => rounded(v, digits[0])),
    relative_humidity: rh.map((v) => rounded(v, digits[1])),
    surface_air_pressure: p.map((v) => rounded(v, digits[2])),
  };
}

const rounded = (v: number, digit: number): number => (digit === 0 ? v : Math.round(v / digit) * digit);

export function redNoise(dice: Random, n: number, h: number, memory: number, sd: number): Float64Array {
  const phi = Math.exp(-h / memory);
  const out = new Float64Array(n);
  out[0] = sd * dice.normal();
  for (let i = 1; i < n; i++) out[i] = phi * out[i - 1] + sd * Math.sqrt(1 - phi * phi) * dice.normal();
  return out;
}

/** Red noise smoothed once more by the same memory: swings that have no kinks. */
function twice(dice: Random, n: number, h: number, memory: number, sd: number): Float64Array {
  const once = redNoise(dice, n, h, memory, sd * Math.SQRT2);
  return lagged(once, h, memory);
}

function lagged(x: Float64Array, h: number, memory: number): Float64Array {
  const out = Float64Array.from(x);
  const a = 1 - Math.exp(-h / memory);
  for (let i = 1; i < x.length; i++) out[i] = out[i - 1] + a * (x[i] - out[i - 1]);
  return out;
}

function* drawn(dice: Random, n: number, mean: number): Generator<number> {
  const count = Math.max(0, Math.round(mean + Math.sqrt(mean) * dice.normal()));
  for (let k = 0; k < count; k++) yield dice.integer(n);
}

/** Outflow of a shower: pressure nose of 1–4 hPa for 20–60 min, 3–9 K colder within ten minutes and slowly back, damp. */
function squall(dice: Random, { p, t, e }: Record<"p" | "t" | "e", Float64Array>, at: number, h: number): void {
  const nose = 1 + 3 * dice.uniform();
  const long = 0.35 + 0.6 * dice.uniform();
  const cold = 3 + 6 * dice.uniform();
  for (let i = at; i < Math.min(p.length, at + 5 / h); i++) {
    const s = (i - at) * h;
    p[i] += nose * Math.min(1, s / 0.12) * (s < long ? 1 : Math.exp(-(s - long) / 0.25));
    t[i] -= cold * Math.min(1, s / 0.15) * Math.exp(-Math.max(0, s - 0.5) / 1.5);
    e[i] += 1.5 * Math.exp(-s / 2);
  }
}

/** Cold front: pressure stops falling and rises by 3–6 hPa in six hours with a jump of up to 1.5, 4–9 K colder for a day. */
function front(dice: Random, { p, t, e }: Record<"p" | "t" | "e", Float64Array>, at: number, h: number): void {
  const jump = 1.5 * dice.uniform();
  const rise = 3 + 3 * dice.uniform();
  const cold = 4 + 5 * dice.uniform();
  for (let i = Math.max(0, Math.round(at - 12 / h)); i < Math.min(p.length, at + 40 / h); i++) {
    const s = (i - at) * h;
    p[i] += s < 0 ? -rise * Math.exp(s / 5) : jump * Math.min(1, s / 0.1) * Math.exp(-s / 10) - rise * Math.exp(-s / 4);
    if (s >= 0) t[i] -= cold * Math.min(1, s / 0.4) * Math.exp(-s / 15);
    if (s >= 0) e[i] -= 2 * Math.min(1, s) * Math.exp(-s / 15);
  }
}

/** A window opened for 5–25 minutes: the room's air goes three quarters of the way to the outside and comes back in half an hour. */
function airing(dice: Random, inT: Float64Array, inE: Float64Array, t: Float64Array, e: Float64Array, at: number, h: number): void {
  const long = (5 + 20 * dice.uniform()) / 60;
  let share = 0;
  for (let i = at; i < Math.min(inT.length, at + 2.5 / h); i++) {
    const s = (i - at) * h;
    share += s < long ? (h / 0.12) * (0.6 - share) : (-h / 0.35) * share;
    share = Math.min(0.75, Math.max(0, share));
    inT[i] += share * (t[i] - inT[i]);
    inE[i] += share * (e[i] - inE[i]);
  }
}

/** Steam from bath or kitchen: 3–7 hPa of vapor within ten minutes, gone in an hour. */
function shower(dice: Random, inE: Float64Array, at: number, h: number): void {
  const much = 3 + 4 * dice.uniform();
  for (let i = at; i < Math.min(inE.length, at + 4 / h); i++) {
    const s = (i - at) * h;
    inE[i] += much * Math.min(1, s / 0.2) * Math.exp(-Math.max(0, s - 0.2) / 0.6);
  }
}
