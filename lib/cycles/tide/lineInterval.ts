import { tQuantile } from "../../ground/distributions.js";
import { detectionAmplitude, normalTwoSided, riceInterval } from "./riceLaw.js";
import { isUneven, unevenInterval } from "./unevenInterval.js";

/** A line's cosine and sine coefficients with their covariance and its degrees of freedom. */
export interface LineScatter {
  readonly cosine: number;
  readonly sine: number;
  readonly varianceOfCosine: number;
  readonly varianceOfSine: number;
  readonly covariance: number;
  readonly degreesOfFreedom: number;
}

/** Amplitude and phase of a line with their 95 % intervals. */
export interface LineInterval {
  readonly amplitude: number;
  /** Standard errors: mean over directions, along the vector (cosine, sine), and across it. */
  readonly errorMean: number;
  readonly errorAlong: number;
  readonly errorAcross: number;
  /** The one used for amplitude: mean below six standard errors, along above. */
  readonly error: number;
  readonly low: number;
  readonly high: number;
  readonly detected: boolean;
  /** True amplitude detected with 95 % chance. */
  readonly detectionLimit: number;
  /** Phase of the crest · radians, and how far its interval reaches back and on · π when undetected or unknown. */
  readonly phase: number;
  readonly phaseBefore: number;
  readonly phaseAfter: number;
}

/** Share of F(2, ν) below: its quantile has a closed form, ν/2·((1 − p)^(−2/ν) − 1). */
function detectionThreshold(nu: number): number {
  return Math.sqrt(nu * (0.05 ** (-2 / nu) - 1));
}

/**
 * Interval of a line's amplitude and phase.
 *
 * Clear lines (beyond six standard errors): √(Â² − s²) ± t·s. Others: Rice's law inverted, widened by t over normal. The
 * amplitude itself is the fitted one, detected or not, always inside its interval. Where the error differs by direction (a
 * logger that is off at night), see `unevenInterval`; the detection limit is that of the worst direction then.
 *
 * @param line see LineScatter; degrees of freedom above 0
 * @returns    see LineInterval, in the unit of the coefficients
 */
export function lineInterval(line: LineScatter): LineInterval {
  const { cosine: a, sine: b, varianceOfCosine: vaa, varianceOfSine: vbb, covariance: vab, degreesOfFreedom: nu } = line;
  const amplitude = Math.hypot(a, b);
  const ux = amplitude === 0 ? 1 : a / amplitude;
  const uy = amplitude === 0 ? 0 : b / amplitude;
  const errorAlong = Math.sqrt(ux * ux * vaa + 2 * ux * uy * vab + uy * uy * vbb);
  const errorAcross = Math.sqrt(uy * uy * vaa - 2 * ux * uy * vab + ux * ux * vbb);
  const errorMean = Math.sqrt((vaa + vbb) / 2);
  const q = tQuantile(0.975, nu);
  const c = q / normalTwoSided();
  if (isUneven(line)) {
    const uneven = unevenInterval(line, q, c);
    const detected = uneven.distance > detectionThreshold(nu);
    return {
      amplitude,
      errorMean,
      errorAlong,
      errorAcross,
      error: detected ? errorAlong : errorMean,
      low: detected ? Math.min(uneven.low, amplitude) : 0,
      high: Math.max(uneven.high, amplitude),
      detected,
      detectionLimit: detectionAmplitude() * c * uneven.worst,
      phase: Math.atan2(b, a),
      phaseBefore: detected ? uneven.before : Math.PI,
      phaseAfter: detected ? uneven.after : Math.PI,
    };
  }
  const error = amplitude < 6 * errorMean ? errorMean : errorAlong;
  const detected = amplitude > error * detectionThreshold(nu);
  let low: number;
  let high: number;
  if (amplitude > 6 * error) {
    const middle = Math.sqrt(amplitude * amplitude - error * error);
    low = Math.max(0, middle - q * error);
    high = middle + q * error;
  } else {
    const rice = riceInterval(amplitude / (c * error));
    low = detected ? rice.low * c * error : 0;
    high = rice.high * c * error;
  }
  // The threshold of detection is a quarter above t, and errors that differ more than a fifth were dealt with: the arc exists.
  const halfWidth = detected ? Math.asin((q * errorAcross) / amplitude) : Math.PI;
  return {
    amplitude,
    errorMean,
    errorAlong,
    errorAcross,
    error,
    low: Math.min(low, amplitude),
    high: Math.max(high, amplitude),
    detected,
    detectionLimit: detectionAmplitude() * c * errorMean,
    phase: Math.atan2(b, a),
    phaseBefore: halfWidth,
    phaseAfter: halfWidth,
  };
}
