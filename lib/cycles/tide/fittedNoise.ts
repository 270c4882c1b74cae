import { type NoiseTheta, precisionWeights, whiteShare } from "./bandedNoise.js";
import { besideLines, type NoiseRatioAt } from "./besideLines.js";
import { type FusedPass, fusedPass } from "./fusedPass.js";
import type { MeansKind } from "./hourMeans.js";
import { noiseSearch } from "./noiseSearch.js";
import { inverseOf } from "./smallCholesky.js";
import { type TidePair, type TideRows, tideRows } from "./tideRows.js";
import type { TideSteps } from "./tideSteps.js";

/** A regression at its fitted noise. */
export interface FittedNoise {
  readonly rows: TideRows;
  readonly kind: MeansKind;
  readonly theta: NoiseTheta;
  /** Coefficients, y less its level · [p]. */
  readonly beta: Float64Array;
  /** A⁻¹ · row-major [p × p]; times σ² the covariance under the model. */
  readonly inverse: Float64Array;
  readonly sigma2: number;
  /** Noise beside any frequency over the model's. */
  readonly ratioAt: NoiseRatioAt;
}

/** Evaluates once at a known noise and reads off what a fit needs. Coefficients are NaN when the lines cannot be told apart. */
export function fitAtNoise(steps: TideSteps, pairs: readonly TidePair[], breaks: readonly number[], kind: MeansKind, theta: NoiseTheta): FittedNoise {
  const rows = tideRows(steps, pairs, kind, breaks);
  const pass = fusedPass(rows);
  pass.evaluate(theta);
  return readOff(rows, pass, kind, theta);
}

function readOff(rows: TideRows, pass: FusedPass, kind: MeansKind, theta: NoiseTheta): FittedNoise {
  const { state } = pass;
  const q = precisionWeights(Math.exp(theta[1]), Math.exp(theta[2]));
  return {
    rows,
    kind,
    theta,
    beta: Float64Array.from(state.beta),
    inverse: inverseOf(state.factor, rows.columns),
    sigma2: state.sigma2,
    ratioAt: besideLines(rows, state, theta[0], q),
  };
}

/** In records longer than this, the coarse points are tried on a part of this length with enough hours, to save time. */
const longHours = 180 * 24;
const partHours = 60 * 24;
const leastKept = 40 * 24;

/** The first part that is well observed, or null. */
function partPass(steps: TideSteps, pairs: readonly TidePair[], breaks: readonly number[], kind: MeansKind): FusedPass | null {
  for (let from = 0; from + partHours <= steps.hours; from += partHours) {
    const [a, b] = [from * steps.perHour, (from + partHours) * steps.perHour];
    const seconds = [from, from + partHours].map((h) => 3600 * (steps.firstHour + h));
    if (breaks.some((at) => at >= seconds[0] && at <= seconds[1])) continue;
    const part = { ...steps, firstHour: steps.firstHour + from, hours: partHours, values: steps.values.subarray(a, b), instants: steps.instants.subarray(a, b) };
    const rows = tideRows(part, pairs, kind);
    if (rows.kept >= leastKept) return fusedPass(rows);
  }
  return null;
}

/**
 * Finds the noise of a record and fits it: bridged means first, plain means when white noise holds more than half of the
 * density at 3 cpd (then the search is made again).
 *
 * @param steps  see `tideSteps`
 * @param pairs  cosine and sine pairs
 * @param breaks see `tideRows`
 */
export function fittedNoise(steps: TideSteps, pairs: readonly TidePair[], breaks: readonly number[]): FittedNoise {
  const search = (kind: MeansKind): FittedNoise => {
    const rows = tideRows(steps, pairs, kind, breaks);
    const pass = fusedPass(rows);
    const screen = rows.hours <= longHours ? pass : (partPass(steps, pairs, breaks, kind) ?? pass);
    return readOff(rows, pass, kind, noiseSearch(pass.evaluate, screen.evaluate).theta);
  };
  // Finer than hourly records with long losses may keep hardly a whole hour: then only plain means are left.
  const bridged = search("bridged");
  return steps.perHour > 1 && !(whiteShare(bridged.theta) <= 0.5 && Number.isFinite(bridged.sigma2)) ? search("plain") : bridged;
}
