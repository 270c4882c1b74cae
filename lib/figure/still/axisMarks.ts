import type { Position } from "../trace.js";
import { strokeOf } from "./paint.js";
import { axisNamed, type PlacedAxis, type PlotFrame } from "./plotFrame.js";
import { textElement, textHeight, textWidth } from "./richText.js";
import { element, short } from "./svgText.js";

/** What stands behind the traces and what stands in front of them. */
export interface AxisMarks {
  readonly behind: string;
  readonly front: string;
}

/** Between a tick and its text · px. */
const tickPad = 3;
/** From the lowest line of tick texts to a title's baseline, beside the standoff · sizes of its font. */
const titleDrop = 0.65;

/**
 * Grid lines, axis line, ticks, their texts and the title of one axis.
 *
 * @param placed the axis
 * @param frame   the figure's frame; the axis stands at the one it is anchored to
 * @param crossed names of the axes whose panels its grid lines cross
 */
export function axisMarks(placed: PlacedAxis, frame: PlotFrame, crossed: readonly string[]): AxisMarks {
  const { id, axis } = placed;
  const isX = id.startsWith("x");
  const anchor = axisNamed(frame, axis.anchor ?? (isX ? "y" : "x"));
  const isFar = axis.side === "right" || axis.side === "top";
  // Where the axis line stands, and which way is away from the plot.
  const at = isFar ? anchor.to : anchor.from;
  const out = isX === isFar ? -1 : 1;
  const ticks = axis.tickvals.map((value, i) => ({ pixel: placed.scale(value as Position), text: axis.ticktext[i] ?? "" })).filter((t) => isInside(t.pixel, placed));
  const behind: string[] = [];
  const front: string[] = [];
  if (axis.showgrid && ticks.length > 0) {
    const lines = crossed.map((name) => axisNamed(frame, name)).map(({ from, to }) => ticks.map((t) => (isX ? `M${short(t.pixel)} ${short(from)}V${short(to)}` : `M${short(from)} ${short(t.pixel)}H${short(to)}`)));
    const path = lines.flat().join("");
    behind.push(element("path", { d: path, fill: "none", ...strokeOf({ color: axis.gridcolor, width: axis.gridwidth }) }));
  }
  const tickEnd = axis.ticks === "outside" ? axis.ticklen : 0;
  if (axis.showline) {
    const line = isX ? `M${short(placed.from)} ${short(at)}H${short(placed.to)}` : `M${short(at)} ${short(placed.from)}V${short(placed.to)}`;
    front.push(element("path", { d: line, fill: "none", ...strokeOf({ color: axis.linecolor, width: axis.linewidth }) }));
  }
  if (tickEnd > 0 && ticks.length > 0) {
    const path = ticks.map((t) => (isX ? `M${short(t.pixel)} ${short(at)}v${short(out * tickEnd)}` : `M${short(at)} ${short(t.pixel)}h${short(out * tickEnd)}`)).join("");
    front.push(element("path", { d: path, fill: "none", ...strokeOf({ color: axis.tickcolor, width: 1 }) }));
  }
  const labelsAt = at + out * (tickEnd + tickPad);
  if (axis.showticklabels) {
    for (const { pixel, text } of ticks) {
      if (text === "") continue;
      front.push(
        isX
          ? textElement(text, axis.tickfont, { x: pixel, y: labelsAt, anchor: "middle", vertical: out > 0 ? "top" : "bottom" })
          : textElement(text, axis.tickfont, { x: labelsAt, y: pixel, anchor: out > 0 ? "start" : "end", vertical: "middle" }),
      );
    }
  }
  const { title } = axis;
  if (title !== undefined && title.text !== "") {
    const { size } = title.font;
    const depth = tickEnd + tickPad + (axis.showticklabels ? labelDepth(ticks.map((t) => t.text), axis.tickfont.size, isX) : 0) + title.standoff;
    const middle = (placed.from + placed.to) / 2;
    front.push(
      isX
        ? textElement(title.text, title.font, { x: middle, y: at + out * (depth + (out > 0 ? titleDrop * size : 0)), anchor: "middle", vertical: "baseline" })
        : textElement(title.text, title.font, { x: sideTitleAt(at, out, depth, title, frame), y: middle, anchor: "middle", vertical: "middle", angle: -90 }),
    );
  }
  return { behind: behind.join(""), front: front.join("") };
}

/** Middle of a title turned up at the side; it never leaves the picture. */
function sideTitleAt(at: number, out: number, depth: number, title: { readonly text: string; readonly font: { readonly size: number } }, frame: PlotFrame): number {
  const half = textHeight(title.text, title.font.size) / 2;
  return Math.min(frame.width - half, Math.max(half, at + out * (depth + half)));
}

function labelDepth(texts: readonly string[], size: number, isX: boolean): number {
  return texts.reduce((most, text) => (text === "" ? most : Math.max(most, isX ? textHeight(text, size) : textWidth(text, size))), 0);
}

function isInside(pixel: number, { from, to }: PlacedAxis): boolean {
  return pixel >= Math.min(from, to) - 0.5 && pixel <= Math.max(from, to) + 0.5;
}
