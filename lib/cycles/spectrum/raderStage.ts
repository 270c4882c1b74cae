import type { PairTransform, Stage } from "./primeStage.js";

/** Least number whose powers run through all of 1…p − 1 modulo the prime p. */
function generator(p: number): number {
  for (let g = 2; ; g++) {
    let power = g;
    let order = 1;
    while (power !== 1) {
      power = (power * g) % p;
      order++;
    }
    if (order === p - 1) return g;
  }
}

/** Largest divisor of s up to 64: the columns taken at once, so that the workspace stays in the processor's near memory. */
function columnsAtOnce(s: number): number {
  let best = 1;
  for (let c = 2; c <= Math.min(s, 64); c++) if (s % c === 0) best = c;
  return best;
}

/**
 * A pass of a larger prime p as a convolution of length p − 1 (Rader): the cost grows like log p, not like p.
 *
 * It is what makes a year of whole days cheap: 365 days hold the prime 73, and 72 is 8 · 9.
 *
 * @param p         odd prime
 * @param m         length left after this pass
 * @param s         how many sequences lie side by side
 * @param turn      turning factors by `twiddles`
 * @param transform makes a forward transform of a length for many sequences side by side
 * @source C. M. Rader, "Discrete Fourier transforms when the number of data samples is prime", Proc. IEEE 56 (1968) (from memory); held by the naive transform of the tests
 */
export function raderStage(p: number, m: number, s: number, turn: Float64Array, transform: (length: number, sideBySide: number) => PairTransform): Stage {
  const n = p - 1;
  const c = columnsAtOnce(s);
  const g = generator(p);
  // Row q of the convolution takes input g^q; its row k gives output g^(−k).
  const takes: Int32Array = new Int32Array(n);
  const gives: Int32Array = new Int32Array(n);
  for (let q = 0, power = 1; q < n; q++, power = (power * g) % p) {
    takes[q] = power;
    gives[(n - q) % n] = power;
  }
  const plain: Float64Array = new Float64Array(2 * n);
  const kernel: Float64Array = new Float64Array(2 * n);
  for (let q = 0; q < n; q++) {
    const angle = (2 * Math.PI * gives[q]) / p;
    plain[2 * q] = Math.cos(angle) / n;
    plain[2 * q + 1] = -Math.sin(angle) / n;
  }
  transform(n, 1)(plain, kernel);
  const forward = transform(n, c);
  const a: Float64Array = new Float64Array(2 * n * c);
  const b: Float64Array = new Float64Array(2 * n * c);
  return (x, y) => {
    for (let q = 0; q < m; q++) {
      for (let r = 0; r < s; r += c) {
        const first = 2 * (s * q + r);
        for (let row = 0; row < n; row++) {
          const from = first + 2 * s * m * takes[row];
          for (let i = 0, o = 2 * c * row; i < 2 * c; i++, o++) a[o] = x[from + i];
        }
        forward(a, b);
        const zero = 2 * (s * p * q + r);
        // The convolution's row 0 before the kernel is the sum of all inputs but the first.
        for (let i = 0; i < 2 * c; i++) y[zero + i] = x[first + i] + b[i];
        for (let row = 0, o = 0; row < n; row++) {
          const kr = kernel[2 * row];
          const ki = kernel[2 * row + 1];
          for (const end = o + 2 * c; o < end; o += 2) {
            const re = b[o] * kr - b[o + 1] * ki;
            // Conjugated, so that the second forward transform is an inverse one.
            b[o + 1] = -(b[o] * ki + b[o + 1] * kr);
            b[o] = re;
          }
        }
        forward(b, a);
        for (let row = 0, o = 0; row < n; row++) {
          const k = gives[row];
          const w = 2 * (q * n + k - 1);
          const cr = turn[w];
          const ci = turn[w + 1];
          const to = zero + 2 * s * k;
          for (let i = 0; i < 2 * c; i += 2, o += 2) {
            const re = x[first + i] + a[o];
            const im = x[first + i + 1] - a[o + 1];
            y[to + i] = re * cr - im * ci;
            y[to + i + 1] = re * ci + im * cr;
          }
        }
      }
    }
  };
}
