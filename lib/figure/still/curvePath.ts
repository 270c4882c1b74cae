import { arc, curveLinear, curveStepAfter, line, symbol, symbolCircle, symbolCross, symbolSquare } from "d3-shape";
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

/**
 * The outline of a marker about 0, 0; `isStroke` says that it is drawn as a line, not filled.
 *
 * @param size across · px
 */
export function markerPath(name: MarkerSymbol, size: number): { readonly path: string; readonly isStroke: boolean } {
  const half = size / 2;
  const of = (...numbers: number[]): string => numbers.map((v) => short(v * half)).join(" ");
  switch (name) {
    case "line-ns":
      return { path: `M${of(0, -1.4)}L${of(0, 1.4)}`, isStroke: true };
    case "line-ew":
      return { path: `M${of(-1.4, 0)}L${of(1.4, 0)}`, isStroke: true };
    case "x":
      return { path: `M${of(-0.8, -0.8)}L${of(0.8, 0.8)}M${of(-0.8, 0.8)}L${of(0.8, -0.8)}`, isStroke: true };
    case "circle-open":
      return { path: symbol(symbolCircle, Math.PI * half * half).digits(2)() ?? "", isStroke: true };
    case "diamond":
      return { path: `M${of(1.3, 0)}L${of(0, 1.3)}L${of(-1.3, 0)}L${of(0, -1.3)}Z`, isStroke: false };
    case "triangle-up":
      return { path: `M${of(-1.15, 0.5)}L${of(1.15, 0.5)}L${of(0, -1)}Z`, isStroke: false };
    case "triangle-down":
      return { path: `M${of(-1.15, -0.5)}L${of(1.15, -0.5)}L${of(0, 1)}Z`, isStroke: false };
    case "square":
      return { path: symbol(symbolSquare, 4 * half * half).digits(2)() ?? "", isStroke: false };
    case "cross":
      return { path: symbol(symbolCross, 2.2 * half * half).digits(2)() ?? "", isStroke: false };
    default:
      return { path: symbol(symbolCircle, Math.PI * half * half).digits(2)() ?? "", isStroke: false };
  }
}
