import type { Estimate } from "../../ground/estimate.js";

/** An estimate with its sign turned: for sentences that say "colder by" instead of "warmer by −". */
export function turnedOver(e: Estimate): Estimate {
  return { ...e, value: -e.value, low: -e.high, high: -e.low };
}
