import { arc, curveLinear, curveStepAfter, line, symbol, symbolCircle, symbolCross, symbolDiamond, symbolSquare, symbolTriangle } from "d3-shape";
import type { MarkerSymbol } from "../trace.js";
import { short } from "./svgText.js";

/** A point of a drawing · px; NaN where nothing is. */
export type Point = readonly [number, number];

/** A tenth of a pixel is finer than any screen shows. */
const digits = 1;

/**
 * The path of a line that breaks where a point is missing.
 *
 * @param points px · [n] · NaN breaks it
 * @param shape  `hv` holds a value until the next one
 */
export function linePath(points: readonly Point[], shape: "linear" | "hv" = "linear"): string {
  return (
    line<Point>()
      .digits(digits)
      .defined(([x, y]) => !Number.isNaN(x) && !Number.isNaN(y))
      .curve(shape === "hv" ? curveStepAfter : curveLinear)
      .x(([x]) => x)
      .y(([, y]) => y)(points) ?? ""
  );
}

/** Parts a run of points where one is missing. */
export function stretches(points: readonly Point[]): Point[][] {
  const parts: Point[][] = [[]];
  for (const point of points) {
    if (Number.isNaN(point[0]) || Number.isNaN(point[1])) parts.push([]);
    else parts.at(-1)?.push(point);
  }
  return parts.filter((part) => part.length > 0);
}

/** Closed paths, one for each stretch of points. */
export function closedPath(parts: readonly (readonly Point[])[], shape: "linear" | "hv" = "linear"): string {
  return parts.map((part) => `${linePath(part, shape)}Z`).join("");
}

/**
 * A sector of a ring about a center.
 *
 * @param from, to radians clockwise from the top
 */
export function sectorPath(inner: number, outer: number, from: number, to: number): string {
  return arc().digits(2)({ innerRadius: inner, outerRadius: outer, startAngle: from, endAngle: to }) ?? "";
}

const filled = { circle: symbolCircle, square: symbolSquare, diamond: symbolDiamond, "triangle-up": symbolTriangle, cross: symbolCross } as const;

/**
 * The outline of a marker about 0, 0; `isStroke` says that it is drawn as a line, not filled.
 *
 * @param size across · px
 */
export function markerPath(name: MarkerSymbol, size: number): { readonly path: string; readonly isStroke: boolean; readonly turn?: number } {
  const half = size / 2;
  const s = short(half);
  if (name === "line-ns") return { path: `M0-${s}V${s}`, isStroke: true };
  if (name === "line-ew") return { path: `M-${s} 0H${s}`, isStroke: true };
  if (name === "x") return { path: `M-${s}-${s}L${s} ${s}M-${s} ${s}L${s}-${s}`, isStroke: true };
  if (name === "circle-open") return { path: symbol(symbolCircle, Math.PI * half * half).digits(2)() ?? "", isStroke: true };
  const kind = name === "triangle-down" ? "triangle-up" : name;
  const area = { circle: Math.PI * half * half, square: 3.2 * half * half, diamond: 2.6 * half * half, "triangle-up": 2.4 * half * half, cross: 2.2 * half * half }[kind];
  return { path: symbol(filled[kind], area).digits(2)() ?? "", isStroke: false, ...(name === "triangle-down" ? { turn: 180 } : {}) };
}
