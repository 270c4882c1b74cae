import type { ReportAnswers } from "./reportAnswers.js";

/** Names of places with those outside first, else in the record's order. */
export function outdoorsFirst({ record }: Pick<ReportAnswers, "record">, names: readonly string[]): readonly string[] {
  const rank = (name: string): number => (record.places[name]?.exposure === "indoor" ? 1 : 0);
  return [...names].sort((a, b) => rank(a) - rank(b));
}
