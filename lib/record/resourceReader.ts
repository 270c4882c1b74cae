import { RecordError, shown } from "../ground/complaint.js";
import { instantText } from "../ground/instant.js";
import { instantsOf } from "../ground/zone.js";
import type { FileAccount, RejectedLine } from "./airRecord.js";
import { placesOf, type ResourcePlan } from "./description/plan.js";
import { columnsOf, type RowColumns } from "./header.js";
import { LineCutter, longestLine } from "./lineCutter.js";
import { numberFrom } from "./numberText.js";
import type { Quantity } from "./quantity.js";
import { RowStore } from "./rowStore.js";
import { splitLine } from "./splitLine.js";
import type { CivilTime } from "../ground/instant.js";

const earliest = Date.UTC(1990, 0, 1);
const latest = Date.UTC(2101, 0, 1);

/** Reads the files of one resource, one after the other, into rows of its places. */
export class ResourceReader {
  readonly stores: ReadonlyMap<string, RowStore>;
  readonly accounts: FileAccount[] = [];
  /** Rows that fell into an hour the clocks skipped. */
  skippedHourRows = 0;
  private readonly values: Float64Array;

  constructor(private readonly plan: ResourcePlan) {
    const numbers = plan.fields.filter((f) => f.kind === "number");
    const stores = new Map<string, RowStore>();
    for (const place of placesOf(plan)) {
      stores.set(place, new RowStore(numbers.filter((f) => f.place === null || f.place === place).map((f) => f.quantity as Quantity)));
    }
    this.stores = stores;
    this.values = new Float64Array(plan.fields.length).fill(Number.NaN);
  }

  /** Begins a file: give its bytes to `push`, then call `end`. */
  file(path: string): { push(chunk: Uint8Array): void; end(): FileAccount } {
    const rejected: RejectedLine[] = [];
    const plan = this.plan;
    let accepted = 0;
    let skipped = 0;
    let counted = 0;
    let header: string | null = null;
    let columns: RowColumns | null = plan.headerRow === 0 ? columnsOf(plan, null, path, 0) : null;
    const last = new Map<RowStore, number>();
    for (const store of this.stores.values()) store.beginFile();

    const take = (text: string | null, line: number): void => {
      if (text === null) {
        rejected.push({ line, reason: `longer than ${longestLine} characters` });
        return;
      }
      if (plan.commentRows.has(line) || (plan.commentChar !== "" && text.startsWith(plan.commentChar)) || text.trim() === "") {
        skipped++;
        return;
      }
      counted++;
      if (columns === null) {
        skipped++;
        if (counted < plan.headerRow) return;
        const names = splitLine(text, plan.line);
        if (names === null) throw new RecordError(`${path} line ${line}: the header must have its quotes closed (got ${shown(text)})`, "description", { file: path, line });
        columns = columnsOf(plan, names, path, line);
        header = text;
        return;
      }
      if (header !== null && text === header) {
        skipped++;
        return;
      }
      const reason = this.row(text, columns, last);
      if (reason === null) accepted++;
      else rejected.push({ line, reason });
    };

    const cutter = new LineCutter(path, plan.encoding, take);
    return {
      push: (chunk) => cutter.push(chunk),
      end: () => {
        cutter.end();
        const account: FileAccount = Object.freeze({ path, lines: cutter.lines, accepted, skipped, rejected: Object.freeze(rejected) });
        this.accounts.push(account);
        return account;
      },
    };
  }

  /** Takes one row; returns why it is rejected, or null. */
  private row(text: string, columns: RowColumns, last: Map<RowStore, number>): string | null {
    const cells = splitLine(text, this.plan.line);
    if (cells === null) return "a quote is not closed";
    if (cells.length < columns.width) return `too few fields (${cells.length} of ${columns.width})`;
    if (cells.length > columns.width && !(cells.length === columns.width + 1 && cells[columns.width].trim() === "")) return `too many fields (${cells.length} for ${columns.width})`;
    for (const { field, at, slot } of columns.numbers) {
      const cell = cells[at];
      if (field.missing.has(cell)) {
        this.values[slot] = Number.NaN;
        continue;
      }
      const trimmed = cell.trim();
      const value = field.missing.has(trimmed) ? Number.NaN : numberFrom(trimmed, field.style);
      if (value === undefined) return `${field.name} is no number (${shown(printable(cell))})`;
      if (value === Infinity || value === -Infinity) return `${field.name} is infinite`;
      this.values[slot] = value;
    }
    const civil = this.civil(cells, columns);
    if (typeof civil === "string") return civil;
    let place: string | undefined;
    if (columns.place !== null) {
      const cell = cells[columns.place.at];
      place = columns.place.table.get(cell) ?? columns.place.table.get(cell.trim());
      if (place === undefined) return `${columns.place.name} names no place (${shown(printable(cell))})`;
    }
    return this.keep(civil, columns, place, last);
  }

  private civil(cells: readonly string[], columns: RowColumns): CivilTime | string {
    const { datetime, date, time } = columns;
    if (datetime !== null) return stampOf(datetime, cells) ?? `${datetime.field.name} is no time that exists in its format (${shown(printable(cells[datetime.at]))})`;
    if (date === null || time === null) return "no time";
    const day = stampOf(date, cells);
    if (day === null) return `${date.field.name} is no day that exists in its format (${shown(printable(cells[date.at]))})`;
    const clock = stampOf(time, cells);
    if (clock === null) return `${time.field.name} is no time that exists in its format (${shown(printable(cells[time.at]))})`;
    return { civil: day.civil + clock.civil, offsetMinutes: clock.offsetMinutes ?? day.offsetMinutes };
  }

  private keep(civil: CivilTime, columns: RowColumns, place: string | undefined, last: Map<RowStore, number>): string | null {
    const { zone } = this.plan;
    let earlier: number;
    let later: number;
    if (civil.offsetMinutes !== null) earlier = later = civil.civil - civil.offsetMinutes * 60000;
    else if (zone === null) return "the time has no offset, and the description no zone";
    else {
      if (civil.civil < earliest - 86400000 || civil.civil >= latest) return `the time lies outside 1990 to 2100 (${instantText(civil.civil).slice(0, 16)})`;
      const reading = instantsOf(zone, civil.civil);
      ({ earlier, later } = reading);
      if (reading.skipped) this.skippedHourRows++;
    }
    if (earlier < earliest || earlier >= latest) return `the time lies outside 1990 to 2100 (${instantText(earlier).slice(0, 16)})`;
    for (const [name, columnSet] of columns.byPlace) {
      if (place !== undefined && name !== place) continue;
      const store = this.stores.get(name) as RowStore;
      // An hour shown twice: the first time unless the log has been there already.
      const before = last.get(store);
      const written = later !== earlier && before !== undefined && earlier <= before && later > before ? later : earlier;
      last.set(store, written);
      const row = store.add(written - this.aheadAt(written) + this.plan.stampShift);
      for (let c = 0; c < columnSet.length; c++) {
        const { slot, unit } = columnSet[c];
        store.columns[c][row] = unit.factor * (this.values[slot] + unit.shift);
      }
      if (place !== undefined) break;
    }
    return null;
  }

  /** How far the logger's clock was ahead, ms: linear between corrections, constant outside them. */
  private aheadAt(at: number): number {
    const list = this.plan.corrections;
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
}

/** A stamp's text to its time; a text like the last one is not read again. */
function stampOf(column: NonNullable<RowColumns["datetime"]>, cells: readonly string[]): CivilTime | null {
  const text = cells[column.at];
  if (text !== column.lastText) {
    column.lastText = text;
    column.lastTime = column.field.read?.(text.trim()) ?? null;
  }
  return column.lastTime;
}

/** Text of a damaged line made fit for a sentence. */
function printable(text: string): string {
  return text.replace(/[\u0000-\u001f\u007f-\u009f\ufffd]/g, "·");
}
