import { moreDays } from "../ground/moreDays.js";
import { leastDays, type PairNumbers, type PairWorkings } from "./pairNumbers.js";

/** What a pair's warnings depend on beside its numbers. */
export interface PairCircumstances {
  /** Names as they stand in sentences. */
  readonly inside: string;
  readonly outside: string;
  /** Readings of the outdoor thermometer flagged as heated by sun or electronics. */
  readonly warmed: number;
  /** Which of the two log humidity at all. */
  readonly hasHumidity: { readonly inside: boolean; readonly outside: boolean };
  readonly isClockKnown: boolean;
  /** Which of the two log at steps of all lengths, as sensors do that report changes; default none. */
  readonly uneven?: readonly string[];
  /** Date of an hour of the stretch, YYYY-MM-DD in the record's standard time. */
  readonly dateOf: (hour: number) => string;
}

const fewDays = 20;
const seasonDays = 300;

/**
 * What a reader must know before believing a pair's numbers, in plain sentences.
 *
 * @param numbers, workings as pairNumbers gives them
 * @param circumstances     see PairCircumstances
 * @returns                 sentences, the gravest first, frozen
 * @example pairWarnings(numbers, workings, circumstances)[0]
 * @source limits found by simulation, indoors README
 */
export function pairWarnings(numbers: PairNumbers, workings: PairWorkings, circumstances: PairCircumstances): readonly string[] {
  const { inside, outside, warmed, hasHumidity, isClockKnown, uneven = [], dateOf } = circumstances;
  const { days, timeLag, decrementFactor, response, mould } = numbers;
  const { room, difference, isHeld, alone, hoursNeverShared, line } = workings;
  const out: string[] = [];
  if (days < leastDays) {
    const more = Math.max(1, Math.ceil(leastDays - days));
    out.push(`Too little to infer anything: ${inside} and ${outside} share ${(Math.floor(10 * days) / 10).toFixed(1)} days, 6 are needed; log about ${moreDays(more)}.`);
    return Object.freeze(out);
  }
  if (hoursNeverShared > 0) {
    out.push(`${hoursNeverShared} of the 24 hours of the day are shared on fewer than 3 days, so the daily cycle cannot be taken out: log day and night.`);
  }
  if (days < fewDays) out.push(`Only ${days.toFixed(0)} days: the intervals are wide and may still be too narrow; log about ${moreDays(Math.ceil(fewDays - days))}.`);
  else if (difference.isShort) {
    const needed = Math.ceil(15 * difference.memoryDays - difference.daysUsed);
    out.push(`The difference changes slowly (memory about ${difference.memoryDays.toFixed(0)} days): its interval may be too narrow; log about ${moreDays(Math.max(1, needed))}.`);
  }
  if (isHeld) {
    out.push(`${inside} is held by something (thermostat, cooling, people): the decrement factor is an upper bound, lag and time constant cannot be told; log with the heating off, or in summer.`);
  }
  if (alone !== null) {
    const spans = alone.spans.map(({ from, to }) => `${dateOf(from)} to ${dateOf(to - 1)}`).join(", ");
    out.push(`${inside} is held by something for weeks (thermostat, cooling, people): decrement factor, lags, time constant, ratio and correlation are those of the ${alone.days.toFixed(0)} days it was left alone (${spans}), all else is of the whole time.`);
  }
  if (line !== null && line.decrementFactor === null) out.push(`No decrement factor: only ${line.daysUsed} days are whole in both places with half a day on each side, and the air outside must vary; mend the gaps.`);
  else if (decrementFactor !== null && timeLag === null && !isHeld) out.push(`No time lag: no daily cycle can be seen in ${inside} above its own scatter.`);
  if (room !== null) out.push(...room.says.filter((s) => !isHeld || !s.includes("hardly follows")));
  const isLoud = room !== null && (room.reasons.includes("daily line") || room.reasons.includes("variants"));
  out.push(
    isLoud
      ? "Sun through windows, heating or opened windows plainly share in these numbers: decrement factor and lag are apparent, they describe how the house is lived in and do not identify its walls."
      : "Decrement factor, lag and time constant are apparent: sun through windows, heating, and windows opened at the same hours every day are in them and cannot be told apart.",
  );
  if (timeLag !== null && timeLag.low > 6) out.push("The daily cycle comes more than 6 h late: no room of one constant can do that, heavy walls can.");
  if (timeLag !== null && timeLag.high < 0) out.push(`${inside} leads the air outside in its daily cycle: sun on windows, or an outdoor sensor that warms late.`);
  if (isAsOutdoors(numbers)) out.push(`${inside} follows the air of ${outside} as a second outdoor place would: if it stands outdoors, its \`exposure\` in the description is wrong.`);
  if (warmed > 0) out.push(`${warmed} readings of ${outside} look heated by sun or electronics: every gain changes by what that sensor adds.`);
  if (uneven.length > 0) out.push(`${uneven.join(" and ")} ${uneven.length === 1 ? "logs" : "log"} at steps of all lengths, as a sensor does that reports changes: lines were drawn between the readings, and lags may be off by some minutes beyond their intervals.`);
  if (!isClockKnown) out.push("The two clocks were taken as equal: a difference between them moves every lag by as much.");
  if (days < seasonDays) out.push("The mean difference is that of these days: another season has another one, compare like with like.");
  const missing = response.filter((band) => band.gain === null && band.says !== null);
  if (missing.length > 0) out.push(missing[missing.length - 1].says ?? "");
  if (!hasHumidity.inside) out.push(`No humidity in ${inside}${hasHumidity.outside ? "" : ` or ${outside}`}: nothing is said about moisture, condensation or mould.`);
  else if (!hasHumidity.outside) out.push(`No humidity in ${outside}: how much more moisture ${inside} holds than outside cannot be told; condensation and mould are judged by its own humidity and the temperature outside.`);
  if (hasHumidity.inside && mould !== null) {
    const [low, high] = [mould, ...mould.atOtherFactors, ...mould.atOtherReadings].map((r) => r.hours).reduce(([a, b], v) => [Math.min(a, v), Math.max(b, v)], [Infinity, -Infinity]);
    const others = "the surface's factor is 0.05 lower or higher, or the hygrometer 3 % off";
    const hours = low === high ? `${low} hours of risk, also where ${others}` : `between ${low} and ${high} hours of risk, as ${others}`;
    out.push(
      `Mould: ${hours}. The 80 % rule is a rule of thumb; decisions about mould, structure or energy defer to local codes and licensed practice.`,
    );
  }
  return Object.freeze(out);
}

/** Whether the inside does what the outside does: nearly the whole daily cycle, at once, and as warm. */
function isAsOutdoors({ decrementFactor, timeLag, meanDifference }: PairNumbers): boolean {
  const isWithin = (e: PairNumbers["timeLag"], low: number, high: number): boolean => e !== null && e.low > low && e.high < high;
  return isWithin(decrementFactor, 0.9, 1.1) && isWithin(timeLag, -0.5, 0.5) && isWithin(meanDifference, -1, 1);
}
