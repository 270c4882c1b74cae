import { recordView } from "../answers/recordView.js";
import type { SwingsAnswer } from "../answers/swingsOf.js";
import { counted, estimateInWords } from "../answers/words.js";
import type { SwingEvent } from "../cycles/swings/swingEvents.js";
import type { AirRecord } from "../record/airRecord.js";
import { bandTrace } from "./bandTrace.js";
import { standardTime } from "./axisTime.js";
import type { Figure } from "./figure.js";
import { minMaxThinned } from "./minMaxThinned.js";
import { lookOf, placeLooks } from "./placeLook.js";
import { digits } from "./roundedValues.js";
import { axesOf, note, type Panel, sheet } from "./sheet.js";
import { type FigureOptions, paletteOf } from "./theme.js";
import { numberScale, timeScale, timeTitle } from "./tickScale.js";
import type { Trace } from "./trace.js";

const z = 1.959964;
const hourMs = 3_600_000;
/** Marked events of a kind: the most prominent ones of very long records. */
const mostMarked = 200;
/** Named events of a kind, at least this share of the width apart. */
const mostNamed = 4;
const apart = 1 / 5;

/**
 * The multi-day swings of pressure: what passing weather did, with its lows and highs named.
 *
 * Above: pressure without the tide, and its slow background. Below: their difference in the band of 2 to 15 days with its 95 % band,
 * every low and high marked, the deepest ones named with their distance from the background. Lines are thinned by `minMaxThinned`.
 *
 * @param record        for titles and the zone
 * @param answer        from `swingsOf`
 * @param options.place which place; the first outdoor one of the answer when left out
 * @returns             null under 8 days
 * @throws RangeError   when the answer does not hold the place
 * @example swingsFigure(record, swingsOf(record))?.message
 */
export function swingsFigure(record: AirRecord, answer: SwingsAnswer, options: FigureOptions & { readonly place?: string } = {}): Figure | null {
  const palette = paletteOf(options.theme);
  const { look, held } = lookOf("swingsFigure", placeLooks(record, palette), answer.parts, options.place);
  const { parts, events, band } = held.swings;
  if (parts === null) return null;
  const { offsetHours } = recordView(record);
  const start = held.hours.firstAt + parts.first * hourMs;
  const time = standardTime(offsetHours);
  const seconds = Float64Array.from({ length: parts.hours }, (_, h) => 3600 * h);
  const real = (values: Float64Array): Float64Array => values.map((v, h) => (parts.isReal[h] === 1 ? v : Number.NaN));
  const free = held.hours.values.subarray(parts.first, parts.first + parts.hours);
  const swings = minMaxThinned({ seconds, values: real(parts.band) }, { bins: 300, longestHole: 6 * 3600 });
  const pressure = minMaxThinned({ seconds, values: free }, { bins: 250, longestHole: 6 * 3600 });
  const slowEvery = Math.max(1, Math.ceil(parts.hours / 300));
  const slow = Array.from(parts.slow.keys()).filter((h) => h % slowEvery === 0 || h === parts.hours - 1);
  const errorAt = (s: number): number => parts.standardError[Math.min(parts.hours - 1, Math.max(0, Math.round(s / 3600)))];
  const at = (s: number): string => time(start + 1000 * s);
  const round = digits(2);
  const low = swings.values.map((v, i) => v - z * errorAt(swings.seconds[i]));
  const high = swings.values.map((v, i) => v + z * errorAt(swings.seconds[i]));
  const panels: Panel[] = [
    { heading: "Pressure without its tide, hPa", height: 120, y: numberScale(pressure.values, { most: 4 }) },
    { heading: `Swings of ${parts.shortestDays} to ${Math.round(parts.longestDays)} days, hPa`, height: 230, y: numberScale([...low, ...high], { most: 6, pad: 0.14 }) },
  ];
  const lower = axesOf(panels, 1);
  const signed = (e: SwingEvent): number => (e.kind === "low" ? -1 : 1) * e.depth.value;
  const marks = (kind: SwingEvent["kind"]): Trace => {
    const all = [...events.filter((e) => e.kind === kind)].sort((a, b) => b.prominence - a.prominence).slice(0, mostMarked);
    return {
      type: "scatter",
      mode: "markers",
      name: kind === "low" ? "lows" : "highs",
      x: all.map((e) => time(e.at)),
      y: all.map((e) => round(signed(e))),
      xaxis: lower.x,
      yaxis: lower.y,
      marker: { color: kind === "low" ? palette.low : palette.high, size: events.length > 50 ? 6 : 8, symbol: kind === "low" ? "triangle-down" : "triangle-up" },
      text: all.map((e) => `${kind}, ${estimateInWords(e.depth)}`),
      hovertemplate: "%{text}, %{x}",
    };
  };
  const x = swings.seconds.map(at);
  const data: Trace[] = [
    { type: "scatter", mode: "lines", name: "without its tide", x: pressure.seconds.map(at), y: pressure.values.map(round), line: { color: look.color, width: 1.2 }, hovertemplate: "%{y:.1f} hPa" },
    { type: "scatter", mode: "lines", name: "slow background", x: slow.map((h) => at(3600 * h)), y: slow.map((h) => round(parts.slow[h])), line: { color: palette.reference, width: 2, dash: "dash" }, hovertemplate: "background %{y:.1f} hPa" },
    { ...bandTrace({ name: "95 % band", x, low: low.map(round), high: high.map(round), color: look.color, fillcolor: look.band }), xaxis: lower.x, yaxis: lower.y },
    { type: "scatter", mode: "lines", name: "swings", x, y: swings.values.map(round), xaxis: lower.x, yaxis: lower.y, line: { color: look.color, width: 1.5 }, hovertemplate: "%{y:.1f} hPa" },
    marks("low"),
    marks("high"),
  ];
  const named = (["low", "high"] as const).flatMap((kind) => deepest(events.filter((e) => e.kind === kind), parts.hours * hourMs));
  const lows = events.filter((e) => e.kind === "low");
  const lowest = lows.length === 0 ? null : lows.reduce((a, b) => (b.depth.value > a.depth.value ? b : a));
  const message = `${band === null ? "Too few days hold readings to tell how strong the swings are" : `The swings of ${parts.shortestDays} to ${Math.round(parts.longestDays)} days stand ${estimateInWords(band.standardDeviation)} from the slow background (standard deviation)`}; ${counted(lows.length, "low")} and ${counted(events.length - lows.length, "high")} passed${lowest === null ? "" : `, the deepest low ${estimateInWords(lowest.depth)} below it, on ${time(lowest.at).slice(0, 10)}`}.`;
  return sheet({
    name: "swings",
    title: `Passing weather: lows and highs at ${look.title}`,
    palette,
    panels,
    x: timeScale(start, start + parts.hours * hourMs, offsetHours),
    xTitle: timeTitle(offsetHours),
    key: [
      { color: look.color, glyph: "━━", text: "tide taken out" },
      { color: palette.reference, glyph: "╍╍", text: "slow background" },
      { color: palette.low, glyph: "▼", text: "low" },
      { color: palette.high, glyph: "▲", text: "high; band: 95 %" },
    ],
    data,
    shapes: [{ type: "line", xref: "paper", yref: lower.y, x0: 0, x1: 1, y0: 0, y1: 0, line: { color: palette.axis, width: 1 }, layer: "below" }],
    annotations: named.map((e) =>
      note(palette, { text: `${e.kind} ${e.depth.value.toFixed(1)}`, xref: lower.x, yref: lower.y, x: time(e.at), y: signed(e), xanchor: edge(e.at, start, parts.hours * hourMs), yanchor: e.kind === "low" ? "top" : "bottom", yshift: e.kind === "low" ? -7 : 7, font: { color: e.kind === "low" ? palette.low : palette.high, size: 12 } }),
    ),
    alt: `Two time series: pressure without its tide with its slow background, and their difference with ${events.length} lows and highs marked. ${message}`,
    message,
    table: { head: ["kind", "instant (standard time)", "from the background, hPa", "95 % from", "to", "duration at half depth, h"], rows: events.map((e) => [e.kind, time(e.at), ...[e.depth.value, e.depth.low, e.depth.high, e.durationHours?.value ?? Number.NaN].map(digits(1))]) },
  });
}

/** The deepest events that stand far enough from each other for their names. */
function deepest(events: readonly SwingEvent[], span: number): SwingEvent[] {
  const kept: SwingEvent[] = [];
  for (const e of [...events].sort((a, b) => b.depth.value - a.depth.value)) {
    if (kept.length < mostNamed && kept.every((k) => Math.abs(k.at - e.at) > apart * span)) kept.push(e);
  }
  return kept;
}

/** Names at an end of the picture lean inward. */
function edge(at: number, start: number, span: number): "left" | "center" | "right" {
  const share = (at - start) / span;
  return share < 0.08 ? "left" : share > 0.92 ? "right" : "center";
}
