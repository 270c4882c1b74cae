import * as z from "zod";
import type { Description } from "./description.js";

// The door to zod: shapes only. Rules between fields are checked where they are planned, on what the shapes left whole.

const text = z.string();
const nonEmpty = z.string().min(1, "not be empty");
const oneCharacter = z.string().length(1, "be one character");
const rowNumber = z.number().int().min(1);

/** A number between limits, both told whichever is passed. */
function within(low: number, high: number, unit: string): z.ZodNumber {
  const words = `be from ${low} to ${high} ${unit}`;
  return z.number().min(low, words).max(high, words);
}

function listOrOne<T extends z.ZodType>(one: T, words: string): z.ZodUnion<[T, z.ZodArray<T>]> {
  return z.union([one, z.array(one).min(1, "not be empty")], { error: words });
}

const missing = z
  .array(z.union([z.string(), z.looseObject({ value: z.string(), label: z.string().optional() })], { error: "be a text, or a value with a label" }))
  .describe("Texts that mean a missing value, all different; a field's own list replaces the schema's");

const category = z.union([z.string(), z.number(), z.looseObject({ value: z.union([z.string(), z.number()], { error: "be a text or a number" }), label: z.string().optional() })], {
  error: "be a value, or a value with a label",
});

const field = z.looseObject({
  name: nonEmpty,
  type: text.optional(),
  format: text.optional(),
  zone: text.optional().describe("On the datetime or the time field, or the date field where it stands alone: a fixed offset such as +07:00, Z, or an IANA name. Needed unless each value carries its own offset"),
  role: z.enum(["place"]).optional().describe("The field says whose row it is"),
  values: z.record(z.string(), z.string()).optional().describe("With role place: what is written, to the name of a place"),
  categories: z.array(category).optional(),
  place: text.optional().describe("In a wide layout: whose number this is"),
  quantity: z.enum(["air_temperature", "relative_humidity", "surface_air_pressure", "air_pressure_at_mean_sea_level", "dew_point_temperature"]).optional(),
  unit: text.optional().describe("Needed with a quantity: degC, degF, K; hPa, mbar, Pa, kPa, mmHg, inHg; %, 1"),
  missingValues: missing.optional(),
  decimalChar: oneCharacter.optional(),
  groupChar: nonEmpty.optional(),
  bareNumber: z.boolean().optional(),
});

const dialect = z.looseObject({
  delimiter: nonEmpty.optional(),
  header: z.boolean().optional(),
  headerRows: z.array(rowNumber).length(1, "name one row").optional(),
  commentRows: z.array(rowNumber).optional(),
  commentChar: nonEmpty.optional(),
  quoteChar: oneCharacter.optional(),
  doubleQuote: z.boolean().optional(),
  skipInitialSpace: z.boolean().optional(),
  lineTerminator: z.enum(["\n", "\r\n", "\r"]).optional(),
});

const resource = z.looseObject({
  name: nonEmpty,
  type: z.literal("table").optional(),
  path: listOrOne(nonEmpty, "be a path or a list of paths").optional().describe("Inside the folder: no parent path, absolute path or URL"),
  encoding: nonEmpty.optional(),
  dialect: dialect.optional(),
  sampling: z
    .looseObject({ averagedOver: z.number().positive("be above 0 s").max(86400, "be at most 86400 s"), stamp: z.enum(["start", "middle", "end"]) })
    .optional()
    .describe("Over how many seconds a reading is averaged, and where in them its stamp stands"),
  schema: z.looseObject({
    fields: z.array(field).min(1, "not be empty"),
    fieldsMatch: listOrOne(z.enum(["exact", "equal", "subset", "superset", "partial"]), "be one of exact, equal, subset, superset, partial").optional(),
    missingValues: missing.optional(),
  }),
});

const elevation = within(-430, 9000, "m");

const clock = z
  .looseObject({ corrections: z.array(z.looseObject({ at: text, ahead: within(-1e9, 1e9, "s") })).optional() })
  .optional()
  .describe("`at` is the logger's own time as written, `ahead` logger minus true in seconds; linear between, constant outside. On a place it is taken off beside the record's");

const descriptionShape: z.ZodType<Description> = z.looseObject({
  $schema: text.optional(),
  name: text.optional(),
  title: text.optional(),
  site: z.looseObject({ latitude: within(-90, 90, "degrees"), longitude: within(-180, 180, "degrees"), elevation }).optional(),
  places: z.record(nonEmpty, z.looseObject({ title: text.optional(), exposure: z.enum(["outdoor", "indoor"]).optional(), elevation: elevation.optional(), clock })).optional(),
  events: z
    .array(z.looseObject({ at: text.optional(), from: text.optional(), to: text.optional(), kind: text.optional(), title: text.optional(), places: z.array(nonEmpty).min(1, "not be empty").optional() }))
    .optional()
    .describe("Dated happenings: `at`, or `from` and `to`; civil times in the zone of the first resource, or ISO 8601 with an offset; `places` names those it is about, all where it is absent"),
  clock,
  questions: z
    .array(z.looseObject({ path: text, ask: nonEmpty, drafted: text.optional() }))
    .optional()
    .describe("Of a draft: what only the owner knows. A question is open until the value at its path is another than drafted, or its entry is taken out"),
  resources: z.array(resource).min(1, "not be empty"),
});

/** A fault of shape: where, what must hold, what was found. */
export interface ShapeFault {
  readonly path: readonly (string | number)[];
  readonly requirement: string;
  readonly got: unknown;
}

/** Checks the shapes of a parsed description; an empty list means that it is a Description. */
export function shapeFaults(document: unknown): ShapeFault[] {
  const result = descriptionShape.safeParse(document, { reportInput: true });
  if (result.success) return [];
  return result.error.issues.map((issue) => ({ path: issue.path as (string | number)[], requirement: requirementOf(issue), got: issue.input }));
}

const kinds: Readonly<Record<string, string>> = Object.freeze({ string: "text", number: "a number", int: "a whole number", boolean: "true or false", array: "a list", object: "an object", record: "an object" });

function requirementOf(issue: z.core.$ZodIssue): string {
  // Words of our own begin with the verb after "must".
  if (/^(be|not|name) /.test(issue.message)) return issue.message;
  switch (issue.code) {
    case "invalid_type":
      return `be ${kinds[issue.expected] ?? issue.expected}`;
    case "invalid_value":
      return issue.values.length === 1 ? `be ${JSON.stringify(issue.values[0])}` : `be one of ${issue.values.map((v) => (/^\s*$/.test(String(v)) ? JSON.stringify(v) : String(v))).join(", ")}`;
    case "too_small":
      return `be at least ${issue.minimum}`;
    default:
      return "be as the Data Package standard has it";
  }
}

/** The shapes as JSON Schema (draft 2020-12), without a title and without the standard's own profile. */
export function shapeAsJsonSchema(): Record<string, unknown> {
  return z.toJSONSchema(descriptionShape, { io: "input" }) as Record<string, unknown>;
}
