import { createHash } from "node:crypto";
import { readdir, stat } from "node:fs/promises";
import { join } from "node:path";
import { RecordError } from "../../ground/complaint.js";
import { readText } from "../disk/openLog.js";
import type { Notebook } from "./notebook.js";
import { pageGenerator } from "./notebookPage.js";

/**
 * A notebook with a mark of what was written, by which a later run knows it untouched.
 *
 * @param notebook that was run
 */
export function marked(notebook: Notebook): Notebook {
  return { ...notebook, metadata: { ...notebook.metadata, airtides: { ran: digestOf(notebook.cells) } } };
}

function digestOf(cells: unknown): string {
  return createHash("sha256").update(JSON.stringify(cells)).digest("base64url");
}

/**
 * Refuses to go on when a file stands in the way that an earlier run did not write, or that was changed since.
 *
 * @param path where a page or a notebook that was run shall go
 * @throws RecordError when something else stands there
 */
export async function requireOwn(path: string): Promise<void> {
  const there = await stat(path).catch(() => undefined);
  if (there === undefined) return;
  const own = there.isFile() && (path.endsWith(".ipynb") ? await isOwnNotebook(path) : isOwnPage((await readText(path, 1 << 30)).slice(0, 4096)));
  if (!own) throw new RecordError(`${path} exists already and is not a page or notebook as an earlier run left it; name another folder with --out or move it away`, "description", { file: path });
}

/** A page of ours that an earlier run left: its file, title and opening question. */
export interface EarlierPage {
  readonly file: string;
  readonly title: string;
  readonly question: string;
}

/**
 * Pages in a folder that earlier runs wrote, so that a run of one notebook does not drop the others from the index.
 *
 * @param folder may not be there yet
 * @param except files that this run writes
 */
export async function earlierPages(folder: string, except: readonly string[]): Promise<EarlierPage[]> {
  const found: EarlierPage[] = [];
  for (const file of (await readdir(folder).catch(() => [])).sort()) {
    if (!file.endsWith(".html") || except.includes(file)) continue;
    const head = (await readText(join(folder, file), 1 << 30).catch(() => "")).slice(0, 4096);
    if (!isOwnPage(head)) continue;
    const plain = (pattern: RegExp): string => (pattern.exec(head)?.[1] ?? "").replace(/&#(\d+);/g, (_, code: string) => String.fromCodePoint(Number(code)));
    found.push({ file, title: plain(/<title>([^<]*)<\/title>/) || file, question: plain(/<meta name="description" content="([^"]*)"/) });
  }
  return found;
}

function isOwnPage(head: string): boolean {
  return head.includes(`content="${pageGenerator}"`);
}

async function isOwnNotebook(path: string): Promise<boolean> {
  try {
    const there = JSON.parse(await readText(path, 1 << 30)) as { cells?: unknown; metadata?: { airtides?: { ran?: unknown } } };
    return there.metadata?.airtides?.ran === digestOf(there.cells);
  } catch {
    return false;
  }
}
