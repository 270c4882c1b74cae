import type { LevelJump } from "./levelJumps.js";
import type { TideSteps } from "./tideSteps.js";

/** What a fit knows of its record that a reader should be told. */
export interface TideCircumstances {
  readonly quantity: string;
  readonly unit: string;
  readonly days: number;
  /** Usual spacing of the true readings · s. */
  readonly spacing: number;
  /** Spacing found under straight lines, or null · s. */
  readonly straight: number | null;
  readonly jumps: readonly LevelJump[];
  readonly midnight: number;
  readonly steps: TideSteps;
  /** Whether the tide changes with the season; null when it was not tested. */
  readonly changes: boolean | null;
  readonly seasonSays: string;
}

const hoursText = (seconds: number): string => (seconds % 3600 === 0 ? `${seconds / 3600} h` : `${Math.round(seconds / 60)} min`);
const instantText = (ms: number): string => `${new Date(ms).toISOString().slice(0, 16)}Z`;

/** Hours of the day (UTC) that were observed on fewer than half as many days as the others. */
function thinHours(steps: TideSteps): number[] {
  const { values, perHour, firstHour } = steps;
  const counts: number[] = new Array(24).fill(0);
  for (let k = 0; k < values.length; k++) if (!Number.isNaN(values[k])) counts[(((firstHour + Math.floor(k / perHour)) % 24) + 24) % 24]++;
  const mean = counts.reduce((a, b) => a + b, 0) / 24;
  return counts.flatMap((c, hour) => (c < 0.5 * mean ? [hour] : []));
}

/**
 * The sentences a reader of a tide needs: what limits the numbers, and what to do.
 *
 * @param of see TideCircumstances
 */
export function tideWarnings(of: TideCircumstances): string[] {
  const { quantity, unit, days, spacing, straight, jumps, midnight, steps, changes, seasonSays } = of;
  const found: string[] = [];
  if (days <= 20) found.push(`Only ${days.toFixed(1)} days: the intervals are wide and less well tried; 20 days or more are better.`);
  if (straight !== null) {
    found.push(`Readings lie on straight lines between every ${hoursText(straight)}: only those were fitted, the others were drawn, not measured.`);
  }
  if (spacing >= 9000) found.push(`Readings come every ${hoursText(spacing)}: S3 may be off by a few hundredths of its unit, because faster beats look like it.`);
  const thin = thinHours(steps);
  if (spacing < 5400 && thin.length > 0) {
    found.push(`Some hours of the day are hardly covered (UTC ${thin.map((h) => String(h).padStart(2, "0")).join(", ")} h): the tide rests on the others.`);
  }
  for (const { at, size } of jumps) {
    const what = Number.isNaN(size) ? "The level may have changed" : `The level jumps by ${size.toFixed(1)} ${unit}`;
    found.push(`${what} at ${instantText(midnight + 1000 * at)}: each part was given its own mean and slope.`);
  }
  if (quantity === "air_pressure_at_mean_sea_level") {
    found.push("This is sea-level pressure: the temperature used in its reduction adds a false tide, more so the higher the place. With the temperature of the moment S1 can triple, with the mean over twelve hours S2 grows and comes early; only a monthly mean is harmless. Fit station pressure.");
  }
  if (changes === true) found.push(seasonSays);
  else if (changes === null) found.push(`This is the mean tide of these ${Math.round(days)} days; the place's own may differ from it with the season, by more than the interval (S3 most). Ten months tell.`);
  return found;
}
