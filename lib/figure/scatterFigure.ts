import type { IndoorsAnswer } from "../answers/indoorsOf.js";
import { counted, estimateInWords, signed } from "../answers/words.js";
import type { AirRecord } from "../record/airRecord.js";
import type { Figure } from "./figure.js";
import { pairAir } from "./pairAir.js";
import { pairOf } from "./responseFigure.js";
import { digits } from "./roundedValues.js";
import { note, type Panel, sheet } from "./sheet.js";
import { type FigureOptions, paletteOf } from "./theme.js";
import { numberScale, roundTicks } from "./tickScale.js";

/** Cells across at most. */
const mostCells = 40;

/**
 * Inside against outside, hour by hour: how many hours had which pair of temperatures.
 *
 * Cells instead of points: thousands of points would hide each other, and every hour is counted. On the dotted line inside is as warm as
 * outside.
 *
 * @param record       with its faults marked (`flagRecord`)
 * @param answer       from `indoorsOf`
 * @param options.pair which pair of the answer · default 0
 * @returns            null where the two share no hour
 * @throws RangeError  when the answer holds no such pair
 * @example scatterFigure(flagRecord(record), indoorsOf(record))?.message
 */
export function scatterFigure(record: AirRecord, answer: IndoorsAnswer, options: FigureOptions & { readonly pair?: number } = {}): Figure | null {
  const palette = paletteOf(options.theme);
  const pair = pairOf("scatterFigure", answer, options.pair);
  const air = pairAir(record, pair, palette);
  if (air === null) return null;
  const hours = Array.from(air.insideTemperature.keys()).filter((h) => !Number.isNaN(air.insideTemperature[h] + air.outsideTemperature[h]));
  if (hours.length === 0) return null;
  const x = hours.map((h) => air.outsideTemperature[h]);
  const y = hours.map((h) => air.insideTemperature[h]);
  const span = Math.max(rangeOf(x), rangeOf(y), 1);
  const size = [0.25, 0.5, 1, 2].find((s) => span / s <= mostCells) ?? 5;
  const [x0, y0] = [Math.floor(least(x) / size), Math.floor(least(y) / size)];
  const [columns, rows] = [Math.floor(most(x) / size) - x0 + 1, Math.floor(most(y) / size) - y0 + 1];
  const z = Array.from({ length: rows }, () => new Array<number | null>(columns).fill(null));
  x.forEach((v, i) => {
    const row = z[Math.floor(y[i] / size) - y0];
    const column = Math.floor(v / size) - x0;
    row[column] = (row[column] ?? 0) + 1;
  });
  const highest = Math.max(...z.flat().map((v) => v ?? 0));
  const ticks = roundTicks(0, highest, 5);
  const ends = { x: [x0 * size, (x0 + columns) * size], y: [y0 * size, (y0 + rows) * size] };
  const panels: Panel[] = [{ heading: `Inside (${air.inside.title}), °C`, height: 280, y: numberScale(ends.y, { most: 7 }), x: numberScale(ends.x, { most: 7 }), xTitle: `Outside (${air.outside.title}), °C` }];
  const diagonal = [Math.max(ends.x[0], ends.y[0]), Math.min(ends.x[1], ends.y[1])];
  const warmer = hours.filter((_, i) => y[i] > x[i]).length;
  const message = `In ${((100 * warmer) / hours.length).toFixed(0)} % of ${counted(hours.length, "hour")} ${air.inside.place.title} is warmer than ${air.outside.place.title}${pair.meanDifference === null ? "" : `; the mean difference is ${estimateInWords(pair.meanDifference)}`}. Outside ran from ${signed(least(x), 1)} to ${signed(most(x), 1)} °C, inside from ${signed(least(y), 1)} to ${signed(most(y), 1)} °C.`;
  return sheet({
    name: "scatter",
    title: `Hour by hour: ${air.inside.title} against ${air.outside.title}`,
    palette,
    panels,
    right: 62,
    key: [{ color: palette.ink, glyph: "┅┅", text: "inside as warm as outside" }],
    data: [
      {
        type: "heatmap",
        name: "hours",
        x: Array.from({ length: columns }, (_, i) => digits(3)((x0 + i + 0.5) * size) as number),
        y: Array.from({ length: rows }, (_, i) => digits(3)((y0 + i + 0.5) * size) as number),
        z,
        zmin: 0,
        zmax: highest,
        colorscale: palette.ramp.slice(0).map(([at, color]) => [at, at === 0 ? palette.ramp[1][1] : color] as const),
        showscale: true,
        colorbar: { title: { text: "hours", side: "top", font: { color: palette.softInk, size: 12 } }, len: 0.9, thickness: 10, orientation: "v", x: 1.01, y: 0, xanchor: "left", yanchor: "bottom", tickvals: ticks.values, ticktext: ticks.values.map(String), tickfont: { color: palette.softInk, size: 12 }, outlinewidth: 0 },
        xgap: 0,
        ygap: 0,
        hovertemplate: "outside %{x:.1f}, inside %{y:.1f} °C: %{z} hours",
      },
    ],
    shapes: diagonal[0] < diagonal[1] ? [{ type: "line", xref: "x", yref: "y", x0: diagonal[0], x1: diagonal[1], y0: diagonal[0], y1: diagonal[1], line: { color: palette.ink, width: 1.5, dash: "dot" }, layer: "above" }] : [],
    annotations: [
      note(palette, { text: "warmer inside", xref: "paper", yref: "y domain", x: 0, y: 1, yanchor: "top", xshift: 4, yshift: -2, font: { color: palette.softInk, size: 12 } }),
      note(palette, { text: "cooler inside", xref: "paper", yref: "y domain", x: 1, y: 0, xanchor: "right", yanchor: "bottom", xshift: -4, yshift: 2, font: { color: palette.softInk, size: 12 } }),
    ],
    alt: `A grid of temperature outside (across) and inside (upward), darker where more hours fall. ${message}`,
    message,
    table: { head: ["", "lowest, °C", "mean, °C", "highest, °C"], rows: ([["outside", x], ["inside", y]] as const).map(([name, v]) => [name, ...[least(v), v.reduce((a, b) => a + b, 0) / v.length, most(v)].map(digits(1))]) },
  });
}

function least(values: readonly number[]): number {
  return values.reduce((a, b) => Math.min(a, b), Infinity);
}

function most(values: readonly number[]): number {
  return values.reduce((a, b) => Math.max(a, b), -Infinity);
}

function rangeOf(values: readonly number[]): number {
  return most(values) - least(values);
}
