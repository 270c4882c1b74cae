import { dirname, join } from "node:path";
import { RecordError } from "../../ground/complaint.js";
import { writeBeside } from "../disk/writeBeside.js";
import type { ChosenNotebook } from "./chooseNotebooks.js";
import type { Notebook } from "./notebook.js";
import { notebookFaults } from "./notebookFaults.js";
import { type IndexEntry, notebookIndex } from "./notebookIndex.js";
import { notebookPage, notebookQuestion, notebookTitle } from "./notebookPage.js";
import { earlierPages, marked, requireOwn } from "./ownOutput.js";
import { readNotebook } from "./readNotebook.js";
import { runApart } from "./runApart.js";
import { type NotebookError, withOutputs } from "./runCells.js";

/** What became of one notebook. */
export interface NotebookOutcome {
  /** The notebook with its outputs. */
  readonly path: string;
  /** Its page. */
  readonly page: string;
  /** Code cells that were run. */
  readonly cells: number;
  /** The error that stopped it, with the number that stands beside the cell; empty when it ran to its end. */
  readonly errors: readonly NotebookError[];
}

/** What a run of notebooks is told. */
export interface NotebooksOrder {
  readonly notebooks: readonly ChosenNotebook[];
  /** Folder that gets pages, notebooks and index. */
  readonly out: string;
  /** Whole path of the record; undefined lets each notebook take its own. */
  readonly record: string | undefined;
  /** One sentence on the record; empty without one. */
  readonly about: string;
  /** Told of each cell that begins: number and name of the notebook, number of the cell and how many there are. */
  progress(at: number, name: string, cell: number, of: number): void;
}

/**
 * Runs notebooks one after the other and writes, for each, the notebook with its outputs and its page, then the index.
 *
 * Everything that could refuse the run (a faulty notebook, a file in the way) is looked at before the first cell is run.
 *
 * @param order what to run, and where it goes
 * @returns     one outcome a notebook, in their order, and the path of the index
 * @throws RecordError when a notebook is faulty or a file that is not ours stands in the way
 */
export async function runNotebooks(order: NotebooksOrder): Promise<{ readonly outcomes: readonly NotebookOutcome[]; readonly index: string }> {
  const index = join(order.out, "index.html");
  const jobs: { chosen: ChosenNotebook; notebook: Notebook; path: string; page: string }[] = [];
  for (const chosen of order.notebooks) {
    jobs.push({ chosen, notebook: await readNotebook(chosen.path), path: join(order.out, `${chosen.name}.ipynb`), page: join(order.out, `${chosen.name}.html`) });
  }
  for (const path of [index, ...jobs.flatMap((job) => [job.path, job.page])]) await requireOwn(path);

  const outcomes: NotebookOutcome[] = [];
  const entries: IndexEntry[] = [];
  for (const [at, job] of jobs.entries()) {
    const of = job.notebook.cells.filter((c) => c.cell_type === "code").length;
    const started = performance.now();
    const run = await runApart({ notebook: job.notebook, folder: dirname(job.chosen.path) }, { record: order.record, begins: (cell) => order.progress(at, job.chosen.name, cell, of) });
    const seconds = (performance.now() - started) / 1000;
    const finished = marked(withOutputs(job.notebook, run.cells, run.language));
    requireNotebook(finished, job.path);
    await writeBeside(job.path, `${JSON.stringify(finished, null, 1)}\n`, { replace: true });
    await writeBeside(job.page, pageOf(jobs, at, finished, order.about, run.errors), { replace: true });
    const cells = run.cells.filter((c) => c.count !== null).length;
    outcomes.push({ path: job.path, page: job.page, cells, errors: run.errors });
    entries.push({
      title: notebookTitle(job.notebook, job.chosen.name),
      address: `${encodeURIComponent(job.chosen.name)}.html`,
      question: notebookQuestion(job.notebook),
      state: run.errors.length === 0 ? `${cells} cells, run in ${seconds.toFixed(0)} s` : `stopped at cell ${run.errors[0].cell} of ${of}: ${run.errors[0].message}`,
      bad: run.errors.length > 0,
    });
  }
  for (const { file, title, question } of await earlierPages(order.out, ["index.html", ...jobs.map((job) => `${job.chosen.name}.html`)])) {
    entries.push({ title, address: encodeURIComponent(file), question, state: "run earlier", bad: false });
  }
  entries.sort((a, b) => (a.address < b.address ? -1 : 1));
  await writeBeside(index, notebookIndex(entries, order.about), { replace: true });
  return { outcomes, index };
}

function pageOf(jobs: readonly { readonly chosen: ChosenNotebook; readonly notebook: Notebook }[], at: number, finished: Notebook, about: string, errors: readonly NotebookError[]): string {
  const neighbor = (i: number): { address: string; title: string } | undefined =>
    i < 0 || i >= jobs.length ? undefined : { address: `${encodeURIComponent(jobs[i].chosen.name)}.html`, title: notebookTitle(jobs[i].notebook, jobs[i].chosen.name) };
  return notebookPage(finished, { name: jobs[at].chosen.name, about, stopped: errors[0], previous: neighbor(at - 1), next: neighbor(at + 1) });
}

/** Our own promise: what is written is a notebook. */
function requireNotebook(notebook: Notebook, path: string): void {
  const faults = notebookFaults(JSON.parse(JSON.stringify(notebook)));
  if (faults.length > 0) throw new RecordError(`${path} would not be a notebook: ${faults[0]}; a cell put out what the format does not know`, "data", { file: path }, faults.slice(1));
}
