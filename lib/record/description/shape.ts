import { z } from "zod";

/** Everything a description may hold, as shapes; rules between fields stand in rules.ts. */
const text = z.string();
const nonEmpty = z.string().min(1);

const missing = z
  .array(z.union([z.string(), z.looseObject({ value: z.string(), label: z.string().optional() })]))
  .describe("Texts that mean a missing value; all different");

const field = z.looseObject({
  name: nonEmpty,
  type: text.optional(),
  format: text.optional(),
  zone: text.optional().describe("On the datetime or the time field: a fixed offset such as +07:00, Z, or an IANA name"),
  role: z.enum(["place"]).optional(),
  values: z.record(z.string(), z.string()).optional().describe("With role place: what is written, to the name of a place"),
  categories: z.array(z.union([z.string(), z.looseObject({ value: z.string(), label: z.string().optional() })])).optional(),
  place: text.optional(),
  quantity: z
    .enum(["air_temperature", "relative_humidity", "surface_air_pressure", "air_pressure_at_mean_sea_level", "dew_point_temperature", "mass_concentration_of_water_vapor_in_air"])
    .optional(),
  unit: text.optional().describe("Needed with a quantity; UDUNITS spelling"),
  missingValues: missing.optional(),
  decimalChar: z.string().length(1).optional(),
  groupChar: z.string().length(1).optional(),
  bareNumber: z.boolean().optional(),
});

const matchWord = z.enum(["exact", "equal", "subset", "superset", "partial"]);

const resource = z.looseObject({
  name: nonEmpty,
  type: z.literal("table").optional(),
  path: z.union([nonEmpty, z.array(nonEmpty).min(1)]).optional(),
  encoding: text.optional(),
  dialect: z
    .looseObject({
      delimiter: nonEmpty.optional(),
      header: z.boolean().optional(),
      headerRows: z.array(z.number().int().min(1)).length(1).optional(),
      commentRows: z.array(z.number().int().min(1)).optional(),
      commentChar: nonEmpty.optional(),
      quoteChar: z.string().length(1).optional(),
      doubleQuote: z.boolean().optional(),
      skipInitialSpace: z.boolean().optional(),
      lineTerminator: text.optional(),
    })
    .optional(),
  sampling: z.looseObject({ averagedOver: z.number().positive().max(86400), stamp: z.enum(["start", "middle", "end"]) }).optional(),
  schema: z.looseObject({
    fields: z.array(field).min(1),
    fieldsMatch: z.union([matchWord, z.array(matchWord).length(1)]).optional(),
    missingValues: missing.optional(),
  }),
});

const elevation = z.number().min(-430).max(9000);

/** The description of a record: the Data Package standard, version 2.0, and what this project adds to it. */
export const descriptionShape = z.looseObject({
  $schema: text.optional(),
  name: text.optional(),
  title: text.optional(),
  site: z.looseObject({ latitude: z.number().min(-90).max(90), longitude: z.number().min(-180).max(180), elevation }).optional(),
  places: z
    .record(nonEmpty, z.looseObject({ title: text.optional(), exposure: z.enum(["outdoor", "indoor"]).optional(), elevation: elevation.optional() }))
    .optional(),
  events: z
    .array(z.looseObject({ at: text.optional(), from: text.optional(), to: text.optional(), kind: text.optional(), title: text.optional() }))
    .optional(),
  clock: z.looseObject({ corrections: z.array(z.looseObject({ at: text, ahead: z.number().min(-1e9).max(1e9) })).optional() }).optional(),
  resources: z.array(resource).min(1),
});

/** A description whose shapes are right. */
export type Description = z.infer<typeof descriptionShape>;
export type ResourceDescription = Description["resources"][number];
export type FieldDescription = ResourceDescription["schema"]["fields"][number];

/** JSON Schema (draft 2020-12) of the shapes, as a profile on top of the Data Package profile. */
export function descriptionSchema(): Record<string, unknown> {
  const own = z.toJSONSchema(descriptionShape, { io: "input" }) as Record<string, unknown>;
  const { $schema, ...rest } = own;
  return {
    $schema,
    title: "Description of an airtides record",
    description:
      "Rules beyond these shapes are checked when a record is opened: a quantity needs a unit and type number or integer; a zone is needed unless every value carries its offset; a resource is long (role place) or wide (place on each number), not both; paths stay inside the folder.",
    allOf: [{ $ref: "https://datapackage.org/profiles/2.0/datapackage.json" }, rest],
  };
}

/** Checks the shapes; each fault is a sentence with its path. */
export function shapeFaults(document: unknown): { description: Description | null; faults: string[] } {
  const result = descriptionShape.safeParse(document, { reportInput: true });
  if (result.success) return { description: result.data, faults: [] };
  return { description: null, faults: result.error.issues.map(sentence) };
}

function pathText(path: readonly PropertyKey[]): string {
  return path.reduce<string>((text, step) => (typeof step === "number" ? `${text}[${step}]` : text === "" ? String(step) : `${text}.${String(step)}`), "");
}

function shownInput(value: unknown): string {
  if (value === undefined) return "nothing";
  if (typeof value === "object") return value === null ? "null" : Array.isArray(value) ? `a list of ${value.length}` : "an object";
  const text = JSON.stringify(value);
  return text.length > 60 ? `${text.slice(0, 57)}..."` : text;
}

function sentence(issue: z.core.$ZodIssue): string {
  const path = issue.path.length === 0 ? "the description" : pathText(issue.path);
  const got = `(got ${shownInput(issue.input)})`;
  const kinds: Readonly<Record<string, string>> = { string: "a text", number: "a number", int: "a whole number", boolean: "true or false", array: "a list", object: "an object", record: "an object" };
  switch (issue.code) {
    case "invalid_type":
      return `${path} must be ${kinds[issue.expected] ?? issue.expected} ${got}`;
    case "too_small":
      return issue.origin === "number" || issue.origin === "int"
        ? `${path} must be ${issue.inclusive === false ? "above" : "at least"} ${issue.minimum} ${got}`
        : `${path} must not be empty ${got}`;
    case "too_big":
      return issue.origin === "number" || issue.origin === "int" ? `${path} must be at most ${issue.maximum} ${got}` : `${path} must have length ${issue.maximum} ${got}`;
    case "invalid_value":
      return `${path} must be ${issue.values.length === 1 ? JSON.stringify(issue.values[0]) : `one of ${issue.values.map(String).join(", ")}`} ${got}`;
    case "invalid_union":
      return `${path} must be a text or a list of texts as the standard says ${got}`;
    default:
      return `${path} must be as the standard says ${got}`;
  }
}
