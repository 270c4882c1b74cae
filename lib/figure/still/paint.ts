import type { Attributes } from "./svgText.js";

/**
 * A color as SVG wants it: opaque, with its opacity beside it, so that a style sheet can find it by its value.
 *
 * @param color `#rgb`, `#rrggbb`, `rgb(…)`, `rgba(…)`, or a color's name
 * @example paint("rgba(0,114,178,0.2)") // { color: "#0072b2", opacity: 0.2 }
 */
export function paint(color: string): { readonly color: string; readonly opacity: number | undefined } {
  const parts = /^rgba?\(\s*([\d.]+)\s*,\s*([\d.]+)\s*,\s*([\d.]+)\s*(?:,\s*([\d.]+)\s*)?\)$/.exec(color);
  if (parts === null) return { color, opacity: undefined };
  const hex = parts.slice(1, 4).map((v) => Math.round(Number(v)).toString(16).padStart(2, "0")).join("");
  const opacity = parts[4] === undefined ? 1 : Number(parts[4]);
  return { color: `#${hex}`, opacity: opacity === 1 ? undefined : opacity };
}

/** Fill and its opacity as attributes; no color is no fill. */
export function fillOf(color: string | undefined): Attributes {
  if (color === undefined) return { fill: "none" };
  const { color: fill, opacity } = paint(color);
  return { fill, "fill-opacity": opacity };
}

/** Dash and gap, in widths of the line. */
const dashes: Readonly<Record<string, readonly number[]>> = Object.freeze({ dot: [1, 1], dash: [3, 3], dashdot: [3, 1, 1, 1] });

/**
 * Stroke, its opacity, width and dash as attributes; dashes are as long as the drawing library makes them.
 *
 * @param line width in px, default 1
 */
export function strokeOf(line: { readonly color?: string; readonly width?: number; readonly dash?: string } | undefined): Attributes {
  const width = line?.width ?? 1;
  if (line?.color === undefined || width === 0) return {};
  const { color: stroke, opacity } = paint(line.color);
  const dash = dashes[line.dash ?? ""]?.map((d) => d * Math.max(width, 3));
  return { stroke, "stroke-opacity": opacity, "stroke-width": width, "stroke-dasharray": dash?.join(" ") };
}
