/** A complex forward transform of one length, on interleaved pairs (re, im, re, im, …) of 2n numbers. */
export type PairTransform = (pairs: Float64Array, into: Float64Array) => void;

/** One pass of a factored transform: reads x, writes y, both of interleaved pairs. */
export type Stage = (x: Float64Array, y: Float64Array) => void;

/**
 * Turning factors e^{−2πi·q·k/n} of a pass that splits p off n: for each q = 0…n/p − 1 the pairs k = 1…p − 1.
 *
 * Each is computed by itself (no recurrence), so its error is that of one cosine.
 */
export function twiddles(n: number, p: number): Float64Array {
  const m = n / p;
  const turn: Float64Array = new Float64Array(2 * m * (p - 1));
  for (let q = 0, w = 0; q < m; q++) {
    for (let k = 1; k < p; k++, w += 2) {
      const angle = (2 * Math.PI * ((q * k) % n)) / n;
      turn[w] = Math.cos(angle);
      turn[w + 1] = -Math.sin(angle);
    }
  }
  return turn;
}

/** cos and sin of 2πjk/p for j, k = 1…h, h = (p − 1)/2, rows of k. */
function tables(p: number): { cosines: Float64Array; sines: Float64Array } {
  const h = (p - 1) / 2;
  const cosines: Float64Array = new Float64Array(h * h);
  const sines: Float64Array = new Float64Array(h * h);
  for (let k = 1; k <= h; k++) {
    for (let j = 1; j <= h; j++) {
      const angle = (2 * Math.PI * ((j * k) % p)) / p;
      cosines[(k - 1) * h + j - 1] = Math.cos(angle);
      sines[(k - 1) * h + j - 1] = Math.sin(angle);
    }
  }
  return { cosines, sines };
}

/**
 * A pass of any odd prime p: the plain sums, with inputs j and p − j joined so that half the multiplications go.
 *
 * @param p    odd prime
 * @param m    length left after this pass
 * @param s    how many sequences lie side by side
 * @param turn turning factors by `twiddles`
 */
export function genericStage(p: number, m: number, s: number, turn: Float64Array): Stage {
  const h = (p - 1) / 2;
  const { cosines, sines } = tables(p);
  const sums: Float64Array = new Float64Array(2 * h);
  const differences: Float64Array = new Float64Array(2 * h);
  const far = 2 * s * m;
  return (x, y) => {
    for (let q = 0; q < m; q++) {
      const w = 2 * q * (p - 1) - 2;
      for (let r = 0; r < s; r++) {
        const i = 2 * (s * q + r);
        const o = 2 * (s * p * q + r);
        const re0 = x[i];
        const im0 = x[i + 1];
        let re = re0;
        let im = im0;
        for (let j = 0; j < h; j++) {
          const a = i + (j + 1) * far;
          const b = i + (p - 1 - j) * far;
          sums[2 * j] = x[a] + x[b];
          sums[2 * j + 1] = x[a + 1] + x[b + 1];
          differences[2 * j] = x[a] - x[b];
          differences[2 * j + 1] = x[a + 1] - x[b + 1];
          re += sums[2 * j];
          im += sums[2 * j + 1];
        }
        y[o] = re;
        y[o + 1] = im;
        for (let k = 1, row = 0; k <= h; k++) {
          let er = re0;
          let ei = im0;
          let or = 0;
          let oi = 0;
          for (let j = 0; j < 2 * h; j += 2, row++) {
            const c = cosines[row];
            const d = sines[row];
            er += c * sums[j];
            ei += c * sums[j + 1];
            or += d * differences[j];
            oi += d * differences[j + 1];
          }
          const c1 = turn[w + 2 * k];
          const d1 = turn[w + 2 * k + 1];
          const c2 = turn[w + 2 * (p - k)];
          const d2 = turn[w + 2 * (p - k) + 1];
          const k1 = o + 2 * s * k;
          const k2 = o + 2 * s * (p - k);
          y[k1] = (er + oi) * c1 - (ei - or) * d1;
          y[k1 + 1] = (er + oi) * d1 + (ei - or) * c1;
          y[k2] = (er - oi) * c2 - (ei + or) * d2;
          y[k2 + 1] = (er - oi) * d2 + (ei + or) * c2;
        }
      }
    }
  };
}
