import type { FieldShape } from "../../record/description/description.js";
import type { ColumnSense, FieldQuantity } from "./columnSense.js";
import type { StampForm } from "./stampForms.js";

const shortNames: Readonly<Record<FieldQuantity, string>> = {
  air_temperature: "temperature",
  dew_point_temperature: "dew_point",
  relative_humidity: "humidity",
  surface_air_pressure: "pressure",
  air_pressure_at_mean_sea_level: "sea_level_pressure",
};

/** The field of a stamp. */
export function stampField(name: string, form: StampForm, zone: string | null): FieldShape {
  return { name, type: form.kind, ...(form.format === null ? {} : { format: form.format }), ...(zone === null ? {} : { zone }) };
}

/** The field of a column of readings, or of one that is not read. */
export function readingField(name: string, sense: ColumnSense, place: string, missing: readonly string[] | null): FieldShape {
  const { number, quantity } = sense;
  if (number === null || quantity === null) return { name, type: number === null || number.present === 0 ? "string" : "number" };
  const { decimalChar, groupChar, bareNumber } = number.style;
  return {
    name,
    type: "number",
    quantity,
    unit: sense.unit,
    ...(place === "" ? {} : { place }),
    ...(decimalChar === "." ? {} : { decimalChar }),
    ...(groupChar === "" ? {} : { groupChar }),
    ...(bareNumber ? {} : { bareNumber }),
    ...(missing === null ? {} : { missingValues: [...missing] }),
  };
}

/** Names for the fields of a log whose own are absent, doubled or empty: all different. */
export function madeNames(width: number, kindOf: (column: number) => string, told: readonly string[] | null): string[] {
  const names: string[] = [];
  for (let c = 0; c < width; c++) {
    const wanted = told?.[c]?.trim() || kindOf(c);
    let name = wanted;
    for (let k = 2; names.includes(name); k++) name = `${wanted}_${k}`;
    names.push(name);
  }
  return names;
}

/** A name for a column without one. */
export function plainName(sense: ColumnSense | undefined, column: number, place: string): string {
  if (sense === undefined || sense.quantity === null) return `column_${column + 1}`;
  return place === "" ? shortNames[sense.quantity] : `${shortNames[sense.quantity]}_${place}`;
}
