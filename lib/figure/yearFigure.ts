import { moreDays } from "../ground/moreDays.js";
import type { ClimateAnswer } from "../answers/climateOf.js";
import { estimateInWords, unitInWords } from "../answers/words.js";
import type { YearlyRound } from "../cycles/climate/yearlyRound.js";
import type { AirRecord } from "../record/airRecord.js";
import { houseUnit, type Quantity, quantityWords } from "../record/quantity.js";
import type { Figure } from "./figure.js";
import { lookOf, placeLooks } from "./placeLook.js";
import { digits } from "./roundedValues.js";
import { type Panel, sheet } from "./sheet.js";
import { type FigureOptions, paletteOf } from "./theme.js";
import { monthName, namedScale, numberScale } from "./tickScale.js";
import type { Trace } from "./trace.js";

const dayMs = 86_400_000;
const yearDays = 365.2425;
/** Days drawn one by one at most; of longer records every second, third … one. */
const mostDays = 1500;

/**
 * The yearly round: every day's mean by the time of the year, the fitted round, and how far its crest may be wrong.
 *
 * All years lie over each other. The fitted line has one wave, from two years on two; the interval of its size and of the day of its crest
 * stands in the message. Under a year there is no round: the days are drawn, and the days still to log are told.
 *
 * @param record           for the place's title
 * @param answer           from `climateOf`
 * @param options.place    which place; the first outdoor one of the answer when left out
 * @param options.quantity default air_temperature
 * @returns                null where no day has a mean
 * @throws RangeError      when the answer does not hold the place
 * @example yearFigure(record, climateOf(record))?.message
 */
export function yearFigure(record: AirRecord, answer: ClimateAnswer, options: FigureOptions & { readonly place?: string; readonly quantity?: Quantity } = {}): Figure | null {
  const palette = paletteOf(options.theme);
  const { quantity = "air_temperature" } = options;
  const { look, held } = lookOf("yearFigure", placeLooks(record, palette), answer.parts, options.place);
  const climate = held[quantity];
  const all = (climate?.daily ?? []).filter((d) => d.mean !== null);
  if (climate === undefined || all.length === 0) return null;
  const unit = unitInWords(houseUnit[quantity]);
  const every = Math.ceil(all.length / mostDays);
  const days = all.filter((_, i) => i % every === 0);
  const dayOfYear = (day: number): number => day - Date.UTC(new Date(day * dayMs).getUTCFullYear(), 0, 1) / dayMs + 1;
  const round = digits(2);
  const fit = climate.annualCycle;
  const line = fit === null ? [] : Array.from({ length: 74 }, (_, i) => 1 + 5 * i).map((day) => ({ day, value: roundAt(fit, day) }));
  const panels: Panel[] = [{ heading: `Daily mean ${quantityWords[quantity]}, ${unit}`, height: 250, y: numberScale([...days.map((d) => d.mean), ...line.map((l) => l.value)], { most: 6 }) }];
  const data: Trace[] = [{ type: "scatter", mode: "markers", name: "days", x: days.map((d) => dayOfYear(d.day)), y: days.map((d) => round(d.mean)), marker: { color: look.color, size: days.length > 500 ? 3 : 5, opacity: 0.7 }, text: days.map((d) => d.date), hovertemplate: `%{text}: %{y:.1f} ${unit}` }];
  if (line.length > 0) data.push({ type: "scatter", mode: "lines", name: "yearly round", x: line.map((l) => l.day), y: line.map((l) => round(l.value)), line: { color: palette.fit, width: 2.5 }, hovertemplate: `round %{y:.1f} ${unit}` });
  if (fit?.maximumOn) {
    // The crest's interval in days; ends that leave the year are cut where the picture ends.
    const { value, low, high } = fit.maximumOn;
    const top = Math.max(...line.map((l) => l.value));
    data.push({ type: "scatter", mode: "markers", name: "crest", x: [round(value)], y: [round(top)], marker: { color: palette.fit, size: 10, symbol: "triangle-up" }, error_x: { type: "data", symmetric: false, array: [round(Math.min(high, 366) - value)], arrayminus: [round(value - Math.max(low, 1))], color: palette.fit, thickness: 2, width: 5 }, hovertemplate: `crest ${dateOf(value)}` });
  }
  const message = messageOf(quantity, look.place.title, fit, climate.annualCycleToGo);
  const warnings = fit?.warnings ?? [];
  return sheet({
    name: "year",
    title: `The yearly round: ${quantityWords[quantity]} at ${look.title}`,
    palette,
    panels,
    x: namedScale([0, 367], Array.from({ length: 12 }, (_, m) => [(Date.UTC(2023, m, 1) - Date.UTC(2023, 0, 1)) / dayMs + 1, m % 2 === 0 ? monthName(m + 1) : ""] as const)),
    xTitle: "Time of the year (days of the standard time)",
    key: [
      { color: look.color, glyph: "●", text: "mean of each day" },
      ...(fit === null ? [] : [{ color: palette.fit, glyph: "━━", text: "yearly round" }]),
      ...(fit?.maximumOn ? [{ color: palette.fit, glyph: "▲", text: `crest ${dateOf(fit.maximumOn.value)} ± ${((fit.maximumOn.high - fit.maximumOn.low) / 2).toFixed(0)} days` }] : []),
    ],
    data,
    alt: `Points for the mean of each day by the time of the year${fit === null ? "" : ", and a fitted yearly wave"}. ${message}`,
    message: [message, ...warnings.map((w) => `${w.charAt(0).toUpperCase()}${w.slice(1)}.`)].join(" "),
    table: { head: ["month", `mean, ${unit}`, "95 % from", "to", "coverage of days"], rows: climate.monthly.map((m) => [m.date, digits(1)(m.mean?.value ?? null), digits(1)(m.mean?.low ?? null), digits(1)(m.mean?.high ?? null), digits(2)(m.coverage)]) },
  });
}

/** The fitted round on a day of the year; its phase is 0 at 1 January. */
function roundAt(fit: YearlyRound, dayOfYear: number): number {
  const turn = (2 * Math.PI * (dayOfYear - 1)) / yearDays;
  let value = fit.coefficients[0];
  for (let h = 1; h <= fit.harmonics; h++) value += fit.coefficients[2 * h - 1] * Math.cos(h * turn) + fit.coefficients[2 * h] * Math.sin(h * turn);
  return value;
}

function dateOf(dayOfYear: number): string {
  const date = new Date(Date.UTC(2023, 0, 1) + (dayOfYear - 1) * dayMs);
  return `${date.getUTCDate()} ${monthName(date.getUTCMonth() + 1)}`;
}

function messageOf(quantity: Quantity, title: string, fit: YearlyRound | null, toGo: number): string {
  const what = `${quantityWords[quantity]} at ${title}`;
  if (fit === null) return `Not enough days yet for the yearly round of ${what}: log ${moreDays(toGo)}.`;
  if (!fit.detected || fit.maximumOn === null) return `No yearly round of ${what} stands out of the weather: it is at most ${fit.amplitude.high.toFixed(1)} ${unitInWords(fit.amplitude.unit)} from its level to its crest.`;
  return `Over the year the ${what} swings ${estimateInWords(fit.amplitude)} to either side of ${estimateInWords(fit.mean)} and is highest on ${dateOf(fit.maximumOn.value)} ± ${((fit.maximumOn.high - fit.maximumOn.low) / 2).toFixed(0)} days.`;
}
