/** Half width of each of two running means · d. */
const halfDays = 30;

/**
 * How the strength of swings goes up and down with the season, about 1.
 *
 * Root of the squares, smoothed by two running means of 61 d whose ends use what is there. Storms are two to three times as strong in
 * winter: drawn records that are compared with a real one must be so too, or chance looks rarer than it is.
 *
 * @param departures about their line · any unit · [n]
 * @param stepDays   d
 * @returns          [n] · mean square 1 · all 1 where nothing varies
 * @example seasonalStrength(Float64Array.of(1, -1, 1, -1), 0.25)[0] // 1
 * @source chosen by simulation, see README of this room
 */
export function seasonalStrength(departures: Float64Array, stepDays: number): Float64Array {
  const half = Math.round(halfDays / stepDays);
  const smooth = running(running(departures.map((v) => v * v), half), half);
  const mean = smooth.reduce((a, b) => a + b, 0) / smooth.length;
  return mean > 0 ? smooth.map((v) => Math.sqrt(v / mean)) : smooth.fill(1);
}

function running(values: Float64Array, half: number): Float64Array {
  const n = values.length;
  const sums: Float64Array = new Float64Array(n + 1);
  for (let i = 0; i < n; i++) sums[i + 1] = sums[i] + values[i];
  return values.map((_, i) => {
    const [from, to] = [Math.max(0, i - half), Math.min(n, i + half + 1)];
    return (sums[to] - sums[from]) / (to - from);
  });
}
