import { type Estimate, estimate } from "../ground/estimate.js";
import { type PeriodNumber, changeBetween, changeOfMean } from "./changeOfRoom.js";
import { hoursADay } from "./pairedHours.js";
import { heldExplained, type PairNumbers, type PairWorkings } from "./pairNumbers.js";

/** Keys of a pair whose change at an event can be told. */
export type ChangedQuantity = "meanDifference" | "decrementFactor" | "timeLag" | "timeConstant" | "moistureExcess" | "vaporPressureExcess";

/** What changed at an event. */
export interface PairChange {
  /** The event's title. */
  readonly event: string;
  /** When it was, ISO 8601, UTC; its beginning where it lasted: events may share a title. */
  readonly at: string;
  /** The pair's key. */
  readonly quantity: ChangedQuantity;
  /** After minus before, in the quantity's own unit · null when a side has too few days or no such number. */
  readonly change: Estimate | null;
  /** After over before, for decrement factor and time constant: its interval is the one to judge by · null elsewhere. */
  readonly ratio: Estimate | null;
  /** Why there is no change to tell, or nothing. */
  readonly says: string | null;
}

/** One side of an event: a period of the whole axis. */
export interface ChangeSide {
  /** First hour and first hour after the last · index on the whole axis. */
  readonly fromHour: number;
  readonly toHour: number;
  readonly numbers: PairNumbers;
  readonly workings: PairWorkings;
}

/** Fewest days of a side of an event. */
export const daysOfASide = 10;

/**
 * Changes at one event, from the periods on both sides of it.
 *
 * Means (of temperature, moisture, vapor pressure) are compared with the outdoor daily mean beside the event, because inside minus outside
 * follows the season; decrement factor, lag and time constant are found in each period apart, the first two where the inside follows the weather.
 * Of 100 houses in which nothing was done about 5 are called changed in these three, and 5 to 14 in a mean, most where the room itself drifts
 * from day to day. Anything else that changed on the same date cannot be told apart.
 *
 * @param event  its title, and its instant (ISO 8601, UTC)
 * @param before, after the two periods
 * @param whole  workings of the whole record, for the daily means
 * @returns      one entry a quantity, frozen
 * @example changesAt({ title: "shutters closed at night", at: "2024-06-19T17:00:00Z" }, before, after, whole)[0].change?.value // 0.6
 * @source changeBetween and changeOfMean; false calls in indoors README
 */
export function changesAt({ title: event, at }: { readonly title: string; readonly at: string }, before: ChangeSide, after: ChangeSide, whole: PairWorkings): readonly PairChange[] {
  const isShort = [before, after].some(({ numbers }) => numbers.days < daysOfASide);
  const isDriven = [before, after].some(({ workings: { room } }) => room !== null && room.swings.explained < heldExplained);
  const entry = (quantity: ChangedQuantity, change: Estimate | null, ratio: Estimate | null = null, why = "a side has no such number"): PairChange => {
    const reason = isShort ? `fewer than ${daysOfASide} days on a side of the event` : why;
    return Object.freeze({ event, at, quantity, change, ratio, says: change === null ? `No change told for "${event}": ${reason}.` : null });
  };
  const mean = (quantity: ChangedQuantity, key: "difference" | "moisture" | "vapor", unit: string): PairChange => {
    if (isShort) return entry(quantity, null);
    const isCounted = (k: number): boolean => [before, after].some((side) => k * hoursADay >= side.fromHour && k * hoursADay < side.toHour);
    const daily = whole[key].daily.map((v, k) => (isCounted(k) ? v : Number.NaN));
    const own = key === "moisture" ? whole.outdoorMoisture : undefined;
    return entry(quantity, changeOfMean(daily, whole.outdoorDaily, after.fromHour / hoursADay, { unit, own }).change);
  };
  const apart = (quantity: "decrementFactor" | "timeLag" | "timeConstant", unit: string): PairChange => {
    const sides = [before, after].map((side) => numberOf(side, quantity));
    const [a, b] = sides;
    // A heater's own daily program over the outside's cycle changes with the season, whatever was done.
    if (isDriven && quantity !== "timeConstant") return entry(quantity, null, null, "on a side the inside hardly follows the weather (heating, cooling, people), and its daily cycle is their own");
    if (isShort || a === null || b === null) return entry(quantity, null);
    const { change } = changeBetween(a, b, { unit });
    return entry(quantity, change, quantity === "timeLag" ? null : ratioOf(a, b));
  };
  return Object.freeze([
    mean("meanDifference", "difference", "K"),
    apart("decrementFactor", "1"),
    apart("timeLag", "h"),
    apart("timeConstant", "h"),
    mean("moistureExcess", "moisture", "g m-3"),
    mean("vaporPressureExcess", "vapor", "hPa"),
  ]);
}

/** Changes event by event, in their order: entry k stands between periods k and k + 1, also where two events share a title. */
export function changesByEvent(changes: readonly PairChange[]): readonly (readonly PairChange[])[] {
  const first = changes[0]?.quantity;
  const starts = changes.flatMap((c, i) => (c.quantity === first ? [i] : []));
  return starts.map((from, k) => changes.slice(from, starts[k + 1]));
}

/** Whether the interval to judge by (that of the ratio where there is one) leaves out no change. */
export function isChangeSure({ change, ratio }: PairChange): boolean {
  if (ratio !== null) return ratio.low > 1 || ratio.high < 1;
  return change !== null && (change.low > 0 || change.high < 0);
}

function numberOf({ numbers, workings }: ChangeSide, quantity: "decrementFactor" | "timeLag" | "timeConstant"): PeriodNumber | null {
  const e = numbers[quantity];
  // A decrement factor that may be 0 has no logarithm to compare.
  if (e === null || (quantity === "decrementFactor" && e.low <= 0)) return null;
  const degreesOfFreedom = quantity === "timeConstant" ? workings.room?.swings.degreesOfFreedom : workings.line?.degreesOfFreedom;
  return { value: e.value, standardError: e.standardError, degreesOfFreedom: degreesOfFreedom ?? 1 };
}

function ratioOf(a: PeriodNumber, b: PeriodNumber): Estimate {
  const logOf = (p: PeriodNumber): PeriodNumber => ({ value: Math.log(p.value), standardError: p.standardError / p.value, degreesOfFreedom: p.degreesOfFreedom });
  const { change } = changeBetween(logOf(a), logOf(b));
  const value = Math.exp(change.value);
  return estimate({ value, standardError: value * change.standardError, low: Math.exp(change.low), high: Math.exp(change.high), unit: "1" });
}
