import type { Layout, Polar } from "../layout.js";
import type { BarPolarTrace, ScatterPolarTrace, Trace } from "../trace.js";
import { closedPath, linePath, type Point, sectorPath, stretches } from "./curvePath.js";
import { fillOf, strokeOf } from "./paint.js";
import type { PlotFrame } from "./plotFrame.js";
import { textElement } from "./richText.js";
import { markerMarks } from "./scatterMarks.js";
import { element, short } from "./svgText.js";

/** A polar plot's center and scales; angles in radians clockwise from the top. */
interface Dial {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  readonly radiusAt: (r: number | null) => number;
  readonly angleAt: (theta: number) => number;
  readonly turn: 1 | -1;
  readonly polar: Polar;
}

/**
 * Draws the polar plot of a layout with its traces; nothing where the layout has none.
 *
 * @param traces only `scatterpolar` and `barpolar` are looked at
 */
export function polarMarks(layout: Layout, traces: readonly Trace[], frame: PlotFrame): string {
  if (layout.polar === undefined) return "";
  const dial = dialOf(layout.polar, frame);
  const parts = [dialFace(dial)];
  for (const trace of traces) if (trace.type === "barpolar" && trace.visible !== false) parts.push(sectors(trace, dial));
  let before: readonly Point[] | null = null;
  for (const trace of traces) {
    if (trace.type !== "scatterpolar" || trace.visible === false) continue;
    const drawn = polarPoints(trace, dial, before);
    parts.push(drawn.markup);
    before = drawn.points;
  }
  parts.push(dialWords(dial));
  return element("g", {}, parts.join(""));
}

function dialOf(polar: Polar, { plot }: PlotFrame): Dial {
  const [x0, x1] = polar.domain.x.map((v) => plot.left + v * plot.width);
  const [y0, y1] = polar.domain.y.map((v) => plot.top + (1 - v) * plot.height);
  const radius = Math.min(x1 - x0, y0 - y1) / 2;
  const [low, high] = polar.radialaxis.range;
  const turn = polar.angularaxis.direction === "clockwise" ? 1 : -1;
  return {
    x: (x0 + x1) / 2,
    y: (y0 + y1) / 2,
    radius,
    radiusAt: (r) => (r === null ? Number.NaN : radius * (polar.hole + ((1 - polar.hole) * Math.max(0, (r - low) / (high - low))))),
    angleAt: (theta) => ((90 - polar.angularaxis.rotation + turn * theta) * Math.PI) / 180,
    turn,
    polar,
  };
}

function placed(dial: Dial, radius: number, angle: number): Point {
  return [dial.x + radius * Math.sin(angle), dial.y - radius * Math.cos(angle)];
}

function dialFace(dial: Dial): string {
  const { angularaxis: around, radialaxis: outward, bgcolor, hole } = dial.polar;
  const circle = (r: number, attributes: Parameters<typeof element>[1]): string => element("circle", { cx: dial.x, cy: dial.y, r, ...attributes });
  const parts = [circle(dial.radius, fillOf(bgcolor))];
  if (outward.showgrid) parts.push(...outward.tickvals.map((v) => circle(dial.radiusAt(v), { fill: "none", ...strokeOf({ color: outward.gridcolor, width: outward.gridwidth }) })));
  if (around.showgrid) {
    const spokes = around.tickvals.map((theta) => {
      const [from, to] = [dial.radius * hole, dial.radius].map((r) => placed(dial, r, dial.angleAt(theta)));
      return `M${short(from[0])} ${short(from[1])}L${short(to[0])} ${short(to[1])}`;
    });
    parts.push(element("path", { d: spokes.join(""), fill: "none", ...strokeOf({ color: around.gridcolor, width: around.gridwidth }) }));
  }
  if (around.showline && hole > 0) parts.push(circle(dial.radius * hole, { ...fillOf(bgcolor), ...strokeOf({ color: around.linecolor, width: around.linewidth }) }));
  if (around.showline) parts.push(circle(dial.radius, { fill: "none", ...strokeOf({ color: around.linecolor, width: around.linewidth }) }));
  return parts.join("");
}

/** Texts about the dial and along its radius, over the traces. */
function dialWords(dial: Dial): string {
  const { angularaxis: around, radialaxis: outward } = dial.polar;
  const gap = around.ticks === "outside" ? 9 : 4;
  const hours = around.tickvals.map((theta, i) => {
    const angle = dial.angleAt(theta);
    const [x, y] = placed(dial, dial.radius + gap, angle);
    const [side, height] = [Math.sin(angle), Math.cos(angle)];
    const anchor = side > 0.2 ? "start" : side < -0.2 ? "end" : "middle";
    return textElement(around.ticktext[i] ?? "", around.tickfont, { x, y, anchor, vertical: height > 0.7 ? "bottom" : height < -0.7 ? "top" : "middle" });
  });
  if (!outward.showticklabels) return hours.join("");
  const along = ((90 - outward.angle) * Math.PI) / 180;
  const radii = outward.tickvals.map((v, i) => {
    const [x, y] = placed(dial, dial.radiusAt(v), along);
    return textElement(outward.ticktext[i] ?? "", outward.tickfont, { x: x + 3, y: y - 2, anchor: "start", vertical: "bottom" });
  });
  return hours.join("") + radii.join("");
}

function sectors(trace: BarPolarTrace, dial: Dial): string {
  return trace.r
    .map((r, i) => {
      const base = trace.base?.[i] ?? 0;
      const ends = [trace.theta[i] - trace.width[i] / 2, trace.theta[i] + trace.width[i] / 2].map(dial.angleAt);
      const path = sectorPath(dial.radiusAt(base), dial.radiusAt(base + r), Math.min(...ends), Math.max(...ends));
      const color = typeof trace.marker.color === "string" ? trace.marker.color : trace.marker.color[i];
      return element("path", { d: path, transform: `translate(${short(dial.x)} ${short(dial.y)})`, opacity: trace.opacity, ...fillOf(color), ...strokeOf(trace.marker.line) });
    })
    .join("");
}

function polarPoints(trace: ScatterPolarTrace, dial: Dial, before: readonly Point[] | null): { readonly markup: string; readonly points: readonly Point[] } {
  const points = trace.r.map((r, i): Point => {
    const theta = trace.theta[i];
    return theta === null || theta === undefined ? [Number.NaN, Number.NaN] : placed(dial, dial.radiusAt(r), dial.angleAt(theta));
  });
  const parts: string[] = [];
  if (trace.fill === "toself") parts.push(element("path", { d: closedPath(stretches(points)), ...fillOf(trace.fillcolor) }));
  if (trace.fill === "tonext" && before !== null) {
    // Two closed rings: what lies in one but not in the other.
    parts.push(element("path", { d: closedPath([...stretches(points), ...stretches(before)]), "fill-rule": "evenodd", ...fillOf(trace.fillcolor) }));
  }
  if (trace.mode.includes("lines") && trace.line !== undefined && trace.line.width > 0) {
    parts.push(element("path", { d: linePath(points), fill: "none", "stroke-linejoin": "round", ...strokeOf(trace.line) }));
  }
  if (trace.mode.includes("markers") && trace.marker !== undefined) parts.push(markerMarks(trace.marker, points));
  if (trace.mode.includes("text")) {
    const { size, color } = trace.textfont ?? { size: 12, color: "#000000" };
    parts.push(
      ...points.map(([x, y], i) => {
        const text = trace.text?.[i] ?? "";
        return text === "" || Number.isNaN(x) ? "" : textElement(text, { size, color: typeof color === "string" ? color : color[i] }, { x, y, anchor: "middle", vertical: "middle" });
      }),
    );
  }
  const markup = parts.join("");
  return { markup: trace.opacity === undefined || markup === "" ? markup : element("g", { opacity: trace.opacity }, markup), points };
}
