import FFT from "fft.js";
import { mustSentence, shown } from "../../ground/complaint.js";
import { chirpCost, chirpLength, chirpTransform } from "./chirpTransform.js";
import { joinHalves, quarterTurns } from "./joinHalves.js";
import { mixedRadix } from "./mixedRadix.js";
import type { PairTransform } from "./primeStage.js";
import { factoredCost } from "./radices.js";

/**
 * Tables and workspace for transforms of one length. Every array in and out is a Float64Array: mixing kinds halves the speed.
 *
 * Forward is X_k = Σ x_j e^{−2πijk/n}, unscaled; inverse divides by n. Pairs are re, im, re, im, …
 * `into`, where given, is memory to work in and to answer from (at least 2n numbers, never the input); the answer is a
 * view of its beginning. A plan's workspace is its own: answers never share memory with it.
 */
export interface FourierPlan {
  readonly length: number;
  /** How the real transform is done. */
  readonly method: "power of two" | "factors" | "chirp";
  /** Real values [n] → pairs of bins 0…⌊n/2⌋. */
  forward(values: Float64Array, into?: Float64Array): Float64Array;
  /** Pairs of bins 0…⌊n/2⌋ → real values [n]; imaginary parts of bin 0 and, n even, of the last are not used. */
  inverse(bins: Float64Array, into?: Float64Array): Float64Array;
  /** Complex pairs [2n] → pairs of bins 0…n − 1. */
  complexForward(pairs: Float64Array, into?: Float64Array): Float64Array;
  /** Pairs of bins 0…n − 1 → complex pairs [2n]. */
  complexInverse(pairs: Float64Array, into?: Float64Array): Float64Array;
}

const isPowerOfTwo = (n: number): boolean => n > 1 && Number.isInteger(Math.log2(n));

/** The cheapest complex forward transform of a length. */
function pairTransform(n: number): { run: PairTransform; method: FourierPlan["method"] } {
  if (n === 1) return { run: (pairs, into) => into.set(pairs.subarray(0, 2)), method: "factors" };
  if (isPowerOfTwo(n)) {
    const fft = new FFT(n);
    return { run: (pairs, into) => fft.transform(into, pairs), method: "power of two" };
  }
  if (factoredCost(n) <= chirpCost(n)) return { run: mixedRadix(n), method: "factors" };
  return { run: chirpTransform(n, pairTransform(chirpLength(n)).run), method: "chirp" };
}

/** Checks what fft.js does not: kind, length, separate memory. */
function checked(at: string, input: Float64Array, wanted: number, into: Float64Array | undefined, n: number): Float64Array {
  const work = into ?? new Float64Array(2 * n);
  for (const [argument, array] of [["input", input], ["into", work]] as const) {
    if (!(array instanceof Float64Array)) throw new TypeError(mustSentence(at, argument, "be a Float64Array", shown(array)));
  }
  if (input.length !== wanted) throw new RangeError(mustSentence(at, "input", `hold ${wanted} numbers for length ${n}`, `${input.length}`));
  if (work.length < 2 * n) throw new RangeError(mustSentence(at, "into", `hold at least ${2 * n} numbers for length ${n}`, `${work.length}`));
  if (work.buffer === input.buffer && work.byteOffset < input.byteOffset + input.byteLength && input.byteOffset < work.byteOffset + work.byteLength) {
    throw new RangeError(mustSentence(at, "into", "be memory apart from the input", "the same memory"));
  }
  return work;
}

/** The answer's first number is made of all inputs, so one look at it finds any NaN or infinite value among them. */
function requireFinite(at: string, input: Float64Array, first: number): void {
  if (Number.isFinite(first)) return;
  const i = input.findIndex((v) => !Number.isFinite(v));
  const got = i < 0 ? `a sum of ${first}` : `${input[i]} at index ${i}`;
  const remedy = at === "FourierPlan.forward" ? "bridge short gaps, or use lombScargle for a record with gaps" : undefined;
  throw new RangeError(mustSentence(at, "input", "be finite and without gaps", got, remedy));
}


function conjugate(pairs: Float64Array, scale: number): void {
  for (let i = 0; i < pairs.length; i += 2) {
    pairs[i] *= scale;
    pairs[i + 1] *= -scale;
  }
}

function makePlan(n: number): FourierPlan {
  const even = n % 2 === 0;
  const h = n / 2;
  const bins = 2 * (Math.floor(n / 2) + 1);
  const fft = isPowerOfTwo(n) ? new FFT(n) : null;
  // Made when first needed: most callers want one direction of one kind.
  let whole: ReturnType<typeof pairTransform> | null = null;
  let half: ReturnType<typeof pairTransform> | null = null;
  const ofWhole = (): ReturnType<typeof pairTransform> => (whole ??= pairTransform(n));
  const ofHalf = (): ReturnType<typeof pairTransform> => (half ??= pairTransform(h));
  const turns = even ? quarterTurns(n) : null;
  const spare: Float64Array = new Float64Array(2 * n);

  const forward = (values: Float64Array, into?: Float64Array): Float64Array => {
    const work = checked("FourierPlan.forward", values, n, into, n);
    if (fft !== null) fft.realTransform(work, values);
    else if (turns !== null) {
      ofHalf().run(values, work);
      const [a, b] = work;
      work[0] = a + b;
      work[1] = 0;
      work[n] = a - b;
      work[n + 1] = 0;
      joinHalves(work, n, turns, 1);
    } else {
      for (let j = 0; j < n; j++) {
        spare[2 * j] = values[j];
        spare[2 * j + 1] = 0;
      }
      ofWhole().run(spare, work);
    }
    requireFinite("FourierPlan.forward", values, work[0]);
    return work.subarray(0, bins);
  };

  const inverse = (input: Float64Array, into?: Float64Array): Float64Array => {
    const work = checked("FourierPlan.inverse", input, bins, into, n);
    if (turns !== null) {
      const pairs = spare.subarray(0, n);
      pairs.set(input.subarray(0, n));
      pairs[0] = input[0] + input[n];
      pairs[1] = input[0] - input[n];
      joinHalves(pairs, n, turns, -1);
      conjugate(pairs, 1 / n);
      ofHalf().run(pairs, work);
      conjugate(work.subarray(0, n), 1);
    } else {
      // Conjugated bins of a real record: the upper half mirrors the lower; the answer is real, so no second conjugation.
      for (let k = 0; 2 * k < bins; k++) {
        const mirror = k === 0 ? 0 : n - k;
        spare[2 * k] = spare[2 * mirror] = input[2 * k] / n;
        spare[2 * mirror + 1] = input[2 * k + 1] / n;
        spare[2 * k + 1] = k === 0 ? 0 : -input[2 * k + 1] / n;
      }
      ofWhole().run(spare, work);
      for (let j = 0; j < n; j++) work[j] = work[2 * j];
    }
    requireFinite("FourierPlan.inverse", input, work[0]);
    return work.subarray(0, n);
  };

  const complexForward = (pairs: Float64Array, into?: Float64Array): Float64Array => {
    const work = checked("FourierPlan.complexForward", pairs, 2 * n, into, n);
    ofWhole().run(pairs, work);
    requireFinite("FourierPlan.complexForward", pairs, work[0] + work[1]);
    return work.subarray(0, 2 * n);
  };

  const complexInverse = (pairs: Float64Array, into?: Float64Array): Float64Array => {
    const work = checked("FourierPlan.complexInverse", pairs, 2 * n, into, n);
    spare.set(pairs);
    conjugate(spare, 1 / n);
    ofWhole().run(spare, work);
    requireFinite("FourierPlan.complexInverse", pairs, work[0] + work[1]);
    conjugate(work.subarray(0, 2 * n), 1);
    return work.subarray(0, 2 * n);
  };

  const method = fft !== null ? "power of two" : even ? ofHalf().method === "chirp" ? "chirp" : "factors" : ofWhole().method;
  return Object.freeze({ length: n, method, forward, inverse, complexForward, complexInverse });
}

/** Plans made last, so that a loop over segments makes its tables once. Only speed depends on it, never a result. */
const kept = new Map<number, FourierPlan>();

/**
 * A transform of any length, ready to be used many times.
 *
 * Powers of two go straight to the package; other even lengths run as half as many pairs, odd ones as pairs; those are
 * split into prime factors where that is cheaper, else done as a chirp convolution on a power of two. Making a plan costs
 * about as much as a few transforms; the last eight (up to 2²⁰ samples) are kept.
 *
 * @param length     samples · whole number from 1 to 2²⁴
 * @returns          see FourierPlan
 * @throws RangeError when the length is not a whole number in range; a plan's calls when lengths differ or a value is not finite
 * @example fourierPlan(4).forward(Float64Array.of(1, 2, 3, 4)) // 10, 0, -2, 2, -2, 0
 * @source the package fft.js at powers of two; mixedRadix.ts and chirpTransform.ts elsewhere
 */
export function fourierPlan(length: number): FourierPlan {
  if (!Number.isInteger(length) || length < 1 || length > 2 ** 24) {
    throw new RangeError(mustSentence("fourierPlan", "length", "be a whole number from 1 to 2^24", shown(length, "samples")));
  }
  const plan = kept.get(length) ?? makePlan(length);
  kept.delete(length);
  if (length <= 2 ** 20) kept.set(length, plan);
  for (const oldest of kept.keys()) if (kept.size > 8) kept.delete(oldest);
  return plan;
}
