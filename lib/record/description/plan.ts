import type { Zone } from "../../ground/zone.js";
import type { Exposure, Site } from "../airRecord.js";
import type { CellStyle } from "../line/cells.js";
import type { NumberStyle } from "../line/numberText.js";
import type { ClockFinder, StampReader } from "../line/stamp.js";
import type { Quantity } from "../quantity.js";
import type { OpenQuestion } from "./openQuestions.js";

/** How a file's columns find their fields (Data Package 2.0). */
export type FieldsMatch = "exact" | "equal" | "subset" | "superset" | "partial";

/** A field that holds a quantity; its unit leads to the house unit by factor × (value + shift). */
export interface NumberPlan {
  readonly name: string;
  /** Which field of the description. */
  readonly field: number;
  readonly quantity: Quantity;
  /** Whose number it is in a wide layout, else null. */
  readonly place: string | null;
  readonly factor: number;
  readonly shift: number;
  readonly style: NumberStyle;
  readonly missing: MissingTexts;
}

/** Texts that mean a missing value, and the numbers among them, so that most cells need no look at the texts. */
export interface MissingTexts {
  readonly texts: ReadonlySet<string>;
  readonly numbers: ReadonlySet<number>;
}

/** One field of a stamp: a datetime, or the date or the time of a pair. */
export interface StampPlan {
  readonly name: string;
  readonly field: number;
  readonly read: StampReader;
  readonly clock: ClockFinder;
  /** The form as people write it, for a sentence. */
  readonly form: string;
}

/** Everything the reader needs for one resource. */
export interface ResourcePlan {
  readonly name: string;
  readonly paths: readonly string[];
  /** Null: look at the first bytes. */
  readonly encoding: string | null;
  readonly cells: CellStyle;
  /** Empty when no line is a comment. */
  readonly commentChar: string;
  readonly commentRows: ReadonlySet<number>;
  readonly hasHeader: boolean;
  /** Line of the header; 1 means the first line that is no comment and not blank. */
  readonly headerRow: number;
  readonly fieldsMatch: FieldsMatch;
  readonly fieldNames: readonly string[];
  /** Fields without which no row can be read: the stamp's and the place's. */
  readonly neededFields: readonly number[];
  /** One datetime, or a date and a time. */
  readonly stamps: readonly StampPlan[];
  /** The field that says whose row it is, in a long layout. */
  readonly who: { readonly name: string; readonly field: number; readonly places: ReadonlyMap<string, string> } | null;
  readonly numbers: readonly NumberPlan[];
  /** Places that rows of this resource can belong to. */
  readonly places: readonly string[];
  readonly isWide: boolean;
  /** Null when every value must carry its own offset. */
  readonly zone: Zone | null;
  /** Path of the zone in the description, for a sentence. */
  readonly zonePath: string;
  /** In order of `at`: epoch ms by the logger's own clock; `ahead` ms, to be taken off. */
  readonly corrections: readonly ClockCorrection[];
  /** What comes to that for places whose logger has a clock of its own. */
  readonly placeCorrections: ReadonlyMap<string, readonly ClockCorrection[]>;
  /** Seconds; 0 for instantaneous readings. */
  readonly averagedOver: number;
  /** Moves a stamp to the middle of its averaging time · ms. */
  readonly stampShift: number;
}

/** How far a logger's clock was ahead at one of its own times, both ms. */
export interface ClockCorrection {
  readonly at: number;
  readonly ahead: number;
}

/** A place as the description tells it. */
export interface PlacePlan {
  readonly name: string;
  readonly title: string;
  readonly exposure: Exposure | null;
  readonly elevation: number | null;
}

/** An event with its times as they are written; the first resource's zone turns them into instants. */
export interface EventPlan {
  readonly at: string;
  readonly to: string | null;
  readonly kind: string | null;
  readonly title: string;
  readonly places?: readonly string[];
}

/** A checked description, ready to read by. */
export interface RecordPlan {
  readonly name: string;
  readonly title: string;
  readonly site: Site | null;
  readonly places: readonly PlacePlan[];
  readonly events: readonly EventPlan[];
  /** How many clock corrections there are. */
  readonly corrections: number;
  readonly resources: readonly ResourcePlan[];
  /** Questions of a draft that its owner has not answered. */
  readonly questions: readonly OpenQuestion[];
  readonly notes: readonly string[];
}
