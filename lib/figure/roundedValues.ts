/**
 * Rounds a number for a figure's JSON; what is missing becomes null, and −0 becomes 0.
 *
 * @param decimals digits after the point
 * @returns        a function that rounds
 * @example digits(1)(NaN) // null
 */
export function digits(decimals: number): (value: number | null) => number | null {
  const scale = 10 ** decimals;
  return (value) => (value === null || !Number.isFinite(value) ? null : Math.round(value * scale) / scale + 0);
}

/**
 * Rounds to so many significant digits, for axes that run over powers of ten.
 *
 * @example significant(3)(0.012345) // 0.0123
 */
export function significant(count: number): (value: number | null) => number | null {
  return (value) => (value === null || !Number.isFinite(value) ? null : Number(value.toPrecision(count)));
}
