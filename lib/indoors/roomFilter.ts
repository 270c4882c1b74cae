import { requireWithin } from "../ground/complaint.js";

/**
 * What a room of one time constant makes of the air outside: inside follows with dT/dt = (outside − T)/τ.
 *
 * Exact when the outside runs straight from hour to hour. Begins at the outside's first value; the true room began elsewhere, by
 * a difference that fades as e^{−t/τ}.
 *
 * @param outside °C · hourly · [n] · without gaps (bridge them first)
 * @param tau     time constant · h · above 0
 * @returns       °C · [n]
 * @throws RangeError when tau is not positive and finite
 * @example roomFilter(Float64Array.of(0, 1, 1), 1)[1] // 0.368
 * @source first-order system, ramp-invariant: a = e^{−1/τ}, b₀ = 1 − (1 − a)τ, b₁ = (1 − a)τ − a
 */
export function roomFilter(outside: Float64Array, tau: number): Float64Array {
  requireWithin("roomFilter", "tau", tau, 1e-3, 1e6, "h");
  const a = Math.exp(-1 / tau);
  const now = 1 - (1 - a) * tau;
  const before = (1 - a) * tau - a;
  const inside: Float64Array = new Float64Array(outside.length);
  inside[0] = outside[0];
  for (let h = 1; h < outside.length; h++) inside[h] = a * inside[h - 1] + before * outside[h - 1] + now * outside[h];
  return inside;
}

/**
 * Gain and lag of a room of one time constant at a frequency: 1/√(1 + ω²τ²) and atan(ωτ)/ω.
 *
 * At one cycle per day the lag can never pass 6 h, whatever τ: a wall that delays by more needs more than one constant.
 *
 * @param tau                   time constant · h · from 0
 * @param options.cyclesPerDay  default 1 · above 0
 * @returns gain · 1; lagHours · h
 * @throws RangeError           when tau is negative or the frequency not positive
 * @example roomResponse(12).gain // 0.30331
 * @source first-order system
 */
export function roomResponse(tau: number, { cyclesPerDay = 1 }: { cyclesPerDay?: number } = {}): { readonly gain: number; readonly lagHours: number } {
  requireWithin("roomResponse", "tau", tau, 0, 1e6, "h");
  requireWithin("roomResponse", "cyclesPerDay", cyclesPerDay, 1e-9, 1e6, "cpd");
  const omega = (2 * Math.PI * cyclesPerDay) / 24;
  return Object.freeze({ gain: 1 / Math.hypot(1, omega * tau), lagHours: Math.atan(omega * tau) / omega });
}

/**
 * Time constant from one cooling night: ln of how far inside was above outside, before and after.
 *
 * For a night without heating and with a steady outside. One night is an anecdote; timeConstant uses the whole record.
 *
 * @param before, after inside · °C
 * @param outside       steady · °C
 * @param hours         between the two · h · above 0
 * @returns             h
 * @throws RangeError   when inside does not approach outside, or hours are not positive
 * @example coolingTimeConstant(21, 15.5, 2, 8) // 23.409
 * @source Newton's law of cooling
 */
export function coolingTimeConstant(before: number, after: number, outside: number, hours: number): number {
  requireWithin("coolingTimeConstant", "hours", hours, 1e-9, 1e6, "h");
  const left = (after - outside) / (before - outside);
  if (!(left > 0 && left < 1)) {
    throw new RangeError(`coolingTimeConstant: after must lie between before and outside (got ${after} °C between ${before} °C and ${outside} °C)`);
  }
  return -hours / Math.log(left);
}
