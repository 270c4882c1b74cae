import { random } from "../lib/ground/random.js";
import type { AirRecord, PlaceRecord } from "../lib/record/airRecord.js";
import { series } from "../lib/record/series.js";
import { type AirKind, plainAir, plainTide, written } from "./plainAir.js";

/** A room of one time constant, and how it is logged. */
export interface PlainRoom {
  /** h. */
  readonly tau: number;
  readonly kind: AirKind;
  readonly days: number;
  /** s. */
  readonly step: number;
}

const day = 86_400;
const fine = 300;
const runIn = 20 * day;

/**
 * Two places in one invented house: outside a daily cycle of changing size over slow weather, inside a room of one constant, 1.5 K warmer; the
 * inside's clock up to five minutes off. Readings to 0.1 K and 0.1 hPa.
 */
export function plainRoom({ tau, kind, days, step }: PlainRoom, seed: number): { readonly record: AirRecord; readonly clock: number } {
  const [air, pressure] = [plainAir(kind, seed, days + 20), plainAir("rough", seed + 7_000, days)];
  const chance = random(seed + 14_000);
  const clock = Math.round((chance.uniform() - 0.5) * 600);
  const sizes = Array.from({ length: days + 22 }, () => 0.4 + 1.2 * chance.uniform());
  const outside = (t: number): number => {
    const at = t / day + 20;
    const i = Math.floor(at);
    const size = sizes[i] + (at - i) * (sizes[i + 1] - sizes[i]);
    return 20 + air(t + runIn) + 4.5 * size * Math.cos(2 * Math.PI * (t / day - 14.5 / 24));
  };
  const memory = Math.exp(-fine / 3600 / tau);
  const inside: number[] = [];
  for (let t = -runIn, x = outside(t) + 1.5; t < days * day + fine; t += fine) {
    inside.push(x);
    x = memory * x + (1 - memory) * ((outside(t) + outside(t + fine)) / 2 + 1.5);
  }
  const room = (t: number): number => {
    const at = (t + runIn) / fine;
    const i = Math.floor(at);
    return inside[i] + (at - i) * ((inside[i + 1] ?? inside[i]) - inside[i]);
  };
  const stamps = Array.from({ length: Math.floor((days * day) / step) }, (_, i) => step * i);
  const times = stamps.map((t) => Date.UTC(2024, 3, 1) + 1000 * t);
  const place = (name: string, exposure: "indoor" | "outdoor", ahead: number, temperature: (t: number) => number): PlaceRecord => {
    const logged = (quantity: "air_temperature" | "surface_air_pressure", of: (t: number) => number) =>
      series({ place: name, quantity, times, values: stamps.map((t) => written(of(t - ahead), 0.05, 0.1, chance.normal)) });
    const air_temperature = logged("air_temperature", temperature);
    const surface_air_pressure = logged("surface_air_pressure", (t) => 1000 + pressure(t) + plainTide(t));
    return { name, title: name, exposure, elevation: null, readings: times.length, repeated: 0, conflicting: 0, start: air_temperature.start, seconds: air_temperature.seconds, series: { air_temperature, surface_air_pressure } };
  };
  const places = { yard: place("yard", "outdoor", 0, outside), room: place("room", "indoor", clock, room) };
  const record: AirRecord = {
    name: "plain-room", title: "An invented room", site: { latitude: 5, longitude: 0, elevation: 100 }, zone: "+00:00", places, events: [], files: [], jumps: [], zoneChanges: [],
    corrections: 0, averagedOver: 0, from: times[0], to: times[times.length - 1], notes: [],
  };
  return { record, clock };
}

/** What the room does to the daily cycle. */
export function plainTruth(tau: number): { readonly decrement: number; readonly lagHours: number } {
  const turn = (2 * Math.PI) / 24;
  return { decrement: 1 / Math.hypot(1, turn * tau), lagHours: Math.atan(turn * tau) / turn };
}
