/** What two traces share, frequency by frequency, and how their readings stand to each other. */
export interface SharedPressure {
  /** rad s-1 · [n] · rising. */
  readonly omega: Float64Array;
  /** Size of the cross spectrum, and its size times the weight that the delay's estimate gives it · [n]. */
  readonly size: Float64Array;
  readonly weighted: Float64Array;
  /** How far each stretch's readings stand from the mean of all, y's against x's within a step · s. */
  readonly phases: readonly number[];
}

/** A delay without what folding did to it. */
export interface UnfoldedDelay {
  /** s. */
  readonly delay: number;
  /** By how much it changes where the folded one changes by 1. */
  readonly slope: number;
  /** Most that folding does to a delay, by the fall of the shared spectrum and by the usual one · s. */
  readonly most: number;
  readonly mostUsually: number;
}

/** Frequencies beyond the highest that are folded back, on either side. */
const orders = [-3, -2, -1, 1, 2, 3];
/** The fall of the spectrum is taken between these shares of the sampling rate, where little is folded; and kept within limits. */
const fallFrom = 0.05;
const fallTo = 0.3;
const [leastFall, usualFall, mostFall] = [1.2, 2, 4];
const rounds = 20;

/**
 * Takes off a delay what the folding of fast pressure onto slow frequencies did to it.
 *
 * Two loggers that do not read at the same instants see what is faster than two steps turned by their distance within a step: at a
 * frequency f the cross spectrum holds, beside its own e^{iωδ}, S(f + m/T)/S(f) e^{i(ω + 2πm/T)δ} of every m. With S falling as a power of
 * f, told by the cross spectrum itself, the turn of the sum is known for each δ; the delay is the δ that gives the one found.
 *
 * @param shared see SharedPressure
 * @param folded the delay as found · s
 * @param step   T, one reading of either logger a step · s
 * @param share  how much of the turn counts · 0…1
 * @returns      see UnfoldedDelay; null where the folded delay does not tell one
 * @source sampling of a delayed process, from memory; measured in the README of this room
 */
export function unfoldedDelay(shared: SharedPressure, folded: number, step: number, share: number): UnfoldedDelay | null {
  if (share === 0) return { delay: folded, slope: 1, most: 0, mostUsually: 0 };
  const shift = shiftBy(shared, step, share, fallOf(shared, step));
  // The folded delay rises with the true one, slowly near none and steeply near half a step, and is never half a step off: halving finds it.
  let [low, high] = [folded - step / 2, folded + step / 2];
  for (let round = 0; round < rounds; round++) {
    const middle = (low + high) / 2;
    if (middle + shift(middle) < folded) low = middle;
    else high = middle;
  }
  const delay = (low + high) / 2;
  const bend = 1 + (shift(delay + step / 200) - shift(delay - step / 200)) / (step / 100);
  const isFound = Math.abs(delay + shift(delay) - folded) < 0.01 * step && bend > 0.2;
  if (!isFound) return null;
  return { delay, slope: 1 / bend, most: Math.abs(shift(step / 4)), mostUsually: Math.abs(shiftBy(shared, step, share, usualFall)(step / 4)) };
}

/** What folding adds to a delay, where the spectrum falls with a given power. */
function shiftBy({ omega, weighted, phases }: SharedPressure, step: number, share: number, fall: number): (delay: number) => number {
  const ratios = orders.map((m) => omega.map((w) => (w / Math.abs(w + (2 * Math.PI * m) / step)) ** fall));
  // Readings that wander within their steps fold less: the mean of their turns.
  const turns = orders.map((m) => meanTurn(phases, (2 * Math.PI * m) / step));
  return (delay) => {
    const [c, s] = [0, 1].map((sine) => orders.map((m, j) => turned(turns[j], (2 * Math.PI * m * delay) / step)[sine]));
    let [along, square] = [0, 0];
    for (let k = 0; k < omega.length; k++) {
      let [re, im] = [1, 0];
      for (let j = 0; j < orders.length; j++) {
        re += ratios[j][k] * c[j];
        im += ratios[j][k] * s[j];
      }
      along += weighted[k] * omega[k] * Math.atan2(im, re);
      square += weighted[k] * omega[k] * omega[k];
    }
    return (share * along) / square;
  };
}

/** The power with which the shared spectrum falls, by a line through its logarithms. */
function fallOf({ omega, size }: SharedPressure, step: number): number {
  const rate = (2 * Math.PI) / step;
  let [n, x, y, xx, xy] = [0, 0, 0, 0, 0];
  for (let k = 0; k < omega.length; k++) {
    if (omega[k] < fallFrom * rate || omega[k] > fallTo * rate || !(size[k] > 0)) continue;
    const [a, b] = [Math.log(omega[k] / rate), Math.log(size[k])];
    n++;
    x += a;
    y += b;
    xx += a * a;
    xy += a * b;
  }
  if (n < 8) return usualFall;
  return Math.min(mostFall, Math.max(leastFall, -(n * xy - x * y) / (n * xx - x * x)));
}

/** Mean cosine and sine of angles. */
function meanTurn(phases: readonly number[], rate: number): readonly [number, number] {
  let [c, s] = [0, 0];
  for (const phase of phases) {
    c += Math.cos(rate * phase) / phases.length;
    s += Math.sin(rate * phase) / phases.length;
  }
  return [c, s];
}

/** A complex number turned by an angle. */
function turned([re, im]: readonly [number, number], angle: number): readonly [number, number] {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return [re * c - im * s, re * s + im * c];
}
