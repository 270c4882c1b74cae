import { saturationVaporPressure } from "../lib/air/saturationVaporPressure.js";
import { absoluteHumidityFromVaporPressure } from "../lib/air/absoluteHumidity.js";
import { random } from "../lib/ground/random.js";
import type { AirRecord, Exposure, PlaceRecord, RecordEvent } from "../lib/record/airRecord.js";
import type { Quantity } from "../lib/record/quantity.js";
import { series } from "../lib/record/series.js";
import { plainAir, plainTide, written } from "./plainAir.js";

/** Weather as strangers invent it: of first order, smoother, or a few slow waves; with or without fronts that come as steps. */
export interface StrangerWeather {
  readonly kind: "rough" | "lined" | "smooth" | "waves";
  readonly days: number;
  readonly latitude: number;
  /** Mean of the year · °C. */
  readonly mean: number;
  /** Half of what the year adds · K, warmest at the day of the record. */
  readonly annual: number;
  readonly warmestDay: number;
  /** From mean to crest of a usual day · K. */
  readonly daily: number;
  readonly fronts: boolean;
}

/** One indoor place: a room by steps of five minutes. */
export interface StrangerRoom {
  /** Time constant of the air with what follows it fast · h. */
  readonly tau: (day: number) => number;
  /** Warmer by gains that are always there · K. */
  readonly gain: (day: number) => number;
  /** Sun through windows at noon of a clear day, as the air's source would warm it in the end · K. */
  readonly sun: (day: number) => number;
  /** Heated to this at least, cooled to that at most · °C · null is left alone. */
  readonly heat: ((hour: number, day: number) => number) | null;
  readonly cool: number | null;
  /** Air changes an hour by hour of the day, and sources · g m-3 an hour. */
  readonly airing: (hour: number, day: number) => number;
  readonly source: (hour: number, day: number) => number;
  /** Walls and cloths that hold so many times the water of the air · default 1. */
  readonly buffer?: number;
  /** People's whim: K, first order, 20 h. */
  readonly habits: number;
}

/** How a place is logged. */
export interface StrangerLogger {
  readonly step: number;
  readonly noise: number;
  readonly rounding: number;
  readonly humidityNoise: number;
  readonly humidityRounding: number;
  /** Sensor's own lag · s. */
  readonly lag: number;
  /** Read too high by · K, %, hPa. */
  readonly warm: (day: number) => number;
  readonly damp: (day: number) => number;
  readonly pressure: (day: number) => number;
  /** Clock ahead by · s. */
  readonly ahead: (day: number) => number;
  /** Stretches without a reading · days. */
  readonly gaps: readonly (readonly [number, number])[];
  readonly quantities: readonly ("t" | "h" | "p")[];
}

export const plainLogger: StrangerLogger = {
  step: 600, noise: 0.05, rounding: 0.1, humidityNoise: 0.5, humidityRounding: 1, lag: 0, warm: () => 0, damp: () => 0, pressure: () => 0, ahead: () => 0, gaps: [], quantities: ["t", "h", "p"],
};
export const plainRoomOf: StrangerRoom = { tau: () => 12, gain: () => 1.5, sun: () => 0, heat: null, cool: null, airing: () => 0.5, source: () => 0.5, habits: 0 };

const day = 86_400;
const fine = 300;
const runIn = 15;
export const strangerStart: number = Date.UTC(2024, 0, 1);

/** True air on steps of five minutes; index 0 is runIn days before the record. */
export interface TrueAir {
  readonly temperature: Float64Array;
  /** hPa. */
  readonly vapor: Float64Array;
}

export interface TrueWeather extends TrueAir {
  readonly clear: Float64Array;
  readonly pressure: Float64Array;
}

/** Outdoor air from a seed. */
export function strangerWeather(seed: number, { kind, days, mean, annual, warmestDay, daily, fronts, latitude }: StrangerWeather): TrueWeather {
  const chance = random(seed + 31);
  const n = Math.ceil(((days + runIn + 2) * day) / fine);
  const air = plainAir(kind, seed + 1, days + runIn + 4);
  const damp = plainAir(kind, seed + 2, days + runIn + 4);
  const press = plainAir("rough", seed + 3, days + runIn + 4);
  const cloud = plainAir("rough", seed + 4, days + runIn + 4);
  const drop = new Float64Array(n);
  if (fronts) {
    for (let k = 0; k < days / 6; k++) {
      const at = chance.integer(n);
      const size = -(2 + 5 * chance.uniform());
      for (let i = at; i < Math.min(n, at + 2000); i++) drop[i] += size * Math.exp(-((i - at) * fine) / (2 * day));
    }
  }
  const temperature = new Float64Array(n);
  const vapor = new Float64Array(n);
  const clear = new Float64Array(n);
  const pressure = new Float64Array(n);
  // A day as thermometers draw it: fast rise from sunrise to 15 h, slow fall through the night.
  const shape = Float64Array.from({ length: 288 }, (_, i) => {
    const h = i / 12;
    const [rise, top] = [6, 15];
    if (h >= rise && h < top) return Math.sin((Math.PI / 2) * ((h - rise) / (top - rise))) * 2 - 1;
    const since = h >= top ? h - top : h + 24 - top;
    return 2 * Math.exp(-since / 6) - 1 - (since / 15) * (2 * Math.exp(-15 / 6));
  });
  const middle = shape.reduce((a, b) => a + b, 0) / 288;
  for (let i = 0; i < n; i++) {
    const t = i * fine;
    const d = t / day - runIn;
    const share = Math.min(1, Math.max(0.15, 0.6 + 0.12 * cloud(t)));
    clear[i] = share;
    const season = annual * Math.cos((2 * Math.PI * (d - warmestDay)) / 365.25);
    const slow = mean + season + 0.8 * air(t) + drop[i];
    temperature[i] = slow + daily * 1.4 * share * (shape[i % 288] - middle);
    const dew = slow - 3 - 4 * share + 0.6 * damp(t);
    vapor[i] = Math.min(saturationVaporPressure(Math.max(-60, dew)), saturationVaporPressure(temperature[i]));
    pressure[i] = 1005 + 0.9 * press(t) * 2 + plainTide(t - (runIn * day) % day) * Math.cos((latitude * Math.PI) / 180) ** 3;
  }
  return { temperature, vapor, clear, pressure };
}

/** Indoor air of a room in a weather. */
export function strangerRoom(seed: number, weather: TrueWeather, room: StrangerRoom): TrueAir {
  const chance = random(seed + 77);
  const n = weather.temperature.length;
  const temperature = new Float64Array(n);
  const vapor = new Float64Array(n);
  const step = fine / 3600;
  let x = weather.temperature[0] + room.gain(-runIn);
  let g = absoluteHumidityFromVaporPressure(weather.vapor[0], weather.temperature[0]);
  let whim = 0;
  const keep = Math.exp(-step / 20);
  for (let i = 0; i < n; i++) {
    const d = (i * fine) / day - runIn;
    const h = ((i % 288) + 0.5) / 12;
    const memory = Math.exp(-step / room.tau(d));
    whim = keep * whim + Math.sqrt(1 - keep * keep) * room.habits * chance.normal();
    const up = Math.max(0, Math.cos((2 * Math.PI * (h - 12.5)) / 24)) * weather.clear[i];
    const out = i === 0 ? weather.temperature[0] : (weather.temperature[i] + weather.temperature[i - 1]) / 2;
    x = memory * x + (1 - memory) * (out + room.gain(d) + room.sun(d) * up + whim);
    if (room.heat !== null) x = Math.max(x, room.heat(h, d) + whim);
    if (room.cool !== null) x = Math.min(x, room.cool + whim);
    temperature[i] = x;
    const e = absoluteHumidityFromVaporPressure(weather.vapor[i], weather.temperature[i]);
    const air = room.airing(h, d);
    const left = Math.exp((-air * step) / (room.buffer ?? 1));
    g = left * g + (1 - left) * (e + room.source(h, d) / air);
    const most = absoluteHumidityFromVaporPressure(saturationVaporPressure(x), x);
    g = Math.min(g, most);
    vapor[i] = (g / most) * saturationVaporPressure(x);
  }
  return { temperature, vapor };
}

/** What a logger writes of such air. */
export function strangerPlace(seed: number, name: string, exposure: Exposure | null, air: TrueAir, weather: TrueWeather, days: number, logger: StrangerLogger): PlaceRecord {
  const chance = random(seed + 977);
  const stamps: number[] = [];
  for (let t = 0; t < days * day; t += logger.step) if (!logger.gaps.some(([from, to]) => t >= from * day && t < to * day)) stamps.push(t);
  const lagged = (values: Float64Array): Float64Array => {
    if (logger.lag === 0) return values;
    const keep = Math.exp(-fine / logger.lag);
    const out = values.slice();
    for (let i = 1; i < out.length; i++) out[i] = keep * out[i - 1] + (1 - keep) * values[i];
    return out;
  };
  const at = (values: Float64Array, t: number): number => {
    const k = (t + runIn * day) / fine;
    const i = Math.floor(k);
    return values[i] + (k - i) * (values[i + 1] - values[i]);
  };
  const [temperature, vapor] = [lagged(air.temperature), air.vapor];
  const times = stamps.map((t) => strangerStart + 1000 * t);
  const log = (quantity: Quantity, of: (t: number, d: number) => number, noise: number, rounding: number) =>
    series({ place: name, quantity, times, values: stamps.map((t) => written(of(t - logger.ahead(t / day), t / day), noise, rounding, chance.normal)) });
  const all: Partial<Record<Quantity, ReturnType<typeof log>>> = {};
  if (logger.quantities.includes("t")) all.air_temperature = log("air_temperature", (t, d) => at(temperature, t) + logger.warm(d), logger.noise, logger.rounding);
  if (logger.quantities.includes("h")) {
    const humidity = log("relative_humidity", (t, d) => (100 * at(vapor, t)) / saturationVaporPressure(at(air.temperature, t)) + logger.damp(d), logger.humidityNoise, logger.humidityRounding);
    all.relative_humidity = { ...humidity, values: humidity.values.map((v) => Math.min(100, Math.max(1, v))) };
  }
  if (logger.quantities.includes("p")) all.surface_air_pressure = log("surface_air_pressure", (t, d) => at(weather.pressure, t) + logger.pressure(d), 0.03, 0.1);
  const one = Object.values(all)[0];
  return { name, title: name, exposure, elevation: null, readings: times.length, repeated: 0, conflicting: 0, start: one.start, seconds: one.seconds, series: all };
}

/** A record of such places. */
export function strangerRecord(places: readonly PlaceRecord[], { latitude, elevation = 60, events = [] }: { latitude: number; elevation?: number; events?: readonly RecordEvent[] }): AirRecord {
  const ends = places.map((p) => p.start + 1000 * p.seconds[p.seconds.length - 1]);
  return {
    name: "stranger", title: "An invented house", site: { latitude, longitude: 0, elevation }, zone: "+00:00", places: Object.fromEntries(places.map((p) => [p.name, p])), events, files: [], jumps: [], zoneChanges: [],
    corrections: 0, averagedOver: 0, from: Math.min(...places.map((p) => p.start)), to: Math.max(...ends), notes: [],
  };
}

/** True mean over whole days of the record of a function of both airs. */
export function trueMean(inside: TrueAir, outside: TrueAir, days: number, of: (t: number, e: number) => number): number {
  const [from, to] = [(runIn * day) / fine, ((runIn + days) * day) / fine];
  let sum = 0;
  for (let i = from; i < to; i++) sum += of(inside.temperature[i], inside.vapor[i]) - of(outside.temperature[i], outside.vapor[i]);
  return sum / (to - from);
}
