import type { Estimate } from "../ground/estimate.js";
import type { ClockOffset } from "../trust/clock/clockOffset.js";
import { turnedOver } from "./words.js";

/**
 * The offset between two places' clocks: as their own barometers tell it, else by way of a third place whose barometer both were compared
 * with; null where a place has no barometer that tells. Other places' offsets say nothing of its clock.
 */
export function offsetBetween(clocks: readonly ClockOffset[], inside: string, outside: string): ClockOffset | null {
  const between = (a: string, b: string): ClockOffset | null => {
    const found = clocks.find((c) => (c.a === a && c.b === b) || (c.a === b && c.b === a));
    return found === undefined || found.a === a ? (found ?? null) : { ...found, a, b, offset: turnedOver(found.offset), drift: found.drift === null ? null : turnedOver(found.drift) };
  };
  const direct = between(inside, outside);
  if (direct !== null) return direct;
  const others = new Set(clocks.flatMap(({ a, b }) => [a, b]));
  const chains = [...others].flatMap((by) => {
    const [to, from] = [between(inside, by), between(by, outside)];
    return to === null || from === null ? [] : [{ ...to, a: inside, b: outside, offset: added(to.offset, from.offset), drift: null }];
  });
  return chains.reduce<ClockOffset | null>((best, c) => (best === null || c.offset.standardError < best.offset.standardError ? c : best), null);
}

function added(p: Estimate, q: Estimate): Estimate {
  const value = p.value + q.value;
  return Object.freeze({
    ...p, value, standardError: Math.hypot(p.standardError, q.standardError), low: value - Math.hypot(p.value - p.low, q.value - q.low), high: value + Math.hypot(p.high - p.value, q.high - q.value),
  });
}
