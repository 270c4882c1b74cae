import type { Annotation, Layout, Shape } from "../layout.js";
import { fillOf, strokeOf } from "./paint.js";
import { type PlotFrame, referredPixel } from "./plotFrame.js";
import { textElement, textHeight, textLines, textWidth } from "./richText.js";
import { element } from "./svgText.js";

/**
 * A rectangle or line of the layout; one tied to an axis is cut off at the panel's edge.
 *
 * @param clip name of the clip path of its panel, or undefined
 */
export function shapeMark(shape: Shape, frame: PlotFrame, clip: string | undefined): string {
  const [x0, x1] = [shape.x0, shape.x1].map((v) => referredPixel(frame, shape.xref, v, true));
  const [y0, y1] = [shape.y0, shape.y1].map((v) => referredPixel(frame, shape.yref, v, false));
  if (![x0, x1, y0, y1].every(Number.isFinite)) return "";
  const cut = clip === undefined ? undefined : `url(#${clip})`;
  if (shape.type === "line") return element("line", { x1: x0, y1: y0, x2: x1, y2: y1, "clip-path": cut, ...strokeOf(shape.line) });
  return element("rect", { x: Math.min(x0, x1), y: Math.min(y0, y1), width: Math.abs(x1 - x0), height: Math.abs(y1 - y0), "clip-path": cut, ...fillOf(shape.fillcolor), ...strokeOf(shape.line) });
}

/** A text of the layout, with the ground behind it where it has one. */
export function annotationMark(note: Annotation, frame: PlotFrame): string {
  const x = referredPixel(frame, note.xref, note.x, true, true) + (note.xshift ?? 0);
  const y = referredPixel(frame, note.yref, note.y, false, true) - (note.yshift ?? 0);
  if (!Number.isFinite(x) || !Number.isFinite(y)) return "";
  const { size } = note.font;
  const [w, h] = [textWidth(note.text, size), textHeight(note.text, size)];
  const pad = 1 + (note.borderpad ?? 1);
  const angle = note.textangle ?? 0;
  if (angle !== 0) return turned(note, x, y, { w: w + 2 * pad, h: h + 2 * pad });
  const left = { left: x, center: x - w / 2 - pad, right: x - w - 2 * pad }[note.xanchor];
  const top = { top: y, middle: y - h / 2 - pad, bottom: y - h - 2 * pad }[note.yanchor];
  const ground = note.bgcolor === undefined ? "" : element("rect", { x: left, y: top, width: w + 2 * pad, height: h + 2 * pad, ...fillOf(note.bgcolor) });
  // Text is anchored at the side it is told to stand at, so that a letter counted too wide does not move it.
  const side = note.xanchor === "left" ? "left" : note.xanchor === "right" ? "right" : note.align;
  const oneLine = !note.text.includes("<br>");
  const by = oneLine ? note.xanchor : side;
  const textX = { left: left + pad, center: left + pad + w / 2, right: left + pad + w }[by];
  const anchor = ({ left: "start", center: "middle", right: "end" } as const)[by];
  return ground + textElement(note.text, note.font, { x: textX, y: top + pad, anchor, vertical: "top" });
}

/** A turned text: its turned box stands at the anchors, as the drawing library has it. */
function turned(note: Annotation, x: number, y: number, { w, h }: { w: number; h: number }): string {
  const radians = ((note.textangle ?? 0) * Math.PI) / 180;
  const [cos, sin] = [Math.abs(Math.cos(radians)), Math.abs(Math.sin(radians))];
  const [boxW, boxH] = [w * cos + h * sin, w * sin + h * cos];
  const middleX = x + { left: boxW / 2, center: 0, right: -boxW / 2 }[note.xanchor];
  const middleY = y + { top: boxH / 2, middle: 0, bottom: -boxH / 2 }[note.yanchor];
  return textElement(note.text, note.font, { x: middleX, y: middleY, anchor: "middle", vertical: "middle", angle: note.textangle });
}

/** The figure's title, at the top left. */
export function titleMark({ title }: Layout): string {
  if (title.text === "") return "";
  const { size } = title.font;
  // The drawing library sets a lone line by the height of its letters, and the first of several by its foot.
  const drop = textLines(title.text).length === 1 ? 0.7 * size : 0;
  return textElement(title.text, title.font, { x: title.pad.l, y: title.pad.t + drop, anchor: "start", vertical: "baseline" });
}
