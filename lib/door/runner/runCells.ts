import { gatherOutputs, type OutputPiece } from "./gatherOutputs.js";
import { hasTag, type Notebook, type NotebookOutput, textOf } from "./notebook.js";

/** What runs one cell after the other, in one process: the kernel's own way of running them. */
export interface CellSession {
  /**
   * Runs a cell to its end.
   *
   * @param code  TypeScript
   * @param count the number that stands beside the cell, from 1
   * @param put   takes what the cell puts out, also later than its end
   * @returns     false when it ended with an error, which was put out as well
   */
  run(code: string, count: number, put: (piece: OutputPiece) => void): Promise<boolean>;
}

/** An error that stopped a notebook. */
export interface NotebookError {
  /** The number that stands beside the cell, from 1. */
  readonly cell: number;
  /** Name and message, on one line. */
  readonly message: string;
}

/** What a run made of one cell: its outputs and its number; both empty for text and for cells that were not reached. */
export interface RanCell {
  readonly outputs: readonly NotebookOutput[];
  readonly count: number | null;
}

/** Told while a notebook runs, so that what was done is known even when its process ends. */
export interface RunNews {
  /** A cell begins. */
  begins(at: number, count: number): void;
  /** A cell has ended, with what it put out so far. */
  ended(at: number, cell: RanCell): void;
}

/**
 * Runs the code cells of a notebook in order; the first error stops it, unless its cell has the tag `raises-exception`.
 *
 * @param notebook to be run; its own outputs are left out
 * @param session  what runs a cell
 * @param news     told of each cell
 * @returns        one entry for each cell of the notebook, and the error that stopped it, if one did
 */
export async function runCells(notebook: Notebook, session: CellSession, news: RunNews): Promise<{ readonly cells: readonly RanCell[]; readonly errors: readonly NotebookError[] }> {
  const gathering = gatherOutputs(notebook.cells.length);
  const counts: (number | null)[] = notebook.cells.map(() => null);
  const errors: NotebookError[] = [];
  let count = 0;
  for (const [at, cell] of notebook.cells.entries()) {
    const code = textOf(cell.source);
    if (cell.cell_type !== "code" || code.trim() === "") continue;
    count++;
    counts[at] = count;
    news.begins(at, count);
    const good = await session.run(code, count, (piece) => gathering.add(at, piece));
    news.ended(at, { outputs: gathering.of(at), count });
    if (good || hasTag(cell, "raises-exception")) continue;
    errors.push({ cell: count, message: lastError(gathering.of(at)) });
    break;
  }
  return { cells: notebook.cells.map((_, at) => ({ outputs: gathering.of(at), count: counts[at] })), errors };
}

/** The message of the last error among outputs, on one line. */
function lastError(outputs: readonly NotebookOutput[]): string {
  const error = outputs.findLast((o) => o.output_type === "error");
  if (error?.output_type !== "error") return "the cell failed without saying why";
  const text = error.evalue === "" ? error.ename : `${error.ename}: ${error.evalue}`;
  return text.split("\n")[0].replace(/[\u0000-\u001f\u007f]+/g, " ").trim();
}

/**
 * A notebook with the outputs of a run in the place of its own.
 *
 * @param notebook as it was read
 * @param cells    what the run made of each cell
 * @param language what the format wants to know of the language
 */
export function withOutputs(notebook: Notebook, cells: readonly RanCell[], language: Readonly<Record<string, unknown>>): Notebook {
  return {
    ...notebook,
    metadata: { kernelspec: { name: "airtides", display_name: "TypeScript (airtides)", language: "typescript" }, ...notebook.metadata, language_info: "name" in language ? language : { name: "typescript", file_extension: ".ts", mimetype: "text/typescript", ...language } },
    cells: notebook.cells.map((cell, at) => (cell.cell_type === "code" ? { ...cell, outputs: cells[at]?.outputs ?? [], execution_count: cells[at]?.count ?? null } : cell)),
  };
}
