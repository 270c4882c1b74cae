import type { ErrorBars, Marker, MarkerSymbol, Position, ScatterTrace } from "../trace.js";
import { dateMs } from "./axisScale.js";
import { closedPath, linePath, markerPath, type Point, stretches } from "./curvePath.js";
import { fillOf, strokeOf } from "./paint.js";
import type { PlacedAxis } from "./plotFrame.js";
import { textElement } from "./richText.js";
import { element, short } from "./svgText.js";

/** Line, fill, error bars, markers and texts of a scatter trace, and its points for a trace that fills to it. */
export interface ScatterMarks {
  readonly markup: string;
  readonly points: readonly Point[];
}

/**
 * Draws a scatter trace.
 *
 * @param before points of the scatter trace before it on the same axes, for `tonexty`
 */
export function scatterMarks(trace: ScatterTrace, x: PlacedAxis, y: PlacedAxis, before: readonly Point[] | null): ScatterMarks {
  const along = positionsOf(trace, x);
  const points: Point[] = trace.y.map((v, i) => [x.scale(along[i]), y.scale(v)]);
  const shape = trace.line?.shape ?? "linear";
  const parts: string[] = [];
  const fill = fillPath(trace, points, y, before, shape);
  if (fill !== "") parts.push(element("path", { d: fill, ...fillOf(trace.fillcolor) }));
  if (trace.mode.includes("lines") && trace.line !== undefined && trace.line.width > 0) {
    const d = linePath(points, shape);
    if (d !== "") parts.push(element("path", { d, fill: "none", "stroke-linejoin": "round", ...strokeOf(trace.line) }));
  }
  if (trace.error_y !== undefined) parts.push(errorPath(trace.error_y, points, trace.y, y, false));
  if (trace.error_x !== undefined) parts.push(errorPath(trace.error_x, points, along, x, true));
  if (trace.mode.includes("markers") && trace.marker !== undefined) parts.push(markerMarks(trace.marker, points));
  if (trace.mode.includes("text")) parts.push(textMarks(trace, points));
  const markup = parts.join("");
  return { markup: trace.opacity === undefined || markup === "" ? markup : element("g", { opacity: trace.opacity }, markup), points };
}

/** Where the points of a trace stand along x: told one by one, or by even steps. */
function positionsOf(trace: ScatterTrace, x: PlacedAxis): readonly (Position | null)[] {
  if (trace.x !== undefined) return trace.x;
  const { dx = 1 } = trace;
  const first = x.axis.type === "date" ? dateMs(trace.x0 ?? 0) : Number(trace.x0 ?? 0);
  return trace.y.map((_, i) => first + i * dx);
}

function fillPath(trace: ScatterTrace, points: readonly Point[], y: PlacedAxis, before: readonly Point[] | null, shape: "linear" | "hv"): string {
  if (trace.fill === "toself") return closedPath(stretches(points), shape);
  if (trace.fill === "tozeroy") {
    const zero = y.axis.type === "log" ? y.from : y.scale(0);
    return stretches(points).map((part) => `${linePath(part, shape)}V${short(zero)}H${short(part[0][0])}Z`).join("");
  }
  if (trace.fill !== "tonexty" || before === null) return "";
  const [upper, lower] = [stretches(points), stretches(before)];
  // Two edges of one band break at the same places; edges that do not are joined as wholes.
  const pairs = upper.length === lower.length ? upper.map((part, i) => [part, lower[i]]) : [[upper.flat(), lower.flat()]];
  return pairs.map(([a, b]) => `${linePath(a, shape)}${linePath([...b].reverse(), "linear").replace(/^M/, "L")}Z`).join("");
}

/**
 * Bars of error with their caps, for traces of points and of bars.
 *
 * @param values values that the bars are counted from · axis units
 * @param isX    true for bars along x
 */
export function errorPath(bars: ErrorBars, points: readonly Point[], values: readonly (Position | null)[], axis: PlacedAxis, isX: boolean): string {
  const cap = bars.width;
  const d = points.map(([px, py], i) => {
    const value = values[i];
    const [more, less] = [bars.array[i], bars.arrayminus[i]];
    if (Number.isNaN(px) || Number.isNaN(py) || value === null || more === null || less === null) return "";
    const [low, high] = [Number(value) - less, Number(value) + more].map((v) => axis.scale(v));
    // An end that has no place (below zero on a log axis) reaches to the axis's own end.
    const from = Number.isNaN(low) ? axis.from : low;
    if (isX) return `M${short(from)} ${short(py)}H${short(high)}M${short(from)} ${short(py - cap)}v${2 * cap}M${short(high)} ${short(py - cap)}v${2 * cap}`;
    return `M${short(px)} ${short(from)}V${short(high)}M${short(px - cap)} ${short(from)}h${2 * cap}M${short(px - cap)} ${short(high)}h${2 * cap}`;
  });
  const path = d.join("");
  return path === "" ? "" : element("path", { d: path, fill: "none", ...strokeOf({ color: bars.color, width: bars.thickness }) });
}

/**
 * Markers at points; like ones without an edge are one path, so that thousands stay small.
 *
 * @param points px · NaN draws nothing
 */
export function markerMarks(marker: Marker, points: readonly Point[]): string {
  const of = <T>(value: T | readonly T[], i: number): T => (Array.isArray(value) ? (value[i] as T) : (value as T));
  const groups = new Map<string, { symbol: MarkerSymbol; size: number; color: string; at: Point[] }>();
  points.forEach((point, i) => {
    if (Number.isNaN(point[0]) || Number.isNaN(point[1])) return;
    const [symbol, size, color] = [of<MarkerSymbol>(marker.symbol ?? "circle", i), of<number>(marker.size, i), of<string>(marker.color, i)];
    const key = `${symbol} ${size} ${color}`;
    const group = groups.get(key) ?? { symbol, size, color, at: [] };
    group.at.push(point);
    groups.set(key, group);
  });
  const marks = [...groups.values()].map(({ symbol, size, color, at }) => {
    const hasEdge = marker.line !== undefined && marker.line.width > 0;
    if (symbol === "circle" && !hasEdge) {
      const dots = at.map(([px, py]) => `M${short(px)} ${short(py)}h0`).join("");
      return element("path", { d: dots, fill: "none", "stroke-linecap": "round", ...strokeOf({ color, width: size }) });
    }
    const { path, isStroke } = markerPath(symbol, size);
    const edge = isStroke ? strokeOf({ color, width: Math.max(symbol === "x" ? size / 3 : 1.5, marker.line?.width ?? 0) }) : strokeOf(hasEdge ? marker.line : undefined);
    return at
      .map(([px, py]) => element("path", { d: path, transform: `translate(${short(px)} ${short(py)})`, ...(isStroke ? { fill: "none" } : fillOf(color)), ...edge }))
      .join("");
  });
  const markup = marks.join("");
  return marker.opacity === undefined || markup === "" ? markup : element("g", { opacity: marker.opacity }, markup);
}

function textMarks(trace: ScatterTrace, points: readonly Point[]): string {
  const [vertical, horizontal] = (trace.textposition ?? "middle center").split(" ");
  const size = trace.textfont?.size ?? 12;
  const font = { size, color: trace.textfont?.color ?? "#000000" };
  const markers = trace.mode.includes("markers") && typeof trace.marker?.size === "number" ? trace.marker.size / 2 : 0;
  const anchor = horizontal === "right" ? "start" : horizontal === "left" ? "end" : "middle";
  const gap = markers + 2;
  return points
    .map(([px, py], i) => {
      const text = trace.text?.[i] ?? "";
      if (text === "" || Number.isNaN(px) || Number.isNaN(py)) return "";
      const at = { x: px + (anchor === "start" ? gap : anchor === "end" ? -gap : 0), y: py + (vertical === "top" ? -gap : vertical === "bottom" ? gap : 0) };
      return textElement(text, font, { ...at, anchor, vertical: vertical === "top" ? "bottom" : vertical === "bottom" ? "top" : "middle" });
    })
    .join("");
}
