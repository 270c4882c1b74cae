/** The closed list of faults a reading can be flagged with; bit values of `Series.flags`. */
export const flagBit: Readonly<Record<FlagName, number>> = Object.freeze({
  range: 1,
  spike: 2,
  stuck: 4,
  step: 8,
  saturated: 16,
  swapped: 32,
  warmed: 64,
});

/** Names of the closed list of faults, as `check` tells them. */
export type FlagName = "range" | "spike" | "stuck" | "step" | "saturated" | "swapped" | "warmed";

/** Flags in the order in which tables show them. */
export const flagNames: readonly FlagName[] = Object.freeze(Object.keys(flagBit) as FlagName[]);

/** Readings with any of these flags are left out of every analysis: range, spike, stuck, swapped. */
export const leftOut: number = flagBit.range | flagBit.spike | flagBit.stuck | flagBit.swapped;
