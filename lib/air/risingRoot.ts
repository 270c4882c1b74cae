/**
 * The place where a rising function crosses zero: Newton steps that may never leave the bracket, else halving.
 *
 * @param rising  f(x), rising over the bracket, f(low) ≤ 0 ≤ f(high)
 * @param slope   f′(x) or a near value; a rough slope costs steps, never the answer
 * @param low     lower end of the bracket
 * @param high    upper end of the bracket
 * @param start   first guess; it is moved into the bracket, NaN to its middle
 * @returns       x to 10⁻¹⁰ of its unit; NaN when f says NaN
 * @example risingRoot((x) => x * x - 2, (x) => 2 * x, 0, 2, 1) // 1.41421356
 * @source common practice (safeguarded Newton iteration)
 */
export function risingRoot(rising: (x: number) => number, slope: (x: number) => number, low: number, high: number, start: number): number {
  let from = low;
  let to = high;
  let x = Number.isNaN(start) ? (low + high) / 2 : Math.min(Math.max(start, low), high);
  // Halving alone needs log2(500 / 1e-10) = 43 steps; twice that many leaves room for the Newton steps between.
  for (let step = 0; step < 100; step++) {
    const height = rising(x);
    if (height === 0 || Number.isNaN(height)) return height === 0 ? x : Number.NaN;
    if (height < 0) from = x;
    else to = x;
    let next = x - height / slope(x);
    if (!(next >= from && next <= to) || step > 50) next = (from + to) / 2;
    if (Math.abs(next - x) <= 1e-10) return next;
    x = next;
  }
  return x;
}
