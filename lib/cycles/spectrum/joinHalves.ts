/** cos and sin of 2πk/n for k = 0…⌊n/4⌋, which joins two half-length bins into a real one. */
export function quarterTurns(n: number): Float64Array {
  const turns: Float64Array = new Float64Array(2 * (Math.floor(n / 4) + 1));
  for (let k = 0; 2 * k < turns.length; k++) {
    turns[2 * k] = Math.cos((2 * Math.PI * k) / n);
    turns[2 * k + 1] = Math.sin((2 * Math.PI * k) / n);
  }
  return turns;
}

/**
 * Turns the bins of an even-length real record, transformed as half as many pairs, into its real bins, in place.
 *
 * A real record x of n = 2h samples read as pairs is z_j = x_2j + i·x_(2j+1); its bins hold those of the even and of the
 * odd samples. Bins 0 and h are the caller's (sum and difference of the pair in bin 0).
 *
 * @param bins  pairs · bins 0…h − 1 · changed
 * @param n     length of the real record · even
 * @param turns by `quarterTurns(n)`
 * @param sign  1: half-length bins → real bins; −1: the way back, times 2
 * @source the half-length trick, as in any text on transforms (common practice, no source); held by the naive transform of the tests
 */
export function joinHalves(bins: Float64Array, n: number, turns: Float64Array, sign: 1 | -1): void {
  const h = n / 2;
  for (let k = 1; 2 * k <= h; k++) {
    const a = 2 * k;
    const b = 2 * (h - k);
    const er = bins[a] + bins[b];
    const ei = bins[a + 1] - bins[b + 1];
    const dr = bins[a] - bins[b];
    const di = bins[a + 1] + bins[b + 1];
    const c = turns[a];
    const s = turns[a + 1];
    // (er + i·ei) is twice the even samples' bin; the odd samples' is turned by e^{∓2πik/n}.
    const or = sign * c * di - s * dr;
    const oi = -sign * c * dr - s * di;
    const scale = sign === 1 ? 0.5 : 1;
    bins[a] = scale * (er + or);
    bins[a + 1] = scale * (ei + oi);
    bins[b] = scale * (er - or);
    bins[b + 1] = scale * (oi - ei);
  }
}
