import type { Random } from "../../lib/ground/random.js";
import type { FlagName } from "../../lib/record/flag.js";
import type { Quantity } from "../../lib/record/quantity.js";
import type { Readings } from "./inventedHouse.js";

/** A fault put into readings on purpose: first and last reading that carry it. */
export interface Planted {
  readonly flag: FlagName;
  readonly kind: string;
  readonly place: "outside" | "inside";
  readonly quantity: Quantity;
  readonly first: number;
  readonly last: number;
  readonly size: number;
}

type Logged = "air_temperature" | "relative_humidity" | "surface_air_pressure";
const logged: readonly Logged[] = ["air_temperature", "relative_humidity", "surface_air_pressure"];
const spikeSizes: Readonly<Record<Logged, readonly [number, number, number]>> = {
  air_temperature: [5, 8, 20],
  relative_humidity: [18, 28, 40],
  surface_air_pressure: [3, 5, 15],
};

/** Spikes of one to three readings, small and large, on random readings at least two days apart. */
export function plantSpikes(dice: Random, house: { outside: Readings; inside: Readings }, stepSeconds: number): Planted[] {
  const found: Planted[] = [];
  const grow = Math.sqrt(Math.max(1, stepSeconds / 600));
  for (const place of ["outside", "inside"] as const) {
    for (const quantity of logged) {
      const x = house[place][quantity];
      const every = Math.round((2 * 86400) / stepSeconds);
      for (let base = every; base < x.length - every; base += every) {
        const first = base + dice.integer(Math.floor(every / 2));
        const last = first + dice.integer(3);
        const [a, b, c] = spikeSizes[quantity];
        const isLarge = dice.uniform() < 0.5;
        let size = grow * (isLarge ? b + (c - b) * dice.uniform() : a + (b - a) * dice.uniform());
        if (quantity === "relative_humidity") {
          if (x[first] > 50) size = -size;
          if (x[first] + size < 1 || x[first] + size > 99) continue;
        } else if (dice.uniform() < 0.5) size = -size;
        for (let i = first; i <= last; i++) x[i] += size * (i === first ? 1 : 0.9 + 0.2 * dice.uniform());
        found.push({ flag: "spike", kind: isLarge ? "large" : "small", place, quantity, first, last, size });
      }
    }
  }
  return found;
}

/** One value repeated for 3–6 or 8–16 hours, once in ten days and quantity. */
export function plantStuck(dice: Random, house: { outside: Readings; inside: Readings }, stepSeconds: number): Planted[] {
  const found: Planted[] = [];
  for (const place of ["outside", "inside"] as const) {
    for (const quantity of logged) {
      const x = house[place][quantity];
      const every = Math.round((10 * 86400) / stepSeconds);
      for (let base = 0; base + every < x.length; base += every) {
        const isLong = dice.uniform() < 0.5;
        const hours = isLong ? 8 + 8 * dice.uniform() : 3 + 3 * dice.uniform();
        const first = base + dice.integer(Math.floor(every / 2)) + 1;
        const last = first + Math.round((hours * 3600) / stepSeconds);
        if (quantity === "relative_humidity" && x[first] >= 97) continue;
        x.fill(x[first], first, last + 1);
        found.push({ flag: "stuck", kind: isLong ? "8–16 h" : "3–6 h", place, quantity, first, last, size: Number.NaN });
      }
    }
  }
  return found;
}

/** The inside barometer jumps by `size` hPa in the middle of the record and stays. */
export function plantStep(dice: Random, house: { inside: Readings }, size: number): Planted[] {
  const x = house.inside.surface_air_pressure;
  const first = Math.floor(x.length * (0.3 + 0.4 * dice.uniform()));
  for (let i = first; i < x.length; i++) x[i] += size;
  return [{ flag: "step", kind: `${Math.abs(size)} hPa`, place: "inside", quantity: "surface_air_pressure", first, last: x.length - 1, size }];
}

/** All three quantities of the two places exchanged for 2–10 hours. */
export function plantSwap(dice: Random, house: { outside: Readings; inside: Readings }, stepSeconds: number): Planted[] {
  const n = house.outside.times.length;
  const first = Math.floor(n * (0.1 + 0.7 * dice.uniform()));
  const last = first + Math.round(((2 + 8 * dice.uniform()) * 3600) / stepSeconds);
  for (const quantity of logged) {
    for (let i = first; i <= last; i++) {
      const kept = house.outside[quantity][i];
      house.outside[quantity][i] = house.inside[quantity][i];
      house.inside[quantity][i] = kept;
    }
  }
  return [{ flag: "swapped", kind: "2–10 h", place: "outside", quantity: "air_temperature", first, last, size: Number.NaN }];
}

/** Sun on the outdoor sensor for `minutes` at one hour, `peak` K, on `count` random days within a month; vapor stays. */
export function plantSun(dice: Random, house: { outside: Readings }, stepSeconds: number, { minutes, peak, count }: { minutes: number; peak: number; count: number }): Planted[] {
  const { times, air_temperature: t, relative_humidity: rh } = house.outside;
  const perDay = Math.round(86400 / stepSeconds);
  const begin = 5 + dice.integer(Math.max(1, Math.floor(times.length / perDay) - 40));
  const hour = 8 + 8 * dice.uniform();
  const days = new Set<number>();
  while (days.size < count) days.add(begin + dice.integer(30));
  const saturation = (v: number): number => Math.exp((17.62 * v) / (243.12 + v));
  const found: Planted[] = [];
  for (const day of days) {
    const first = day * perDay + Math.round((hour * 3600) / stepSeconds);
    const last = first + Math.round((minutes * 60) / stepSeconds);
    const size = peak * (0.85 + 0.3 * dice.uniform());
    for (let i = first; i <= last; i++) {
      const heat = size * Math.sin((Math.PI * (i - first)) / (last - first)) ** 2;
      rh[i] *= saturation(t[i]) / saturation(t[i] + heat);
      t[i] += heat;
    }
    found.push({ flag: "warmed", kind: `${peak} K`, place: "outside", quantity: "air_temperature", first, last, size });
  }
  return found;
}
