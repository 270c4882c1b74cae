import type { IndoorsAnswer } from "../answers/indoorsOf.js";
import { recordView } from "../answers/recordView.js";
import { estimateInWords } from "../answers/words.js";
import type { Estimate } from "../ground/estimate.js";
import type { HousePair } from "../indoors/housePair.js";
import type { AirRecord } from "../record/airRecord.js";
import { type Figure, plainText } from "./figure.js";
import { significant } from "./roundedValues.js";
import { axesOf, type Panel, sheet } from "./sheet.js";
import { type FigureOptions, paletteOf } from "./theme.js";
import { logScale, numberScale } from "./tickScale.js";
import type { Trace } from "./trace.js";

const periods: readonly (readonly [number, string])[] = [[1 / 12, "12 d"], [1 / 6, "6 d"], [1 / 3, "3 d"], [1, "1 d"], [2, "12 h"], [4, "6 h"]];
const ends = [0.06, 7] as const;

/**
 * How the house answers the weather: how much of a swing outside comes in (gain), and how much later (lag), by the length of the swing.
 *
 * Points are bands of frequency (their width drawn level) with 95 % intervals, open where no answer stands above the noise; the diamond
 * is the daily cycle. Where one time constant describes the house, its curve is drawn.
 *
 * @param record       for the titles
 * @param answer       from `indoorsOf`
 * @param options.pair which pair of the answer · default 0
 * @returns            null where no band could be judged
 * @throws RangeError  when the answer holds no such pair
 * @example responseFigure(record, indoorsOf(record))?.message
 */
export function responseFigure(record: AirRecord, answer: IndoorsAnswer, options: FigureOptions & { readonly pair?: number } = {}): Figure | null {
  const palette = paletteOf(options.theme);
  const pair = pairOf("responseFigure", answer, options.pair);
  const { titles } = recordView(record);
  const bands = pair.response.filter((b) => b.gain !== null);
  if (bands.length === 0) return null;
  const lags = bands.filter((b) => b.lagHours !== null);
  const round = significant(4);
  const { decrementFactor, timeLag, timeConstant } = pair;
  const width = (of: readonly (typeof bands)[number][]): Pick<Extract<Trace, { type: "scatter" }>, "error_x"> => ({
    error_x: { type: "data", symmetric: false, array: of.map((b) => round(b.to - b.cyclesPerDay)), arrayminus: of.map((b) => round(b.cyclesPerDay - b.from)), color: palette.inside, thickness: 1, width: 0 },
  });
  const reach = (all: readonly Estimate[], color: string): Pick<Extract<Trace, { type: "scatter" }>, "error_y"> => ({
    error_y: { type: "data", symmetric: false, array: all.map((e) => round(e.high - e.value)), arrayminus: all.map((e) => round(e.value - e.low)), color, thickness: 1.5, width: 4 },
  });
  const gains = bands.map((b) => b.gain as Estimate);
  const delays = lags.map((b) => b.lagHours as Estimate);
  const inView = (e: Estimate): number[] => [e.low, e.high];
  const panels: Panel[] = [
    { heading: "Swing inside over swing outside (gain)", height: 180, y: numberScale([...gains.flatMap(inView), ...(decrementFactor === null ? [] : inView(decrementFactor)), 1], { zero: true, most: 6 }) },
    ...(delays.length === 0 && timeLag === null ? [] : [{ heading: "How much later inside, hours (lag)", height: 150, y: numberScale([...delays.flatMap(inView), ...(timeLag === null ? [] : inView(timeLag))], { zero: true, most: 6 }) }]),
  ];
  const lower = panels.length > 1 ? axesOf(panels, 1) : null;
  const data: Trace[] = [];
  if (timeConstant !== null) {
    const f = Array.from({ length: 61 }, (_, i) => ends[0] * (ends[1] / ends[0]) ** (i / 60));
    const turn = f.map((v) => (2 * Math.PI * v * timeConstant.value) / 24);
    const curve = { type: "scatter", mode: "lines", name: "one time constant", x: f.map((v) => round(v) as number), line: { color: palette.reference, width: 1.5, dash: "dash" }, hoverinfo: "skip" } as const;
    data.push({ ...curve, y: turn.map((w) => round(1 / Math.hypot(1, w))) });
    if (lower !== null) data.push({ ...curve, y: turn.map((w, i) => round((Math.atan(w) * 24) / (2 * Math.PI * f[i]))), xaxis: lower.x, yaxis: lower.y });
  }
  const point = { type: "scatter", mode: "markers" } as const;
  data.push({ ...point, name: "gain", x: bands.map((b) => round(b.cyclesPerDay)), y: gains.map((e) => round(e.value)), marker: { color: bands.map((b) => (b.lagHours === null ? palette.paper : palette.inside)), size: 8, line: { color: palette.inside, width: 1.5 } }, ...width(bands), ...reach(gains, palette.inside), text: gains.map(estimateInWords), hovertemplate: "gain %{text}" });
  if (lower !== null && delays.length > 0) data.push({ ...point, name: "lag", x: lags.map((b) => round(b.cyclesPerDay)), y: delays.map((e) => round(e.value)), xaxis: lower.x, yaxis: lower.y, marker: { color: palette.inside, size: 8 }, ...width(lags), ...reach(delays, palette.inside), text: delays.map(estimateInWords), hovertemplate: "lag %{text}" });
  if (decrementFactor !== null) data.push({ ...point, name: "daily cycle", x: [1], y: [round(decrementFactor.value)], marker: { color: palette.outside, size: 11, symbol: "diamond" }, ...reach([decrementFactor], palette.outside), text: [estimateInWords(decrementFactor)], hovertemplate: "daily cycle %{text}" });
  if (timeLag !== null && lower !== null) data.push({ ...point, name: "daily cycle", x: [1], y: [round(timeLag.value)], xaxis: lower.x, yaxis: lower.y, marker: { color: palette.outside, size: 11, symbol: "diamond" }, ...reach([timeLag], palette.outside), text: [estimateInWords(timeLag)], hovertemplate: "daily cycle %{text}" });
  const title = (name: string): string => titles[name] ?? name;
  const message = `${decrementFactor === null ? "The daily cycle inside cannot be judged" : `Of the daily swing outside a share of ${estimateInWords(decrementFactor)} comes into ${title(pair.inside)}`}${timeLag === null ? "" : `, ${estimateInWords(timeLag)} later`}. ${timeConstant === null ? "One time constant does not describe this house." : `Left alone the room follows with a time constant of ${estimateInWords(timeConstant)}.`}`;
  return sheet({
    name: "response",
    title: `What the house does to a swing: ${plainText(title(pair.inside), 24)}`,
    palette,
    panels,
    x: logScale(ends[0], ends[1], periods),
    xTitle: "Length of the swing, slow to quick",
    key: [
      { color: palette.inside, glyph: "●", text: "weather, by bands" },
      { color: palette.outside, glyph: "◆", text: "daily cycle" },
      ...(bands.some((b) => b.lagHours === null) ? [{ color: palette.inside, glyph: "○", text: "nothing above noise" }] : []),
      ...(timeConstant === null ? [] : [{ color: palette.reference, glyph: "╍╍", text: `time constant ${timeConstant.value.toFixed(0)} h` }]),
    ],
    data,
    shapes: [
      { type: "line", xref: "paper", yref: "y", x0: 0, x1: 1, y0: 1, y1: 1, line: { color: palette.axis, width: 1, dash: "dot" }, layer: "below" },
      ...(lower === null ? [] : [{ type: "line", xref: "paper", yref: lower.y, x0: 0, x1: 1, y0: 0, y1: 0, line: { color: palette.axis, width: 1 }, layer: "below" } as const]),
    ],
    alt: `Points with error bars by the length of a swing: the share that comes in, and the delay. ${message}`,
    message,
    table: {
      head: ["from, cycles a day", "to", "gain", "lag", "coherence"],
      rows: [
        ...pair.response.map((b) => [b.from, b.to, b.gain === null ? null : estimateInWords(b.gain), b.lagHours === null ? null : estimateInWords(b.lagHours), b.coherence === null ? null : significant(2)(b.coherence)]),
        ["1 (daily cycle)", "1", decrementFactor === null ? null : estimateInWords(decrementFactor), timeLag === null ? null : estimateInWords(timeLag), null],
      ],
    },
  });
}

/**
 * The pair of an answer that is asked for.
 *
 * @throws RangeError when there is none
 */
export function pairOf(at: string, answer: IndoorsAnswer, index = 0): HousePair {
  const pair = answer.pairs[index];
  if (pair === undefined) throw new RangeError(`${at}: pair must be a whole number from 0 to ${answer.pairs.length - 1} (got ${index})`);
  return pair;
}
