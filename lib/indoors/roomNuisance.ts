import { hoursADay } from "./pairedHours.js";
import { cycleColumns } from "./withoutCycles.js";

/** A column that is 0 outside [from, to). */
interface Span {
  readonly from: number;
  readonly to: number;
  readonly values: Float64Array;
}

/** What a one-constant fit must not be blamed for: level, drift, start transients and, for swings, the daily cycle. */
export interface RoomNuisance {
  /** Takes the nuisance at τ out of values that are 0 outside the mask; the result is 0 there too. */
  without(values: Float64Array, tau: number): Float64Array;
}

/** A transient is forgotten after so many time constants: e⁻⁴⁰ is nothing beside rounding. */
const forgotten = 40;
/** A column of which the earlier ones leave less than this share is told by them already, and left out. */
const independence = 1e-11;

/**
 * First hours from which a transient may start: the first hour that counts, and the first after every gap longer than 12 h.
 *
 * @param mask hours that count · [n]
 * @returns    indices in order
 */
export function transientStarts(mask: Uint8Array): number[] {
  const starts: number[] = [];
  let last = Number.NEGATIVE_INFINITY;
  for (let h = 0; h < mask.length; h++) {
    if (mask[h] === 0) continue;
    if (h - last - 1 > hoursADay / 2) starts.push(h);
    last = h;
  }
  return starts;
}

/**
 * Prepares the nuisance of timeConstant for one mask.
 *
 * Whitening, v_t − φ v_{t−1}, turns level, drift, cycles and exponentials into sums of themselves: over hours whose neighbor counts too
 * the same columns serve whitened values.
 *
 * @param mask   hours that count · [n]
 * @param starts where transients begin, see transientStarts
 * @param cycles 3 for swings (cycles of 1, 2, 3 per day are nuisance), 0 for all
 */
export function roomNuisance(mask: Uint8Array, starts: readonly number[], cycles: number): RoomNuisance {
  const n = mask.length;
  const base: Span[] = cycleColumns(n, cycles).map((column) => ({ from: 0, to: n, values: column.map((v, h) => (mask[h] === 0 ? 0 : v)) }));
  const block = base.map((a, i) => base.map((b, j) => (j > i ? 0 : dot(a, b))));
  const without = (values: Float64Array, tau: number): Float64Array => {
    const transients = starts.map((from): Span => {
      const to = Math.min(n, Math.ceil(from + forgotten * tau) + 1);
      const fading = new Float64Array(to - from);
      const a = Math.exp(-1 / tau);
      for (let i = 0, v = 1; i < fading.length; i++, v *= a) if (mask[from + i] === 1) fading[i] = v;
      return { from, to, values: fading };
    });
    const columns = [...base, ...transients];
    const normal = columns.map((a, i) => Float64Array.from({ length: i + 1 }, (_, j) => (i < base.length ? block[i][j] : dot(a, columns[j]))));
    const whole = { from: 0, to: n, values };
    const b = solveIndependent(normal, Float64Array.from(columns, (c) => dot(c, whole)));
    const left: Float64Array = values.slice();
    columns.forEach((c, j) => {
      if (b[j] !== 0) for (let h = c.from; h < c.to; h++) left[h] -= b[j] * c.values[h - c.from];
    });
    return left;
  };
  return Object.freeze({ without });
}

function dot(a: Span, b: Span): number {
  const [u, v] = [a.values, b.values];
  const end = Math.min(a.to, b.to);
  let sum = 0;
  for (let h = Math.max(a.from, b.from), i = h - a.from, j = h - b.from; h < end; h++) sum += u[i++] * v[j++];
  return sum;
}

/** Cholesky on the lower half of the normal matrix, passing over columns that earlier ones tell already: their coefficient stays 0 in both sums. */
function solveIndependent(normal: readonly Float64Array[], right: Float64Array): Float64Array {
  const p = normal.length;
  const lower = normal.map((row) => row.slice());
  const kept = new Uint8Array(p);
  const b: Float64Array = new Float64Array(p);
  for (let i = 0; i < p; i++) {
    for (let j = 0; j <= i; j++) {
      if (j < i && kept[j] === 0) continue;
      let sum = normal[i][j];
      for (let k = 0; k < j; k++) if (kept[k] === 1) sum -= lower[i][k] * lower[j][k];
      if (j < i) lower[i][j] = sum / lower[j][j];
      else if (sum > independence * normal[i][i]) {
        lower[i][i] = Math.sqrt(sum);
        kept[i] = 1;
      }
    }
    if (kept[i] === 0) continue;
    let sum = right[i];
    for (let k = 0; k < i; k++) sum -= lower[i][k] * b[k];
    b[i] = sum / lower[i][i];
  }
  for (let i = p - 1; i >= 0; i--) {
    if (kept[i] === 0) continue;
    let sum = b[i];
    for (let k = i + 1; k < p; k++) sum -= lower[k][i] * b[k];
    b[i] = sum / lower[i][i];
  }
  return b;
}
