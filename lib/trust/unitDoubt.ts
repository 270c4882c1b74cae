import { standardPressure } from "../air/standardAtmosphere.js";
import { remembered } from "../ground/remembered.js";
import type { AirRecord } from "../record/airRecord.js";
import { flagBit } from "../record/flag.js";
import { type Quantity, quantityWords } from "../record/quantity.js";
import type { Series } from "../record/series.js";
import { medianOf } from "./faults/orderStatistics.js";
import { soundReadings } from "./faults/soundReadings.js";

/** How a unit misread as the house's shows: what takes the values back to the house unit. */
interface Misread {
  readonly unit: string;
  readonly back: (value: number) => number;
}

const pressureUnits: readonly Misread[] = [
  { unit: "Pa", back: (v) => v / 100 },
  { unit: "kPa", back: (v) => v * 10 },
  { unit: "mmHg", back: (v) => v * 1.33322387415 },
  { unit: "inHg", back: (v) => v * 33.86388640341 },
];
const temperatureUnits: readonly Misread[] = [
  { unit: "K", back: (v) => v - 273.15 },
  { unit: "degF", back: (v) => (v - 32) / 1.8 },
];
/** Pressure in the right unit stands within this share of what the elevation lets one expect. */
const nearExpected = 0.06;
/** Share of readings that must be out of range before a unit of temperature is doubted. */
const manyOut = 0.02;
/** Asked once for the verdict and once for its words. */
const once = remembered<Series, number>();

/**
 * Doubts about the unit of a whole column: its level cannot be, and in another unit it would be right.
 *
 * Pressure is told by its level against the elevation (or the range of station pressures where none is known), temperature by readings out of range that
 * fit as kelvin or Fahrenheit, humidity by a column that never passes 1.
 *
 * @param series            any quantity with its flags
 * @param options.elevation m, where known
 * @param options.named     how the place is called in the sentence; default its name
 * @returns                 one sentence, or null
 * @source conversion factors as in the units room; limits: common practice, no source
 */
export function unitDoubt(series: Series, { elevation, named = series.place }: { elevation?: number | null; named?: string } = {}): string | null {
  const { values, flags } = series;
  // Each rule looks first at what is cheap: a year of minutes is half a million readings a column.
  let [present, outside, largest] = [0, 0, -Infinity];
  for (let i = 0; i < values.length; i++) {
    if (Number.isNaN(values[i])) continue;
    present++;
    if ((flags[i] & flagBit.range) !== 0) outside++;
    if (values[i] > largest) largest = values[i];
  }
  if (present === 0) return null;
  const out = outside / present;
  const isTold = typeof elevation === "number";
  const isAsked: Readonly<Partial<Record<Quantity, boolean>>> = {
    surface_air_pressure: isTold || out >= 0.5,
    air_temperature: out >= manyOut,
    relative_humidity: largest <= 1.05,
  };
  if (isAsked[series.quantity] !== true) return null;
  const level = once(series, "", () => medianOf(soundReadings(series, 0).x.slice()));
  const say = (unit: string, back: number, right: string): string =>
    `the ${quantityWords[series.quantity]} of ${named} has a median of ${Number(level.toPrecision(5))} ${right}, which cannot be; read as ${unit} it would be ${back.toFixed(1)} ${right}: check the unit in the description`;
  if (series.quantity === "surface_air_pressure") {
    const expected = isTold ? standardPressure(elevation) : null;
    const fits = (v: number): boolean => (expected === null ? v > 600 && v < 1060 : Math.abs(v / expected - 1) <= nearExpected);
    if (fits(level)) return null;
    const found = pressureUnits.find(({ back }) => fits(back(level)));
    return found === undefined ? null : say(found.unit, found.back(level), "hPa");
  }
  if (series.quantity === "air_temperature") {
    const found = temperatureUnits.find(({ back }) => values.every((v) => Number.isNaN(v) || (back(v) > -60 && back(v) < 55)));
    return found === undefined ? null : say(found.unit, found.back(level), "°C");
  }
  if (series.quantity === "relative_humidity" && level > 0.05) return say("a share (unit 1)", 100 * level, "%");
  return null;
}

/**
 * Every doubt about a unit in a record, place by place.
 *
 * @param record flagged
 * @param named  how a place is called; default its name
 */
export function unitDoubts(record: AirRecord, named: (place: string) => string = (place) => place): readonly string[] {
  const found: string[] = [];
  for (const place of Object.values(record.places)) {
    for (const series of Object.values(place.series) as Series[]) {
      const doubt = unitDoubt(series, { elevation: place.elevation ?? record.site?.elevation, named: named(place.name) });
      if (doubt !== null) found.push(doubt);
    }
  }
  return Object.freeze(found);
}

