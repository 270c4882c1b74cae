import type { Quantity } from "./quantity.js";

/**
 * Rows of one place from one resource, in the order in which they were read.
 *
 * Times are epoch ms. Arrays are grown by doubling; `file` counts the files, so that order inside a file can be judged.
 */
export class RowStore {
  readonly quantities: readonly Quantity[];
  length = 0;
  times: Float64Array = new Float64Array(1024);
  columns: Float64Array[];
  /** Index of the first row of each file that gave rows. */
  readonly fileStarts: number[] = [];

  constructor(quantities: readonly Quantity[]) {
    this.quantities = quantities;
    this.columns = quantities.map(() => new Float64Array(1024));
  }

  beginFile(): void {
    if (this.fileStarts[this.fileStarts.length - 1] !== this.length) this.fileStarts.push(this.length);
  }

  /** Adds a row; its values are set afterwards in `columns` at the returned index. */
  add(time: number): number {
    if (this.length === this.times.length) {
      this.times = doubled(this.times);
      this.columns = this.columns.map(doubled);
    }
    this.times[this.length] = time;
    return this.length++;
  }
}

function doubled(from: Float64Array): Float64Array {
  const to = new Float64Array(2 * from.length);
  to.set(from);
  return to;
}
