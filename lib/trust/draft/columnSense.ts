import { unitsRead } from "../../ground/units.js";
import type { Quantity } from "../../record/quantity.js";
import { columnLevel, type ColumnLevel } from "./columnLevel.js";
import { headerMeaning, type HeaderMeaning, unitNamed } from "./headerMeaning.js";
import type { NumberGuess } from "./numberGuess.js";
import type { Topic } from "./quantityVocabulary.js";
import { type Dimension, unitGuess } from "./unitGuess.js";

/** A column of a log before and after it is understood. */
export interface RawColumn {
  readonly column: number;
  /** Its name in the log, or empty. */
  readonly name: string;
  readonly meaning: HeaderMeaning;
  /** Null for a column of text. */
  readonly number: NumberGuess | null;
  readonly level: ColumnLevel;
}

/** Quantities that a field of a description may have. */
export type FieldQuantity = Exclude<Quantity, "mass_concentration_of_water_vapor_in_air">;

/** What a column is. */
export interface ColumnSense extends RawColumn {
  /** Null: not read. */
  readonly quantity: FieldQuantity | null;
  readonly unit: string;
  readonly because: string;
  readonly unitBecause: string;
  /** What to ask of the unit, or of the quantity. */
  readonly unitDoubt: string | null;
  readonly quantityDoubt: string | null;
}

/** What a quantity is measured in. */
export const dimensionOf: Readonly<Record<FieldQuantity, Dimension>> = Object.freeze({
  air_temperature: "temperature",
  dew_point_temperature: "temperature",
  relative_humidity: "humidity",
  surface_air_pressure: "pressure",
  air_pressure_at_mean_sea_level: "pressure",
});

const words: Readonly<Record<FieldQuantity, string>> = {
  air_temperature: "temperature",
  dew_point_temperature: "dew point",
  relative_humidity: "humidity",
  surface_air_pressure: "air pressure",
  air_pressure_at_mean_sea_level: "pressure reduced to sea level",
};

/** Puts together what is known of a column before its values are compared with others; `rows` are those of one place. */
export function rawColumn(column: number, name: string, units: string, number: NumberGuess | null, rows: readonly number[]): RawColumn {
  const values = number?.values ?? new Float64Array(0);
  // Where it lies by all rows, how it moves by those of one place.
  const { roughness, drift } = columnLevel(number === null ? values : Float64Array.from(rows, (r) => values[r]));
  const told = name === "" && number !== null ? number.prefix : name;
  return { column, name, meaning: headerMeaning(told, units === "" ? (number?.suffix ?? "") : units), number, level: { ...columnLevel(values), roughness, drift } };
}

/** A column that is not read, and why. */
export function ignored(raw: RawColumn, because: string): ColumnSense {
  return { ...raw, quantity: null, unit: "", because, unitBecause: "", unitDoubt: null, quantityDoubt: null };
}

/** Settles a column as a quantity if its level is possible in a unit that is read. */
export function settled(raw: RawColumn, quantity: FieldQuantity, because: string): ColumnSense {
  const { number, level, meaning } = raw;
  if (number === null) return ignored(raw, `its name speaks of ${words[quantity]}, but it holds text and no numbers`);
  const inCells = unitNamed(number.suffix);
  const unit = unitGuess(dimensionOf[quantity], level, meaning.unit ?? inCells, meaning.unit !== null ? "the header" : "the text in its cells");
  if (unit === null) return ignored(raw, `${because}, but its middle value, ${Number(level.median.toPrecision(5))}, is ${words[quantity]} in no unit that is read; if it is ${words[quantity]}, convert it first`);
  return { ...raw, quantity, unit: unit.unit, because, unitBecause: unit.because, unitDoubt: unit.doubt, quantityDoubt: null };
}

/** Settles the columns whose names speak; null for one whose name says nothing known. */
export function settledByName(columns: readonly RawColumn[]): (ColumnSense | null)[] {
  const topics = columns.map((c) => (c.number === null ? null : c.meaning.topic));
  return columns.map((c, k) => {
    const topic = topics[k];
    if (topic === null) return byUnitAlone(c, columns);
    const because = `its name is ${JSON.stringify(c.name === "" ? (c.number?.prefix ?? "") : c.name)}`;
    if (topic === "other") return ignored(c, `${because}, which is nothing that is read here`);
    const hasPlain = columns.some((d, j) => j !== k && topics[j] === topic && !d.meaning.isExtreme);
    if (c.meaning.isExtreme && hasPlain) return ignored(c, `${because}: an extreme beside the reading itself`);
    return settled(c, quantityOf(topic), because);
  });
}

/** What a unit measures, where a header says no more than its unit, as in `°C,%,hPa`, or units of one place: `porch °C,porch %`. */
function byUnitAlone(c: RawColumn, columns: readonly RawColumn[]): ColumnSense | null {
  const dimension = dimensionSaid(c);
  if (c.number === null || dimension === null) return null;
  const hasTwin = columns.some((d) => d !== c && d.meaning.topic === null && d.meaning.place === c.meaning.place && dimensionSaid(d) !== null && dimensionSaid(d) !== dimension);
  if (!hasTwin) return null;
  return settled(c, ({ temperature: "air_temperature", humidity: "relative_humidity", pressure: "surface_air_pressure" } as const)[dimension], `its name is ${JSON.stringify(c.name)}, a unit of ${dimension}`);
}

/** What the unit in a column's name or cells measures; null where it names none. */
export function dimensionSaid({ meaning, number }: RawColumn): Dimension | null {
  const unit = meaning.unit ?? unitNamed(number?.suffix ?? "");
  if (unit === null || unit === "1") return null;
  const { dimension } = unitsRead[unit];
  return dimension === "ratio" ? "humidity" : dimension;
}

function quantityOf(topic: Exclude<Topic, "other">): FieldQuantity {
  return topic === "pressure" ? "surface_air_pressure" : topic;
}
