import { zoneText } from "../answers/headText.js";
import type { TidesAnswer } from "../answers/tidesOf.js";
import { capital, estimateInWords } from "../answers/words.js";
import type { Constituent } from "../cycles/tide/tideFit.js";
import { clockTime } from "../ground/clockTime.js";
import type { AirRecord } from "../record/airRecord.js";
import type { Figure } from "./figure.js";
import { lookOf, placeLooks } from "./placeLook.js";
import { digits } from "./roundedValues.js";
import { axesOf, type Panel, sheet } from "./sheet.js";
import { type FigureOptions, paletteOf } from "./theme.js";
import { monthName, namedScale, numberScale, type Scale } from "./tickScale.js";
import type { ScatterTrace } from "./trace.js";

const lines = ["S2", "S1"] as const;
const beats = { S2: "S2, twice a day", S1: "S1, once a day" } as const;

/**
 * The tide month by month: amplitude and hour of the first crest of S2 and S1, each with its 95 % interval.
 *
 * Months are calendar months, all years together. A line that is not detected in a month is drawn open, its interval reaching 0, and has
 * no hour. Hours are unwrapped about the whole record's.
 *
 * @param record        for the place's title
 * @param answer        from `tidesOf`
 * @param options.place which place; the first outdoor one of the answer when left out
 * @throws RangeError   when the answer does not hold the place
 * @returns             null where no month can be told (under 60 days)
 * @example tideMonthsFigure(record, tidesOf(record))?.message
 */
export function tideMonthsFigure(record: AirRecord, answer: TidesAnswer, options: FigureOptions & { readonly place?: string } = {}): Figure | null {
  const palette = paletteOf(options.theme);
  const { look, held: told } = lookOf("tideMonthsFigure", placeLooks(record, palette), answer.places, options.place);
  const months = told.climatology;
  if (months.length < 2) return null;
  const of = (name: string): { month: number; line: Constituent }[] => months.flatMap(({ month, constituents }) => constituents.filter((c) => c.name === name).map((line) => ({ month, line })));
  const hours = lines.map((name) => ({ name, at: hoursAbout(of(name), told.constituents.find((c) => c.name === name)) })).filter(({ at }) => at.length > 0);
  const panels: Panel[] = [
    { heading: "Amplitude, mean to crest, hPa", height: 170, y: numberScale(lines.flatMap((name) => of(name).map(({ line }) => line.amplitude.high)), { zero: true, most: 5 }) },
    ...hours.map(({ name, at }): Panel => ({ heading: `First crest of ${name}, hour by the sun`, height: 90, y: clockScale(at.flatMap((h) => [h.low, h.high])) })),
  ];
  const shift = { S2: -0.09, S1: 0.09 };
  const look2 = { S2: { color: palette.fit, symbol: ["circle", "circle-open"] }, S1: { color: palette.reference, symbol: ["square", "square"] } } as const;
  const round = digits(3);
  const amplitude = lines.map((name): ScatterTrace => {
    const all = of(name);
    return {
      type: "scatter",
      mode: "markers",
      name: beats[name],
      x: all.map(({ month }) => month + shift[name]),
      y: all.map(({ line }) => round(line.amplitude.value)),
      marker: { color: all.map(({ line }) => (line.detected ? look2[name].color : palette.paper)), size: 8, symbol: name === "S2" ? "circle" : "square", line: { color: look2[name].color, width: 1.5 } },
      error_y: { type: "data", symmetric: false, array: all.map(({ line }) => round(line.amplitude.high - line.amplitude.value)), arrayminus: all.map(({ line }) => round(line.amplitude.value - line.amplitude.low)), color: look2[name].color, thickness: 1.5, width: 3 },
      text: all.map(({ line }) => estimateInWords(line.amplitude)),
      hovertemplate: `${name} %{text}`,
    };
  });
  const crests = hours.map(({ name, at }, k): ScatterTrace => ({
    type: "scatter",
    mode: "markers",
    name: beats[name],
    x: at.map((h) => h.month + shift[name]),
    y: at.map((h) => round(h.value)),
    xaxis: axesOf(panels, k + 1).x,
    yaxis: axesOf(panels, k + 1).y,
    marker: { color: look2[name].color, size: 8, symbol: name === "S2" ? "circle" : "square" },
    error_y: { type: "data", symmetric: false, array: at.map((h) => round(h.high - h.value)), arrayminus: at.map((h) => round(h.value - h.low)), color: look2[name].color, thickness: 1.5, width: 3 },
    text: at.map((h) => clockTime(h.value)),
    hovertemplate: `${name} crests at %{text}`,
  }));
  const s2 = of("S2").filter(({ line }) => line.detected);
  const ends = s2.length === 0 ? null : [s2.reduce((a, b) => (b.line.amplitude.value < a.line.amplitude.value ? b : a)), s2.reduce((a, b) => (b.line.amplitude.value > a.line.amplitude.value ? b : a))];
  const message = `${ends === null ? "In no single month does the twice-daily tide stand out of the weather" : `Month by month the twice-daily tide lies between ${estimateInWords(ends[0].line.amplitude)} (${monthName(ends[0].month)}) and ${estimateInWords(ends[1].line.amplitude)} (${monthName(ends[1].month)})`}. ${sentence(told.seasonal.says)}`;
  const first = Math.min(...months.map((m) => m.month));
  const last = Math.max(...months.map((m) => m.month));
  return sheet({
    name: "tide-months",
    title: `The tide month by month: ${look.title}`,
    palette,
    panels,
    x: namedScale([first - 0.5, last + 0.5], Array.from({ length: last - first + 1 }, (_, i) => [first + i, last - first < 8 || i % 2 === 0 ? monthName(first + i) : ""] as const)),
    xTitle: `Month (mean solar time, ${zoneText((record.site?.longitude ?? 0) / 15)})`,
    key: lines.map((name) => ({ color: look2[name].color, glyph: name === "S2" ? "●" : "■", text: beats[name] })),
    data: [...amplitude, ...crests],
    alt: `Points with error bars for ${months.length} months: the amplitude of the twice-daily and the once-daily tide, and the hours of their crests. ${message}`,
    message,
    table: {
      head: ["month", "days", "S2", "S2 first crest", "S1", "S1 first crest"],
      rows: months.map((m) => [monthName(m.month), Math.round(m.days), ...lines.flatMap((name) => {
        const line = m.constituents.find((c) => c.name === name);
        return line === undefined ? [null, null] : [estimateInWords(line.amplitude), line.maximumAt === null ? "not seen" : `${clockTime(line.maximumAt.value)} (${clockTime(line.maximumAt.low)} to ${clockTime(line.maximumAt.high)})`];
      })]),
    },
  });
}

interface HourOfMonth {
  readonly month: number;
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** Hours of the crest turned by whole periods to lie nearest to the whole record's. */
function hoursAbout(months: readonly { month: number; line: Constituent }[], whole: Constituent | undefined): HourOfMonth[] {
  return months.flatMap(({ month, line }) => {
    if (line.maximumAt === null) return [];
    const period = 24 / Math.round(line.cyclesPerDay);
    const { value, low, high } = line.maximumAt;
    const turn = period * Math.round(((whole?.maximumAt?.value ?? value) - value) / period);
    return [{ month, value: value + turn, low: low + turn, high: high + turn }];
  });
}

/** An axis of hours whose ticks are clock times. */
function clockScale(values: readonly number[]): Scale {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const space = Math.max(0.05, 0.06 * (high - low));
  const step = [1 / 12, 1 / 6, 0.25, 0.5, 1, 2, 3, 6].find((s) => (high - low + 2 * space) / s <= 4.5) ?? 6;
  const first = Math.ceil((low - space) / step);
  const ticks = Array.from({ length: Math.max(0, Math.floor((high + space) / step) - first + 1) }, (_, i) => (first + i) * step);
  return namedScale([low - space, high + space], ticks.map((h) => [h, clockTime(h)] as const));
}

function sentence(text: string): string {
  return text === "" ? "" : `${capital(text)}${text.endsWith(".") ? "" : "."}`;
}
