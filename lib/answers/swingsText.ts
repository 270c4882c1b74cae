import { tendencyCaution } from "../cycles/swings/pressureTendency.js";
import type { Estimate } from "../ground/estimate.js";
import { dayAndTime, headLines, zoneText } from "./headText.js";
import type { RecordHead } from "./recordHead.js";
import type { RecordView } from "./recordView.js";
import { spacingSentence } from "./spacingSentence.js";
import type { SwingsBand, SwingsPlace } from "./swingsPlace.js";
import { alignedColumns, estimateInWords, wrapped } from "./words.js";

/** Events told one by one; more than that are told by their number, the deepest first. */
const mostEvents = 12;

/**
 * The swings of a record as text for people.
 *
 * @param answer  from `swingsOf`
 * @param view    offset, titles and why places were left out
 * @param columns width of the screen
 */
export function swingsText(answer: { readonly record: RecordHead; readonly places: Readonly<Record<string, SwingsPlace>> }, view: RecordView & { readonly untold: readonly string[] }, columns = 100): string {
  const lines = [...headLines(answer.record, view.offsetHours), ""];
  for (const [name, place] of Object.entries(answer.places)) lines.push(...placeLines(view.titles[name] ?? name, place, view, columns), "");
  for (const why of view.untold) lines.push(...wrapped(`! ${why}`, columns, "  "), "");
  lines.push(...wrapped(`Each ± is a 95 % interval. A front or a squall is quicker than these swings. The tendency is ${tendencyCaution}. Not for aviation or navigation.`, columns));
  return `${lines.join("\n")}\n`;
}

function placeLines(title: string, place: SwingsPlace, view: RecordView, columns: number): string[] {
  const quantity = place.quantity === "surface_air_pressure" ? "station pressure" : "sea-level pressure";
  const lines = [`${title}: the slow wave in ${Number(place.days.toFixed(1))} days of ${quantity}`];
  if (place.band !== null) lines.push(...wrapped(bandSentence(place.band), columns));
  lines.push(...wrapped(place.spectrum.says, columns));
  if (place.events.length > 0) lines.push("", ...eventLines(place, view, columns));
  lines.push("", ...wrapped(tendencySentence(place, view), columns));
  for (const warning of place.warnings) lines.push(...wrapped(`  ! ${warning}`, columns, "    "));
  return lines;
}

function bandSentence({ shortestDays, longestDays, standardDeviation, shares }: SwingsBand): string {
  const longest = Number(longestDays.toFixed(1));
  const moves = `Passing weather moves the pressure by ${estimateInWords(standardDeviation)}, the standard deviation of its swings of ${shortestDays} to ${longest} days.`;
  if (shares === null) return moves;
  const share = (e: Estimate): string => (e.high < 0.005 ? "under 1 %" : `${Math.round(100 * e.value)} % (${Math.round(100 * e.low)} to ${Math.round(100 * e.high)})`);
  return `${moves} Of all its variance these swings are ${share(shares.swings)}, what is slower ${share(shares.background)}, the tide ${share(shares.tide)}, what is quicker ${share(shares.quick)}.`;
}

function eventLines(place: SwingsPlace, view: RecordView, columns: number): string[] {
  const lows = place.events.filter((e) => e.kind === "low").length;
  const highs = place.events.length - lows;
  const chosen = new Set([...place.events].sort((a, b) => b.depth.value - a.depth.value).slice(0, mostEvents));
  const rows = place.events
    .filter((e) => chosen.has(e))
    .map((e) => [
      e.kind,
      dayAndTime(e.at, view.offsetHours),
      `± ${hoursText(1.96 * e.atStandardError)}`,
      `${e.kind === "low" ? "−" : "+"}${estimateInWords(e.depth)}`,
      e.durationHours === null ? "not told" : durationText(e.durationHours),
    ]);
  const head = ["", `at its peak, ${zoneText(view.offsetHours)}`, "", "departs by", "lasts"];
  const count = `  ${lows} ${lows === 1 ? "low" : "lows"}, ${highs} ${highs === 1 ? "high" : "highs"}${place.events.length > mostEvents ? `; the ${mostEvents} that stand out most` : ""} (departure from the slow background, time at half of it)`;
  const spacing = spacingSentence(place.events);
  return [...wrapped(count, columns, "  "), ...(spacing === "" ? [] : wrapped(`  ${spacing}`, columns, "  ")), ...alignedColumns([head, ...rows]).map((l) => `    ${l}`)];
}

function durationText(e: Estimate): string {
  const half = (e.high - e.low) / 2;
  return e.value < 72 ? `${Math.round(e.value)} ± ${Math.max(1, Math.round(half))} h` : `${(e.value / 24).toFixed(1)} ± ${Math.max(0.1, half / 24).toFixed(1)} d`;
}

function hoursText(hours: number): string {
  return hours < 10 ? `${Number(hours.toFixed(1))} h` : `${Math.round(hours)} h`;
}

function tendencySentence(place: SwingsPlace, view: RecordView): string {
  const { last } = place.tendency;
  if (last === null) return "Now: no 3-hour tendency can be told.";
  const change = (e: Estimate): string => `${e.value < 0 ? "" : "+"}${estimateInWords(e)}`;
  const shape = last.characteristicSays === null ? "" : ` (${last.characteristicSays})`;
  return `Now, in the 3 hours to ${dayAndTime(last.at, view.offsetHours)}: ${change(last.raw)} as read, ${change(last.tideFree)} without the tide: ${last.term}${shape}.`;
}
