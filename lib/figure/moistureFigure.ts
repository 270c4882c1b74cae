import type { IndoorsAnswer } from "../answers/indoorsOf.js";
import { comparedInWords, signed } from "../answers/words.js";
import { humidityClassLimit } from "../indoors/humidityClass.js";
import { dailyDifferences } from "../indoors/meanDifference.js";
import type { AirRecord } from "../record/airRecord.js";
import type { Figure } from "./figure.js";
import { pairAir } from "./pairAir.js";
import { pairOf } from "./responseFigure.js";
import { digits } from "./roundedValues.js";
import { note, type Panel, sheet } from "./sheet.js";
import { type FigureOptions, paletteOf } from "./theme.js";
import { numberScale } from "./tickScale.js";
import type { Annotation } from "./layout.js";
import type { Trace } from "./trace.js";

const mostDays = 1500;

/**
 * Moisture: how many grams of water a cubic meter of air holds more inside than outside, day by day, against the limits of the humidity classes.
 *
 * The limits fall with the temperature outside and meet at 20 °C, above which no class is told. Points are days; the mean with its interval
 * stands in the message, and what the sensors may add beside it.
 *
 * @param record       with its faults marked (`flagRecord`)
 * @param answer       from `indoorsOf`
 * @param options.pair which pair of the answer · default 0
 * @returns            null where no day has the humidity of both places
 * @throws RangeError  when the answer holds no such pair
 * @example moistureFigure(flagRecord(record), indoorsOf(record))?.message
 */
export function moistureFigure(record: AirRecord, answer: IndoorsAnswer, options: FigureOptions & { readonly pair?: number } = {}): Figure | null {
  const palette = paletteOf(options.theme);
  const pair = pairOf("moistureFigure", answer, options.pair);
  const air = pairAir(record, pair, palette);
  if (air === null) return null;
  const excess = dailyDifferences(air.insideMoisture, air.outsideMoisture);
  const outdoor = dailyDifferences(air.outsideTemperature, air.outsideTemperature.map((v) => (Number.isNaN(v) ? v : 0)));
  const days = Array.from(excess.keys()).filter((k) => !Number.isNaN(excess[k] + outdoor[k]));
  if (days.length === 0) return null;
  const kept = days.filter((_, i) => i % Math.ceil(days.length / mostDays) === 0);
  const x = kept.map((k) => outdoor[k]);
  const round = digits(2);
  const xScale = numberScale(x, { most: 7, least: 4 });
  const [left, right] = xScale.range as [number, number];
  const classes = [1, 2, 3, 4];
  const limitAt = (n: number, t: number): number => humidityClassLimit(n, t);
  const seen = kept.map((k) => excess[k]);
  const top = Math.max(...seen, 0);
  const drawn = classes.filter((n) => limitAt(n, left) <= Math.max(1.35 * top, limitAt(1, left)) + 1);
  const panels: Panel[] = [{ heading: "Water inside more than outside, g/m³", height: 280, y: numberScale([...seen, ...drawn.map((n) => limitAt(n, left))], { zero: true, most: 7 }), x: xScale, xTitle: `Daily mean outside (${air.outside.title}), °C` }];
  const corners = [left, ...[0, 20].filter((t) => t > left && t < right), right];
  const data: Trace[] = [
    ...drawn.map((n): Trace => ({ type: "scatter", mode: "lines", name: `limit of class ${n}`, x: corners, y: corners.map((t) => round(limitAt(n, t))), line: { color: palette.reference, width: 1.5, dash: "dash" }, hoverinfo: "skip" })),
    { type: "scatter", mode: "markers", name: "days", x: x.map(round), y: seen.map(round), marker: { color: palette.inside, size: kept.length > 500 ? 3 : 5, opacity: 0.7 }, hovertemplate: "%{y:.1f} g/m³ at %{x:.1f} °C outside" },
  ];
  // A limit is named on its line, where the limits are farthest apart.
  const annotations: Annotation[] = drawn.map((n) => note(palette, { text: `class ${n} | ${n + 1}`, x: left, y: limitAt(n, left), xshift: 6, bgcolor: palette.paper, borderpad: 1, font: { color: palette.reference, size: 12 } }));
  const told = pair.humidityClass;
  const sensors = pair.sensorOffset.moisture;
  const message = `${pair.moistureExcess === null ? "The moisture excess cannot be told yet." : `${air.inside.place.title} holds ${comparedInWords(pair.moistureExcess, "more", "less")} water than ${air.outside.place.title}${sensors === null ? "" : `; the sensors alone may make ${signed(sensors.low, 1)} to ${signed(sensors.high, 1)} g/m³ of it`}.`} ${told?.says ?? ""}`.trim();
  return sheet({
    name: "moisture",
    title: `Moisture indoors: ${air.inside.title}`,
    palette,
    panels,
    key: [
      { color: palette.inside, glyph: "●", text: "one day" },
      { color: palette.reference, glyph: "╍╍", text: "limits of classes" },
    ],
    data,
    shapes: [{ type: "line", xref: "paper", yref: "y", x0: 0, x1: 1, y0: 0, y1: 0, line: { color: palette.axis, width: 1 }, layer: "below" }],
    annotations,
    alt: `Points of days: moisture excess against the temperature outside, with falling lines for the class limits. ${message}`,
    message,
    table: { head: ["daily mean outside, °C", "days", "moisture excess, g/m³"], rows: (told?.byOutdoor ?? []).map((c) => [`${c.from === null ? "below" : `${c.from} to`} ${c.to ?? "and above"}`, c.days, round(c.excess)]) },
  });
}
