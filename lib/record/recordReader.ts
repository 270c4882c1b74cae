import { mustSentence, shown } from "../ground/complaint.js";
import type { AirRecord, FileAccount } from "./airRecord.js";
import { assembleRecord } from "./assembleRecord.js";
import type { RecordPlan } from "./description/plan.js";
import { planRecord } from "./description/planRecord.js";
import { type OpenFile, ResourceReader } from "./resourceReader.js";

/**
 * Reads a record whose bytes are pushed in, file by file: for whoever drives the reading, such as a progress bar or a page.
 *
 * Files come in the order of `paths`: `begin(path)`, `push(chunk)` as often as there are chunks, `end()`; then `finish()`.
 * Chunks are not kept, and their size makes no difference.
 *
 * @example
 * const reader = new RecordReader(description);
 * for (const path of reader.paths) { reader.begin(path); reader.push(bytesOf(path)); reader.end(); }
 * const record = reader.finish();
 */
export class RecordReader {
  /** Paths of the logs as the description has them, in order. */
  readonly paths: readonly string[];
  private readonly plan: RecordPlan;
  private readonly readers: readonly ResourceReader[];
  private readonly readerOf: readonly ResourceReader[];
  private readonly accounts: FileAccount[] = [];
  private open: OpenFile | null = null;
  private record: AirRecord | null = null;

  /**
   * @param description   the parsed datapackage.json
   * @param options.plain true reads every line as text, the slow way: the twin that the quick way is compared with
   * @throws RecordError  kind `description`, with every fault of it
   */
  constructor(description: unknown, options: { readonly plain?: boolean } = {}) {
    this.plan = planRecord(description);
    this.readers = this.plan.resources.map((r) => new ResourceReader(r, options.plain));
    this.readerOf = this.readers.flatMap((r) => r.plan.paths.map(() => r));
    this.paths = Object.freeze(this.readers.flatMap((r) => r.plan.paths));
  }

  /**
   * Begins the next file.
   *
   * @param path  the next of `paths`
   * @param bytes size of the file, where it is known: memory is then asked for once
   * @throws RangeError when it is not the next, or the last one is not ended
   */
  begin(path: string, bytes?: number): void {
    const next = this.paths[this.accounts.length];
    if (this.open !== null) throw new RangeError(mustSentence("RecordReader.begin", "path", "wait until the file before it is ended", shown(path), "call end first"));
    if (path !== next) throw new RangeError(mustSentence("RecordReader.begin", "path", `be the next one, ${next === undefined ? "and none is left" : shown(next)}`, shown(path)));
    this.open = this.readerOf[this.accounts.length].file(path, bytes);
  }

  /** Takes the next bytes of the file that was begun. */
  push(chunk: Uint8Array): void {
    this.opened("push").push(chunk);
  }

  /** Ends the file that was begun. @returns what became of its lines */
  end(): FileAccount {
    const account = this.opened("end").end();
    this.open = null;
    this.accounts.push(account);
    return account;
  }

  /**
   * The record, once every file is read.
   *
   * @throws RangeError  when a file is left
   * @throws RecordError when no row of any file was accepted
   */
  finish(): AirRecord {
    const left = this.paths[this.accounts.length];
    if (this.open !== null || left !== undefined) throw new RangeError(mustSentence("RecordReader.finish", "paths", "all be read", `${shown(left)} not ended`));
    // The rows are handed over, not copied: they make one record.
    this.record ??= assembleRecord(this.plan, this.readers, this.accounts);
    return this.record;
  }

  private opened(at: string): OpenFile {
    if (this.open === null) throw new RangeError(mustSentence(`RecordReader.${at}`, "file", "be begun", "none", "call begin first"));
    return this.open;
  }
}
