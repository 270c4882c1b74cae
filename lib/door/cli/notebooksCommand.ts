import { join, relative, resolve } from "node:path";
import { type RecordHead, recordHead } from "../../answers/recordHead.js";
import { openRecord } from "../disk/openRecord.js";
import { chooseNotebooks } from "../runner/chooseNotebooks.js";
import { type NotebookOutcome, runNotebooks } from "../runner/runNotebooks.js";
import { jsonText } from "./json.js";
import { type ExitCode, failureOf, firstOf } from "./outcome.js";

/** Options of `airtides notebooks`. */
export interface NotebooksOptions {
  readonly out?: string;
  readonly only?: readonly string[];
  readonly json?: boolean;
  readonly quiet?: boolean;
}

/**
 * `airtides notebooks`: runs the notebooks, on a reader's record if one is named, to pages and an index.
 *
 * @param path    folder or description of the record; undefined lets each notebook take its own
 * @param options where the pages go, which notebooks, and how it is told
 * @returns       0 when every notebook ran to its end, 1 when one stopped, 2 for wrong use or a faulty description
 */
export async function notebooksCommand(path: string | undefined, options: NotebooksOptions): Promise<ExitCode> {
  const clear = progressLine(options.quiet === true);
  try {
    const notebooks = await chooseNotebooks(options.only ?? []);
    const record = path === undefined ? undefined : await openRecord(path);
    const head = record === undefined ? undefined : recordHead(record);
    const out = options.out ?? (head === undefined ? join("airtides-out", "notebooks") : join("airtides-out", head.name, "notebooks"));
    const { outcomes, index } = await runNotebooks({
      notebooks,
      out,
      record: path === undefined ? undefined : resolve(path),
      about: head === undefined ? "" : `Run on ${head.title}, ${head.from.slice(0, 10)} to ${head.to.slice(0, 10)}.`,
      progress: (at, name, cell, of) => clear(`[${at + 1}/${notebooks.length}] ${name}  cell ${cell} of ${of}`),
    });
    clear("");
    process.stdout.write(options.json === true ? jsonText({ ...(head === undefined ? {} : { record: head }), notebooks: outcomes }) : outcomesText(outcomes, index, head));
    return outcomes.some((o) => o.errors.length > 0) ? 1 : 0;
  } catch (error) {
    clear("");
    const failure = failureOf(path ?? "notebooks", error);
    process.stderr.write(`${firstOf([failure])}\n`);
    return failure.code;
  }
}

/** One line on a terminal's standard error that is written over; nothing where it is no terminal. */
function progressLine(quiet: boolean): (text: string) => void {
  if (quiet || process.stderr.isTTY !== true) return () => undefined;
  return (text) => void process.stderr.write(`\r\u001b[K${text.slice(0, Math.max(10, (process.stderr.columns || 80) - 1))}`);
}

function outcomesText(outcomes: readonly NotebookOutcome[], index: string, head: RecordHead | undefined): string {
  const names = outcomes.map((o) => relative(join(o.page, ".."), o.page));
  const width = Math.max(...names.map((n) => n.length));
  const lines = outcomes.map((o, i) => {
    const state = o.errors.length === 0 ? `${o.cells} cells` : `stopped at cell ${o.errors[0].cell}: ${o.errors[0].message}`;
    return `  ${names[i].padEnd(width)}  ${state}`;
  });
  const ran = `${outcomes.length} ${outcomes.length === 1 ? "notebook" : "notebooks"}`;
  return `${head === undefined ? ran : `${head.title}: ${ran}`}\n\n${lines.join("\n")}\n\nBegin with ${index}\n`;
}
