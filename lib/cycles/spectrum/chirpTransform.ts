import type { PairTransform } from "./primeStage.js";

/**
 * Length to which a chirp transform of n points is padded: the least power of two from 2n − 1.
 *
 * @example chirpLength(1000) // 2048
 */
export function chirpLength(length: number): number {
  let padded = 2;
  while (padded < 2 * length - 1) padded *= 2;
  return padded;
}

/** What a chirp transform costs a complex sample, on the scale of `factoredCost`: two padded transforms and three sweeps. */
export function chirpCost(length: number): number {
  const padded = chirpLength(length);
  return (4 * Math.log2(padded) * padded) / length + 20;
}

/**
 * A complex transform of any length as a convolution with a chirp (Bluestein), on transforms of a power of two.
 *
 * From jk = (j² + k² − (k − j)²)/2. The chirp's angle πj²/n is taken with j² modulo 2n, which is exact to j = 9·10⁷,
 * so the accuracy does not fall with the length.
 *
 * @param length  whole number from 2
 * @param forward a forward transform of `chirpLength(length)` points
 * @returns       the transform, forward, no scaling; its tables and workspace live inside
 * @source L. I. Bluestein, "A linear filtering approach to the computation of discrete Fourier transform", IEEE Trans. Audio Electroacoust. 18 (1970) (from memory); held by the naive transform of the tests
 */
export function chirpTransform(length: number, forward: PairTransform): PairTransform {
  const n = length;
  const padded = chirpLength(n);
  const chirp: Float64Array = new Float64Array(2 * n);
  for (let j = 0; j < n; j++) {
    const angle = (Math.PI * ((j * j) % (2 * n))) / n;
    chirp[2 * j] = Math.cos(angle);
    chirp[2 * j + 1] = -Math.sin(angle);
  }
  const a: Float64Array = new Float64Array(2 * padded);
  const b: Float64Array = new Float64Array(2 * padded);
  const kernel: Float64Array = new Float64Array(2 * padded);
  for (let j = 0; j < n; j++) {
    for (const k of j === 0 ? [0] : [j, padded - j]) {
      a[2 * k] = chirp[2 * j] / padded;
      a[2 * k + 1] = -chirp[2 * j + 1] / padded;
    }
  }
  forward(a, kernel);
  return (pairs, into) => {
    for (let j = 0; j < 2 * n; j += 2) {
      a[j] = pairs[j] * chirp[j] - pairs[j + 1] * chirp[j + 1];
      a[j + 1] = pairs[j] * chirp[j + 1] + pairs[j + 1] * chirp[j];
    }
    a.fill(0, 2 * n);
    forward(a, b);
    // Conjugating the product makes the second forward transform an inverse one.
    for (let j = 0; j < 2 * padded; j += 2) {
      const re = b[j] * kernel[j] - b[j + 1] * kernel[j + 1];
      b[j + 1] = -(b[j] * kernel[j + 1] + b[j + 1] * kernel[j]);
      b[j] = re;
    }
    forward(b, a);
    for (let j = 0; j < 2 * n; j += 2) {
      into[j] = a[j] * chirp[j] + a[j + 1] * chirp[j + 1];
      into[j + 1] = a[j] * chirp[j + 1] - a[j + 1] * chirp[j];
    }
  };
}
