import { mustSentence } from "../ground/complaint.js";
import { bandTrace } from "./bandTrace.js";
import { standardTime } from "./axisTime.js";
import { type Figure, plainText } from "./figure.js";
import { minMaxThinned } from "./minMaxThinned.js";
import { significant } from "./roundedValues.js";
import { dashGlyph, type KeyEntry, sheet } from "./sheet.js";
import { type FigureOptions, type Palette, paletteOf } from "./theme.js";
import { decades, logScale, numberScale, type Scale, timeScale, timeTitle } from "./tickScale.js";
import type { Position, Trace } from "./trace.js";

/** Colors by what a line is. */
export type ChartRole = "outside" | "inside" | "fit" | "reference" | "fault";

/** One line, row of points or band of a chart. */
export interface ChartLine {
  readonly label: string;
  /** Places · [n]; instants in epoch ms where the chart runs over time. */
  readonly x: ArrayLike<number>;
  /** Values · [n] · NaN parts the line. */
  readonly y: ArrayLike<number>;
  /** How it is drawn · default a line. */
  readonly as?: "line" | "points" | "bars";
  /** Ends of an interval about each value · [n]; a band about a line, bars about points. */
  readonly low?: ArrayLike<number>;
  readonly high?: ArrayLike<number>;
  /** Color · default by the order: outside, inside, fit, reference, fault. */
  readonly role?: ChartRole;
  readonly dash?: "solid" | "dash" | "dot" | "dashdot";
}

/** What a chart shows. */
export interface ChartParts extends FigureOptions {
  readonly title: string;
  /** What is measured and in which unit, above the plot. */
  readonly heading: string;
  /** What runs to the right, with its unit. Left out on a time axis. */
  readonly xTitle?: string;
  readonly lines: readonly ChartLine[];
  /** The record's standard time less UTC · h: makes the axis to the right one of time, and `x` instants. */
  readonly offsetHours?: number;
  /** Powers of ten on an axis; what is not above 0 is left out there. */
  readonly log?: { readonly x?: boolean; readonly y?: boolean };
  /** What is to be seen, in a sentence. */
  readonly message: string;
  /** Height of the plot · px · default 260. */
  readonly height?: number;
}

/** Beyond this a scale has no ends that numbers hold; no reading lies there. */
const largestDrawn = 1e60;

const roles: readonly ChartRole[] = ["outside", "inside", "fit", "reference", "fault"];
const dashes = ["solid", "dash", "dot", "dashdot", "solid"] as const;
const bandOf: Readonly<Record<ChartRole, keyof Palette>> = { outside: "outsideBand", inside: "insideBand", fit: "fitBand", reference: "referenceBand", fault: "faultBand" };

/**
 * A chart of one's own numbers in the house's look: lines, points, bars and intervals over numbers or time.
 *
 * What is infinite or beyond ±1e60 is not drawn. Long lines are thinned so that no extreme is lost (lowest and highest of each of 300 stretches).
 *
 * @param parts see ChartParts
 * @returns     a Figure, frozen
 * @throws RangeError when there is no line, or the arrays of a line differ in length
 * @example chart({ title: "A wave", heading: "hPa", xTitle: "h", lines: [{ label: "sine", x: [0, 6, 12], y: [0, 1, 0] }], message: "It rises and falls." }).data.length // 1
 */
export function chart(parts: ChartParts): Figure {
  const { title, heading, lines, log = {}, offsetHours, message, height = 260 } = parts;
  const palette = paletteOf(parts.theme);
  if (lines.length === 0) throw new RangeError(mustSentence("chart", "lines", "hold at least one line", "none"));
  for (const { label, x, y, low, high } of lines) {
    const lengths = [y, low, high].filter((v) => v !== undefined).map((v) => v.length);
    if (lengths.some((n) => n !== x.length)) throw new RangeError(mustSentence("chart", `line "${label}"`, `have arrays as long as its x, ${x.length}`, lengths.join(", ")));
  }
  const kept = lines.map((line) => points(line, log));
  const place = offsetHours === undefined ? significant(6) : standardTime(offsetHours);
  const round = significant(5);
  const data: Trace[] = [];
  const key: KeyEntry[] = [];
  kept.forEach((line, k) => {
    const role = line.role ?? roles[k % roles.length];
    const color = palette[role];
    const dash = line.dash ?? dashes[k % dashes.length];
    const name = plainText(line.label);
    const x = line.x.map((v) => place(v) as Position);
    const y = line.y.map(round);
    if (line.low !== undefined && line.as === "line") {
      data.push(bandTrace({ name: `${name}, interval`, x, low: line.low.map(round), high: (line.high ?? line.low).map(round), color, fillcolor: palette[bandOf[role]] as string }));
    }
    const errors = line.low === undefined || line.as === "line" ? {} : { error_y: bars(line, color) };
    if (line.as === "bars") data.push({ type: "bar", orientation: "v", name, x, y, width: barWidth(line.x), marker: { color } });
    else if (line.as === "points") data.push({ type: "scatter", mode: "markers", name, x, y, marker: { color, size: 7, symbol: "circle" }, ...errors } as Trace);
    else data.push({ type: "scatter", mode: "lines", name, x, y, line: { color, width: 1.6, dash }, connectgaps: false } as Trace);
    key.push({ color, glyph: line.as === "points" ? "●" : line.as === "bars" ? "■" : dashGlyph[dash], text: name });
  });
  const all = (pick: (line: Points) => readonly number[]): number[] => kept.flatMap(pick).filter((v) => !Number.isNaN(v));
  const ys = all((l) => [...l.y, ...(l.low ?? []), ...(l.high ?? [])]);
  const y = scaleOf(ys, log.y === true, kept.some((l) => l.as === "bars"));
  const longest = Math.max(...y.ticktext.map((t) => t.length), 0);
  const widest = Math.max(0, ...kept.filter((l) => l.as === "bars").map((l) => barWidth(l.x) / 2));
  return sheet({
    name: "chart",
    title: plainText(title, 120),
    palette,
    panels: [{ heading: plainText(heading, 120), height, y }],
    left: Math.max(46, 14 + 7 * longest),
    x: offsetHours === undefined ? scaleOf(all((l) => l.x.flatMap((v) => [v - widest, v + widest])), log.x === true, false) : timeOf(all((l) => l.x), offsetHours),
    xTitle: offsetHours === undefined ? (parts.xTitle ?? "") : timeTitle(offsetHours),
    key: lines.length === 1 && lines[0].low === undefined ? [] : key,
    data,
    alt: `Chart of ${lines.map((l) => plainText(l.label)).join(", ")}. ${message}`,
    message,
    table: { head: ["line", "points", "lowest", "highest"], rows: kept.map((l) => [plainText(l.label), l.x.length, ...ends(l.y)]) },
  });
}

interface Points {
  readonly label: string;
  readonly as: "line" | "points" | "bars";
  readonly role: ChartRole | undefined;
  readonly dash: ChartLine["dash"];
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly low: readonly number[] | undefined;
  readonly high: readonly number[] | undefined;
}

/** The points of a line that can be drawn, thinned when it is a long line without an interval. */
function points({ label, x, y, low, high, as = "line", role, dash }: ChartLine, log: { readonly x?: boolean; readonly y?: boolean }): Points {
  const shown = (v: number, isLog: boolean | undefined): number => (Math.abs(v) <= largestDrawn && !(isLog === true && v <= 0) ? v : Number.NaN);
  const index = Array.from({ length: x.length }, (_, i) => i).filter((i) => !Number.isNaN(shown(x[i], log.x)));
  const [xs, ys] = [index.map((i) => x[i]), index.map((i) => shown(y[i], log.y))];
  const pick = (v: ArrayLike<number> | undefined): number[] | undefined => (v === undefined ? undefined : index.map((i) => shown(v[i], log.y)));
  if (as !== "line" || low !== undefined || xs.length <= 600) return { label, as, role, dash, x: xs, y: ys, low: pick(low), high: pick(high) };
  // Over powers of ten the stretches are even in the logarithm.
  const along = log.x === true ? xs.map(Math.log) : xs;
  const thin = minMaxThinned({ seconds: Float64Array.from(along, (v) => v - along[0]), values: Float64Array.from(ys) }, log.x === true ? { longestHole: Infinity } : {});
  return { label, as, role, dash, x: thin.seconds.map((v) => (log.x === true ? Math.exp(v + along[0]) : v + along[0])), y: thin.values, low: undefined, high: undefined };
}

function bars({ y, low = [], high = [] }: Points, color: string): object {
  return { type: "data", symmetric: false, array: y.map((v, i) => Math.max(0, high[i] - v)), arrayminus: y.map((v, i) => Math.max(0, v - low[i])), color, thickness: 1.5, width: 3 };
}

function barWidth(x: readonly number[]): number {
  const steps = x.slice(1).map((v, i) => v - x[i]).filter((d) => d > 0);
  return steps.length === 0 ? 0.8 : 0.9 * Math.min(...steps);
}

function scaleOf(values: readonly number[], isLog: boolean, zero: boolean): Scale {
  if (!isLog) return numberScale(values, { zero, most: 6 });
  const positive = values.filter((v) => v > 0);
  const [low, high] = positive.length === 0 ? [0.1, 10] : [Math.min(...positive), Math.max(...positive)];
  const room = Math.max(1.2, (high / low) ** 0.04);
  return logScale(low / room, high * room, decades(low / room, high * room));
}

function timeOf(x: readonly number[], offsetHours: number): Scale {
  return x.length === 0 ? timeScale(0, 86_400_000, offsetHours) : timeScale(Math.min(...x), Math.max(...x), offsetHours);
}

function ends(y: readonly number[]): (number | null)[] {
  const known = y.filter((v) => !Number.isNaN(v));
  const round = significant(4);
  return known.length === 0 ? [null, null] : [round(Math.min(...known)), round(Math.max(...known))];
}
