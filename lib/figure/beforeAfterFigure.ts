import type { IndoorsAnswer } from "../answers/indoorsOf.js";
import { recordView } from "../answers/recordView.js";
import { estimateInWords, unitInWords } from "../answers/words.js";
import type { Estimate } from "../ground/estimate.js";
import type { PairPeriod } from "../indoors/housePair.js";
import { type ChangedQuantity, changesByEvent, isChangeSure, type PairChange } from "../indoors/pairChanges.js";
import type { AirRecord } from "../record/airRecord.js";
import { type Figure, plainText } from "./figure.js";
import { pairOf } from "./responseFigure.js";
import { digits } from "./roundedValues.js";
import { axesOf, note, type Panel, sheet } from "./sheet.js";
import { type FigureOptions, paletteOf } from "./theme.js";
import { monthName, namedScale, numberScale, type Scale } from "./tickScale.js";
import type { Annotation, Shape } from "./layout.js";
import type { Trace } from "./trace.js";

const names: Readonly<Record<ChangedQuantity, string>> = {
  meanDifference: "Warmer inside",
  decrementFactor: "Swing inside/outside",
  timeLag: "Swing later inside",
  timeConstant: "Time constant",
  moistureExcess: "Moister inside",
  vaporPressureExcess: "More vapor inside",
};
const shown: readonly ChangedQuantity[] = ["meanDifference", "decrementFactor", "timeLag", "timeConstant", "moistureExcess"];

/**
 * Before and after: the house's numbers in the periods between dated events, with their intervals, and what changed.
 *
 * A change is told with its own interval, which allows for the weather of the two periods; it is not the difference of the two points, since
 * means are compared at like weather outside.
 *
 * @param record       for titles and the zone
 * @param answer       from `indoorsOf`
 * @param options.pair which pair of the answer · default 0
 * @returns            null where the record has no dated event, or no number on both sides
 * @throws RangeError  when the answer holds no such pair
 * @example beforeAfterFigure(record, indoorsOf(record))?.message
 */
export function beforeAfterFigure(record: AirRecord, answer: IndoorsAnswer, options: FigureOptions & { readonly pair?: number } = {}): Figure | null {
  const palette = paletteOf(options.theme);
  const pair = pairOf("beforeAfterFigure", answer, options.pair);
  const { offsetHours, titles } = recordView(record);
  const { periods, changes } = pair;
  const told = shown.filter((q) => periods.filter((p) => p[q] !== null).length >= 2);
  if (periods.length < 2 || told.length === 0) return null;
  const day = (iso: string, last = false): string => {
    const at = new Date(Date.parse(iso) + offsetHours * 3_600_000 - (last ? 86_400_000 : 0));
    return `${at.getUTCDate()} ${monthName(at.getUTCMonth() + 1)}`;
  };
  const labels = periods.map((p, i) => (i === 0 ? `to ${day(p.to, true)}` : i === periods.length - 1 ? `from ${day(p.from)}` : `${day(p.from)} – ${day(p.to, true)}`));
  const unitOf = (q: ChangedQuantity): string => unitInWords(periods.find((p) => p[q] !== null)?.[q]?.unit ?? "1");
  const panels: Panel[] = told.map((q) => {
    const values = periods.flatMap((p) => (p[q] === null ? [] : [p[q].low, p[q].high]));
    return {
      heading: `${names[q]}${unitOf(q) === "" ? "" : `, ${unitOf(q)}`}`,
      height: 26 * periods.length,
      y: namedScale([periods.length - 0.5, -0.5], labels.map((label, i) => [i, label] as const)),
      x: numberScale(values, { most: 5, pad: 0.12, zero: q === "decrementFactor" }),
      grid: { y: false },
    };
  });
  const data: Trace[] = [];
  const shapes: Shape[] = [];
  const annotations: Annotation[] = [];
  told.forEach((q, k) => {
    const axes = axesOf(panels, k);
    periods.forEach((p, i) => {
      const e = p[q];
      if (e !== null) data.push(pointOf(e, i, axes, palette.inside, `${names[q]} ${labels[i]}`));
    });
    const own = changes.filter((c) => c.quantity === q);
    const line = own.length === 1 ? changeText(own[0]) : "";
    if (line !== "") annotations.push(note(palette, { text: line, xref: "paper", yref: `${axes.y} domain`, x: 1, y: 1, xanchor: "right", yanchor: "bottom", yshift: 4, align: "right", font: { color: isChangeSure(own[0]) ? palette.fault : palette.softInk, size: 12 } }));
    const [low, high] = (panels[k].x as Scale).range as [number, number];
    if (low < 0 && high > 0) shapes.push({ type: "line", xref: axes.x, yref: `${axes.y} domain`, x0: 0, x1: 0, y0: 0, y1: 1, line: { color: palette.axis, width: 1 }, layer: "below" });
  });
  const events = changesByEvent(changes).map((own) => own[0].event);
  const clear = changes.filter((c) => isChangeSure(c) && shown.includes(c.quantity));
  const title = titles[pair.inside] ?? pair.inside;
  const message = `${clear.length === 0 ? `No change of ${title} stands out of the weather` : `In ${title} changed: ${clear.map((c) => `${lower(names[c.quantity])} by ${estimateInWords(c.change as Estimate)} ("${c.event}")`).join("; ")}`}. Anything else that changed on the same date cannot be told apart.`;
  return sheet({
    name: "before-after",
    title: `Before and after: ${events.length === 1 ? plainText(events[0], 60) : `${events.length} events`}`,
    palette,
    panels,
    left: periods.length > 2 ? 110 : 78,
    data,
    shapes,
    annotations,
    alt: `Points with 95 % intervals for ${periods.length} periods, one panel for each number of the house. ${message}`,
    message,
    table: { head: ["number", ...labels, "change", "event"], rows: told.flatMap((q) => rowsOf(q, periods, changes)) },
  });
}

function pointOf(e: Estimate, row: number, axes: { x: string; y: string }, color: string, name: string): Trace {
  const round = digits(4);
  return { type: "scatter", mode: "markers", name, x: [round(e.value)], y: [row], xaxis: axes.x, yaxis: axes.y, marker: { color, size: 9, symbol: row === 0 ? "circle" : "diamond" }, error_x: { type: "data", symmetric: false, array: [round(e.high - e.value)], arrayminus: [round(e.value - e.low)], color, thickness: 1.5, width: 4 }, text: [estimateInWords(e)], hovertemplate: "%{text}" };
}

function changeText(c: PairChange): string {
  if (c.change === null) return "change not told";
  const sign = c.change.value > 0 ? "+" : "";
  return `change ${sign}${estimateInWords(c.change)}`;
}

function rowsOf(q: ChangedQuantity, periods: readonly PairPeriod[], changes: readonly PairChange[]): (string | null)[][] {
  const numbers = periods.map((p) => (p[q] === null ? null : estimateInWords(p[q])));
  return changes.filter((c) => c.quantity === q).map((c) => [names[q], ...numbers, c.change === null ? (c.says ?? null) : estimateInWords(c.change), c.event]);
}

function lower(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}
