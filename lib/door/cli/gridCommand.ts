import { type Derivation, derivations } from "../../answers/derivedSeries.js";
import { type GridAnswer, gridOf } from "../../answers/gridOf.js";
import { shown } from "../../ground/complaint.js";
import { displaySymbol } from "../../ground/display.js";
import { requireWritable, writeGrid } from "../disk/writeGrid.js";
import { type RecordCommand, wrongUse } from "./runRecords.js";

/** What `grid` was asked for, as words. */
export interface GridCommandOptions {
  readonly out: string;
  readonly step?: string;
  readonly fillUpTo?: string;
  readonly with?: readonly string[];
}

/** What `grid --json` tells: the answer with the file that was written. */
interface GridDocument {
  readonly record: GridAnswer["record"];
  readonly written: readonly { readonly path: string; readonly bytes: number }[];
  readonly stepSeconds: number;
  readonly rows: number;
  readonly columns: GridAnswer["columns"];
  readonly warnings: readonly string[];
  /** The answer as text; not enumerable, so not in JSON. */
  readonly text: (columns: number) => string;
}

/**
 * `airtides grid`: the cleaned, regular grid of a record, written to one file.
 *
 * @throws RecordError when the use is wrong: no number of minutes, an unknown quantity, a file that cannot be written
 */
export async function gridCommand(options: GridCommandOptions, records: readonly string[]): Promise<RecordCommand<GridDocument>> {
  const { out } = options;
  if (records.length > 1) throw wrongUse(`--out names one file, so that grid must be given one RECORD (got ${records.length}); call it once for each`);
  const step = minutes("--step", options.step, "above 0", (m) => m > 0);
  const fillUpTo = minutes("--fill-up-to", options.fillUpTo, "from 0 on", (m) => m >= 0);
  const unknown = options.with?.find((w) => !derivations.includes(w as Derivation));
  if (unknown !== undefined) throw wrongUse(`--with must be of ${derivations.join(", ")} (got ${shown(unknown)})`);
  await requireWritable(out);
  return {
    answer: async (record) => {
      const answer = gridOf(record, {
        ...(step === undefined ? {} : { step: 60 * step }),
        ...(fillUpTo === undefined ? {} : { fillUpTo: 60 * fillUpTo }),
        derived: (options.with ?? []) as readonly Derivation[],
      });
      const history = `${new Date().toISOString().slice(0, 19)}Z: airtides grid of ${record.name}`;
      const bytes = await writeGrid(out, answer.grid, { history });
      const { stepSeconds, rows, columns, warnings } = answer;
      const document = { record: answer.record, written: [{ path: out, bytes }], stepSeconds, rows, columns, warnings } as unknown as GridDocument;
      Object.defineProperty(document, "text", { value: (width: number) => answer[displaySymbol](width)["text/plain"], enumerable: false });
      return document;
    },
    text: (document, columns) => `${document.text(columns)}\nwrote ${document.written.map((w) => `${w.path} (${w.bytes} bytes)`).join(", ")}\n`,
  };
}

function minutes(option: string, text: string | undefined, what: string, isGood: (minutes: number) => boolean): number | undefined {
  if (text === undefined) return undefined;
  const value = text.trim() === "" ? Number.NaN : Number(text);
  if (!(Number.isFinite(value) && isGood(value))) throw wrongUse(`${option} must be a number of minutes ${what} (got ${shown(text)})`);
  return value;
}
