import { shapeAsJsonSchema } from "./shape.js";

/**
 * The JSON Schema (draft 2020-12) of a record's description: the Data Package 2.0 profile, and what this project adds.
 *
 * It is made from the shapes that the reader checks by, and ships as record.schema.json beside this file.
 *
 * @returns a plain object, made anew each time
 * @example recordSchema().$schema // "https://json-schema.org/draft/2020-12/schema"
 */
export function recordSchema(): Record<string, unknown> {
  const { $schema, ...shape } = shapeAsJsonSchema();
  return {
    $schema,
    title: "Description of a record of air readings",
    description:
      "Rules beyond these shapes are checked when a record is opened: a quantity needs a unit of its kind and type number or integer; there is one datetime field, a date and a time field, or a date field alone, whose rows are of the noon of their day unless sampling is told; %s and %Q as a format are seconds and milliseconds since 1970, instants already; a zone is needed unless each value carries its own offset; a resource is long (role place) or wide (place on each number field), not both; paths stay inside the folder; missing values and names are all different.",
    allOf: [{ $ref: "https://datapackage.org/profiles/2.0/datapackage.json" }, shape],
  };
}
