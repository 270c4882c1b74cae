import { mustSentence, RecordError, requireWithin, shown } from "../../ground/complaint.js";
import type { Series } from "../../record/series.js";
import { type FittedLines, fittedLines, requireSeparable } from "./fittedLines.js";
import { straightReadings } from "./straightReadings.js";
import type { TideOptions } from "./tideFit.js";
import { type UsableReadings, usableReadings } from "./usableReadings.js";

/** What is fitted, once the request and the record have been found fit for it. */
export interface TideFrame {
  readonly readings: UsableReadings;
  readonly fitted: FittedLines;
  /** Usual spacing · s. */
  readonly spacing: number;
  /** Spacing of true readings found under straight lines, or null · s. */
  readonly straight: number | null;
  readonly averagedOver: number;
}

/** Fewest days that are fitted; longest spacing that still carries S3; longest that carries S4 · s. */
const leastDays = 3;
export const longestSpacing = 12_960;
const longestForS4 = 9360;

/** `2.3 d`, never rounded up to the length that is asked for. */
function daysText(days: number): string {
  return `${(Math.floor(days * 10) / 10).toFixed(1)} d`;
}

/**
 * Judges request and record before a tide is fitted.
 *
 * @param at      name of the calling function, for its complaints
 * @throws TypeError, RangeError when an option is wrong
 * @throws RecordError kind `data` when the record is too short (3 days), too sparse, or cannot separate the lines
 */
export function tideFrame(at: string, series: Series, options: TideOptions): TideFrame {
  const { longitude, lines = [], averagedOver = 0, events = [] } = options;
  requireWithin(at, "longitude", longitude, -180, 180, "degrees east");
  requireWithin(at, "averagedOver", averagedOver, 0, 21_600, "s");
  if (!Array.isArray(lines) || lines.some((l) => typeof l !== "string")) throw new TypeError(mustSentence(at, "lines", "be a list of names", shown(lines)));
  for (const event of events) requireWithin(at, "events", event, -Infinity, Infinity, "ms");
  const all = usableReadings(series);
  if (all.seconds.length < 2) {
    throw new RecordError(mustSentence(at, "series", "hold usable readings over 3 days", `${all.seconds.length} of ${series.values.length} readings usable`), "data");
  }
  const found = straightReadings(all);
  const readings = found?.readings ?? all;
  const { seconds, spacing } = readings;
  const days = (seconds[seconds.length - 1] - seconds[0] + spacing) / 86_400;
  // A millisecond of tolerance: three whole days of readings every 20 minutes are three days.
  if (!(days >= leastDays - 1e-8)) throw new RecordError(mustSentence(at, "series", "last at least 3 whole days", daysText(days), "log longer"), "data");
  if (spacing > longestSpacing) {
    throw new RecordError(mustSentence(at, "series", "hold a reading every 3 hours or oftener", `one every ${(spacing / 3600).toFixed(1)} h`, "log oftener"), "data");
  }
  const fitted = fittedLines(at, lines, spacing <= longestForS4);
  requireSeparable(at, fitted.lines, days);
  return { readings, fitted, spacing, straight: found?.spacing ?? null, averagedOver };
}
