import type { ClimateAnswer } from "../answers/climateOf.js";
import { capital, signed, unitInWords } from "../answers/words.js";
import type { DaySummary } from "../cycles/climate/dailySummary.js";
import type { AirRecord } from "../record/airRecord.js";
import { houseUnit, type Quantity, quantityWords } from "../record/quantity.js";
import type { Figure } from "./figure.js";
import { lookOf, placeLooks } from "./placeLook.js";
import { digits } from "./roundedValues.js";
import { type Panel, sheet } from "./sheet.js";
import { type FigureOptions, paletteOf } from "./theme.js";
import { fixedScale, monthName, namedScale, roundTicks } from "./tickScale.js";

/** Rows of months at most; longer records have a row a year, and five days in a cell. */
const mostMonths = 36;

/**
 * A calendar of daily means, colored from cold to warm: a row for each month, a cell for each day.
 *
 * Records over three years have a row for each year and cells of five days. Days without a mean (under 18 covered hours) stay blank.
 *
 * @param record           for the place's title
 * @param answer           from `climateOf`
 * @param options.place    which place; the first outdoor one of the answer when left out
 * @param options.quantity default air_temperature
 * @returns                null where no day has a mean
 * @throws RangeError      when the answer does not hold the place
 * @example calendarFigure(record, climateOf(record))?.message
 */
export function calendarFigure(record: AirRecord, answer: ClimateAnswer, options: FigureOptions & { readonly place?: string; readonly quantity?: Quantity } = {}): Figure | null {
  const palette = paletteOf(options.theme);
  const { quantity = "air_temperature" } = options;
  const { look, held } = lookOf("calendarFigure", placeLooks(record, palette), answer.parts, options.place);
  const daily = held[quantity]?.daily ?? [];
  const whole = daily.filter((d): d is DaySummary & { mean: number } => d.mean !== null);
  if (whole.length === 0) return null;
  const unit = unitInWords(houseUnit[quantity]);
  const cells = monthsBetween(daily) > mostMonths ? byYear(whole) : byMonth(whole);
  const values = cells.z.flat().filter((v): v is number => v !== null);
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const ticks = roundTicks(low, Math.max(high, low + 0.1), cells.labels.length < 6 ? 3 : 6);
  const coldest = whole.reduce((a, b) => (b.mean < a.mean ? b : a));
  const warmest = whole.reduce((a, b) => (b.mean > a.mean ? b : a));
  const words = quantity === "air_temperature" ? (["coldest", "warmest"] as const) : (["lowest", "highest"] as const);
  const message = `${capital(quantityWords[quantity])} at ${look.place.title}: the ${words[1]} day was ${warmest.date} with a mean of ${signed(warmest.mean, 1)} ${unit}, the ${words[0]} ${coldest.date} with ${signed(coldest.mean, 1)} ${unit}; ${whole.length} of ${daily.length} days have a mean.`;
  const rows = cells.labels.length;
  const panels: Panel[] = [
    {
      heading: `Mean of each ${cells.cellDays === 1 ? "day" : "five days"}, ${unit}`,
      y: namedScale([rows - 0.5, -0.5], cells.labels.map((label, i) => [i, label] as const)),
      height: Math.max(60, 19 * rows),
      x: cells.x,
      xTitle: cells.xTitle,
      grid: { x: false, y: false },
    },
  ];
  return sheet({
    name: "calendar",
    title: `Day by day: ${quantityWords[quantity]} at ${look.title}`,
    palette,
    panels,
    left: 74,
    right: 58,
    data: [
      {
        type: "heatmap",
        name: quantityWords[quantity],
        x: cells.columns,
        y: cells.labels.map((_, i) => i),
        z: cells.z.map((row) => row.map(digits(1))),
        zmin: low,
        zmax: high,
        colorscale: quantity === "air_temperature" ? palette.coldWarm : palette.ramp,
        showscale: true,
        colorbar: { title: { text: unit, side: "top", font: { color: palette.softInk, size: 12 } }, len: 1, thickness: 10, orientation: "v", x: 1.01, y: 0, xanchor: "left", yanchor: "bottom", tickvals: ticks.values, ticktext: ticks.values.map((v) => v.toFixed(ticks.decimals).replace("-", "−")), tickfont: { color: palette.softInk, size: 12 }, outlinewidth: 0 },
        xgap: 1,
        ygap: 1,
        hovertemplate: `%{x:.0f}: %{z:.1f} ${unit}`,
      },
    ],
    alt: `A calendar of colored cells, one for each ${cells.cellDays === 1 ? "day" : "five days"}. ${message}`,
    message,
    table: { head: ["month", `lowest daily mean, ${unit}`, `mean, ${unit}`, `highest daily mean, ${unit}`, "days"], rows: monthRows(whole) },
  });
}

interface Cells {
  readonly labels: readonly string[];
  readonly columns: readonly number[];
  readonly z: readonly (readonly (number | null)[])[];
  readonly x: Panel["x"];
  readonly xTitle: string;
  readonly cellDays: 1 | 5;
}

function monthsBetween(daily: readonly DaySummary[]): number {
  const of = (d: DaySummary): number => 12 * Number(d.date.slice(0, 4)) + Number(d.date.slice(5, 7));
  return of(daily[daily.length - 1]) - of(daily[0]) + 1;
}

function byMonth(whole: readonly (DaySummary & { mean: number })[]): Cells {
  const first = 12 * Number(whole[0].date.slice(0, 4)) + Number(whole[0].date.slice(5, 7)) - 1;
  const count = monthsBetween(whole);
  const z = Array.from({ length: count }, () => new Array<number | null>(31).fill(null));
  for (const d of whole) z[12 * Number(d.date.slice(0, 4)) + Number(d.date.slice(5, 7)) - 1 - first][Number(d.date.slice(8)) - 1] = d.mean;
  const labels = Array.from({ length: count }, (_, i) => `${monthName(first + i + 1)}${i === 0 || (first + i) % 12 === 0 ? ` ${Math.floor((first + i) / 12)}` : ""}`);
  return { labels, columns: Array.from({ length: 31 }, (_, i) => i + 1), z, x: namedScale([0.5, 31.5], [1, 5, 10, 15, 20, 25, 30].map((d) => [d, String(d)] as const)), xTitle: "Day of the month (standard time)", cellDays: 1 };
}

function byYear(whole: readonly (DaySummary & { mean: number })[]): Cells {
  const first = Number(whole[0].date.slice(0, 4));
  const count = Number(whole[whole.length - 1].date.slice(0, 4)) - first + 1;
  const sums = Array.from({ length: count }, () => Array.from({ length: 73 }, () => ({ sum: 0, days: 0 })));
  for (const d of whole) {
    const year = Number(d.date.slice(0, 4));
    const cell = sums[year - first][Math.min(72, Math.floor((d.day - Date.UTC(year, 0, 1) / 86_400_000) / 5))];
    cell.sum += d.mean;
    cell.days++;
  }
  const z = sums.map((row) => row.map(({ sum, days }) => (days === 0 ? null : sum / days)));
  const ticks = [1, 3, 5, 7, 9, 11].map((m) => [(Date.UTC(2023, m - 1, 1) - Date.UTC(2023, 0, 1)) / 86_400_000 + 1, monthName(m)] as const);
  return { labels: sums.map((_, i) => String(first + i)), columns: Array.from({ length: 73 }, (_, i) => 5 * i + 3), z, x: { ...fixedScale([0.5, 365.5]), ...namedScale([0.5, 365.5], ticks) }, xTitle: "Time of the year", cellDays: 5 };
}

function monthRows(whole: readonly (DaySummary & { mean: number })[]): (string | number | null)[][] {
  const months = new Map<string, number[]>();
  for (const d of whole) months.set(d.date.slice(0, 7), [...(months.get(d.date.slice(0, 7)) ?? []), d.mean]);
  const round = digits(1);
  return [...months].map(([month, means]) => [month, round(Math.min(...means)), round(means.reduce((a, b) => a + b, 0) / means.length), round(Math.max(...means)), means.length]);
}
