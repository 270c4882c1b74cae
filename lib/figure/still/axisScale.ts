import { scaleLinear, scaleLog, scaleUtc } from "d3-scale";
import type { Axis } from "../layout.js";
import type { Position } from "../trace.js";

/** Takes a data value to its pixel; NaN for what is missing or has no place (zero on a log axis). */
export type Scale = (value: Position | null | undefined) => number;

/**
 * A date of a figure as epoch ms: civil text, read as if it were UTC, so that no browser's zone comes in.
 *
 * @param value `2024-05-03`, `2024-05-03 09:05`, `2024-05-03T09:05:30.5`; a number is epoch ms already
 * @returns     epoch ms · NaN when it is no date
 */
export function dateMs(value: Position): number {
  if (typeof value === "number") return value;
  const parts = /^(-?\d{4,})(?:-(\d\d?)(?:-(\d\d?)(?:[ T](\d\d?)(?::(\d\d)(?::(\d\d(?:\.\d+)?))?)?Z?)?)?)?$/.exec(value.trim());
  if (parts === null) return Number.NaN;
  const [year, month, day, hour, minute, second] = parts.slice(1).map((p) => (p === undefined ? undefined : Number(p)));
  return Date.UTC(year as number, (month ?? 1) - 1, day ?? 1, hour ?? 0, minute ?? 0) + 1000 * (second ?? 0);
}

/**
 * The scale of an axis over a span of pixels.
 *
 * @param axis   its type and range; ends of a log axis are powers of ten
 * @param pixels where the range begins and ends · px
 * @throws RangeError when an end of the range is not a number or a date
 */
export function axisScale(axis: Pick<Axis, "type" | "range">, pixels: readonly [number, number]): Scale {
  const isDate = axis.type === "date";
  const number = (value: Position | null | undefined): number => {
    if (value === null || value === undefined || value === "") return Number.NaN;
    return isDate ? dateMs(value) : Number(value);
  };
  const ends = axis.range.map(number);
  if (!ends.every(Number.isFinite)) throw new RangeError(`axisScale: range must hold two ends (got ${axis.range.join(" to ")})`);
  if (axis.type === "log") {
    const scale = scaleLog().domain(ends.map((e) => 10 ** e)).range(pixels);
    return (value) => (number(value) > 0 ? scale(number(value)) : Number.NaN);
  }
  if (isDate) {
    const scale = scaleUtc().domain(ends).range(pixels);
    return (value) => scale(number(value)) ?? Number.NaN;
  }
  const scale = scaleLinear().domain(ends).range(pixels);
  return (value) => scale(number(value)) ?? Number.NaN;
}

/** In how many steps a still draws a scale of colors: finer than the eye tells, and few enough for a style sheet to recolor. */
export const colorSteps = 33;

/**
 * A scale of colors in even steps from its lowest to its highest.
 *
 * @param stops from 0 to 1, each with a color
 * @returns     `colorSteps` colors as `#rrggbb`
 */
export function steppedColors(stops: readonly (readonly [number, string])[]): readonly string[] {
  return scaleColors(stops, Array.from({ length: colorSteps }, (_, k) => k / (colorSteps - 1)));
}

/**
 * Colors of a scale at given places.
 *
 * @param stops  from 0 to 1, each with a color; two at one place are a sharp edge, which belongs to the upper one
 * @param shares places from 0 to 1
 * @returns      as many colors as `#rrggbb`
 */
export function scaleColors(stops: readonly (readonly [number, string])[], shares: readonly number[]): readonly string[] {
  return shares.map((share) => {
    const k = Math.max(1, stops.findIndex(([at]) => at > share));
    const upper = stops[share >= stops[stops.length - 1][0] ? stops.length - 1 : k];
    const lower = stops[share >= stops[stops.length - 1][0] ? stops.length - 1 : k - 1];
    if (upper[0] === lower[0]) return hex(upper[1]);
    return hex(scaleLinear<string>().domain([lower[0], upper[0]]).range([lower[1], upper[1]]).clamp(true)(share));
  });
}

function hex(color: string): string {
  const parts = /^rgb\((\d+), (\d+), (\d+)\)$/.exec(color);
  return parts === null ? color : `#${parts.slice(1).map((v) => Number(v).toString(16).padStart(2, "0")).join("")}`;
}
