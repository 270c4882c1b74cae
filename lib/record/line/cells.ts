/** How a line is cut into cells. */
export interface CellStyle {
  /** One character or more. */
  readonly delimiter: string;
  /** One character. */
  readonly quoteChar: string;
  readonly doubleQuote: boolean;
  readonly skipInitialSpace: boolean;
}

/**
 * Cuts one line after the other into cells, in place: cell k is `text` from `starts[k]` to `ends[k]`.
 *
 * Quotes are seen only at the beginning of a cell, and never reach beyond the line.
 */
export class Cells {
  text = "";
  /** Cells in the line; places are kept for the first `most` only. */
  count = 0;
  /** The line holds a NUL character. */
  hasNul = false;
  readonly starts: Int32Array;
  readonly ends: Int32Array;
  private readonly delimiterCode: number;
  private readonly quoteCode: number;

  constructor(
    private readonly style: CellStyle,
    private readonly most: number,
  ) {
    this.starts = new Int32Array(most);
    this.ends = new Int32Array(most);
    this.delimiterCode = style.delimiter.length === 1 ? style.delimiter.charCodeAt(0) : -1;
    this.quoteCode = style.quoteChar.charCodeAt(0);
  }

  /** Cuts a line; false when a quote is opened and not closed, or text follows a closing quote. */
  cut(line: string): boolean {
    this.count = 0;
    this.hasNul = false;
    this.text = line;
    if (this.delimiterCode < 0 || this.style.skipInitialSpace) return this.cutSlowly(line);
    const { delimiterCode, quoteCode, most } = this;
    const n = line.length;
    let from = 0;
    for (let i = 0; i < n; i++) {
      const c = line.charCodeAt(i);
      if (c === delimiterCode) {
        if (this.count < most) {
          this.starts[this.count] = from;
          this.ends[this.count] = i;
        }
        this.count++;
        from = i + 1;
      } else if (c === quoteCode && i === from) return this.cutSlowly(line);
      else if (c === 0) this.hasNul = true;
    }
    this.add(from, n);
    return true;
  }

  /** The text of a cell as it stands. */
  cell(k: number): string {
    return this.text.slice(this.starts[k], this.ends[k]);
  }

  /** All cells, blanks at their ends taken off. */
  all(): string[] {
    return Array.from({ length: Math.min(this.count, this.most) }, (_, k) => this.cell(k).trim());
  }

  private add(from: number, to: number): void {
    if (this.count < this.most) {
      this.starts[this.count] = from;
      this.ends[this.count] = to;
    }
    this.count++;
  }

  /** With quotes, blanks to skip or a long delimiter: cells are written one after the other into a new text. */
  private cutSlowly(line: string): boolean {
    const { delimiter, quoteChar, skipInitialSpace } = this.style;
    this.count = 0;
    this.hasNul = line.includes("\0");
    let text = "";
    let i = 0;
    for (;;) {
      if (skipInitialSpace) while (line[i] === " ") i++;
      const from = text.length;
      if (line.startsWith(quoteChar, i)) {
        const end = this.closingQuote(line, i + 1);
        if (end < 0) return false;
        const inner = line.slice(i + 1, end);
        text += this.style.doubleQuote ? inner.split(quoteChar + quoteChar).join(quoteChar) : inner;
        i = end + 1;
        if (i < line.length && !line.startsWith(delimiter, i)) return false;
      } else {
        const end = line.indexOf(delimiter, i);
        text += end < 0 ? line.slice(i) : line.slice(i, end);
        i = end < 0 ? line.length : end;
      }
      this.add(from, text.length);
      if (i >= line.length) break;
      i += delimiter.length;
    }
    this.text = text;
    return true;
  }

  private closingQuote(line: string, from: number): number {
    const { quoteChar, doubleQuote } = this.style;
    for (let i = line.indexOf(quoteChar, from); i >= 0; i = line.indexOf(quoteChar, i)) {
      if (!doubleQuote || line[i + 1] !== quoteChar) return i;
      i += 2;
    }
    return -1;
  }
}
