import { median } from "../ground/summary.js";
import { standardPressure } from "../air/standardAtmosphere.js";
import type { AirRecord } from "../record/airRecord.js";
import { flagBit } from "../record/flag.js";
import { quantityWords } from "../record/quantity.js";
import type { Series } from "../record/series.js";

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

/**
 * Doubts about the unit of a whole column: its level cannot be, and in another unit it would be right.
 *
 * Pressure is told by its level against the elevation (or the range of station pressures where none is known), temperature by readings out of range that
 * fit as kelvin or Fahrenheit, humidity by a column that never passes 1.
 *
 * @param series            any quantity with its flags
 * @param options.elevation m, where known
 * @returns                 one sentence, or null
 * @source conversion factors as in the units room; limits: common practice, no source
 */
export function unitDoubt(series: Series, { elevation }: { elevation?: number | null } = {}): string | null {
  const values = series.values.filter((v) => !Number.isNaN(v));
  if (values.length === 0) return null;
  const level = median(values);
  const out = series.flags.reduce((n, bits) => n + ((bits & flagBit.range) !== 0 ? 1 : 0), 0) / values.length;
  const say = (unit: string, back: number, right: string): string =>
    `the ${quantityWords[series.quantity]} of ${series.place} has a median of ${Number(level.toPrecision(5))} ${right}, which cannot be; read as ${unit} it would be ${back.toFixed(1)} ${right}: check the unit in the description`;
  if (series.quantity === "surface_air_pressure") {
    const expected = typeof elevation === "number" ? standardPressure(elevation) : null;
    const fits = (v: number): boolean => (expected === null ? v > 600 && v < 1060 : Math.abs(v / expected - 1) <= nearExpected);
    if (fits(level) || (expected === null && out < 0.5)) return null;
    const found = pressureUnits.find(({ back }) => fits(back(level)));
    return found === undefined ? null : say(found.unit, found.back(level), "hPa");
  }
  if (series.quantity === "air_temperature" && out >= manyOut) {
    const found = temperatureUnits.find(({ back }) => values.every((v) => back(v) > -60 && back(v) < 55));
    return found === undefined ? null : say(found.unit, found.back(level), "°C");
  }
  if (series.quantity === "relative_humidity" && level > 0.05 && values.every((v) => v <= 1.05)) return say("a share (unit 1)", 100 * level, "%");
  return null;
}

/** Every doubt about a unit in a record, place by place. */
export function unitDoubts(record: AirRecord): readonly string[] {
  const found: string[] = [];
  for (const place of Object.values(record.places)) {
    for (const series of Object.values(place.series) as Series[]) {
      const doubt = unitDoubt(series, { elevation: place.elevation ?? record.site?.elevation });
      if (doubt !== null) found.push(doubt);
    }
  }
  return Object.freeze(found);
}

