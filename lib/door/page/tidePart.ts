import { zoneText } from "../../answers/headText.js";
import { meanDayOf } from "../../answers/meanDayOf.js";
import type { TidesAnswer } from "../../answers/tidesOf.js";
import { estimateInWords, signed } from "../../answers/words.js";
import type { Constituent } from "../../cycles/tide/tideFit.js";
import type { ThemedFigure } from "./themedFigure.js";
import { clockTime } from "../../ground/clockTime.js";
import type { Estimate } from "../../ground/estimate.js";
import type { ReportAnswers } from "./reportAnswers.js";
import type { PlainTable } from "./reportMarkup.js";
import { outdoorsFirst } from "./outdoorsFirst.js";
import { type ReportPart, untoldPart } from "./reportPart.js";

const heading = "The daily tide of the air pressure";
const beats: Readonly<Record<string, string>> = { S1: "once a day", S2: "twice a day", S3: "three times a day", S4: "four times a day" };

/** What does the air do twice a day. */
export function tidePart(answers: ReportAnswers, figures: readonly ThemedFigure[]): ReportPart {
  const { tides, view } = answers;
  if (tides.answer === null) return untoldPart("tide", heading, tides.why);
  const { answer } = tides;
  const [name] = outdoorsFirst(answers, Object.keys(answer.places));
  const place = answer.places[name];
  const fit = answer.fits[name];
  const title = view.titles[name] ?? name;
  const s2 = place.constituents.find((c) => c.name === "S2");
  const day = meanDayOf(fit);
  const shift = view.offsetHours - fit.longitude / 15;
  const brief = s2 === undefined ? "The twice-daily line was not fitted." : briefOf(s2, title);
  const clock = s2?.detected === true && s2.maximumAt !== null ? ` By the clock (${zoneText(view.offsetHours)}) that is ${clockTime(turned(s2.maximumAt.value + shift))} and ${clockTime(turned(s2.maximumAt.value + shift) + 12)}.` : "";
  const shape = day.highest.length > 0 && day.lowest.length > 0 ? ` With the other lines the mean day is highest at ${times(day.highest)} and lowest at ${times(day.lowest)} by the sun, ${day.range.toFixed(2)} hPa apart.` : "";
  const warnings = Object.entries(answer.places).flatMap(([n, p]) => p.warnings.map((w) => (Object.keys(answer.places).length > 1 ? `${view.titles[n] ?? n}: ${w}` : w)));
  return {
    id: "tide",
    heading,
    brief,
    answer: `${brief}${clock}${shape}`,
    figures,
    tables: [linesTable(answer, shift, view)],
    mislead: [
      ...new Set(warnings),
      ...(place.warnings.includes(place.seasonal.says) || place.seasonal.says === "" ? [] : [place.seasonal.says]),
      "A barometer that feels temperature shows up in the once-a-day line first: trust the twice-a-day line more.",
      "Each ± is the mean tide of these days: of 100 such records 95 would hold it.",
    ],
    made: [
      `${fit.method}`,
      `Fitted to ${Math.round(fit.hours)} hours of ${place.quantity === "surface_air_pressure" ? "station pressure" : "sea-level pressure"} at ${title}, together with the weather's own red noise, whose strength beside each line sets the intervals; simulated records show that they keep their promise`,
      "Hours by the sun are local mean solar time: UTC plus longitude / 15",
    ],
    sources: ["chapman", "constituents"],
  };
}

function briefOf(s2: Constituent, title: string): string {
  if (!s2.detected || s2.maximumAt === null) {
    return `No twice-daily tide stands out of the weather at ${title} yet: it is at most ${s2.amplitude.high.toFixed(2)} hPa from mean to crest, and a record like this would show one of ${s2.detectionLimit.toFixed(2)} hPa.`;
  }
  const at = s2.maximumAt.value;
  return `Twice a day the pressure at ${title} rises and falls by ${estimateInWords(s2.amplitude)} to either side of its mean, highest at ${clockTime(at)} and ${clockTime(at + 12)} by the sun (${minutes(s2.maximumAt)}).`;
}

function linesTable(answer: TidesAnswer, shift: number, view: ReportAnswers["view"]): PlainTable {
  const rows = Object.entries(answer.places).flatMap(([name, place]) =>
    place.constituents.map((c) => {
      const period = 24 / Math.round(c.cyclesPerDay);
      const isSeen = c.detected && c.maximumAt !== null;
      return [
        `${view.titles[name] ?? name}, ${c.name}`,
        beats[c.name] ?? `${c.cyclesPerDay.toFixed(4)} a day`,
        estimateInWords(c.amplitude),
        isSeen && c.maximumAt !== null ? `${clockTime(c.maximumAt.value)} ${minutes(c.maximumAt)}` : `not seen; ${signed(c.detectionLimit, 2)} hPa would show`,
        isSeen && c.maximumAt !== null && /^S\d$/.test(c.name) ? clockTime((((c.maximumAt.value + shift) % period) + period) % period) : "",
      ];
    }),
  );
  return { caption: "The lines of the tide", head: ["place and line", "beat", "mean to crest", "first crest, by the sun", `by the clock, ${zoneText(view.offsetHours)}`], rows };
}

/** `± 1 min`, `± 1.4 h`. */
function minutes(e: Estimate): string {
  const half = 30 * (e.high - e.low);
  return half < 90 ? `± ${Math.max(1, Math.round(half))} min` : `± ${(half / 60).toFixed(1)} h`;
}

function times(hours: readonly number[]): string {
  return hours.map(clockTime).join(" and ");
}

/** Hours of a twice-daily crest brought into the first half of the day. */
function turned(hours: number): number {
  return ((hours % 12) + 12) % 12;
}
