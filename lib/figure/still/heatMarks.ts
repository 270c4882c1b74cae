import type { ColorBar, HeatmapTrace, Position } from "../trace.js";
import { colorSteps, dateMs, scaleColors, steppedColors } from "./axisScale.js";
import { fillOf } from "./paint.js";
import type { PlacedAxis, PlotFrame } from "./plotFrame.js";
import { textElement } from "./richText.js";
import { element, short } from "./svgText.js";

/** The colors in which a heat map's cells are drawn. */
export interface HeatColors {
  readonly colors: readonly string[];
  /** Which color a value has. */
  readonly indexOf: (value: number) => number;
}

/**
 * Colors of a heat map's cells: exactly those of its values where they are few, else the even steps of its scale.
 *
 * Two descriptions of the same values in two themes have colors of the same index in the same cells.
 */
export function heatColors(trace: Pick<HeatmapTrace, "z" | "zmin" | "zmax" | "colorscale">): HeatColors {
  const share = (value: number): number => shareOfScale(trace, value);
  const distinct = new Set<number>();
  for (const row of trace.z) for (const value of row) if (value !== null && distinct.size <= colorSteps) distinct.add(share(value));
  if (distinct.size > colorSteps) return { colors: steppedColors(trace.colorscale), indexOf: (value) => Math.round(share(value) * (colorSteps - 1)) };
  const shares = [...distinct].sort((a, b) => a - b);
  const index = new Map(shares.map((at, i) => [at, i]));
  return { colors: scaleColors(trace.colorscale, shares), indexOf: (value) => index.get(share(value)) ?? 0 };
}

/** Where a value lies on the scale, 0…1; 0 on a scale without extent. */
function shareOfScale({ zmin, zmax }: Pick<HeatmapTrace, "zmin" | "zmax">, value: number): number {
  return Math.min(1, Math.max(0, (value - zmin) / (zmax - zmin) || 0));
}

/** Draws the cells of a heat map, one path a color. */
export function heatMarks(trace: HeatmapTrace, x: PlacedAxis, y: PlacedAxis): string {
  const { colors, indexOf } = heatColors(trace);
  const [columns, rows] = [edges(trace.x, x), edges(trace.y, y)];
  const paths: string[][] = colors.map(() => []);
  trace.z.forEach((line, r) => {
    line.forEach((value, c) => {
      if (value !== null && !Number.isNaN(value)) paths[indexOf(value)].push(cell(columns[c], rows[r], trace.xgap, trace.ygap));
    });
  });
  const cells = paths.map((parts, k) => (parts.length === 0 ? "" : element("path", { d: parts.join(""), ...fillOf(colors[k]) }))).join("");
  // Cells that touch must not show a seam.
  return cells === "" || trace.xgap > 0 ? cells : element("g", { "shape-rendering": "crispEdges" }, cells);
}

/** The two sides of every cell · px. */
function edges(centers: readonly Position[], placed: PlacedAxis): (readonly [number, number])[] {
  const at = centers.map((v) => (placed.axis.type === "date" ? dateMs(v) : Number(v)));
  const half = at.length < 2 ? 0.5 : (at[at.length - 1] - at[0]) / (at.length - 1) / 2;
  return at.map((v) => [placed.scale(v - half), placed.scale(v + half)]);
}

function cell([x0, x1]: readonly [number, number], [y0, y1]: readonly [number, number], xgap: number, ygap: number): string {
  const [left, top] = [Math.min(x0, x1) + xgap / 2, Math.min(y0, y1) + ygap / 2];
  return `M${short(left)} ${short(top)}h${short(Math.abs(x1 - x0) - xgap)}v${short(Math.abs(y1 - y0) - ygap)}h${short(xgap - Math.abs(x1 - x0))}z`;
}

/** Between a color bar and its texts · px. */
const pad = 5;
/** The drawing library's own padding about a color bar · px. */
const outerPad = 10;

/** Draws the key of a heat map's colors where its trace says. */
export function colorBarMarks(trace: HeatmapTrace, frame: PlotFrame): string {
  const bar = trace.colorbar;
  if (!trace.showscale || bar === undefined) return "";
  const colors = steppedColors(trace.colorscale);
  const isLying = bar.orientation === "h";
  const { plot } = frame;
  const length = bar.len * (isLying ? plot.width : plot.height) - 2 * outerPad;
  const titleRoom = !isLying && bar.title.side === "top" && bar.title.text !== "" ? bar.title.font.size * 1.3 + 4 : 0;
  const [w, h] = isLying ? [length, bar.thickness] : [bar.thickness, length - titleRoom];
  const left = plot.left + bar.x * plot.width + { left: outerPad, center: -w / 2, right: -outerPad - w }[bar.xanchor];
  const top = plot.top + (1 - bar.y) * plot.height + { top: outerPad + titleRoom, middle: -h / 2 + titleRoom / 2, bottom: -outerPad - h }[bar.yanchor];
  const step = (isLying ? w : h) / colorSteps;
  const swatches = colors.map((color, k) =>
    element("path", { d: isLying ? `M${short(left + k * step)} ${short(top)}h${short(step + 0.3)}v${short(h)}h${short(-step - 0.3)}z` : `M${short(left)} ${short(top + h - k * step)}h${short(w)}v${short(-step - 0.3)}h${short(-w)}z`, ...fillOf(color) }),
  );
  const texts = bar.tickvals.map((value, i) => {
    const share = shareOfScale(trace, value);
    return isLying
      ? textElement(bar.ticktext[i] ?? "", bar.tickfont, { x: left + share * w, y: top + h + pad, anchor: "middle", vertical: "top" })
      : textElement(bar.ticktext[i] ?? "", bar.tickfont, { x: left + w + pad, y: top + h - share * h, anchor: "start", vertical: "middle" });
  });
  return element("g", {}, swatches.join("") + texts.join("") + barTitle(bar, { left, top, w, h }));
}

function barTitle(bar: ColorBar, { left, top, w, h }: { left: number; top: number; w: number; h: number }): string {
  const { text, font, side } = bar.title;
  if (text === "") return "";
  if (side === "top") return textElement(text, font, { x: left, y: top - 4, anchor: "start", vertical: "bottom" });
  if (bar.orientation === "h") return textElement(text, font, { x: left + w + pad, y: top + h / 2, anchor: "start", vertical: "middle" });
  return textElement(text, font, { x: left + w + 4.2 * font.size, y: top + h / 2, anchor: "middle", vertical: "middle", angle: 90 });
}
