/**
 * Red noise of one memory: AR(1), e-folding `memoryHours`, standard deviation `sd`, even steps.
 *
 * Begins in its steady state, so no run-in is needed.
 *
 * @param random      a stream of `chance`
 * @param n           steps
 * @param stepHours   step · h
 * @param memoryHours e-folding time · h
 * @param sd          standard deviation · unit of the result
 * @returns Float64Array [n]
 */
export function redNoise(random, n, stepHours, memoryHours, sd) {
  const a = Math.exp(-stepHours / memoryHours);
  const fresh = sd * Math.sqrt(1 - a * a);
  const out = new Float64Array(n);
  let x = sd * random.normal();
  for (let i = 0; i < n; i++) {
    out[i] = x;
    x = a * x + fresh * random.normal();
  }
  return out;
}

/**
 * Smoother red noise: white noise filtered twice by the same e-folding memory (two equal poles; Matérn 3/2 in
 * continuous time). Air pressure at steps of hours is of this kind.
 *
 * Variance of the discrete filter for white noise of variance 1: (1 + a²)/(1 − a²)³. Ten memory times are run in.
 *
 * @param random, n, stepHours, memoryHours, sd as in `redNoise`
 * @returns Float64Array [n]
 */
export function smoothRedNoise(random, n, stepHours, memoryHours, sd) {
  const a = Math.exp(-stepHours / memoryHours);
  const rest = 1 - a * a;
  const fresh = sd / Math.sqrt((1 + a * a) / (rest * rest * rest));
  const out = new Float64Array(n);
  const lead = Math.ceil((10 * memoryHours) / stepHours);
  let x = 0;
  let y = 0;
  for (let i = -lead; i < n; i++) {
    x = a * x + fresh * random.normal();
    y = a * y + x;
    if (i >= 0) out[i] = y;
  }
  return out;
}
