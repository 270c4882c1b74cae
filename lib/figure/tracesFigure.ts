import { recordView } from "../answers/recordView.js";
import { capital, signed, unitInWords } from "../answers/words.js";
import type { AirRecord } from "../record/airRecord.js";
import { remembered } from "../ground/remembered.js";
import { leftOut } from "../record/flag.js";
import { houseUnit, type Quantity, quantityWords } from "../record/quantity.js";
import type { Series } from "../record/series.js";
import { bandTrace } from "./bandTrace.js";
import { standardTime } from "./axisTime.js";
import { dayBand } from "./dayBand.js";
import type { Figure } from "./figure.js";
import { minMaxThinned } from "./minMaxThinned.js";
import { type PlaceLook, keyOf, placeLooks } from "./placeLook.js";
import { digits } from "./roundedValues.js";
import { axesOf, type KeyEntry, type Panel, sheet } from "./sheet.js";
import { type FigureOptions, paletteOf } from "./theme.js";
import { numberScale, timeScale, timeTitle } from "./tickScale.js";
import type { ScatterTrace } from "./trace.js";

const shown: readonly Quantity[] = ["air_temperature", "relative_humidity", "surface_air_pressure", "air_pressure_at_mean_sea_level"];
/** Records shorter than this show their readings; longer ones their days. */
const daysFrom = 15;
/** Days, or spans of days, of all lines together: the figure stays below 200 kB. */
const mostSpans = 2400;
const panelHeight = 130;

/**
 * Temperature, humidity and pressure of all places over the whole record.
 *
 * From 15 days on each day is a band from its lowest to its highest reading with the daily mean as a line; shorter records show their
 * readings, thinned by `minMaxThinned`. Readings that no analysis uses are left out.
 *
 * @param record  best with its faults marked (`flagRecord`)
 * @param options theme
 * @returns       a frozen Figure
 * @example tracesFigure(record).layout.height
 */
export function tracesFigure(record: AirRecord, options: FigureOptions = {}): Figure {
  const palette = paletteOf(options.theme);
  const { offsetHours } = recordView(record);
  const looks = placeLooks(record, palette);
  const inDays = record.to - record.from >= daysFrom * 86_400_000;
  const held = shown.filter((q) => looks.some(({ place }) => place.series[q]?.values.some((v) => !Number.isNaN(v))));
  const drawn = held.map((q) => looks.flatMap((look) => drawnOf(look, q, offsetHours, inDays, Math.min(400, Math.floor(mostSpans / held.length / looks.length)))));
  const panels: Panel[] = held.map((q, k) => ({
    heading: `${capital(quantityWords[q])}, ${unitInWords(houseUnit[q])}`,
    height: panelHeight,
    y: numberScale(drawn[k].flatMap((d) => d.values), { most: 5 }),
  }));
  const data = drawn.flatMap((all, k) => {
    const axes = axesOf(panels, k);
    const on = { xaxis: axes.x, yaxis: axes.y };
    return [...all.flatMap((d) => d.bands), ...all.map((d) => d.line)].map((trace) => ({ ...trace, ...on }));
  });
  const key: KeyEntry[] = looks.map(keyOf);
  if (inDays) key.push({ color: palette.softInk, glyph: "▒", text: drawn[0]?.[0]?.spanDays === 1 ? "lowest to highest of each day; line: daily mean" : `lowest to highest in ${drawn[0]?.[0]?.spanDays} days; line: mean` });
  const ranges = held.flatMap((q) => looks.flatMap((look) => rangeRow(look, q)));
  return sheet({
    name: "traces",
    title: "The record: outside against inside",
    palette,
    panels,
    x: timeScale(record.from, record.to, offsetHours),
    xTitle: timeTitle(offsetHours),
    key,
    data,
    hovermode: "x",
    alt: `${panels.length} time series one above the other: ${held.map((q) => quantityWords[q]).join(", ")} of ${looks.map((l) => l.place.title).join(" and ")}. ${ranges.map(([q, p, low, , high, unit]) => `${q} ${p}: ${low} to ${high} ${unit}`).join("; ")}.`,
    message: messageOf(looks, held, ranges),
    table: { head: ["quantity", "place", "lowest", "mean", "highest", "unit"], rows: ranges },
  });
}

interface Drawn {
  readonly bands: readonly ScatterTrace[];
  readonly line: ScatterTrace;
  readonly values: readonly number[];
  readonly spanDays: number;
}

function drawnOf(look: PlaceLook, q: Quantity, offsetHours: number, inDays: boolean, most: number): Drawn[] {
  const series = look.place.series[q];
  if (series === undefined) return [];
  const unit = unitInWords(houseUnit[q]);
  const base = { type: "scatter", name: look.title, mode: "lines" } as const;
  if (!inDays) {
    const thin = minMaxThinned(series, { leftOut, bins: Math.ceil(0.8 * most) });
    const time = standardTime(offsetHours);
    const line: ScatterTrace = { ...base, x: thin.seconds.map((s) => time(series.start + 1000 * s)), y: thin.values.map(digits(2)), line: { color: look.color, width: 1.5, dash: look.dash }, hovertemplate: `%{y:.1f} ${unit}` };
    return [{ bands: [], line, values: thin.values, spanDays: 0 }];
  }
  const band = dayBand(series, offsetHours, most);
  const middle = standardTime(12 * band.spanDays);
  const x = band.begins.map(middle);
  const line: ScatterTrace = { ...base, x, y: band.mean.map(digits(2)), line: { color: look.color, width: 1.5, dash: look.dash }, hovertemplate: `%{y:.1f} ${unit}` };
  const outline = bandTrace({ name: look.title, x, low: band.low.map(digits(2)), high: band.high.map(digits(2)), color: look.color, fillcolor: look.band });
  return [{ bands: [outline], line, values: [...band.low, ...band.high], spanDays: band.spanDays }];
}

type Row = [string, string, number | null, number | null, number | null, string];

interface Range {
  readonly low: number;
  readonly high: number;
  readonly sum: number;
  readonly count: number;
}

/** The figure is made in two themes, of the same readings. */
const known = remembered<Series, Range>();

function rangeOf({ values, flags }: Series): Range {
  let low = Infinity;
  let high = -Infinity;
  let sum = 0;
  let count = 0;
  for (let i = 0; i < values.length; i++) {
    const v = values[i];
    if (Number.isNaN(v) || (flags[i] & leftOut) !== 0) continue;
    if (v < low) low = v;
    if (v > high) high = v;
    sum += v;
    count++;
  }
  return { low, high, sum, count };
}

function rangeRow(look: PlaceLook, q: Quantity): Row[] {
  const series = look.place.series[q];
  if (series === undefined) return [];
  const { low, high, sum, count } = known(series, "", () => rangeOf(series));
  if (count === 0) return [];
  const round = digits(1);
  return [[quantityWords[q], look.place.title, round(low), round(sum / count), round(high), unitInWords(houseUnit[q])]];
}

function messageOf(looks: readonly PlaceLook[], held: readonly Quantity[], rows: readonly Row[]): string {
  const said = looks.flatMap((look) => {
    const row = rows.find(([q, p]) => q === quantityWords.air_temperature && p === look.place.title);
    return row === undefined ? [] : [`${look.place.title} ${signed(row[2] ?? Number.NaN, 1)} to ${signed(row[4] ?? Number.NaN, 1)} °C`];
  });
  return said.length > 0 ? `Temperature ran from: ${said.join("; ")}.` : `The record holds ${held.map((q) => quantityWords[q]).join(", ")}.`;
}
