import type { Constituent, MonthTide, TideFit } from "../cycles/tide/tideFit.js";
import { clockTime } from "../ground/clockTime.js";
import type { Estimate } from "../ground/estimate.js";
import { headLines, monthNames, zoneText } from "./headText.js";
import type { RecordHead } from "./recordHead.js";
import { type MeanDay, meanDayOf } from "./meanDayOf.js";
import { alignedColumns, capital, decimalsFor, estimateInWords, sparkline, wrapped } from "./words.js";

/** What the text needs besides the answer. */
export interface TidesView {
  /** The record's standard time · hours east of UTC. */
  readonly offsetHours: number;
  readonly titles: Readonly<Record<string, string>>;
  /** Why places were left out. */
  readonly untold: readonly string[];
}

interface Told {
  readonly record: RecordHead;
  readonly places: Readonly<Record<string, { readonly quantity: string; readonly constituents: readonly Constituent[]; readonly climatology: readonly MonthTide[]; readonly seasonal: { readonly changes: boolean | null; readonly says: string }; readonly warnings: readonly string[] }>>;
  readonly fits: Readonly<Record<string, TideFit>>;
}

const beats: Readonly<Record<string, string>> = { S1: "once a day", S2: "twice a day", S3: "3 times a day", S4: "4 times a day", L2: "twice a lunar day" };

/**
 * The tide of a record as text for people.
 *
 * @param answer  from `tidesOf`
 * @param view    offset, titles and what was left out
 * @param columns width of the screen
 */
export function tidesText(answer: Told, view: TidesView, columns = 100): string {
  const lines = [...headLines(answer.record, view.offsetHours).flatMap((line) => wrapped(line, columns, "  ")), ""];
  for (const name of Object.keys(answer.places)) lines.push(...placeLines(name, answer, view, columns), "");
  for (const why of view.untold) lines.push(...wrapped(`! ${why}`, columns, "  "), "");
  lines.push(
    ...wrapped(
      "Each ± is a 95 % interval: of 100 such records, 95 would hold the true mean tide of their days in it. “Sun time” is local mean solar time, UTC plus longitude / 15. S1 is no better than the barometer's own temperature error. Not for aviation or navigation, and no storm warning.",
      columns,
    ),
  );
  return `${lines.join("\n")}\n`;
}

function placeLines(name: string, answer: Told, view: TidesView, columns: number): string[] {
  const place = answer.places[name];
  const fit = answer.fits[name];
  const quantity = place.quantity === "surface_air_pressure" ? "station pressure" : "sea-level pressure";
  const day = meanDayOf(fit);
  const title = `${view.titles[name] ?? name}: the tide in ${Number(fit.days.toFixed(1))} days of ${quantity}`;
  const lines = [...wrapped(title, columns, "  "), ...mainSentence(place.constituents, day, columns), ""];
  lines.push(...lineTable(place.constituents, view.offsetHours, fit.longitude, columns), "");
  lines.push(...dayLines(day, columns));
  if (place.climatology.length > 1) lines.push("", ...monthLines(place.climatology, columns));
  // Where the season was not tested, a warning says what that means.
  if (place.seasonal.changes === false) lines.push("", ...wrapped(`  ${capital(place.seasonal.says)}`, columns, "  "));
  for (const warning of place.warnings) lines.push(...wrapped(`  ! ${warning}`, columns, "    "));
  return lines;
}

/** The lines of the tide as a table, or where the screen is too narrow for it, as a sentence each. */
function lineTable(constituents: readonly Constituent[], offsetHours: number, longitude: number, columns: number): string[] {
  const head = ["", "beat", "mean to crest", "first crest, sun time", `by the clock, ${zoneText(offsetHours)}`];
  const rows = constituents.map((c) => row(c, offsetHours - longitude / 15));
  const table = alignedColumns([head, ...rows]).map((l) => `  ${l}`);
  if (fits(table, columns)) return table;
  return rows.flatMap(([name, beat, amplitude, first, clock], i) => {
    if (!constituents[i].detected) return wrapped(`  ${name}  ${beat}: ${first}; fitted ${amplitude} from mean to crest`, columns, "      ");
    return wrapped(`  ${name}  ${beat}: ${amplitude} from mean to crest; first crest ${first}${clock === "" ? "" : ` sun time (by the clock, ${zoneText(offsetHours)}: ${clock})`}`, columns, "      ");
  });
}

function dayLines(day: MeanDay, columns: number): string[] {
  const curve = `00 ${sparkline(day.curve)} 24`;
  const size = `${day.range.toFixed(2)} hPa from lowest to highest`;
  const one = `  mean day, sun time   ${curve}   ${size}`;
  return fits([one], columns) ? [one] : [`  mean day, sun time: ${size}`, `  ${curve}`];
}

/** Whether every line has room on the screen. */
function fits(lines: readonly string[], columns: number): boolean {
  return lines.every((line) => [...line].length <= columns);
}

function mainSentence(constituents: readonly Constituent[], day: MeanDay, columns: number): string[] {
  const s2 = constituents.find((c) => c.name === "S2");
  if (s2 === undefined) return [];
  if (!s2.detected || s2.maximumAt === null) {
    return wrapped(
      `No twice-daily tide stands out of the weather yet: it is at most ${s2.amplitude.high.toFixed(decimalsFor(s2.amplitude.high))} hPa from mean to crest. A record like this would show one of ${s2.detectionLimit.toFixed(decimalsFor(s2.detectionLimit))} hPa; a longer one shows a smaller one.`,
      columns,
    );
  }
  const swing = `Twice a day the pressure swings ${estimateInWords(s2.amplitude)} to either side of its mean (S2), cresting at ${clockTime(s2.maximumAt.value)} and ${clockTime(s2.maximumAt.value + 12)} sun time, ± ${minutes(s2.maximumAt)}.`;
  if (day.highest.length < 2 || day.lowest.length < 2) return wrapped(swing, columns);
  const times = (hours: readonly number[]): string => hours.map(clockTime).join(" and ");
  return wrapped(`${swing} With the other lines, the mean day is highest at ${times(day.highest)} and lowest at ${times(day.lowest)}.`, columns);
}

function row(c: Constituent, clockShift: number): string[] {
  const beat = beats[c.name] ?? `${c.cyclesPerDay.toFixed(4)} a day`;
  const amplitude = estimateInWords(c.amplitude);
  if (!c.detected || c.maximumAt === null) {
    return [c.name, beat, amplitude, `not seen: ${c.detectionLimit.toFixed(decimalsFor(c.detectionLimit))} hPa would show`, ""];
  }
  const solar = /^S\d$/.test(c.name);
  const period = 24 / Math.round(c.cyclesPerDay);
  const first = `${clockTime(c.maximumAt.value)} ± ${minutes(c.maximumAt)}${solar ? "" : c.name === "L2" ? " (lunar hours)" : " (its own hours)"}`;
  return [c.name, beat, amplitude, first, solar ? `${clockTime((((c.maximumAt.value + clockShift) % period) + period) % period)}, then every ${Number(period.toFixed(1))} h` : ""];
}

function minutes(e: Estimate): string {
  const half = 30 * (e.high - e.low);
  return half < 90 ? `${Math.max(1, Math.round(half))} min` : `${(half / 60).toFixed(1)} h`;
}

function monthLines(months: readonly MonthTide[], columns: number): string[] {
  const cell = (month: MonthTide, name: string): string => {
    const c = month.constituents.find((l) => l.name === name);
    if (c === undefined) return "";
    return c.detected && c.maximumAt !== null ? `${estimateInWords(c.amplitude)} at ${clockTime(c.maximumAt.value)}` : `not seen: ${c.detectionLimit.toFixed(2)} hPa would show`;
  };
  const block = (names: readonly string[]): string[] =>
    alignedColumns([["", "", ...names], ...months.map((m) => [monthNames[m.month - 1], `${m.days.toFixed(0)} d`, ...names.map((name) => cell(m, name))])], [1]).map((l) => `    ${l}`);
  const both = block(["S2", "S1"]);
  return ["  month by month", ...(fits(both, columns) ? both : [...block(["S2"]), ...block(["S1"])])];
}
