import { instantsOf, type Zone } from "../../ground/zone.js";
import { isNewestFirst, usualStep } from "./usualStep.js";

/** A stretch of following rows stamped inside one repeated hour. */
interface Run {
  readonly rows: number[];
  /** Instant of the row before the run; −Infinity when it begins the file. */
  readonly before: number;
  /** By how much the second meaning is later · ms. */
  readonly fold: number;
}

/** Further than this from a change of the clocks nothing is doubtful · ms. */
const farMs = 86_400_000;

/**
 * Turns civil times into instants, in place, for the rows of one place in one file; the order of the log tells the two
 * meanings of a repeated hour apart.
 *
 * Within a repeated hour the rows up to the step back are of its first pass, the rows after it of the second. Without a
 * step back they are of the first, unless they join the row after them and not the row before, or the row before was
 * later already. Rows in a skipped hour
 * are read with the offset in force before the change. A log that runs from newest to oldest is read backwards.
 *
 * @param times     civil times as if UTC · ms · changed into instants
 * @param isInstant 1 for rows that are instants already; they stay
 * @returns         how many rows stood in a skipped hour
 */
export function resolveCivil(times: Float64Array, isInstant: Uint8Array, zone: Zone): number {
  const { changes, offsets } = zone;
  const n = times.length;
  if (changes.length === 0) {
    for (let i = 0; i < n; i++) if (isInstant[i] === 0) times[i] -= offsets[0];
    return 0;
  }
  const usual = usualStep(times);
  const isBackwards = isNewestFirst(times);
  let skipped = 0;
  let last = Number.NEGATIVE_INFINITY;
  let run: Run | null = null;
  let safeFrom = 0;
  let safeTo = 0;
  let safeOffset = 0;
  for (let j = 0; j < n; j++) {
    const i = isBackwards ? n - 1 - j : j;
    if (isInstant[i] === 1) {
      last = times[i];
      continue;
    }
    const civil = times[i];
    if (civil >= safeFrom && civil < safeTo) {
      times[i] = civil - safeOffset;
    } else {
      const { earlier, later, skipped: isSkipped } = instantsOf(zone, civil);
      if (later !== earlier) {
        if (run !== null && Math.abs(civil - times[run.rows[0]]) > farMs) {
          last = settle(times, run, Number.NaN, usual);
          run = null;
        }
        run ??= { rows: [], before: last, fold: later - earlier };
        // Until the run is settled its rows hold their first meaning: their order is that of the civil times.
        times[i] = earlier;
        run.rows.push(i);
        continue;
      }
      if (isSkipped) skipped++;
      times[i] = earlier;
      if (!isSkipped) [safeFrom, safeTo, safeOffset] = safeStretch(zone, civil, civil - earlier);
    }
    if (run !== null) {
      settle(times, run, times[i], usual);
      run = null;
    }
    last = times[i];
  }
  if (run !== null) settle(times, run, Number.NaN, usual);
  return skipped;
}

/** Decides which rows of a run are of the second pass; returns the last row's instant. */
function settle(times: Float64Array, run: Run, after: number, usual: number): number {
  const { rows, before, fold } = run;
  let second = rows.length;
  for (let k = 1; k < rows.length && second === rows.length; k++) if (times[rows[k]] < times[rows[k - 1]]) second = k;
  // A log with one row in each pass shows the same time twice.
  if (second === rows.length && 2 * usual > fold) {
    for (let k = 1; k < rows.length && second === rows.length; k++) if (times[rows[k]] === times[rows[k - 1]]) second = k;
  }
  if (second === rows.length) {
    const joinsAfter = Math.abs(after - (times[rows[rows.length - 1]] + fold)) <= 1.5 * usual;
    const step = times[rows[0]] - before;
    const isPast = step < 0 && step + fold > 0;
    if (isPast || (joinsAfter && step > 1.5 * usual)) second = 0;
  }
  for (let k = second; k < rows.length; k++) times[rows[k]] += fold;
  return times[rows[rows.length - 1]];
}

/** Civil times around one for which nothing but its offset can be meant. */
function safeStretch(zone: Zone, civil: number, offset: number): [number, number, number] {
  const { changes } = zone;
  let low = 0;
  let high = changes.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (changes[middle] <= civil - offset) low = middle + 1;
    else high = middle;
  }
  const from = low === 0 ? Number.NEGATIVE_INFINITY : changes[low - 1] + offset + farMs;
  const to = low === changes.length ? Number.POSITIVE_INFINITY : changes[low] + offset - farMs;
  return [from, to, offset];
}
