import type { Axis, Layout } from "../layout.js";
import type { Position } from "../trace.js";
import { axisScale, type Scale } from "./axisScale.js";

/** A rectangle of the drawing · px, y downward. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** One axis with its place and scale. */
export interface PlacedAxis {
  /** `x`, `y2` … */
  readonly id: string;
  readonly axis: Axis;
  /** Where it begins and ends along its own direction · px; a y axis falls. */
  readonly from: number;
  readonly to: number;
  readonly scale: Scale;
}

/** The figure's frame: its size, the plot inside its margins, and its axes. */
export interface PlotFrame {
  readonly width: number;
  readonly height: number;
  /** Inside the margins; what `paper` means. */
  readonly plot: Box;
  readonly axes: ReadonlyMap<string, PlacedAxis>;
}

/**
 * Places every axis of a layout on a width.
 *
 * @param width of the whole picture · px
 * @throws RangeError when the margins leave nothing for the plot
 */
export function plotFrame(layout: Layout, width: number): PlotFrame {
  const { margin, height } = layout;
  const plot = { left: margin.l, top: margin.t, width: width - margin.l - margin.r, height: height - margin.t - margin.b };
  if (!(plot.width > 0 && plot.height > 0)) throw new RangeError(`plotFrame: width must leave room for the plot (got ${width} px with margins of ${margin.l} and ${margin.r} px)`);
  const axes = new Map<string, PlacedAxis>();
  for (const [key, value] of Object.entries(layout)) {
    const name = /^([xy])axis(\d*)$/.exec(key);
    if (name === null) continue;
    const id = name[1] + name[2];
    const axis = value as Axis;
    const [low, high] = domainOf(axis, layout);
    const isX = name[1] === "x";
    const from = isX ? plot.left + low * plot.width : plot.top + (1 - low) * plot.height;
    const to = isX ? plot.left + high * plot.width : plot.top + (1 - high) * plot.height;
    axes.set(id, Object.freeze({ id, axis, from, to, scale: axisScale(axis, [from, to]) }));
  }
  return Object.freeze({ width, height, plot, axes });
}

/** The part of the plot an axis takes: its own, or that of the axis it lies over. */
function domainOf(axis: Axis, layout: Layout): readonly [number, number] {
  if (axis.domain !== undefined) return axis.domain;
  const under = axis.overlaying;
  if (under === undefined) return [0, 1];
  const below = layout[`${under[0]}axis${under.slice(1)}` as "xaxis"];
  return below?.domain ?? [0, 1];
}

/** The axis of an id such as `x2`; it must be in the layout. */
export function axisNamed(frame: PlotFrame, id: string): PlacedAxis {
  const placed = frame.axes.get(id);
  if (placed === undefined) throw new RangeError(`axisNamed: the layout must hold axis ${id} (got ${[...frame.axes.keys()].join(", ")})`);
  return placed;
}

/** The box between an x and a y axis. */
export function panelBox(x: PlacedAxis, y: PlacedAxis): Box {
  return { left: x.from, top: y.to, width: x.to - x.from, height: y.from - y.to };
}

/**
 * Pixel of a place named by a reference: `paper` (part of the plot), `x2 domain` (part of an axis), or an axis (a value on it).
 *
 * @param isExponent on a log axis the value is a power of ten, as annotations have it
 */
export function referredPixel(frame: PlotFrame, reference: string, value: Position, isX: boolean, isExponent = false): number {
  const { plot } = frame;
  if (reference === "paper") return isX ? plot.left + Number(value) * plot.width : plot.top + (1 - Number(value)) * plot.height;
  const { axis, scale, from, to } = axisNamed(frame, reference.replace(" domain", ""));
  if (reference.endsWith(" domain")) return from + Number(value) * (to - from);
  return scale(axis.type === "log" && isExponent ? 10 ** Number(value) : value);
}
