import type { Figure } from "../figure.js";
import type { Trace } from "../trace.js";
import { axisMarks } from "./axisMarks.js";
import { barMarks } from "./barMarks.js";
import type { Point } from "./curvePath.js";
import { colorBarMarks, heatMarks } from "./heatMarks.js";
import { annotationMark, shapeMark, titleMark } from "./layoutMarks.js";
import { fillOf } from "./paint.js";
import { axisNamed, panelBox, type PlotFrame, plotFrame } from "./plotFrame.js";
import { polarMarks } from "./polarMarks.js";
import { textLines } from "./richText.js";
import { scatterMarks } from "./scatterMarks.js";
import { element, escapeText } from "./svgText.js";

/** How a still is drawn. */
export interface StillOptions {
  /** Width of the picture · px · default 760; the height is the figure's own. */
  readonly width?: number;
  /** Goes before the names of parts inside the drawing, so that several drawings fit on one page · default the figure's name. */
  readonly id?: string;
  /** True leaves out the size, so that the page says it · default false. */
  readonly isFluid?: boolean;
}

type Drawn = Exclude<Trace, { readonly type: "scatterpolar" | "barpolar" }>;

/**
 * Draws a figure as SVG text, without a browser: the same axes, traces and labels as its interactive form.
 *
 * Left out is what only a hand can use: buttons, sliders, hover boxes. Colors are attributes, so that a style sheet can change them by their value.
 *
 * @param figure  a plain description with its ranges and ticks written out
 * @param options see StillOptions
 * @returns      one `<svg>` element with `<title>` (the message) and `<desc>` (what is to be seen)
 * @throws RangeError when a trace names an axis that the layout does not hold, or the margins leave no room
 * @example drawStill(tracesFigure(record), { width: 340 }).startsWith("<svg") // true
 */
export function drawStill(figure: Figure, options: StillOptions = {}): string {
  const { width = 760, id = figure.name, isFluid = false } = options;
  const { layout, data } = figure;
  const frame = plotFrame(layout, width);
  const { height } = frame;
  const parts: string[] = [element("rect", { width, height, ...fillOf(layout.paper_bgcolor) })];
  const clips = panelClips(figure, frame, id);
  const marks = [...frame.axes.values()].map((placed) => axisMarks(placed, frame, clips.crossedBy(placed.id)));
  const clipOf = (x: string, y: string): string | undefined => clips.names.get(`${x} ${y}`);
  const shapes = (layer: "below" | "above"): string =>
    layout.shapes.filter((s) => s.layer === layer).map((s) => shapeMark(s, frame, isTied(s.xref) && isTied(s.yref) ? clipOf(s.xref, s.yref) : undefined)).join("");
  parts.push(clips.grounds, shapes("below"), ...marks.map((m) => m.behind));
  parts.push(...cartesianMarks(data, frame, clipOf), polarMarks(layout, data, frame));
  parts.push(...marks.map((m) => m.front), shapes("above"));
  for (const trace of data) if (trace.type === "heatmap" && trace.visible !== false) parts.push(colorBarMarks(trace, frame));
  parts.push(...layout.annotations.map((note) => annotationMark(note, frame)), titleMark(layout));
  const head = element("title", { id: `${id}-title` }, escapeText(figure.message)) + element("desc", { id: `${id}-desc` }, escapeText(figure.alt)) + clips.definitions;
  return element(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      viewBox: `0 0 ${width} ${height}`,
      ...(isFluid ? {} : { width, height }),
      role: "img",
      "aria-labelledby": `${id}-title ${id}-desc`,
      "font-family": layout.font.family ?? "sans-serif",
    },
    head + parts.join(""),
  );
}

/** The panels of a figure: each is a pair of axes that a trace or a shape uses. */
interface Panels {
  /** Names of their clip paths, by their axes. */
  readonly names: ReadonlyMap<string, string>;
  readonly definitions: string;
  readonly grounds: string;
  /** Axes of the panels that an axis's grid lines run through. */
  readonly crossedBy: (axis: string) => readonly string[];
}

/** Panels as clip paths and as grounds. */
function panelClips({ data, layout }: Figure, frame: PlotFrame, id: string): Panels {
  const names = new Map<string, string>();
  const pairs = new Set<string>();
  for (const trace of data) if (isCartesian(trace)) pairs.add(`${trace.xaxis ?? "x"} ${trace.yaxis ?? "y"}`);
  const used = [...pairs];
  for (const s of layout.shapes) if (isTied(s.xref) && isTied(s.yref)) pairs.add(`${s.xref} ${s.yref}`);
  const boxes = [...pairs].map((pair, k) => {
    const [x, y] = pair.split(" ");
    const box = panelBox(axisNamed(frame, x), axisNamed(frame, y));
    names.set(pair, `${id}-panel${k}`);
    return { pair, name: `${id}-panel${k}`, rect: { x: box.left, y: box.top, width: box.width, height: box.height } };
  });
  const grounds = boxes.filter((b) => used.includes(b.pair) && layout.plot_bgcolor !== layout.paper_bgcolor);
  return {
    names,
    definitions: boxes.length === 0 ? "" : element("defs", {}, boxes.map((b) => element("clipPath", { id: b.name }, element("rect", b.rect))).join("")),
    grounds: grounds.map((b) => element("rect", { ...b.rect, ...fillOf(layout.plot_bgcolor) })).join(""),
    crossedBy: (axis) => [...new Set(used.map((pair) => pair.split(" ")).filter((pair) => pair.includes(axis)).map(([x, y]) => (x === axis ? y : x)))],
  };
}

/** Heat maps lie under bars, bars under lines and points, as the drawing library stacks them. */
function cartesianMarks(data: readonly Trace[], frame: PlotFrame, clipOf: (x: string, y: string) => string | undefined): string[] {
  const layers: Record<Drawn["type"], string[]> = { heatmap: [], bar: [], scatter: [] };
  const before = new Map<string, readonly Point[]>();
  for (const trace of data) {
    if (!isCartesian(trace) || trace.visible === false) continue;
    const [xName, yName] = [trace.xaxis ?? "x", trace.yaxis ?? "y"];
    const [x, y] = [axisNamed(frame, xName), axisNamed(frame, yName)];
    let markup: string;
    if (trace.type === "scatter") {
      const drawn = scatterMarks(trace, x, y, before.get(`${xName} ${yName}`) ?? null);
      before.set(`${xName} ${yName}`, drawn.points);
      markup = drawn.markup;
    } else markup = trace.type === "bar" ? barMarks(trace, x, y) : heatMarks(trace, x, y);
    layers[trace.type].push(element("g", { class: "trace", "clip-path": `url(#${clipOf(xName, yName)})` }, markup + element("title", {}, escapeText(plainName(trace.name)))));
  }
  return [...layers.heatmap, ...layers.bar, ...layers.scatter];
}

function plainName(name: string): string {
  return textLines(name).map((line) => line.map((run) => run.text).join("")).join(" ");
}

function isCartesian(trace: Trace): trace is Drawn {
  return trace.type === "scatter" || trace.type === "bar" || trace.type === "heatmap";
}

function isTied(reference: string): boolean {
  return reference !== "paper" && !reference.endsWith(" domain");
}
