import type { FlagName } from "../record/flag.js";

/** A fault in words: what it is, and what becomes of its readings. */
export interface FaultWords {
  /** Short enough for a figure's axis. */
  readonly what: string;
  readonly use: string;
}

/** Each fault of the closed list in words, one table for the text, the page and the figure; in the order in which they are told. */
export const faultWords: Readonly<Record<FlagName, FaultWords>> = Object.freeze({
  range: { what: "cannot be", use: "left out" },
  spike: { what: "spike", use: "left out" },
  stuck: { what: "stuck", use: "left out" },
  step: { what: "level shift", use: "kept; the tide is fitted on either side" },
  saturated: { what: "saturated", use: "kept" },
  swapped: { what: "places exchanged", use: "left out" },
  warmed: { what: "warmed by sun", use: "kept; reads too warm" },
});
