import { random } from "../../../lib/ground/random.js";
import { roomFilter } from "../../../lib/indoors/roomFilter.js";
import type { AirRecord, Exposure, PlaceRecord, RecordEvent } from "../../../lib/record/airRecord.js";
import type { Quantity } from "../../../lib/record/quantity.js";
import { series } from "../../../lib/record/series.js";

/** Air outside by hours: a seeded random walk that is pulled back, and a daily cycle. */
export function madeOutside(hours: number, seed: number): Float64Array {
  const chance = random(seed);
  let slow = 0;
  return Float64Array.from({ length: hours }, (_, h) => {
    slow = 0.985 * slow + 0.4 * chance.normal();
    return 10 + slow + (4 + 0.8 * Math.sin(h / 40)) * Math.cos((2 * Math.PI * (h - 15)) / 24);
  });
}

/** Inside of a room of one constant, with some unrest of its own; `tau` may change at an hour. */
export function madeInside(outside: Float64Array, tau: number, seed: number, offset = 2): Float64Array {
  const chance = random(seed);
  let unrest = 0;
  return roomFilter(outside, tau).map((v) => {
    unrest = 0.95 * unrest + 0.05 * chance.normal();
    return v + offset + unrest;
  });
}

/** What one place of a made record logs: hourly or finer values by quantity. */
export interface MadePlace {
  readonly exposure: Exposure | null;
  readonly values: Partial<Record<Quantity, ArrayLike<number>>>;
  /** Seconds between readings, default 3600; and the first reading's delay after the start. */
  readonly step?: number;
  readonly delay?: number;
}

export const madeStart: number = Date.UTC(2024, 0, 1);

/** A record of made places, without a file. */
export function madeRecord(places: Record<string, MadePlace>, events: readonly RecordEvent[] = []): AirRecord {
  const made: Record<string, PlaceRecord> = {};
  for (const [name, { exposure, values, step = 3600, delay = 0 }] of Object.entries(places)) {
    const all = Object.entries(values).map(([quantity, v]) => {
      const times = Float64Array.from({ length: v.length }, (_, i) => madeStart + 1000 * (delay + i * step));
      return [quantity, series({ times, values: v, quantity: quantity as Quantity, place: name })] as const;
    });
    const first = all[0]?.[1];
    made[name] = {
      name,
      title: name,
      exposure,
      elevation: null,
      readings: first?.values.length ?? 0,
      repeated: 0,
      conflicting: 0,
      start: first?.start ?? 0,
      seconds: first?.seconds ?? new Float64Array(0),
      series: Object.fromEntries(all),
    };
  }
  return {
    name: "made", title: "Made", site: null, zone: "Z", places: made, events, files: [], jumps: [], zoneChanges: [],
    corrections: 0, averagedOver: 0, from: madeStart, to: madeStart, notes: [],
  };
}
