import { readdir } from "node:fs/promises";
import { basename, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { RecordError } from "../../ground/complaint.js";

/** A notebook to be run. */
export interface ChosenNotebook {
  /** Its file's name without the ending. */
  readonly name: string;
  /** Whole path. */
  readonly path: string;
}

/** The folder of the notebooks that come with this package; it lies as deep from lib/ as from dist/. */
const notebooksFolder: string = fileURLToPath(new URL("../../../notebooks", import.meta.url));

/**
 * The notebooks that come with this package, or those among them that are asked for, or a reader's own.
 *
 * @param only   names (`06-tide`), beginnings of one name (`06`), or paths of own .ipynb files; empty for all
 * @param folder where the package's notebooks lie
 * @throws RecordError when a name fits none or several, or there are no notebooks
 */
export async function chooseNotebooks(only: readonly string[], folder: string = notebooksFolder): Promise<ChosenNotebook[]> {
  const files = (await readdir(folder).catch(() => [])).filter((f) => f.endsWith(".ipynb") && !f.startsWith(".")).sort();
  const all = files.map((f) => ({ name: f.slice(0, -6), path: join(folder, f) }));
  if (only.length === 0) {
    if (all.length === 0) throw new RecordError(`${folder} must hold notebooks (got none); install the package anew or name your own with --only FILE.ipynb`, "description");
    return all;
  }
  const chosen = only.map((name): ChosenNotebook => {
    if (name.endsWith(".ipynb")) return { name: basename(name, ".ipynb"), path: resolve(name) };
    const exact = all.filter((n) => n.name === name);
    const fitting = exact.length > 0 ? exact : all.filter((n) => n.name.startsWith(name));
    if (fitting.length !== 1) throw new RecordError(`notebooks: --only must name one of ${all.map((n) => n.name).join(", ")}, or an .ipynb file (got "${name}")`, "description");
    return fitting[0];
  });
  const twice = chosen.find((c, i) => chosen.findIndex((other) => other.name === c.name) !== i);
  if (twice !== undefined) throw new RecordError(`notebooks: --only must name each notebook once (got "${twice.name}" twice)`, "description");
  return chosen;
}
