import { random } from "../../../lib/ground/random.js";
import type { AirRecord, Exposure } from "../../../lib/record/airRecord.js";
import type { Quantity } from "../../../lib/record/quantity.js";
import { recordFromSeries } from "../../../lib/record/recordFromSeries.js";
import { series } from "../../../lib/record/series.js";

export const hourMs = 3_600_000;
export const madeFrom: number = Date.UTC(2023, 0, 1);

/** Weather of invented memory: two equal poles, so that it is smooth over hours. */
export function weather(hours: number, options: { seed: number; memory: number; spread: number }): Float64Array {
  const { normal } = random(options.seed);
  const keep = Math.exp(-1 / options.memory);
  const out: Float64Array = new Float64Array(hours);
  let [a, b] = [0, 0];
  const gain = options.spread * Math.sqrt((1 - keep * keep) ** 3 / (1 + keep * keep));
  for (let h = -10 * options.memory; h < hours; h++) {
    a = keep * a + normal();
    b = keep * b + a;
    if (h >= 0) out[Math.floor(h)] = gain * b;
  }
  return out;
}

/** Daily and half-daily waves on weather, as a tropical barometer shows them: S1 0.7, S2 1.2 hPa. */
export function tropicalPressure(hours: number, seed: number): Float64Array {
  return weather(hours, { seed, memory: 30, spread: 1 }).map((v, h) => 1010 + v + 0.7 * Math.cos((2 * Math.PI * (h - 8)) / 24) + 1.2 * Math.cos((2 * Math.PI * (h - 10)) / 12));
}

export type MadeValues = Partial<Record<Quantity, ArrayLike<number | null>>>;

/** A record of hourly columns that begin together. */
export function hourlyRecord(
  places: Readonly<Record<string, { readonly exposure?: Exposure; readonly values: MadeValues }>>,
  options: { readonly stepHours?: number; readonly events?: AirRecord["events"]; readonly from?: number } = {},
): AirRecord {
  const { stepHours = 1, events = [], from = madeFrom } = options;
  const all = Object.entries(places).flatMap(([place, { values }]) =>
    Object.entries(values).map(([quantity, column]) => {
      const times = Array.from(column as ArrayLike<number>, (_, i) => from + i * stepHours * hourMs);
      return series({ times, values: column as ArrayLike<number>, quantity: quantity as Quantity, place });
    }),
  );
  return recordFromSeries(all, {
    name: "made",
    site: { latitude: 5, longitude: 0, elevation: 10 },
    places: Object.fromEntries(Object.entries(places).map(([name, { exposure = "outdoor" }]) => [name, { exposure }])),
    events,
  });
}
