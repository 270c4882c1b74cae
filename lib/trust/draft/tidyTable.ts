import { RecordError } from "../../ground/complaint.js";
import { headerMeaning } from "./headerMeaning.js";
import type { MarkerGuess } from "./markerGuess.js";

/**
 * Refuses a log that has one quantity a row, named in a column beside one of values: a description has no words for it.
 *
 * @param cells  by column
 * @param labels columns that hold text or few whole numbers
 * @throws RecordError kind `data`
 */
export function refuseTidy(path: string, marker: MarkerGuess | null, cells: readonly (readonly string[])[], labels: readonly number[]): void {
  const columns = marker === null ? labels : [marker.column, ...labels];
  for (const c of columns) {
    const texts = [...new Set(cells[c].slice(0, 2000))];
    if (texts.length < 2 || texts.length > 60) continue;
    const topics = new Set(texts.flatMap((t) => (/\p{L}/u.test(t) && t.length > 1 ? [headerMeaning(t).topic] : [])).filter((t) => t !== null && t !== "other"));
    if (topics.size < 2) continue;
    throw new RecordError(
      `${path} must hold a column for each quantity (got one value a row, and column ${c + 1} says which quantity it is: ${texts.slice(0, 4).join(", ")}); turn it into one row a time with a column for each quantity`,
      "data",
      { file: path },
    );
  }
}
