import type { ColumnSense } from "./columnSense.js";

/** Missing values of a resource's schema, and of fields whose own list differs. */
export interface MissingDraft {
  readonly shared: readonly string[];
  /** By the order of the columns; null where the shared list serves. */
  readonly own: readonly (readonly string[] | null)[];
  /** Reasons: index of the column (−1 for the shared list) and words. */
  readonly reasons: readonly (readonly [number, string])[];
}

/**
 * Texts and numbers that mean a missing value. A number that is a true reading in another column is listed where it is a code only.
 *
 * @param senses columns with their cells' texts known by `cellsOf`
 */
export function missingDraft(senses: readonly ColumnSense[], cellsOf: (sense: ColumnSense) => readonly string[]): MissingDraft {
  const read = senses.filter((s) => s.quantity !== null && s.number !== null);
  const marks = [...new Set(read.flatMap((s) => s.number?.marks ?? []))];
  const codes = senses.map((s) => (s.quantity === null ? [] : (s.number?.codes ?? [])));
  const all = [...new Set(codes.flat())];
  const isReading = (text: string, k: number): boolean => {
    const { number, quantity } = senses[k];
    return quantity !== null && number !== null && !codes[k].includes(text) && cellsOf(senses[k]).includes(text);
  };
  const sharedCodes = all.filter((text) => !senses.some((_, k) => isReading(text, k)));
  const shared = [...new Set(["", ...marks, ...sharedCodes])];
  const own = codes.map((list) => (list.some((text) => !sharedCodes.includes(text)) ? [...new Set([...shared, ...list])] : null));
  const reasons: (readonly [number, string])[] = [];
  const shownMarks = marks.filter((m) => m !== "");
  if (shownMarks.length > 0) reasons.push([-1, `${shownMarks.join(", ")} stand${shownMarks.length === 1 ? "s" : ""} where a number belongs`]);
  if (sharedCodes.length > 0) reasons.push([-1, `${sharedCodes.join(", ")} come${sharedCodes.length === 1 ? "s" : ""} back far from every other value, as loggers write what is missing`]);
  for (const [k, list] of own.entries()) if (list !== null) reasons.push([k, `${codes[k].join(", ")} stands far from every other value of this column`]);
  return { shared, own, reasons };
}
