/** The slow plain twin of every transform: Σ z_j e^{∓2πijk/n} on pairs, term by term; `sign` −1 is forward, unscaled. */
export function naiveTransform(pairs: ArrayLike<number>, sign: 1 | -1 = -1): Float64Array {
  const n = pairs.length / 2;
  const out = new Float64Array(2 * n);
  for (let k = 0; k < n; k++) {
    for (let j = 0; j < n; j++) {
      const angle = (sign * 2 * Math.PI * ((j * k) % n)) / n;
      out[2 * k] += pairs[2 * j] * Math.cos(angle) - pairs[2 * j + 1] * Math.sin(angle);
      out[2 * k + 1] += pairs[2 * j] * Math.sin(angle) + pairs[2 * j + 1] * Math.cos(angle);
    }
  }
  return out;
}

/** Real values as pairs with imaginary part 0. */
export function asPairs(values: ArrayLike<number>): Float64Array {
  return Float64Array.from({ length: 2 * values.length }, (_, i) => (i % 2 === 0 ? values[i / 2] : 0));
}

/** Park and Miller's noise, −0.5…0.5: whole numbers only, so that any language draws the same. */
export function parkMillerNoise(length: number, seed: number): Float64Array {
  let state = seed;
  return Float64Array.from({ length }, () => {
    state = (state * 16807) % 2147483647;
    return state / 2147483647 - 0.5;
  });
}
