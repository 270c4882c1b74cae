import type { BarTrace, Position } from "../trace.js";
import { dateMs } from "./axisScale.js";
import type { Point } from "./curvePath.js";
import { fillOf, strokeOf } from "./paint.js";
import type { PlacedAxis } from "./plotFrame.js";
import { errorPath } from "./scatterMarks.js";
import { element, short } from "./svgText.js";

/** Draws bars, upright or lying; bars of one color are one path. */
export function barMarks(trace: BarTrace, x: PlacedAxis, y: PlacedAxis): string {
  const isUpright = trace.orientation === "v";
  const [across, along] = isUpright ? [x, y] : [y, x];
  const [places, lengths] = isUpright ? [trace.x, trace.y] : [trace.y, trace.x];
  const groups = new Map<string, string[]>();
  const ends: Point[] = [];
  places.forEach((place, i) => {
    const length = lengths[i];
    if (place === null || length === null) {
      ends.push([Number.NaN, Number.NaN]);
      return;
    }
    const middle = number(place, across);
    const base = number(trace.base?.[i] ?? 0, along);
    // A length on a date axis is in ms; without a base the bar reaches from zero to its value.
    const [from, to] = [base, base + Number(length)].map((v) => along.scale(v));
    const [side, other] = [middle - trace.width / 2, middle + trace.width / 2].map((v) => across.scale(v));
    const color = typeof trace.marker.color === "string" ? trace.marker.color : trace.marker.color[i];
    const path = isUpright ? `M${short(side)} ${short(from)}V${short(to)}H${short(other)}V${short(from)}Z` : `M${short(from)} ${short(side)}H${short(to)}V${short(other)}H${short(from)}Z`;
    ends.push(isUpright ? [across.scale(middle), to] : [to, across.scale(middle)]);
    groups.set(color, [...(groups.get(color) ?? []), path]);
  });
  const bars = [...groups].map(([color, paths]) => element("path", { d: paths.join(""), ...fillOf(color), ...strokeOf(trace.marker.line) })).join("");
  const errors = trace.error_y === undefined ? "" : errorPath(trace.error_y, ends, lengths, along, !isUpright);
  const markup = bars + errors;
  return trace.opacity === undefined || markup === "" ? markup : element("g", { opacity: trace.opacity }, markup);
}

function number(value: Position, { axis }: PlacedAxis): number {
  return axis.type === "date" ? dateMs(value) : Number(value);
}
