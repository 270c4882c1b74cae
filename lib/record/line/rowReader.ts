import { shown } from "../../ground/complaint.js";
import type { ResourcePlan } from "../description/plan.js";
import type { RowTargets } from "../rows/rowTargets.js";
import { Cells } from "./cells.js";
import type { Columns } from "./headerMatch.js";
import { readNumber, wordNumber } from "./numberText.js";
import { firstDay, lastDay, newStamp, type Stamp } from "./stamp.js";

const dayMs = 86_400_000;

/** What a row is rejected for when its stamp carries no offset and the description names no zone. */
export const noOffsetReason = "the time carries no offset, and the description names no zone";

/** Reads rows of one file into the stores of its places. A row is taken whole or not at all. */
export class RowReader {
  private readonly cells: Cells;
  private readonly stamp: Stamp = newStamp();
  private readonly values: Float64Array;

  constructor(
    private readonly plan: ResourcePlan,
    private readonly columns: Columns,
    private readonly targets: RowTargets,
  ) {
    this.cells = new Cells(plan.cells, columns.width + 1);
    this.values = new Float64Array(plan.numbers.length);
  }

  /**
   * Reads one line as a row.
   *
   * @returns null when it was taken, else why it is rejected: words, and in brackets what was found
   */
  read(line: string): string | null {
    const { cells, plan } = this;
    if (!cells.cut(line)) return this.damage("a quote is opened and not closed, or text follows it");
    const { width } = this.columns;
    if (cells.count < width) return this.damage(`it has ${fields(cells.count)} where ${width} belong (cut short?)`);
    if (cells.count > width && !(cells.count === width + 1 && cells.cell(width).trim() === "")) return this.damage(`it has ${fields(cells.count)} where ${width} belong (two lines in one?)`);
    if (cells.hasNul) return this.damage("");
    const late = this.readStamp();
    if (late !== null) return late;
    let target = this.targets.lone;
    if (plan.who !== null) {
      const written = this.cell(plan.who.field).trim();
      const place = plan.who.places.get(written);
      if (place === undefined) return this.damage(written === "" ? `${plan.who.name} is empty, so no place is known` : `${plan.who.name} names no place that is known (got ${printable(written)})`);
      target = this.targets.byPlace.get(place) ?? null;
    }
    for (let k = 0; k < plan.numbers.length; k++) {
      const reason = this.readValue(k);
      if (reason !== null) return reason;
    }
    const { day, ofDay, offsetMinutes } = this.stamp;
    this.targets.put(target, day * dayMs + ofDay, offsetMinutes, this.values);
    return null;
  }

  /** The cell of a field of the description, as it stands; empty where the file has no such column. */
  private cell(field: number): string {
    const at = this.columns.at[field];
    return at < 0 ? "" : this.cells.cell(at);
  }

  private readStamp(): string | null {
    const { plan, cells, stamp } = this;
    stamp.day = Number.NaN;
    stamp.ofDay = 0;
    stamp.offsetMinutes = Number.NaN;
    for (const s of plan.stamps) {
      const at = this.columns.at[s.field];
      const { text } = cells;
      let from = cells.starts[at];
      let to = cells.ends[at];
      while (from < to && isBlank(text.charCodeAt(from))) from++;
      while (to > from && isBlank(text.charCodeAt(to - 1))) to--;
      stamp.fault = "";
      if (s.read(text, from, to, stamp)) continue;
      const got = printable(text.slice(from, to));
      if (from === to) return this.damage(`${s.name} is empty`);
      return this.damage(stamp.fault === "" ? `${s.name} is not of the form ${s.form} (got ${got})` : `${s.name} does not exist (got ${got}: ${stamp.fault})`);
    }
    if (!(stamp.day >= firstDay && stamp.day <= lastDay)) {
      return `the year is not between 1990 and 2100: a clock that was not set? (got ${printable(this.cell(plan.stamps[0].field).trim())})`;
    }
    return Number.isNaN(stamp.offsetMinutes) && plan.zone === null ? noOffsetReason : null;
  }

  private readValue(k: number): string | null {
    const plan = this.plan.numbers[k];
    const at = this.columns.at[plan.field];
    this.values[k] = Number.NaN;
    if (at < 0) return null;
    const { text } = this.cells;
    let from = this.cells.starts[at];
    let to = this.cells.ends[at];
    while (from < to && isBlank(text.charCodeAt(from))) from++;
    while (to > from && isBlank(text.charCodeAt(to - 1))) to--;
    const value = readNumber(text, from, to, plan.style);
    const { texts, numbers } = plan.missing;
    const isPlain = value - value === 0;
    if ((!isPlain || numbers.has(value)) && (texts.has(text.slice(from, to)) || texts.has(this.cells.cell(at)))) return null;
    if (isPlain) {
      this.values[k] = plan.factor * (value + plan.shift);
      return null;
    }
    const written = text.slice(from, to);
    const word = wordNumber(written);
    if (word === "missing") return null;
    if (word === "infinite" || !Number.isNaN(value)) return `${plan.name} is infinite (got ${printable(written)})`;
    return this.damage(written === "" ? `${plan.name} is empty, and that is not one of the missing values` : `${plan.name} is not a number (got ${printable(written)})`);
  }

  /** A reason, unless the line's bytes tell a plainer one. */
  private damage(reason: string): string {
    const { text } = this.cells;
    if (this.cells.hasNul || text.includes("\0")) return "it holds NUL bytes: a part of the card that was never written";
    if (/[\u0001-\u0008\u000e-\u001f\u007f]/.test(text)) return "it holds bytes that are no text";
    return reason;
  }
}

function fields(count: number): string {
  return count === 1 ? "1 field" : `${count} fields`;
}

function isBlank(code: number): boolean {
  return code === 32 || code === 9 || code === 160;
}

/** Text of a damaged cell made fit for a sentence. */
function printable(text: string): string {
  return shown(text.replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029\ufffd]/g, "·"));
}
