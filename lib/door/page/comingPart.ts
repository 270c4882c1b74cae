import { dayAndTime, zoneText } from "../../answers/headText.js";
import { estimateInWords, signed, turnedOver } from "../../answers/words.js";
import { tideAt } from "../../cycles/tide/tideAt.js";
import type { TideFit } from "../../cycles/tide/tideFit.js";
import type { ThemedFigure } from "./themedFigure.js";
import type { Estimate } from "../../ground/estimate.js";
import { outdoorsFirst } from "./outdoorsFirst.js";
import type { ReportAnswers } from "./reportAnswers.js";
import type { PlainTable } from "./reportMarkup.js";
import { type ReportPart, untoldPart } from "./reportPart.js";

const heading = "What is really coming?";
const hourMs = 3_600_000;

/** The 3-hour tendency without the tide, and the tide as a table to carry back to the station. */
export function comingPart(answers: ReportAnswers, figures: readonly ThemedFigure[]): ReportPart {
  const { swings, tides, view } = answers;
  if (swings.answer === null) return untoldPart("coming", heading, swings.why);
  const [name] = outdoorsFirst(answers, Object.keys(swings.answer.places));
  const place = swings.answer.places[name];
  const { last } = place.tendency;
  const title = view.titles[name] ?? name;
  const fit = tides.answer?.fits[name];
  const tables = fit === undefined ? [] : [hoursTable(fit, view.offsetHours, title)];
  if (last === null) return { ...untoldPart("coming", heading, `the last three hours at ${title} do not hold a tendency`), figures, tables };
  const brief = `In the three hours to ${dayAndTime(last.at, view.offsetHours)} the pressure at ${title}, freed of its tide, ${moved(last.tideFree)}: ${last.term}.`;
  return {
    id: "coming",
    heading,
    brief,
    answer: `${brief} As read it ${moved(last.raw)}.${last.characteristicSays === null ? "" : ` In those hours it ${last.characteristicSays.replace("; ", ", ")}.`}`,
    figures,
    tables,
    mislead: [
      "The tide alone moves the pressure by up to the numbers of the table's last column in three hours: a plain tendency takes them for weather.",
      ...place.warnings.filter((w) => /tendency|tide/.test(w)),
      "This is the end of the record, not now: read the newest card first.",
    ],
    made: [
      "The change over three hours, with the fitted tide taken off; its ± holds the barometer's noise, the tide's own interval, and what the tide differs from day to day",
      "The table is the fitted tide by the clock; take its value off a reading of the same hour",
    ],
    sources: ["wmoTendency", "chapman"],
    caution: "Not a storm warning, and not for aviation or navigation: for warnings ask your weather service.",
  };
}

function moved(e: Estimate): string {
  if (e.low <= 0 && e.high >= 0) return `held (${e.value < 0 ? "" : "+"}${estimateInWords(e)})`;
  return e.value > 0 ? `rose by ${estimateInWords(e)}` : `fell by ${estimateInWords(turnedOver(e))}`;
}

/** The solar tide at each full hour of the clock, and what it changes over the three hours before. */
function hoursTable(fit: TideFit, offsetHours: number, title: string): PlainTable {
  const midnight = Math.floor(fit.from / (24 * hourMs)) * 24 * hourMs - offsetHours * hourMs;
  const hours = Array.from({ length: 27 }, (_, k) => midnight + (k - 3) * hourMs);
  const tide = tideAt(fit, hours);
  const half = Math.hypot(...fit.constituents.map((c) => (c.amplitude.high - c.amplitude.low) / 2));
  const sign = (v: number): string => `${v > 0.005 ? "+" : ""}${signed(v, 2)}`;
  return {
    caption: `The tide at ${title} by the clock, ${zoneText(offsetHours)}: hPa above or below the mean, each within ± ${half.toFixed(2)} hPa`,
    isOpen: true,
    head: ["hour", "tide, hPa", "tide's own change in the 3 hours before, hPa"],
    rows: Array.from({ length: 24 }, (_, h) => [`${String(h).padStart(2, "0")}:00`, sign(tide[h + 3]), sign(tide[h + 3] - tide[h])]),
  };
}
