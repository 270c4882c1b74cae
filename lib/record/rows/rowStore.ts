import type { Quantity } from "../quantity.js";

/**
 * Rows of one place from one resource, in the order in which they were read.
 *
 * Arrays grow by doubling, or at once to what the part of the file that has been read lets expect: fresh memory is dear. Until its file is closed a row's time is what its stamp says: civil time as if it were
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
  /** Share of the current file that has been read; 0 while it is not known. */
  share = 0;
  /** First row of each file. */
  readonly fileStarts: number[] = [];

  constructor(readonly quantities: readonly Quantity[]) {
    this.columns = quantities.map(() => new Float64Array(1024));
  }

  /** Says that the rows to come are of another file. */
  beginFile(): void {
    this.fileStarts.push(this.length);
    this.share = 0;
  }

  /** Adds a row; its values are set afterwards in `columns` at the returned index. */
  add(time: number, isInstant: boolean): number {
    if (this.length === this.times.length) this.grow();
    this.times[this.length] = time;
    if (isInstant) this.isInstant[this.length] = 1;
    return this.length++;
  }

  /** The rows as arrays of their number, without a copy where most of the memory is used. The store is not to be written to any more. */
  handOver(): { readonly times: Float64Array; readonly columns: readonly Float64Array[] } {
    const { length } = this;
    const isLoose = this.times.length > 1.5 * length;
    const cut = (from: Float64Array): Float64Array => (isLoose ? from.slice(0, length) : from.subarray(0, length));
    return { times: cut(this.times), columns: this.columns.map(cut) };
  }

  private grow(): void {
    const start = this.fileStarts[this.fileStarts.length - 1] ?? 0;
    const expected = this.share > 0 ? start + (this.length - start) / this.share : 0;
    const size = Math.ceil(Math.max((this.share > 0 ? 1.25 : 2) * this.length, 1.02 * expected));
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
