import type { RecordView } from "./recordView.js";
import { headLines } from "./headText.js";
import type { RecordHead } from "./recordHead.js";
import { alignedColumns, counted, grouped, shareInWords, spanInWords, unitInWords, wrapped } from "./words.js";

interface Told {
  readonly record: RecordHead;
  readonly stepSeconds: number;
  readonly rows: number;
  readonly columns: readonly { readonly place: string; readonly quantity: string; readonly unit: string; readonly coverage: number; readonly filled: number; readonly leftOut: Readonly<Record<string, number>>; readonly made: string | null }[];
  readonly warnings: readonly string[];
}

/**
 * The cleaned grid of a record as text for people: which columns, how full, what was left out and made.
 *
 * @param answer  from `gridOf`
 * @param view    standard time and titles
 * @param columns width of the screen
 */
export function gridText(answer: Told, view: RecordView, columns = 100): string {
  const lines = [...headLines(answer.record, view.offsetHours), ""];
  lines.push(`${counted(answer.rows, "step")} of ${spanInWords(answer.stepSeconds)}, stamped by its beginning in UTC; ${counted(answer.columns.length, "column")} with flag and coverage beside each`, "");
  const rows = answer.columns.map((c) => [view.titles[c.place] ?? c.place, c.quantity.replaceAll("_", " "), unitInWords(c.unit), shareInWords(c.coverage), c.filled === 0 ? "" : grouped(c.filled), leftOutText(c.leftOut)]);
  lines.push(...alignedColumns([["place", "quantity", "unit", "steps held", "bridged", "readings left out"], ...rows], [3, 4]).map((l) => `  ${l}`), "");
  for (const made of new Set(answer.columns.flatMap((c) => (c.made === null ? [] : [`${c.quantity.replaceAll("_", " ")}: ${c.made}`])))) lines.push(...wrapped(`  ${made}`, columns, "    "));
  for (const warning of answer.warnings) lines.push(...wrapped(`  ! ${warning}`, columns, "    "));
  lines.push(...wrapped("Flags are sums of range 1, spike 2, stuck 4, step 8, saturated 16, swapped 32, warmed 64, filled 128 (a bridge over a short gap). Readings flagged range, spike, stuck or swapped are in no value.", columns));
  return `${lines.join("\n")}\n`;
}

function leftOutText(counts: Readonly<Record<string, number>>): string {
  return Object.entries(counts)
    .filter(([, n]) => n > 0)
    .map(([name, n]) => `${grouped(n)} ${name}`)
    .join(", ");
}
