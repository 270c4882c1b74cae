import { RecordError } from "../ground/complaint.js";
import type { FileAccount, RejectedLine } from "./airRecord.js";
import type { ClockCorrection, ResourcePlan } from "./description/plan.js";
import { ByteLines } from "./line/byteLines.js";
import { ByteRow } from "./line/byteRow.js";
import { Cells } from "./line/cells.js";
import { type Columns, columnsInOrder, listed, matchHeader } from "./line/headerMatch.js";
import { LineCutter, longestLine } from "./line/lineCutter.js";
import { RowReader } from "./line/rowReader.js";
import { resolveCivil } from "./rows/civilOrder.js";
import { RowStore } from "./rows/rowStore.js";
import { RowTargets } from "./rows/rowTargets.js";

/** Most cells of a header that are looked at. */
const mostCells = 4096;

/** A file that is being read: its bytes go in, its account comes out. */
export interface OpenFile {
  push(chunk: Uint8Array): void;
  end(): FileAccount;
}

/** Both ways to read the rows of a file: from text, and from bytes where that is possible. */
interface Rows {
  readonly text: RowReader;
  readonly bytes: ByteRow | null;
}

/** A line in the header's place that does not fit, and what the header must do. */
interface StrangeHeader {
  readonly line: number;
  readonly names: readonly string[];
  readonly must: string;
}

/** Reads the files of one resource, one after the other, into rows of its places; every line is accounted for. */
export class ResourceReader {
  readonly stores: ReadonlyMap<string, RowStore>;
  readonly notes: string[] = [];
  /** Rows that stood in an hour that the clocks of their zone skipped, all files together. */
  inSkippedHours = 0;
  private readonly targets: RowTargets;
  private readonly order: Columns;
  private readonly headerCells: Cells;
  /** Columns and header of the last file that had one. */
  private columns: Columns | null = null;
  private headerText: string | null = null;

  /** Up to this line some are comments by their number. */
  private readonly lastCommentRow: number;

  /** @param isPlain reads every row from text, the slow way: what tests compare with */
  constructor(
    readonly plan: ResourcePlan,
    private readonly isPlain: boolean = false,
  ) {
    const of = (place: string): RowStore => new RowStore([...new Set(plan.numbers.flatMap((n) => (n.place === null || n.place === place ? [n.quantity] : [])))]);
    this.stores = new Map(plan.places.map((place) => [place, of(place)]));
    this.targets = new RowTargets(plan, this.stores);
    this.lastCommentRow = Math.max(0, ...plan.commentRows);
    this.order = columnsInOrder(plan);
    this.headerCells = new Cells(plan.cells, mostCells);
    if (!plan.hasHeader) this.columns = this.order;
  }

  /** Offset of the first stamp that carried its own · minutes; NaN when none did. */
  get firstOffset(): number {
    return this.targets.firstOffset;
  }

  /** Begins a file. @param bytes its size, where it is known */
  file(path: string, bytes = 0): OpenFile {
    const rejected: RejectedLine[] = [];
    let accepted = 0;
    let skipped = 0;
    let read = 0;
    let rows: Rows | null = this.plan.hasHeader ? null : this.rows(this.order);
    /** The first line that should have been the header. */
    let strange: StrangeHeader | null = null;
    for (const store of this.stores.values()) store.beginFile();

    const take = (text: string | null, line: number): void => {
      if (text === null) {
        rejected.push({ line, reason: `it is longer than ${longestLine} characters` });
        return;
      }
      if (this.isSkipped(text, line)) {
        skipped++;
        return;
      }
      if (rows === null) {
        if (this.plan.headerRow > 1 && line < this.plan.headerRow) {
          skipped++;
          return;
        }
        const found = this.header(text);
        if ("at" in found) {
          skipped++;
          this.columns = found;
          this.headerText = text.trimEnd();
          rows = this.rows(found);
          return;
        }
        // Only a file's first line can tell that it has no header: behind a header that does not fit, columns are anybody's.
        if (strange === null) rows = this.withoutHeader(text, path);
        if (!isDamaged(text)) strange ??= { line, ...found };
        if (rows === null) {
          rejected.push({ line, reason: "it stands before the header, and is neither header nor row" });
          return;
        }
        accepted++;
        return;
      }
      const reason = rows.text.read(text);
      if (reason === null) accepted++;
      else if (this.isHeaderAgain(text)) skipped++;
      else rejected.push({ line, reason });
    };

    const lastCommentRow = this.lastCommentRow;
    const taker = {
      lines: 0,
      read(bytes: Uint8Array, from: number, to: number, line: number): number {
        if (rows === null || rows.bytes === null || line <= lastCommentRow) return from;
        const before = rows.bytes.lines;
        const at = rows.bytes.read(bytes, from, to);
        taker.lines += rows.bytes.lines - before;
        return at;
      },
    };
    const lines = this.isPlain ? new LineCutter(this.plan.encoding, take) : new ByteLines(this.plan.encoding, taker, take);
    return {
      push: (chunk) => {
        if (bytes > 0 && read > 0) for (const store of this.stores.values()) store.share = Math.min(1, read / bytes);
        lines.push(chunk);
        read += chunk.length;
      },
      end: () => {
        lines.end();
        if (rows === null) this.judgeHeader(path, strange);
        this.closeFile(path);
        return Object.freeze({ path, lines: lines.lines, accepted: accepted + taker.lines, skipped, rejected: Object.freeze(rejected.map((r) => Object.freeze(r))) });
      },
    };
  }

  private rows(columns: Columns): Rows {
    const bytes = this.isPlain ? null : new ByteRow(this.plan, columns, this.targets);
    return { text: new RowReader(this.plan, columns, this.targets), bytes: bytes?.isFit === true ? bytes : null };
  }

  private isSkipped(text: string, line: number): boolean {
    const { commentChar, commentRows } = this.plan;
    if (commentChar !== "" && text.startsWith(commentChar)) return true;
    if (commentRows.size > 0 && commentRows.has(line)) return true;
    // Only a line that begins with a blank can be blank.
    const first = text.charCodeAt(0);
    return text === "" || ((first === 32 || first === 9 || first === 160) && text.trim() === "");
  }

  private header(text: string): Columns | { readonly names: readonly string[]; readonly must: string } {
    const cells = this.headerCells;
    if (!cells.cut(text)) return { names: [], must: "have its quotes closed" };
    const names = cells.all();
    const found = matchHeader(this.plan, names);
    return typeof found === "string" ? { names, must: found } : found;
  }

  /** A file whose first line is a row, not a header: its columns are those of the file before, or of the description. */
  private withoutHeader(text: string, path: string): Rows | null {
    const columns = this.columns ?? (this.plan.fieldsMatch === "exact" ? this.order : null);
    if (columns === null) return null;
    const rows = this.rows(columns);
    if (rows.text.read(text) !== null) return null;
    this.notes.push(`${path} has no header; its columns were taken in the order of ${this.columns === null ? "the description" : "the file before it"}`);
    return rows;
  }

  /** A line equal to the header, or to the names of the fields, anywhere in a file. */
  private isHeaderAgain(text: string): boolean {
    if (text.trimEnd() === this.headerText) return true;
    const { fieldNames } = this.plan;
    if (!this.headerCells.cut(text) || this.headerCells.count < fieldNames.length) return false;
    const names = this.headerCells.all();
    if (names.length === fieldNames.length + 1 && names[names.length - 1] === "") names.pop();
    return names.length === fieldNames.length && names.every((n, i) => n === fieldNames[i]);
  }

  /** No header was found in a file: a line of text that does not fit is a fault of the description, anything else a damaged file. */
  private judgeHeader(path: string, strange: StrangeHeader | null): void {
    const { fieldNames } = this.plan;
    if (strange !== null && (strange.names.length === fieldNames.length || strange.names.some((n) => fieldNames.includes(n)))) {
      const { line, names, must } = strange;
      throw new RecordError(`${path} line ${line}: the header must ${must} (got ${listed(names)})`, "description", { file: path, line });
    }
    this.notes.push(`${path} has no line that could be its header, ${listed(fieldNames)}`);
  }

  /** Turns the stamps of a file into true instants: zone, clock corrections, middle of the averaging time. */
  private closeFile(path: string): void {
    const { zone, corrections, stampShift } = this.plan;
    let inSkippedHour = 0;
    for (const [place, store] of this.stores) {
      const own = this.plan.placeCorrections.get(place) ?? [];
      const from = store.fileStarts[store.fileStarts.length - 1];
      const times = store.times.subarray(from, store.length);
      const isInstant = store.isInstant.subarray(from, store.length);
      if (zone !== null) inSkippedHour += resolveCivil(times, isInstant, zone);
      if (corrections.length === 0 && own.length === 0 && stampShift === 0) continue;
      for (let i = 0; i < times.length; i++) times[i] = Math.round(times[i] - aheadAt(corrections, times[i]) - aheadAt(own, times[i])) + stampShift;
    }
    this.inSkippedHours += inSkippedHour;
    if (inSkippedHour > 0) {
      const rows = inSkippedHour === 1 ? "1 reading is" : `${inSkippedHour} readings are`;
      this.notes.push(`${path}: ${rows} stamped in an hour that the clocks of ${zone?.name} skipped; perhaps the logger keeps another time`);
    }
  }
}

/** Whether a line holds characters that no text has. */
function isDamaged(text: string): boolean {
  return /[\u0000-\u0008\u000e-\u001f\u007f]/.test(text);
}

/** How far the logger's clock was ahead at its own time · ms: straight between corrections, constant outside them. */
export function aheadAt(list: readonly ClockCorrection[], at: number): number {
  const n = list.length;
  if (n === 0) return 0;
  if (at <= list[0].at) return list[0].ahead;
  if (at >= list[n - 1].at) return list[n - 1].ahead;
  let k = 1;
  while (list[k].at < at) k++;
  const a = list[k - 1];
  const b = list[k];
  return a.ahead + ((b.ahead - a.ahead) * (at - a.at)) / (b.at - a.at);
}
