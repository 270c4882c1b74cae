/** Rows of a block: small enough that all its columns stay in the processor's nearest memory. */
export const blockRows = 128;

/** Columns carried through L⁻¹ block by block, and the sums of their products. */
export interface BlockProducts {
  /** Columns of the block to be filled by the caller · [size × blockRows]. */
  readonly block: Float64Array;
  /** Σ z zᵀ/D over all blocks; entries with column ≤ row are right · row-major [size × size]. */
  readonly sums: Float64Array;
  /** Columns, rounded up to an even number; a column beyond those asked for stays 0. */
  readonly size: number;
  /** Forgets everything. */
  clear(): void;
  /** Turns the block into z = L⁻¹·block, going on from the block before, and adds z zᵀ/D. */
  add(below1: Float64Array, below2: Float64Array, inverseD: Float64Array, from: number, count: number): void;
}

/**
 * Prepares the inner loops of `fusedPass`: forward substitution of many columns and the sums of their products.
 *
 * @param columns how many columns
 */
export function blockProducts(columns: number): BlockProducts {
  const size = columns + (columns % 2);
  const block: Float64Array = new Float64Array(size * blockRows);
  const scaled: Float64Array = new Float64Array(size * blockRows);
  const carry: Float64Array = new Float64Array(2 * size);
  const sums: Float64Array = new Float64Array(size * size);
  return {
    block,
    sums,
    size,
    clear: () => {
      carry.fill(0);
      sums.fill(0);
    },
    add: (below1, below2, inverseD, from, count) => {
      for (let k = 0; k < size; k += 2) forwardPair(block, scaled, carry, k, below1, below2, inverseD, from, count);
      for (let k = 0; k < size; k += 2) for (let m = 0; m <= k; m += 2) addTile(scaled, block, k, m, size, count, sums);
    },
  };
}

/** Forward substitution of columns k and k + 1, whose chains then run side by side; also stores z/D. */
function forwardPair(
  block: Float64Array,
  scaled: Float64Array,
  carry: Float64Array,
  k: number,
  below1: Float64Array,
  below2: Float64Array,
  inverseD: Float64Array,
  from: number,
  count: number,
): void {
  const a = k * blockRows;
  const b = a + blockRows;
  let x1 = carry[2 * k];
  let x2 = carry[2 * k + 1];
  let y1 = carry[2 * k + 2];
  let y2 = carry[2 * k + 3];
  for (let i = 0; i < count; i++) {
    const l1 = below1[from + i];
    const l2 = below2[from + i];
    const d = inverseD[from + i];
    const x = block[a + i] - l2 * x2 - l1 * x1;
    const y = block[b + i] - l2 * y2 - l1 * y1;
    block[a + i] = x;
    block[b + i] = y;
    scaled[a + i] = x * d;
    scaled[b + i] = y * d;
    x2 = x1;
    x1 = x;
    y2 = y1;
    y1 = y;
  }
  carry[2 * k] = x1;
  carry[2 * k + 1] = x2;
  carry[2 * k + 2] = y1;
  carry[2 * k + 3] = y2;
}

/** Adds the four sums of columns k, k + 1 against m, m + 1, kept in registers over the block. */
function addTile(scaled: Float64Array, block: Float64Array, k: number, m: number, size: number, count: number, sums: Float64Array): void {
  const a = k * blockRows;
  const b = a + blockRows;
  const c = m * blockRows;
  const d = c + blockRows;
  let ac = 0;
  let ad = 0;
  let bc = 0;
  let bd = 0;
  for (let i = 0; i < count; i++) {
    const x = scaled[a + i];
    const y = scaled[b + i];
    const u = block[c + i];
    const v = block[d + i];
    ac += x * u;
    ad += x * v;
    bc += y * u;
    bd += y * v;
  }
  const at = k * size + m;
  sums[at] += ac;
  sums[at + 1] += ad;
  sums[at + size] += bc;
  sums[at + size + 1] += bd;
}
