import type { Estimate } from "../ground/estimate.js";
import type { FileAccount } from "../record/airRecord.js";
import type { OpenQuestion } from "../record/description/openQuestions.js";
import type { FlagName } from "../record/flag.js";
import type { Quantity } from "../record/quantity.js";
import type { Agreement } from "../trust/agreement.js";
import type { Altitude } from "../trust/altitude.js";
import type { QuantitySummary } from "../trust/placeCoverage.js";
import type { SolarCheck } from "../trust/solarCheck.js";
import type { Verdict } from "../trust/verdict.js";
import type { RecordHead } from "./recordHead.js";

/** A run of readings with one fault; instants ISO 8601 UTC. */
export interface CheckFault {
  readonly flag: FlagName;
  readonly quantity: Quantity;
  readonly from: string;
  readonly to: string;
  readonly readings: number;
  readonly size: number | null;
}

/** One place in the trust report. */
export interface CheckPlace {
  readonly readings: number;
  readonly from: string | null;
  readonly to: string | null;
  readonly medianStepSeconds: number;
  readonly coverage: number;
  readonly repeated: number;
  readonly conflicting: number;
  readonly gaps: readonly { readonly from: string; readonly to: string; readonly hours: number }[];
  readonly quantities: Readonly<Partial<Record<Quantity, QuantitySummary>>>;
  readonly faults: readonly CheckFault[];
  readonly flags: Readonly<Record<FlagName, number>>;
  /** Readings of a reset clock, among `readings` and nowhere else; absent when there is none. */
  readonly setAside?: readonly { readonly from: string; readonly to: string; readonly readings: number }[];
}

/** The clock in the trust report. */
export interface CheckClock {
  readonly zone: string;
  readonly corrections: number;
  readonly jumps: readonly { readonly place: string; readonly at: string; readonly seconds: number }[];
  readonly skippedHours: readonly string[];
  readonly repeatedHours: readonly string[];
  readonly betweenPlaces: readonly { readonly a: string; readonly b: string; readonly offset: Estimate; readonly drift: Estimate | null }[];
  readonly solar: SolarCheck | null;
  /** By how much the clock gains, by the sun: tide and warmth of the day of the place that tells it best · s d-1, 99 %; absent where none is told. */
  readonly solarDrift?: Estimate;
}

/** The fields of the trust report, as `check --json` writes them. */
export interface CheckFields {
  readonly record: RecordHead;
  readonly files: readonly FileAccount[];
  readonly places: Readonly<Record<string, CheckPlace>>;
  readonly clock: CheckClock;
  readonly agreement: readonly Pick<Agreement, "a" | "b" | "quantity" | "basis" | "bias" | "limits" | "drift">[];
  readonly altitude: Readonly<Record<string, Altitude>>;
  readonly verdict: Verdict;
  /** Questions of a drafted description that its owner has not answered; absent when there is none. */
  readonly questions?: readonly OpenQuestion[];
}
