import type { ResourcePlan } from "../description/plan.js";
import type { RowTargets, Target } from "../rows/rowTargets.js";
import type { Columns } from "./headerMatch.js";
import { longestLine } from "./lineCutter.js";
import { powersOfTen } from "./numberText.js";
import { firstDay, lastDay } from "./stamp.js";
import { StampTemplate } from "./stampTemplate.js";

const dayMs = 86_400_000;

/** What a cell of a row is read as. */
const cellKind = { ignored: 0, stamp: 1, who: 2, number: 3 } as const;
const [lineFeed, carriageReturn, blank, minus, plus] = [10, 13, 32, 45, 43];

/** How a column of numbers is read. */
interface ByteNumber {
  /** Which number of the plan. */
  readonly index: number;
  /** Code of the decimal sign; −1 where there may be none. */
  readonly decimal: number;
  readonly isEmptyMissing: boolean;
  /** Numbers that mean missing; null for none. */
  readonly missing: ReadonlySet<number> | null;
  readonly factor: number;
  readonly shift: number;
}

/**
 * Reads plain rows of a log from their bytes, without making a text: the common case, quickly.
 *
 * Plain is a line of ASCII without quotes, with as many cells as belong, a stamp like the one before, a known place, and
 * numbers of at most 15 digits or empty cells that mean missing. Any other line is left to RowReader, which knows everything;
 * a line taken here is stored exactly as RowReader would store it.
 */
export class ByteRow {
  /** False where the description asks for what bytes cannot tell. */
  readonly isFit: boolean;
  private readonly kinds: Uint8Array;
  private readonly templates: (StampTemplate | null)[];
  private readonly numbers: (ByteNumber | null)[];
  private readonly names: readonly Uint8Array[];
  private readonly owners: readonly Target[];
  private readonly values: Float64Array;
  private readonly delimiter: number;
  private readonly quote: number;
  private readonly comment: number;
  private readonly hasZone: boolean;
  /** Lines taken so far. */
  lines = 0;

  constructor(
    plan: ResourcePlan,
    { width, at }: Columns,
    private readonly targets: RowTargets,
  ) {
    const { delimiter, quoteChar, skipInitialSpace } = plan.cells;
    this.delimiter = delimiter.charCodeAt(0);
    this.quote = quoteChar.charCodeAt(0);
    this.comment = plan.commentChar === "" ? -1 : plan.commentChar.charCodeAt(0);
    this.hasZone = plan.zone !== null;
    this.kinds = new Uint8Array(width);
    this.templates = Array.from({ length: width }, () => null);
    this.numbers = Array.from({ length: width }, () => null);
    this.values = new Float64Array(plan.numbers.length).fill(Number.NaN);
    for (const stamp of plan.stamps) {
      this.kinds[at[stamp.field]] = cellKind.stamp;
      this.templates[at[stamp.field]] = new StampTemplate(stamp);
    }
    for (const [index, { field, style, missing, factor, shift }] of plan.numbers.entries()) {
      if (at[field] < 0) continue;
      this.kinds[at[field]] = cellKind.number;
      this.numbers[at[field]] = { index, decimal: style.isInteger ? -1 : style.decimalChar.charCodeAt(0), isEmptyMissing: missing.texts.has(""), missing: missing.numbers.size === 0 ? null : missing.numbers, factor, shift };
    }
    if (plan.who !== null) this.kinds[at[plan.who.field]] = cellKind.who;
    const written = [...(plan.who?.places ?? [])];
    this.names = written.map(([text]) => new TextEncoder().encode(text));
    this.owners = written.map(([, place]) => targets.byPlace.get(place) as Target);
    // Digits and signs that mean something else, a long or wide delimiter, or a place told by an absent column: not from bytes.
    const isPlainSign = (code: number): boolean => code < 128 && code !== lineFeed && code !== carriageReturn && !/[0-9.+-]/.test(String.fromCharCode(code));
    const signs = [this.delimiter, this.quote];
    const decimals = this.numbers.flatMap((n) => (n === null || n.decimal < 0 ? [] : [n.decimal]));
    this.isFit =
      delimiter.length === 1 &&
      !skipInitialSpace &&
      signs.every(isPlainSign) &&
      decimals.every((d) => d < 128 && !signs.includes(d) && !(d >= 48 && d <= 57) && d !== plus && d !== minus && d > blank) &&
      width < 1000 &&
      (plan.who === null || at[plan.who.field] >= 0) &&
      plan.stamps.every((s) => at[s.field] >= 0) &&
      this.comment < 127 &&
      written.every(([text]) => text !== "" && text === text.trim() && !/[\u0000-\u001f\u007f]/.test(text) && !text.includes(delimiter) && !text.includes(quoteChar));
  }

  /**
   * Reads lines from `from` on, as long as they are plain; `lines` counts them.
   *
   * @param bytes holds a line feed at `to` − 1
   * @returns     where the first line begins that is not plain; `to` when all are
   */
  read(bytes: Uint8Array, from: number, to: number): number {
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    let at = from;
    while (at < to) {
      const next = this.readLine(bytes, view, at, to);
      if (next < 0) return at;
      at = next;
    }
    return at;
  }

  /** Reads one line; where the next one begins, or −1 when it is not plain, and nothing was stored. */
  private readLine(bytes: Uint8Array, view: DataView, from: number, to: number): number {
    const { kinds, delimiter, quote, values, numbers, templates } = this;
    const width = kinds.length;
    if (bytes[from] === this.comment) return -1;
    let target = this.targets.lone;
    let day = Number.NaN;
    let ofDay = 0;
    let offset = Number.NaN;
    let i = from;
    for (let k = 0; k < width; k++) {
      const kind = kinds[k];
      let c = 0;
      if (kind === cellKind.number) {
        const number = numbers[k] as ByteNumber;
        const begin = i;
        c = bytes[i];
        const isNegative = c === minus;
        if (isNegative || c === plus) c = bytes[++i];
        let first = i;
        let whole = 0;
        while (c >= 48 && c <= 57) {
          whole = 10 * whole + (c - 48);
          c = bytes[++i];
        }
        let digits = i - first;
        let after = 0;
        if (c === number.decimal) {
          first = i + 1;
          c = bytes[++i];
          while (c >= 48 && c <= 57) {
            whole = 10 * whole + (c - 48);
            c = bytes[++i];
          }
          after = i - first;
          digits += after;
        }
        if (digits === 0) {
          if (i !== begin || !number.isEmptyMissing) return -1;
          values[number.index] = Number.NaN;
        } else {
          // Fifteen digits are exact, and so is the power of ten: one division rounds correctly.
          if (digits > 15) return -1;
          let value = after > 0 ? whole / powersOfTen[after] : whole;
          if (isNegative) value = -value;
          if (number.missing?.has(value)) return -1;
          values[number.index] = number.factor * (value + number.shift);
        }
      } else if (kind === cellKind.stamp) {
        const template = templates[k] as StampTemplate;
        let end = i + template.length;
        if (!(template.length > 0 && end < to && isEnd(bytes[end], delimiter) && template.read(bytes, view, i))) {
          end = i;
          while (!isEnd(bytes[end], delimiter)) end++;
          if (this.isUnsteady(template) || !this.learn(template, bytes, i, end)) return -1;
        }
        i = end;
        c = bytes[i];
        if (!Number.isNaN(template.day)) day = template.day;
        if (!Number.isNaN(template.offsetMinutes)) {
          if (!Number.isNaN(offset)) return -1;
          offset = template.offsetMinutes;
        }
        ofDay += template.ofDay;
      } else if (kind === cellKind.who) {
        const found = this.whose(bytes, i, to);
        if (found < 0) return -1;
        target = this.owners[found];
        i += this.names[found].length;
        c = bytes[i];
      } else {
        c = bytes[i];
        while (c !== delimiter && c >= blank && c < 127 && c !== quote) c = bytes[++i];
      }
      if (k === width - 1) {
        if (c === carriageReturn) c = bytes[++i];
        if (c !== lineFeed) return -1;
      } else if (c !== delimiter) return -1;
      i++;
    }
    if ((!this.hasZone && Number.isNaN(offset)) || i - from > longestLine) return -1;
    this.lines++;
    this.targets.put(target, day * dayMs + ofDay, offset, values);
    return i;
  }

  /** Which of the written names stands at `i` and fills the cell; −1 for none. */
  private whose(bytes: Uint8Array, i: number, to: number): number {
    const { names } = this;
    for (let n = 0; n < names.length; n++) {
      const name = names[n];
      const end = i + name.length;
      if (end >= to || !isEnd(bytes[end], this.delimiter)) continue;
      let j = 0;
      while (j < name.length && bytes[i + j] === name[j]) j++;
      if (j === name.length) return n;
    }
    return -1;
  }

  /** A column whose every stamp is unlike the one before gains nothing here. */
  private isUnsteady(template: StampTemplate): boolean {
    return template.misses > 100 && 4 * template.misses > this.lines;
  }

  private learn(template: StampTemplate, bytes: Uint8Array, from: number, to: number): boolean {
    if (!template.learn(bytes, from, to)) return false;
    const { day } = template;
    if (Number.isNaN(day) || (day >= firstDay && day <= lastDay)) return true;
    template.length = 0;
    return false;
  }
}

/** Whether a byte ends a cell. */
function isEnd(byte: number, delimiter: number): boolean {
  return byte === delimiter || byte === lineFeed || byte === carriageReturn;
}
