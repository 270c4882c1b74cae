/**
 * Prime factors of a length with every pair of twos joined to a four, in the order in which they are split off.
 *
 * The largest comes last: there it meets the longest rows side by side.
 *
 * @param length whole number from 1
 * @returns      factors · their product is `length`
 * @example radices(52560) // 4, 4, 3, 3, 5, 73
 */
export function radices(length: number): number[] {
  const found: number[] = [];
  let left = length;
  for (; left % 4 === 0; left /= 4) found.push(4);
  for (let p = 2; p * p <= left; p++) for (; left % p === 0; left /= p) found.push(p);
  if (left > 1) found.push(left);
  return found;
}

/** Cost of a plain pass of the factor p, in units of about a nanosecond a complex sample; measured, only ratios matter. */
export function plainCost(p: number): number {
  return p <= 5 ? p : 2 * p;
}

/** Cost of a pass of the prime p as a convolution of length p − 1: two transforms, and carrying rows in and out. */
export function raderCost(p: number): number {
  return 2 * factoredCost(p - 1) + 12;
}

/**
 * What a transform split into prime factors costs a sample, to choose between it and a chirp transform.
 *
 * @param length whole number from 1
 * @returns      cost a complex sample · same scale as `plainCost`
 */
export function factoredCost(length: number): number {
  return radices(length).reduce((sum, p) => sum + (p < 17 ? plainCost(p) : Math.min(plainCost(p), raderCost(p))), 0);
}
