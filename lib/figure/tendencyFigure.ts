import { recordView } from "../answers/recordView.js";
import type { SwingsAnswer } from "../answers/swingsOf.js";
import { estimateInWords } from "../answers/words.js";
import { tendencyCaution } from "../cycles/swings/pressureTendency.js";
import type { AirRecord } from "../record/airRecord.js";
import { standardTime } from "./axisTime.js";
import type { Figure } from "./figure.js";
import { lookOf, placeLooks } from "./placeLook.js";
import { digits } from "./roundedValues.js";
import { type Panel, sheet } from "./sheet.js";
import { type FigureOptions, paletteOf } from "./theme.js";
import { numberScale, timeScale, timeTitle } from "./tickScale.js";
import type { Trace } from "./trace.js";

const dayMs = 86_400_000;

/**
 * What is coming: the change of pressure over three hours, as read and with the tide taken out, in the last days of the record.
 *
 * The newest tide-free value has its 95 % interval; the others have about the same.
 *
 * @param record        for titles and the zone
 * @param answer        from `swingsOf`
 * @param options.place which place; the first outdoor one of the answer when left out
 * @param options.days  how many of the last days · d · default 7
 * @returns             null where no change over three hours can be told
 * @throws RangeError   when the answer does not hold the place
 * @example tendencyFigure(record, swingsOf(record))?.message
 */
export function tendencyFigure(record: AirRecord, answer: SwingsAnswer, options: FigureOptions & { readonly place?: string; readonly days?: number } = {}): Figure | null {
  const palette = paletteOf(options.theme);
  const { days = 7 } = options;
  const { look, held } = lookOf("tendencyFigure", placeLooks(record, palette), answer.parts, options.place);
  const { series, last } = held.swings.tendency;
  const end = series.at[series.at.length - 1];
  const kept = Array.from(series.at.keys()).filter((i) => series.at[i] > end - days * dayMs);
  if (!kept.some((i) => !Number.isNaN(series.raw[i]))) return null;
  const { offsetHours } = recordView(record);
  const time = standardTime(offsetHours);
  const round = digits(2);
  const x = kept.map((i) => time(series.at[i]));
  const raw = kept.map((i) => round(series.raw[i]));
  const free = kept.map((i) => round(series.tideFree[i]));
  const panels: Panel[] = [{ heading: "Change of pressure in 3 hours, hPa", height: 250, y: numberScale([...raw, ...free, last?.tideFree.low ?? 0, last?.tideFree.high ?? 0], { zero: true, most: 7, pad: 0.1 }) }];
  const data: Trace[] = [
    { type: "scatter", mode: "lines+markers", name: "as read", x, y: raw, line: { color: palette.reference, width: 1.2, dash: "dot" }, marker: { color: palette.paper, size: 5, symbol: "circle", line: { color: palette.reference, width: 1.2 } }, hovertemplate: "as read %{y:.1f} hPa" },
    { type: "scatter", mode: "lines+markers", name: "tide taken out", x, y: free, line: { color: look.color, width: 2 }, marker: { color: look.color, size: 5 }, hovertemplate: "tide taken out %{y:.1f} hPa" },
  ];
  if (last !== null) {
    const e = last.tideFree;
    data.push({ type: "scatter", mode: "markers", name: "newest", x: [time(last.at)], y: [round(e.value)], marker: { color: look.color, size: 9, symbol: "diamond" }, error_y: { type: "data", symmetric: false, array: [round(e.high - e.value)], arrayminus: [round(e.value - e.low)], color: look.color, thickness: 2, width: 4 }, hovertemplate: "newest %{y:.1f} hPa" });
  }
  const reach = (values: readonly (number | null)[]): string => Math.sqrt(values.reduce<number>((sum, v) => sum + (v ?? 0) ** 2, 0) / Math.max(1, values.filter((v) => v !== null).length)).toFixed(1);
  const message = `${last === null ? "No newest tendency: a gap in the last three hours." : `The newest 3 hours to ${time(last.at)}: ${last.term}, ${estimateInWords(last.tideFree)} with the tide taken out (as read ${estimateInWords(last.raw)}).`} In the last ${days} days the change as read is typically ${reach(raw)} hPa in 3 h, without the tide ${reach(free)}. This is ${tendencyCaution}.`;
  return sheet({
    name: "tendency",
    title: `What is coming: 3-hour tendency at ${look.title}`,
    palette,
    panels,
    x: timeScale(Math.min(...kept.map((i) => series.at[i])) - 3 * 3_600_000, end + 3 * 3_600_000, offsetHours),
    xTitle: timeTitle(offsetHours),
    key: [
      { color: look.color, glyph: "━━", text: "tide taken out" },
      { color: palette.reference, glyph: "┅┅", text: "as read" },
      ...(last === null ? [] : [{ color: look.color, glyph: "◆", text: `newest: ${last.term}, ${estimateInWords(last.tideFree)}` }]),
    ],
    data,
    shapes: [{ type: "line", xref: "paper", yref: "y", x0: 0, x1: 1, y0: 0, y1: 0, line: { color: palette.axis, width: 1 }, layer: "below" }],
    alt: `Two lines over the last ${days} days: the 3-hour change of pressure as read, and with the tide taken out. ${message}`,
    message,
    table: { head: ["end of the 3 hours (standard time)", "as read, hPa", "tide taken out, hPa"], rows: kept.map((_, k) => [x[k], raw[k], free[k]]) },
  });
}
