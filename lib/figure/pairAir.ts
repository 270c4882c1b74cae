import { recordView } from "../answers/recordView.js";
import { coLocations } from "../indoors/eventPeriods.js";
import { hourlyMeans, hourlyPair } from "../indoors/hourlyPair.js";
import type { HousePair } from "../indoors/housePair.js";
import { hourlyMoisture } from "../indoors/moistureExcess.js";
import type { AirRecord } from "../record/airRecord.js";
import type { Quantity } from "../record/quantity.js";
import { type PlaceLook, placeLooks } from "./placeLook.js";
import type { Palette } from "./theme.js";

/** Hours of two places for a picture; hour 0 is a midnight of the standard time. */
export interface PairAir {
  readonly inside: PlaceLook;
  readonly outside: PlaceLook;
  /** Epoch ms, UTC. */
  readonly start: number;
  readonly hours: number;
  /** °C · [hours] · NaN is missing. */
  readonly insideTemperature: Float64Array;
  readonly outsideTemperature: Float64Array;
  /** g m-3 · [hours] · all NaN where no humidity was logged. */
  readonly insideMoisture: Float64Array;
  readonly outsideMoisture: Float64Array;
}

/**
 * The hours behind a pair of `indoorsOf`, as it lays them: co-location left out, and the bias measured there taken off inside.
 *
 * The offset of the two clocks, minutes at most, is not taken off: at this size of a picture it is not seen.
 *
 * @param record  with its faults marked (`flagRecord`)
 * @param pair    of `indoorsOf`
 * @param palette for the looks
 * @returns       see PairAir; null when a place or its temperature is missing
 */
export function pairAir(record: AirRecord, pair: HousePair, palette: Palette): PairAir | null {
  const looks = placeLooks(record, palette);
  const inside = looks.find((l) => l.place.name === pair.inside);
  const outside = looks.find((l) => l.place.name === pair.outside);
  const [a, b] = [inside?.place.series.air_temperature, outside?.place.series.air_temperature];
  if (inside === undefined || outside === undefined || a === undefined || b === undefined) return null;
  const leftOut = coLocations(record.events, [pair.inside, pair.outside]);
  const laid = hourlyPair(a, b, { offsetHours: recordView(record).offsetHours, leftOut });
  const isMeasured = pair.sensorOffset.basis === "co-location";
  const bias = (of: "temperature" | "humidity"): number => (isMeasured ? (pair.sensorOffset[of]?.value ?? 0) : 0);
  const insideTemperature = laid.inside.map((v) => v - bias("temperature"));
  const humidity = (look: PlaceLook, quantity: Quantity): Float64Array => {
    const series = look.place.series[quantity];
    return series === undefined ? new Float64Array(laid.hours).fill(Number.NaN) : hourlyMeans(series, laid, { leftOut });
  };
  const insideHumidity = humidity(inside, "relative_humidity").map((v) => Math.min(100, Math.max(0, v - bias("humidity"))));
  return {
    inside,
    outside,
    start: laid.start,
    hours: laid.hours,
    insideTemperature,
    outsideTemperature: laid.outside,
    insideMoisture: hourlyMoisture({ temperature: insideTemperature, humidity: insideHumidity }),
    outsideMoisture: hourlyMoisture({ temperature: laid.outside, humidity: humidity(outside, "relative_humidity") }),
  };
}
