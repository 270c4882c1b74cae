import type { NoiseTheta } from "./bandedNoise.js";
import type { MeansKind } from "./hourMeans.js";
import { joinChunks } from "./joinChunks.js";
import { cyclesPerDay, type LineOfTide } from "./lineTable.js";
import { stretch, type TideChunk, tideChunk } from "./tideChunk.js";
import type { MonthTide } from "./tideFit.js";
import { observedDays, type UsableReadings } from "./usableReadings.js";

/** Fewest observed days of a month that is reported. */
const leastDays = 5;
/** Lines closer than this cannot be told apart in a month · cpd. */
const leastApart = 1 / 20;

/** The lines that a month can tell from the lines before them. */
function separateInAMonth(lines: readonly LineOfTide[]): LineOfTide[] {
  const kept: LineOfTide[] = [];
  for (const line of lines) if (kept.every((k) => Math.abs(cyclesPerDay(k) - cyclesPerDay(line)) >= leastApart)) kept.push(line);
  return kept;
}

/** Month 1…12 of local mean solar time that holds an instant, and the instant at which it ends · epoch ms. */
function monthAround(at: number, longitude: number): { month: number; to: number } {
  const shift = longitude * 240_000; // four minutes of time a degree
  const local = new Date(at + shift);
  const month = local.getUTCMonth();
  return { month: month + 1, to: Date.UTC(local.getUTCFullYear(), month + 1, 1) - shift };
}

/**
 * The tide of each calendar month of local mean solar time, all years together, at the noise of the whole record.
 *
 * Each month of each year is a stretch with its own mean and slope; the stretches of one calendar month add up.
 * Lines that a month cannot tell from the solar ones (K1, P1, T2, R2, K2) are left out of it.
 *
 * @param readings     of the record
 * @param lines        fitted lines of the record
 * @param reported     names to report
 * @param averagedOver s
 * @param kind         see `hourMeans`
 * @param theta        noise of the record
 * @param longitude    degrees east
 * @param unit         of the amplitude
 * @param jumps        instants at which the level jumped · s since the readings' midnight; they split a month too
 */
export function tideClimatology(
  readings: UsableReadings,
  lines: readonly LineOfTide[],
  reported: readonly string[],
  averagedOver: number,
  kind: MeansKind,
  theta: NoiseTheta,
  longitude: number,
  unit: string,
  jumps: readonly number[],
): MonthTide[] {
  const monthly = separateInAMonth(lines);
  const byMonth = new Map<number, { chunks: TideChunk[]; days: number }>();
  const { midnight, seconds } = readings;
  const end = seconds[seconds.length - 1] + 1;
  for (let from = seconds[0]; from < end; ) {
    const { month, to } = monthAround(midnight + 1000 * from, longitude);
    const monthEnd = Math.min((to - midnight) / 1000, end);
    const edges = [from, ...jumps.filter((j) => j > from && j < monthEnd), monthEnd];
    for (let k = 0; k + 1 < edges.length; k++) {
      const part = stretch(readings, edges[k], edges[k + 1]);
      const chunk = tideChunk(part, monthly, averagedOver, kind, theta);
      if (chunk === null) continue;
      const known = byMonth.get(month) ?? { chunks: [], days: 0 };
      known.chunks.push(chunk);
      known.days += observedDays(part);
      byMonth.set(month, known);
    }
    from = monthEnd;
  }
  return [...byMonth]
    .filter(([, { days }]) => days >= leastDays)
    .sort(([a], [b]) => a - b)
    .map(([month, { chunks, days }]) => {
      const { constituents } = joinChunks(chunks, monthly, theta, longitude, unit);
      return Object.freeze({ month, days: Math.round(100 * days) / 100, constituents: Object.freeze(constituents.filter((c) => reported.includes(c.name))) });
    });
}
