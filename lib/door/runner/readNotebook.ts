import { RecordError } from "../../ground/complaint.js";
import { readText } from "../disk/openLog.js";
import type { Notebook } from "./notebook.js";
import { notebookFaults } from "./notebookFaults.js";

/** Largest notebook that is read · bytes. */
const mostNotebook = 256 << 20;

/**
 * Reads a notebook from its file and checks it against the notebook format.
 *
 * A notebook of nbformat 4.0 to 4.4 is read too: its cells get the names (`id`) that 4.5 asks for.
 *
 * @param path an .ipynb file
 * @returns    the notebook, of nbformat 4.5 or later
 * @throws RecordError when it cannot be read, is not JSON, or is not a notebook of nbformat 4
 */
export async function readNotebook(path: string): Promise<Notebook> {
  const text = await readText(path, mostNotebook);
  let document: unknown;
  try {
    document = JSON.parse(text.replace(/^\ufeff/, ""));
  } catch (error) {
    throw new RecordError(`${path} must hold JSON (got: ${(error as Error).message})`, "description", { file: path });
  }
  const named = withCellNames(document);
  const faults = notebookFaults(named).map((fault) => `${path}: ${fault}`);
  if (faults.length > 0) throw new RecordError(faults[0], "description", { file: path }, faults.slice(1));
  return named as Notebook;
}

/** Lifts 4.0 … 4.4 to 4.5: a name for every cell, made from its place. */
function withCellNames(document: unknown): unknown {
  const notebook = document as { nbformat?: unknown; nbformat_minor?: unknown; cells?: unknown } | null;
  const older = notebook?.nbformat === 4 && typeof notebook.nbformat_minor === "number" && notebook.nbformat_minor < 5 && Array.isArray(notebook.cells);
  if (!older) return document;
  const cells = (notebook.cells as unknown[]).map((cell, i) => (typeof cell === "object" && cell !== null ? { id: `cell-${i + 1}`, ...cell } : cell));
  return { ...notebook, nbformat_minor: 5, cells };
}
