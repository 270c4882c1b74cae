import { remembered } from "../../ground/remembered.js";
import type { UsableReadings } from "./usableReadings.js";

/** Readings laid on the logger's own even steps, padded to whole UTC hours. */
export interface TideSteps {
  /** UTC midnight from which instants count · epoch ms. */
  readonly midnight: number;
  /** Steps in an hour: 60, 30, 20, 15, 12, 10, 6, 5, 4, 3, 2 or 1. */
  readonly perHour: number;
  /** First hour since `midnight`, and number of hours. */
  readonly firstHour: number;
  readonly hours: number;
  /** Where in its step a reading stands · s after the step's beginning. */
  readonly phase: number;
  /** Mean of the readings in each step · [hours·perHour] · NaN where there is none. */
  readonly values: Float64Array;
  /** Mean instant of those readings · s since `midnight` · NaN where there is none. */
  readonly instants: Float64Array;
  /** Whether every reading stands at its step's phase to a millisecond. */
  readonly regular: boolean;
}

/** Divisors of an hour that loggers use · s. */
const nativeSteps: readonly number[] = [60, 120, 180, 240, 300, 360, 600, 720, 900, 1200, 1800, 3600];

/** The step on which readings are laid: the shortest divisor of an hour not shorter than their usual spacing (2 % allowed). */
function nativeStep(usual: number): number {
  return nativeSteps.find((step) => usual <= 1.02 * step) ?? 3600;
}

/**
 * Where in their steps the readings usually stand, so that jitter does not throw a reading into its neighbor's step.
 * Exact for regular readings; half a step when there is no usual place.
 */
function usualPhase(seconds: Float64Array, step: number): { phase: number; exact: boolean } {
  const first = ((seconds[0] % step) + step) % step;
  let exact = true;
  for (let i = 1; i < seconds.length && exact; i++) {
    const off = (seconds[i] - seconds[0]) / step;
    exact = Math.abs(off - Math.round(off)) * step < 1e-3;
  }
  if (exact) return { phase: step - first < 1e-3 ? 0 : first, exact };
  let c = 0;
  let s = 0;
  for (let i = 0; i < seconds.length; i++) {
    const angle = (2 * Math.PI * seconds[i]) / step;
    c += Math.cos(angle);
    s += Math.sin(angle);
  }
  if (Math.hypot(c, s) < 0.5 * seconds.length) return { phase: step / 2, exact };
  const turn = Math.atan2(s, c) / (2 * Math.PI);
  // A little before the step's beginning is before it, not at the end of the one before.
  return { phase: (turn <= -0.02 ? turn + 1 : turn) * step, exact };
}

/**
 * Lays readings on even steps that divide the hour, keeping the instant at which each was taken.
 *
 * A step is the mean of the readings nearest to its usual instant. The step's center is never used: readings on the
 * hour would come out half an hour late.
 *
 * @param readings at least one
 * @returns        see TideSteps; first and last hour hold a reading
 */
export function tideSteps(readings: UsableReadings): TideSteps {
  return known(readings, "", () => layReadings(readings));
}

/** The search for straight lines and the fit ask for the same steps. */
const known = remembered<UsableReadings, TideSteps>();

function layReadings(readings: UsableReadings): TideSteps {
  const { midnight, seconds, values: given } = readings;
  const n = seconds.length;
  const step = nativeStep(readings.spacing);
  const perHour = 3600 / step;
  const { phase, exact } = usualPhase(seconds, step);
  const stepOf = (at: number): number => Math.floor((at - phase) / step + 0.5);
  const firstHour = Math.floor(stepOf(seconds[0]) / perHour);
  const hours = Math.floor(stepOf(seconds[n - 1]) / perHour) - firstHour + 1;
  const length = hours * perHour;
  const values: Float64Array = new Float64Array(length);
  const instants: Float64Array = new Float64Array(length);
  const counts: Uint32Array = new Uint32Array(length);
  const from = firstHour * perHour;
  let single = true;
  for (let i = 0; i < n; i++) {
    const k = stepOf(seconds[i]) - from;
    values[k] += given[i];
    instants[k] += seconds[i];
    if (++counts[k] > 1) single = false;
  }
  for (let k = 0; k < length; k++) {
    // Nothing over none is NaN.
    values[k] /= counts[k];
    instants[k] /= counts[k];
  }
  return { midnight, perHour, firstHour, hours, phase, values, instants, regular: exact && single };
}
