import type { OpenQuestion } from "./description/openQuestions.js";
import type { Quantity } from "./quantity.js";
import type { Series } from "./series.js";

/** Where the record was made. Degrees north and east positive; metres above mean sea level. */
export interface Site {
  readonly latitude: number;
  readonly longitude: number;
  readonly elevation: number;
}

export type Exposure = "outdoor" | "indoor";

/** A line that could not be used, and why. */
export interface RejectedLine {
  readonly line: number;
  readonly reason: string;
}

/** What became of every line of one file: lines = accepted + skipped + rejected.length. */
export interface FileAccount {
  readonly path: string;
  readonly lines: number;
  readonly accepted: number;
  readonly skipped: number;
  readonly rejected: readonly RejectedLine[];
}

/** A jump of a logger's clock, as seen from the order of its lines. Negative: the clock went back. */
export interface ClockJump {
  readonly place: string;
  /** Epoch ms, UTC, of the last reading before the jump. */
  readonly at: number;
  readonly seconds: number;
}

/** A change of the civil clock inside the record (UTC instant, epoch ms) and the seconds by which the offset changed. */
export interface ZoneChange {
  readonly at: number;
  readonly seconds: number;
}

/** Readings of one place that a reset clock wrote, years from the rest (`withoutResets`): first and last instant, epoch ms. */
export interface SetAside {
  readonly place: string;
  readonly from: number;
  readonly to: number;
  readonly readings: number;
}

/** Rows of one place that stood out of order in its logs and were put in place by their stamps. */
export interface Disorder {
  readonly place: string;
  readonly rows: number;
  /** Stretches of following rows. */
  readonly stretches: number;
  /** First and last instant of the first stretch, and the instant of the row it stands behind in the log · epoch ms. */
  readonly from: number;
  readonly to: number;
  readonly after: number;
}

/** One place of a record with everything it logged. */
export interface PlaceRecord {
  readonly name: string;
  readonly title: string;
  readonly exposure: Exposure | null;
  readonly elevation: number | null;
  /** Distinct instants kept. */
  readonly readings: number;
  /** Rows that repeated an instant with the same values. */
  readonly repeated: number;
  /** Rows that repeated an instant with other values; the first was kept. */
  readonly conflicting: number;
  /** Rows of another resource that only added quantities to an instant that was there; with one resource 0. */
  readonly merged?: number;
  /** Instants of all kept readings: `start` epoch ms, seconds since it · [readings]. */
  readonly start: number;
  readonly seconds: Float64Array;
  /** One series a quantity; all share `start` and `seconds`. */
  readonly series: Readonly<Partial<Record<Quantity, Series>>>;
}

/** A dated event of the description, in UTC epoch ms; `to` only for a period. */
export interface RecordEvent {
  readonly at: number;
  readonly to: number | null;
  readonly kind: string | null;
  readonly title: string;
  /** Places it is about; absent where it names none: about all. */
  readonly places?: readonly string[];
}

/** A whole record: what the loggers said, in house units and UTC, with an account of every line. */
export interface AirRecord {
  readonly name: string;
  readonly title: string;
  readonly site: Site | null;
  /** Zone of the record's civil times: that of the first resource. */
  readonly zone: string;
  readonly places: Readonly<Record<string, PlaceRecord>>;
  readonly events: readonly RecordEvent[];
  readonly files: readonly FileAccount[];
  readonly jumps: readonly ClockJump[];
  /** Rows out of order, in the record as it was read; absent when there is none. */
  readonly disorder?: readonly Disorder[];
  /** Changes of the civil clock in the record's span: offset grew (hour skipped) or shrank (hour repeated). */
  readonly zoneChanges: readonly ZoneChange[];
  /** Rows stamped in an hour that the clocks of their zone skipped, in the record as it was read; absent when there is none. */
  readonly inSkippedHours?: number;
  /** How many clock corrections were applied. */
  readonly corrections: number;
  /** How readings were averaged by the logger, seconds; 0 when instantaneous or not told. */
  readonly averagedOver: number;
  /** First and last instant over all places, epoch ms, UTC. */
  readonly from: number;
  readonly to: number;
  /** Readings of a reset clock that are not in `places`; a record as it was read has none. */
  readonly setAside?: readonly SetAside[];
  /** Questions of a drafted description that its owner has not answered. */
  readonly questions?: readonly OpenQuestion[];
  /** What the reader wants to tell: odd names, unsupported but harmless properties. */
  readonly notes: readonly string[];
}
