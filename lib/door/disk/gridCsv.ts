import { type CleanedGrid, columnNames, writtenValue } from "../../answers/cleanedGrid.js";
import { instantText } from "../../ground/instant.js";

/** Rows made at once. */
const rowsAPiece = 4096;

/** A field of a CSV file, quoted where it must be. @source RFC 4180 */
function field(text: string): string {
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/**
 * A cleaned grid as CSV in pieces: `time` in ISO 8601 UTC, then value, flag and coverage of each column.
 *
 * One header line of names, nothing else above the rows; a missing value is an empty field. Lines end in LF, text is UTF-8.
 *
 * @param grid of `gridOf`
 * @returns    pieces of text, each of whole lines
 */
export function* gridCsv(grid: CleanedGrid): Generator<string> {
  const { start, stepSeconds, length, columns } = grid;
  yield `${["time", ...columns.flatMap((c) => Object.values(columnNames(c)))].map(field).join(",")}\n`;
  for (let from = 0; from < length; from += rowsAPiece) {
    const to = Math.min(length, from + rowsAPiece);
    let piece = "";
    for (let k = from; k < to; k++) {
      piece += instantText(start + 1000 * stepSeconds * k);
      for (const { values, flags, stepCoverage } of columns) {
        const v = values[k];
        piece += `,${Number.isNaN(v) ? "" : writtenValue(v)},${flags[k]},${coverageText(stepCoverage[k])}`;
      }
      piece += "\n";
    }
    yield piece;
  }
}

function coverageText(share: number): string | number {
  return share === 1 ? "1" : share === 0 ? "0" : Math.round(share * 1e4) / 1e4;
}
