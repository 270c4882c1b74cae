import { quantiles } from "../ground/summary.js";
import type { SwingsPlace } from "./swingsPlace.js";

/** Fewer ways from low to low have no quartiles to speak of. */
const fewest = 8;
const dayMs = 86_400_000;

/**
 * How far one low follows the other, as a sentence: the middle case and the middle half, which for weather without a beat lie far apart.
 *
 * @param events in order of time
 * @returns      empty with fewer than nine lows
 */
export function spacingSentence(events: SwingsPlace["events"]): string {
  const lows = events.filter((e) => e.kind === "low").map((e) => Date.parse(e.at));
  const ways = lows.slice(1).map((at, i) => (at - lows[i]) / dayMs);
  if (ways.length < fewest) return "";
  const [low, middle, high] = quantiles(ways, [0.25, 0.5, 0.75]).map((d) => d.toFixed(d < 10 ? 1 : 0));
  return `From one of these lows to the next it takes ${middle} days in the middle case, ${low} to ${high} in half of the cases.`;
}
