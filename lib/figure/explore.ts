import { recordView } from "../answers/recordView.js";
import { unitInWords } from "../answers/words.js";
import type { AirRecord } from "../record/airRecord.js";
import { houseUnit, type Quantity, quantityWords } from "../record/quantity.js";
import { type BandName, bandNames, exploreBands } from "./exploreBands.js";
import { civilText } from "./axisTime.js";
import type { Figure } from "./figure.js";
import { evenMinMax } from "./minMaxThinned.js";
import { type PlaceLook, keyOf, placeLooks } from "./placeLook.js";
import { digits } from "./roundedValues.js";
import { axesOf, keyHeight, keyRows, type Panel, sheet } from "./sheet.js";
import { type FigureOptions, fontFamily, type Palette, paletteOf } from "./theme.js";
import { numberScale, type Scale, timeScale, timeTitle } from "./tickScale.js";
import type { ButtonRow } from "./layout.js";
import type { ScatterTrace } from "./trace.js";

const shown: readonly Quantity[] = ["air_temperature", "relative_humidity", "surface_air_pressure", "air_pressure_at_mean_sea_level"];
/** Points of all traces together; the figure stays below 200 kB. */
const mostPoints = 25_000;
const hourMs = 3_600_000;

interface Part {
  readonly look: PlaceLook;
  readonly quantity: Quantity;
  readonly band: BandName;
  readonly x0: string;
  readonly dx: number;
  readonly values: Float64Array;
}

/**
 * One figure to explore a record: temperature, humidity and pressure over each other, with a bar to move about in time, buttons for the
 * part to look at (all, tide, swings, background) and one hover line through all three.
 *
 * Everything is computed beforehand, so that it works in an exported page. Parts are those of `exploreBands`. Long records are thinned by
 * `evenMinMax`: no extreme is lost, but who zooms in deep sees the steps of the thinning; narrow the record (`narrowRecord`) to see more.
 *
 * @param record  best with its faults marked (`flagRecord`)
 * @param options theme
 * @returns       a frozen Figure
 * @example explore(record).message
 */
export function explore(record: AirRecord, options: FigureOptions = {}): Figure {
  const palette = paletteOf(options.theme);
  const { offsetHours } = recordView(record);
  const looks = placeLooks(record, palette);
  const held = shown.filter((q) => looks.some(({ place }) => place.series[q]?.values.some((v) => !Number.isNaN(v))));
  const bins = Math.floor(mostPoints / Math.max(1, held.length * looks.length) / 6);
  const parts = held.flatMap((quantity) => looks.flatMap((look) => partsOf(look, quantity, offsetHours, bins)));
  const scaleOf = (quantity: Quantity, band: BandName): Scale => numberScale(concat(parts.filter((p) => p.quantity === quantity && p.band === band)), { most: 4, pad: 0.06 });
  const panels: Panel[] = held.map((q) => ({ heading: headingOf(q, "all"), height: 130, y: scaleOf(q, "all") }));
  const data = parts.map((p): ScatterTrace => {
    const axes = axesOf(panels, held.indexOf(p.quantity));
    const unit = unitInWords(unitOf(p.quantity, p.band));
    return { type: "scatter", mode: "lines", name: p.look.title, x0: p.x0, dx: p.dx, y: Array.from(p.values, digits(p.quantity === "relative_humidity" ? 1 : 2)), xaxis: axes.x, yaxis: axes.y, visible: p.band === "all", line: { color: p.look.color, width: 1.2, dash: p.look.dash }, hovertemplate: `%{y:.1f} ${unit}` };
  });
  const key = looks.map(keyOf);
  const headingFrom = 1 + 2 * key.length;
  const buttons = bandNames.map((band) => {
    const layout: Record<string, unknown> = {};
    held.forEach((q, k) => {
      const scale = scaleOf(q, band);
      const axis = `yaxis${k === 0 ? "" : k + 1}`;
      layout[`${axis}.range`] = scale.range;
      layout[`${axis}.tickvals`] = scale.tickvals;
      layout[`${axis}.ticktext`] = scale.ticktext;
      layout[`annotations[${headingFrom + k}].text`] = headingOf(q, band);
    });
    return { label: band, method: "update", args: [{ visible: parts.map((p) => p.band === band) }, layout] } as const;
  });
  const message = `${record.title === "" ? record.name : record.title}: ${held.map((q) => quantityWords[q]).join(", ")} of ${looks.map((l) => l.place.title).join(" and ")}; buttons show all of it, the daily tide, the swings of 2 to 15 days, or the slow background.`;
  return sheet({
    name: "explore",
    title: "Explore the record",
    palette,
    panels,
    x: timeScale(record.from, record.to, offsetHours),
    xTitle: timeTitle(offsetHours),
    xMore: { tickmode: "auto", nticks: 6, fixedrange: false, rangeslider: { visible: true, thickness: 0.07, bgcolor: palette.blank, bordercolor: palette.grid, borderwidth: 1 }, showspikes: true, spikemode: "across", spikesnap: "cursor", spikethickness: 1, spikecolor: palette.axis, spikedash: "dot" },
    xMoreHeight: 24,
    key,
    buttonRow: 38,
    data,
    hovermode: "x unified",
    layout: { hoversubplots: "axis", dragmode: "pan", updatemenus: [buttonRow(buttons, palette, 6 + keyHeight * keyRows(key))] },
    alt: `Time series of ${held.map((q) => quantityWords[q]).join(", ")} one above the other, with a bar to choose the time and buttons to choose the part. ${message}`,
    message,
    table: { head: ["quantity", "place", "part", "lowest", "highest", "unit"], rows: parts.map((p) => [quantityWords[p.quantity], p.look.place.title, p.band, ...lowHigh(p.values).map(digits(1)), unitInWords(unitOf(p.quantity, p.band))]) },
  });
}

function partsOf(look: PlaceLook, quantity: Quantity, offsetHours: number, bins: number): Part[] {
  const series = look.place.series[quantity];
  const found = series === undefined ? null : exploreBands(series, offsetHours);
  if (found === null) return [];
  return bandNames.map((band) => {
    // The slow background has less to show: a quarter of the points is enough for it.
    const thin = evenMinMax(found.bands[band], band === "background" ? Math.ceil(bins / 4) : bins);
    return { look, quantity, band, x0: civilText(found.firstCivil + thin.first * hourMs), dx: Math.round(thin.step * hourMs), values: thin.values };
  });
}

function buttonRow(buttons: ButtonRow["buttons"], palette: Palette, above: number): ButtonRow {
  // Plotly paints the active button nearly white in every theme: the letters must be dark in both.
  const [back, letters] = palette.name === "light" ? [palette.blank, palette.ink] : ["#aab3bc", palette.paper];
  return { type: "buttons", direction: "right", active: 0, showactive: true, x: 0, y: 1, xanchor: "left", yanchor: "bottom", pad: { t: 0, r: 0, b: above, l: 0 }, bgcolor: back, bordercolor: palette.axis, font: { color: letters, size: 13, family: fontFamily }, buttons };
}

function headingOf(q: Quantity, band: BandName): string {
  const words = quantityWords[q];
  const name = { all: "", tide: q === "surface_air_pressure" || q === "air_pressure_at_mean_sea_level" ? ": daily tide" : ": daily round", swings: ": swings, 2 to 15 days", background: ": slow background" }[band];
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}${name}, ${unitInWords(unitOf(q, band))}`;
}

/** Departures of a temperature are kelvins. */
function unitOf(q: Quantity, band: BandName): string {
  return houseUnit[q] === "degC" && (band === "tide" || band === "swings") ? "K" : houseUnit[q];
}

function* concat(parts: readonly Part[]): Generator<number> {
  for (const p of parts) yield* p.values;
}

function lowHigh(values: Float64Array): number[] {
  let [low, high] = [Infinity, -Infinity];
  for (const v of values) {
    if (v < low) low = v;
    if (v > high) high = v;
  }
  return [low, high];
}
