import { type CleanedGrid, gridFlagBit, writtenValue } from "../../answers/cleanedGrid.js";
import { instantText } from "../../ground/instant.js";

/** Numbers made at once. */
const piece = 8192;

/**
 * A cleaned grid as one JSON document in pieces; a missing value is null.
 *
 * `{ record, stepSeconds, rows, flagBits, time[], columns[{ place, quantity, unit, …, values[], flags[], coverages[] }] }`.
 *
 * @param grid of `gridOf`
 * @returns    pieces of text
 */
export function* gridJson(grid: CleanedGrid): Generator<string> {
  const { record, places, start, stepSeconds, length, columns } = grid;
  const head = JSON.stringify({ record, places, stepSeconds, rows: length, flagBits: gridFlagBit }, null, 1);
  yield `${head.slice(0, head.lastIndexOf("}")).trimEnd()},\n "time": `;
  yield* list(length, (k) => `"${instantText(start + 1000 * stepSeconds * k)}"`);
  yield ',\n "columns": [';
  for (const [i, c] of columns.entries()) {
    const { place, quantity, standardName, unit, title, made, coverage, filledSteps, leftOut, meanInstant } = c;
    const told = JSON.stringify({ place, quantity, standardName, unit, title, made, coverage, filled: filledSteps, leftOut, meanInstantSeconds: meanInstant });
    yield `${i === 0 ? "" : ","}\n  ${told.slice(0, -1)},\n   "values": `;
    yield* list(length, (k) => (Number.isNaN(c.values[k]) ? "null" : String(writtenValue(c.values[k]))));
    yield ',\n   "flags": ';
    yield* list(length, (k) => String(c.flags[k]));
    yield ',\n   "coverages": ';
    yield* list(length, (k) => String(Math.round(c.stepCoverage[k] * 1e4) / 1e4));
    yield "}";
  }
  yield "\n ]\n}\n";
}

function* list(length: number, of: (k: number) => string): Generator<string> {
  let text = "[";
  for (let k = 0; k < length; k++) {
    text += k === 0 ? of(k) : `,${of(k)}`;
    if (k % piece !== piece - 1) continue;
    yield text;
    text = "";
  }
  yield `${text}]`;
}
