import { zoneText } from "../answers/headText.js";
import type { IndoorsAnswer } from "../answers/indoorsOf.js";
import { recordView } from "../answers/recordView.js";
import { comparedInWords, estimateInWords } from "../answers/words.js";
import { clockTime } from "../ground/clockTime.js";
import type { AirRecord } from "../record/airRecord.js";
import { bandTrace } from "./bandTrace.js";
import type { Figure } from "./figure.js";
import { type PairAir, pairAir } from "./pairAir.js";
import { keyOf, type PlaceLook } from "./placeLook.js";
import { pairOf } from "./responseFigure.js";
import { digits } from "./roundedValues.js";
import { type Panel, sheet } from "./sheet.js";
import { type FigureOptions, paletteOf } from "./theme.js";
import { hourScale, numberScale } from "./tickScale.js";
import type { Trace } from "./trace.js";

/**
 * The mean day of temperature outside and inside: how much smaller and how much later the swing is indoors.
 *
 * Lines are means of the hours over all days that both places share; bands hold half of the days (from the lower to the upper quartile).
 *
 * @param record       with its faults marked (`flagRecord`)
 * @param answer       from `indoorsOf`
 * @param options.pair which pair of the answer · default 0
 * @returns            null where the two share no day
 * @throws RangeError  when the answer holds no such pair
 * @example houseDayFigure(flagRecord(record), indoorsOf(record))?.message
 */
export function houseDayFigure(record: AirRecord, answer: IndoorsAnswer, options: FigureOptions & { readonly pair?: number } = {}): Figure | null {
  const palette = paletteOf(options.theme);
  const pair = pairOf("houseDayFigure", answer, options.pair);
  const air = pairAir(record, pair, palette);
  if (air === null || air.hours < 24) return null;
  const { offsetHours } = recordView(record);
  const sides = ([["outside", air.outside], ["inside", air.inside]] as const).map(([side, look]) => ({ look, hours: byHour(air, side) }));
  if (sides.some(({ hours }) => hours.some((h) => Number.isNaN(h.mean)))) return null;
  const round = digits(2);
  const x = Array.from({ length: 26 }, (_, i) => i - 0.5);
  /** The day closes on itself: its last hour stands before the first and its first after the last. */
  const closed = (values: readonly number[]): (number | null)[] => [values[23], ...values, values[0]].map(round);
  const panels: Panel[] = [{ heading: "Air temperature, °C", height: 250, y: numberScale(sides.flatMap(({ hours }) => hours.flatMap((h) => [h.low, h.high])), { most: 7 }) }];
  const line = (look: PlaceLook, hours: readonly Hour[]): Trace => ({ type: "scatter", mode: "lines", name: look.title, x, y: closed(hours.map((h) => h.mean)), line: { color: look.color, width: 2.5, dash: look.dash }, hovertemplate: `${look.title} %{y:.1f} °C` });
  const data: Trace[] = [
    ...sides.map(({ look, hours }) => bandTrace({ name: `half of the days, ${look.title}`, x, low: closed(hours.map((h) => h.low)), high: closed(hours.map((h) => h.high)), color: look.color, fillcolor: look.band })),
    ...sides.map(({ look, hours }) => line(look, hours)),
  ];
  const peaks = sides.map(({ hours }) => hours.reduce((best, h, i) => (h.mean > hours[best].mean ? i : best), 0));
  const { decrementFactor, timeLag, meanDifference, daysLeftAlone } = pair;
  const message = `${meanDifference === null ? "" : `${air.inside.place.title} is on average ${comparedInWords(meanDifference, "warmer", "colder")} than ${air.outside.place.title}. `}${decrementFactor === null ? "The daily cycle inside cannot be judged." : `${daysLeftAlone === undefined ? "Its" : "Left alone its"} daily swing is ${estimateInWords(decrementFactor)} of that outside${timeLag === null ? "" : ` and comes ${comparedInWords(timeLag, "later", "earlier")}`}.`} The mean day is warmest about ${clockTime(peaks[0] + 0.5)} outside and ${clockTime(peaks[1] + 0.5)} inside.`;
  return sheet({
    name: "house-day",
    title: `The mean day outside and inside: ${air.inside.title}`,
    palette,
    panels,
    x: hourScale(),
    xTitle: `Hour of the day (standard time, ${zoneText(offsetHours)})`,
    key: [...sides.map(({ look }) => keyOf(look)), { color: palette.softInk, glyph: "▒", text: "half of the days lie in the band" }],
    data,
    hovermode: "x",
    alt: `Two curves over the hours of the day with bands: temperature outside and inside. ${message}`,
    message,
    table: { head: ["hour (standard time)", "outside, °C", "inside, °C"], rows: Array.from({ length: 24 }, (_, h) => [`${String(h).padStart(2, "0")}–${String(h + 1).padStart(2, "0")}`, ...sides.map(({ hours }) => round(hours[h].mean))]) },
  });
}

interface Hour {
  readonly mean: number;
  readonly low: number;
  readonly high: number;
}

/** Mean and quartiles of each hour of the day over the hours that both places share. */
function byHour(air: PairAir, side: "outside" | "inside"): Hour[] {
  const values = side === "outside" ? air.outsideTemperature : air.insideTemperature;
  return Array.from({ length: 24 }, (_, h) => {
    const seen: number[] = [];
    for (let k = h; k < air.hours; k += 24) if (!Number.isNaN(air.insideTemperature[k] + air.outsideTemperature[k])) seen.push(values[k]);
    seen.sort((a, b) => a - b);
    const at = (share: number): number => seen[Math.round(share * (seen.length - 1))] ?? Number.NaN;
    return { mean: seen.length === 0 ? Number.NaN : seen.reduce((a, b) => a + b, 0) / seen.length, low: at(0.25), high: at(0.75) };
  });
}
