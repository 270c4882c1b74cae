import type { Quantity } from "../quantity.js";


/** A field of a resource's schema, as far as this project reads it. */
export interface FieldShape {
  name: string;
  type?: string;
  format?: string;
  zone?: string;
  role?: "place";
  values?: Record<string, string>;
  categories?: (string | number | { value: string | number; label?: string })[];
  place?: string;
  quantity?: Exclude<Quantity, "mass_concentration_of_water_vapor_in_air">;
  unit?: string;
  missingValues?: (string | { value: string; label?: string })[];
  decimalChar?: string;
  groupChar?: string;
  bareNumber?: boolean;
}

type FieldsMatchWord = "exact" | "equal" | "subset" | "superset" | "partial";

/** A resource of the description, as far as this project reads it. */
export interface ResourceShape {
  name: string;
  type?: "table";
  path?: string | string[];
  encoding?: string;
  dialect?: {
    delimiter?: string;
    header?: boolean;
    headerRows?: number[];
    commentRows?: number[];
    commentChar?: string;
    quoteChar?: string;
    doubleQuote?: boolean;
    skipInitialSpace?: boolean;
    lineTerminator?: "\n" | "\r\n" | "\r";
  };
  sampling?: { averagedOver: number; stamp: "start" | "middle" | "end" };
  schema: { fields: FieldShape[]; fieldsMatch?: FieldsMatchWord | FieldsMatchWord[]; missingValues?: FieldShape["missingValues"] };
}

/** A question that only the owner can answer, kept in a drafted description until it is. */
export interface QuestionShape {
  path: string;
  ask: string;
  /** What the draft holds at the path; another value there answers the question. */
  drafted?: string;
}

/** What is known of a logger's clock. */
export interface ClockShape {
  corrections?: { at: string; ahead: number }[];
}

/** A description whose shapes are right; `shape.ts` checks them. */
export interface Description {
  $schema?: string;
  name?: string;
  title?: string;
  site?: { latitude: number; longitude: number; elevation: number };
  places?: Record<string, { title?: string; exposure?: "outdoor" | "indoor"; elevation?: number; clock?: ClockShape }>;
  events?: { at?: string; from?: string; to?: string; kind?: string; title?: string; places?: string[] }[];
  /** Of every place; a place's own comes to it. */
  clock?: ClockShape;
  questions?: QuestionShape[];
  resources: ResourceShape[];
}
