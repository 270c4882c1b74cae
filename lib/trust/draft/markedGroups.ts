import type { LogGroup } from "./logGroups.js";
import { markerGuess } from "./markerGuess.js";
import { numberGuess } from "./numberGuess.js";

/** Whether a column of the logs tells places, so that files need not part them. */
export function markedGroups({ tables, model }: LogGroup): boolean {
  const stamps = new Set(model.stamps.fields.map((f) => f.column));
  const rows = tables.flatMap((t) => t.rows);
  const times = Float64Array.from(tables.flatMap((t) => Array.from(t.times)));
  const columns = Array.from({ length: model.delimiter.width }, (_, c) => c).filter((c) => !stamps.has(c));
  const labels = columns.filter((c) => {
    const texts = new Set(rows.slice(0, 2000).map((r) => r[c]));
    return texts.size <= 24 && (numberGuess([...texts]) === null || [...texts].every((t) => /^\d{1,6}$/.test(t)));
  });
  return markerGuess(rows, times, labels, model.preamble.names ?? []) !== null;
}
