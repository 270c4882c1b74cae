import { dayAndTime, dayOnly, zoneText } from "../../answers/headText.js";
import { spacingSentence } from "../../answers/spacingSentence.js";
import { estimateInWords, signed } from "../../answers/words.js";
import type { ThemedFigure } from "./themedFigure.js";
import { outdoorsFirst } from "./outdoorsFirst.js";
import type { ReportAnswers } from "./reportAnswers.js";
import { type ReportPart, untoldPart } from "./reportPart.js";

const heading = "The swings of passing weather";

/** What does the air do over several days. */
export function swingsPart(answers: ReportAnswers, figures: readonly ThemedFigure[]): ReportPart {
  const { swings, view } = answers;
  if (swings.answer === null) return untoldPart("swings", heading, swings.why);
  const [name] = outdoorsFirst(answers, Object.keys(swings.answer.places));
  const place = swings.answer.places[name];
  const title = view.titles[name] ?? name;
  if (place.band === null) return { ...untoldPart("swings", heading, place.warnings[0] ?? "too few days hold pressure"), figures };
  const { band, events } = place;
  const lows = events.filter((e) => e.kind === "low");
  const deepest = [...lows].sort((a, b) => b.depth.value - a.depth.value)[0];
  const brief = `Passing weather moves the pressure at ${title} by ${estimateInWords(band.standardDeviation)} (standard deviation of its swings of ${band.shortestDays} to ${Number(band.longestDays.toFixed(0))} days).`;
  const low = deepest === undefined ? "" : ` ${lows.length} lows and ${events.length - lows.length} highs stood out; the deepest, on ${dayOnly(deepest.at, view.offsetHours)}, lay ${estimateInWords(deepest.depth)} below the slow background.`;
  const rows = [...events]
    .sort((a, b) => b.depth.value - a.depth.value)
    .slice(0, 24)
    .sort((a, b) => Date.parse(a.at) - Date.parse(b.at))
    .map((e) => [dayAndTime(e.at, view.offsetHours), `± ${Math.max(1, Math.round(1.96 * e.atStandardError))} h`, e.kind, `${e.kind === "low" ? "−" : "+"}${estimateInWords(e.depth)}`, e.durationHours === null ? "not told" : `${Math.round(e.durationHours.value)} ± ${Math.max(1, Math.round((e.durationHours.high - e.durationHours.low) / 2))} h`]);
  return {
    id: "swings",
    heading,
    brief,
    answer: [`${brief}${low}`, spacingSentence(events), place.spectrum.says].filter((s) => s !== "").join(" "),
    figures,
    tables: rows.length === 0 ? [] : [{ caption: `Lows and highs that stand out most, ${zoneText(view.offsetHours)}`, head: ["deepest or highest", "", "kind", "from the slow background", "at half depth for"], rows }],
    mislead: [
      ...place.warnings,
      "A front or a squall is quicker than these swings and hardly shows here.",
      ...(place.spectrum.peaks.some((p) => p.significant) ? [] : ["Weather without a beat still makes hills in a spectrum: none here stands higher than chance would make it."]),
    ],
    made: [
      `The tide and level shifts are taken off, hours averaged, and what is slower than ${Number(band.longestDays.toFixed(0))} days is taken out by a ${band.slowBy}. Lows and highs are turns of that curve that exceed their own noise`,
      `A beat is tested against red noise by records drawn at random, over all periods at once (a share of ${signed(100 * band.share, 0)} % of all variance lies in this band)`,
    ],
    sources: ["duchon", "sineTapers"],
  };
}
