import type { Quantity } from "../quantity.js";

/**
 * Rows of one place from one resource, in the order in which they were read.
 *
 * Arrays are grown by doubling. Until its file is closed a row's time is what its stamp says: civil time as if it were
 * UTC, or an instant where the stamp carried its own offset; then it is the instant.
 */
export class RowStore {
  length = 0;
  /** Epoch ms · [length] used. */
  times: Float64Array = new Float64Array(1024);
  /** 1 where the stamp carried its own offset · [length] used. */
  isInstant: Uint8Array = new Uint8Array(1024);
  /** House units, one array a quantity · NaN is missing · [length] used. */
  columns: Float64Array[];
  /** First row of each file. */
  readonly fileStarts: number[] = [];

  constructor(readonly quantities: readonly Quantity[]) {
    this.columns = quantities.map(() => new Float64Array(1024));
  }

  /** Says that the rows to come are of another file. */
  beginFile(): void {
    this.fileStarts.push(this.length);
  }

  /** Adds a row; its values are set afterwards in `columns` at the returned index. */
  add(time: number, isInstant: boolean): number {
    if (this.length === this.times.length) this.grow();
    this.times[this.length] = time;
    if (isInstant) this.isInstant[this.length] = 1;
    return this.length++;
  }

  private grow(): void {
    const size = 2 * this.times.length;
    const larger = (from: Float64Array): Float64Array => {
      const to = new Float64Array(size);
      to.set(from);
      return to;
    };
    this.times = larger(this.times);
    this.columns = this.columns.map(larger);
    const flags = new Uint8Array(size);
    flags.set(this.isInstant);
    this.isInstant = flags;
  }
}
