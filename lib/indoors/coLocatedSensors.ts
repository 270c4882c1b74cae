import type { Estimate } from "../ground/estimate.js";
import type { AirRecord, PlaceRecord, RecordEvent } from "../record/airRecord.js";
import { stoodTogether } from "../record/eventPlaces.js";
import type { Quantity } from "../record/quantity.js";
import { coLocationsOf } from "./eventPeriods.js";
import { type HourAxis, hourlyMeans } from "./hourlyPair.js";
import { hourlyMoisture } from "./moistureExcess.js";
import type { PairHours } from "./pairNumbers.js";
import type { PairCircumstances } from "./pairWarnings.js";
import { type SensorOffset, sideBySide } from "./sensorOffset.js";

const hourMs = 3_600_000;

/** Bias of the two places' sensors while they stood together, or null where they never did for 6 hours. */
export function coLocated(record: AirRecord, inside: PlaceRecord, outside: PlaceRecord, ahead: number): SensorOffset | null {
  const found = coLocationsOf(record.events, [inside.name, outside.name])
    .map((event) => {
      // Whole hours inside the period only, so that the carrying about at its ends is not in it.
      const start = Math.ceil(event.at / hourMs) * hourMs;
      const axis: HourAxis = { start, hours: Math.max(0, Math.floor(((event.to ?? event.at) - start) / hourMs)) };
      const both = (quantity: Quantity): Float64Array[] =>
        [inside, outside].map((place, i) => {
          const series = place.series[quantity];
          return series === undefined ? new Float64Array(axis.hours).fill(Number.NaN) : hourlyMeans(series, axis, { ahead: i === 0 ? ahead : 0, bridgeUpTo: 0 });
        });
      return { event, both, t: both("air_temperature") };
    })
    .filter(({ event, t: [a, b] }) => stoodTogether(record, event, inside.name, outside.name, () => a.map((v, h) => v - b[h])));
  const longest = found.sort((x, y) => y.t[0].length - x.t[0].length)[0];
  if (longest === undefined) return null;
  const { t } = longest;
  const rh = longest.both("relative_humidity");
  const moist = [0, 1].map((i) => hourlyMoisture({ temperature: t[i], humidity: rh[i] }));
  const [temperature, humidity, moisture] = ([[t, "K"], [rh, "%"], [moist, "g m-3"]] as const).map(([values, unit]): Estimate | null => sideBySide(values[0], values[1], { unit }).bias);
  return temperature === null ? null : Object.freeze({ temperature, humidity, moisture, basis: "co-location" });
}

/** The inside's hours with its sensors' bias off. */
export function corrected(hours: PairHours, { temperature, humidity }: SensorOffset): PairHours {
  const less = (values: Float64Array, bias: Estimate | null): Float64Array => (bias === null ? values : values.map((v) => v - bias.value));
  // A corrected humidity may pass 0 or 100 by the bias itself; it stays a reading.
  const insideHumidity = less(hours.insideHumidity, humidity).map((v) => Math.min(100, Math.max(0, v)));
  return { ...hours, insideTemperature: less(hours.insideTemperature, temperature), insideHumidity };
}

/** What is to be said of the sensors of a pair. */
export function ofSensors({ basis, temperature }: SensorOffset, events: readonly RecordEvent[], { inside, outside }: PairCircumstances, names: readonly string[]): string[] {
  if (basis === "co-location") return [`The sensors' own difference, measured side by side, is taken off (${temperature?.value.toFixed(2)} K of temperature); it holds for the weather of those days.`];
  const told = events.filter((e) => e.kind === "co-location");
  const endless = told.some((e) => e.to === null) ? ["A co-location that is told by `at` alone is not used: give it `from` and `to`."] : [];
  const unnamed = coLocationsOf(told, names).some((e) => e.places === undefined)
    ? [`The co-location names no places, and ${inside} and ${outside} then differed by more than sensors side by side do: nothing is taken off. Name in the event the \`places\` that stood together.`]
    : [];
  return [...endless, ...unnamed, "No co-location: sensors of this class differ by 0.3–0.6 K, 2–3 % RH, which is in no interval; put both side by side for two days."];
}
