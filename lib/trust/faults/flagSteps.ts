import { flagBit } from "../../record/flag.js";
import type { Series } from "../../record/series.js";
import { type LevelShift, levelShifts } from "./levelShifts.js";
import { loneShifts } from "./loneShifts.js";
import { pairedReadings } from "./pairedReadings.js";

/** A level that has come back to within this share of the largest shift is the old level. */
const comesBack = 0.3;

/**
 * Marks the readings of a barometer that stand on a shifted level: from the shift to the one that takes it back, or to the end.
 *
 * Against its twin where there is one, alone otherwise. Marked readings stay in every analysis; tide and offsets are fitted
 * on either side of the shift by those who use them. A temperature's or a humidity's shift cannot be told from weather.
 *
 * @param series a barometer · other quantities are never marked
 * @param twin   the other place's barometer, or null
 * @returns      bits of `flagBit`, 0 or step · [n]
 * @source see levelShifts and loneShifts
 */
export function flagSteps(series: Series, twin: Series | null): Uint16Array {
  const bits: Uint16Array = new Uint16Array(series.values.length);
  let level = 0;
  const shifts = shiftsOf(series, twin);
  for (let s = 0; s < shifts.length; s++) {
    level += shifts[s].size;
    if (Math.abs(level) <= comesBack * Math.abs(shifts[s].size)) level = 0;
    if (level === 0) continue;
    const to = s + 1 < shifts.length ? shifts[s + 1].index : bits.length;
    bits.fill(flagBit.step, shifts[s].index, to);
  }
  return bits;
}

/** Lasting jumps of one barometer's level: by its twin where one shares at least half of its readings, by itself otherwise. */
export function shiftsOf(series: Series, twin: Series | null): readonly LevelShift[] {
  if (!/pressure/.test(series.quantity)) return [];
  if (twin === null) return loneShifts(series);
  const pairs = pairedReadings(series, twin);
  if (2 * pairs.at.length < series.values.length) return loneShifts(series);
  return levelShifts(series, twin, pairs).filter(({ place }) => place === series.place);
}
