import { zoneText } from "../answers/headText.js";
import { meanDayOf } from "../answers/meanDayOf.js";
import { recordView } from "../answers/recordView.js";
import type { TidesAnswer } from "../answers/tidesOf.js";
import { estimateInWords } from "../answers/words.js";
import { clockTime } from "../ground/clockTime.js";
import type { AirRecord } from "../record/airRecord.js";
import { figure, type Figure } from "./figure.js";
import { tideCurve } from "./meanDayFigure.js";
import { lookOf, placeLooks } from "./placeLook.js";
import { digits } from "./roundedValues.js";
import { baseLayout, headNotes, heightAbove, type KeyEntry } from "./sheet.js";
import { type FigureOptions, fontFamily, paletteOf } from "./theme.js";
import type { Trace } from "./trace.js";

/** The ring of the daily mean, and how far the highest tide stands from it, in parts of the face. */
const ring = 0.48;
const reach = 0.22;
const outer = 0.9;

/**
 * The tide clock: a face of 24 hours, noon at the top, on which the air's pressure stands outside a ring when it is high and inside when low.
 *
 * Hours are the record's standard time, as a wall clock shows them without summer time. The picture is that of the fitted mean day.
 *
 * @param record        for the zone and the place's title
 * @param answer        from `tidesOf`
 * @param options.place which place; the first outdoor one of the answer when left out
 * @returns             a frozen Figure
 * @throws RangeError   when the answer does not hold the place
 * @example tideClockFigure(record, tidesOf(record)).message
 */
export function tideClockFigure(record: AirRecord, answer: TidesAnswer, options: FigureOptions & { readonly place?: string } = {}): Figure {
  const palette = paletteOf(options.theme);
  const { look, held: fit } = lookOf("tideClockFigure", placeLooks(record, palette), answer.fits, options.place);
  const { offsetHours } = recordView(record);
  /** Clock time less solar time. */
  const ahead = offsetHours - fit.longitude / 15;
  const hours = Array.from({ length: 145 }, (_, i) => i / 6);
  const curve = tideCurve(fit, hours.map((h) => h - ahead));
  const largest = Math.max(...curve.value.map(Math.abs), 1e-9);
  const r = curve.value.map((v) => ring + (reach * v) / largest);
  const round = digits(4);
  const theta = hours.map((h) => 15 * h);
  const lobe = (sign: 1 | -1): Trace => {
    // Out along the curve where it lies on this side, back along the ring.
    const edge = r.map((v) => (sign * (v - ring) > 0 ? v : ring));
    return { type: "scatterpolar", mode: "lines", name: sign > 0 ? "higher" : "lower", r: [...edge, ...edge.map(() => ring)].map(round), theta: [...theta, ...[...theta].reverse()], line: { color: sign > 0 ? palette.high : palette.low, width: 0 }, fill: "toself", fillcolor: sign > 0 ? palette.insideBand : palette.outsideBand, hoverinfo: "skip" };
  };
  const day = meanDayOf(fit);
  const turn = (h: number): number => onFace(h + ahead);
  const marks = [...day.highest.map((h) => ({ h: turn(h), sign: 1 as const })), ...day.lowest.map((h) => ({ h: turn(h), sign: -1 as const }))].slice(0, 4);
  const rAt = (h: number): number => r[Math.round(6 * h) % 144];
  const isDay = (h: number): boolean => onFace(h - ahead) >= 6 && onFace(h - ahead) < 18;
  const data: Trace[] = [
    {
      type: "barpolar",
      name: "day and night",
      r: Array.from({ length: 24 }, () => 0.06),
      base: Array.from({ length: 24 }, () => outer),
      theta: Array.from({ length: 24 }, (_, h) => 15 * (h + 0.5)),
      width: Array.from({ length: 24 }, () => 15),
      marker: { color: Array.from({ length: 24 }, (_, h) => (isDay(h + 0.5) ? "#f2c84b" : palette.name === "light" ? "#44506a" : "#5b6a8c")) },
      hoverinfo: "skip",
    },
    lobe(1),
    lobe(-1),
    { type: "scatterpolar", mode: "lines", name: "daily mean", r: theta.map(() => ring), theta, line: { color: palette.reference, width: 1.5, dash: "dash" }, hoverinfo: "skip" },
    { type: "scatterpolar", mode: "lines", name: "pressure", r: r.map(round), theta, line: { color: palette.ink, width: 2.5 }, hoverinfo: "skip" },
    { type: "scatterpolar", mode: "markers", name: "turns", r: marks.map(({ h }) => round(rAt(h))), theta: marks.map(({ h }) => digits(2)(15 * h)), marker: { color: marks.map(({ sign }) => (sign > 0 ? palette.high : palette.low)), size: 11, symbol: marks.map(({ sign }) => (sign > 0 ? "triangle-up" : "triangle-down")) }, hoverinfo: "skip" },
    ...marks.map(({ h, sign }): Trace => ({ type: "scatterpolar", mode: "text", name: sign > 0 ? "highest" : "lowest", r: [sign > 0 ? Math.min(outer - 0.04, rAt(h) + 0.12) : Math.max(0.12, rAt(h) - 0.13)], theta: [digits(2)(15 * h)], text: [`<b>${clockTime(h)}</b>`], textfont: { color: sign > 0 ? palette.high : palette.low, size: 14 }, hoverinfo: "skip" })),
  ];
  const s2 = fit.constituents.find((c) => c.name === "S2");
  const isSeen = s2?.detected === true;
  const times = (sign: number): string => marks.filter((m) => m.sign === sign).map((m) => clockTime(m.h)).sort().join(" and ");
  const message = isSeen
    ? `The air's pressure is usually highest at ${times(1)} and lowest at ${times(-1)} by the clock (standard time); twice a day it swings ${estimateInWords(s2.amplitude)} to either side.`
    : "No twice-daily tide stands out of the weather yet; the face shows the best guess.";
  const title = `The tide clock: when the air presses most, ${look.title}`;
  const key: KeyEntry[] = [
    { color: palette.high, glyph: "▲", text: "pressure highest" },
    { color: palette.low, glyph: "▼", text: "pressure lowest" },
    { color: palette.reference, glyph: "╍╍", text: "the day's mean" },
    { color: "#f2c84b", glyph: "■", text: "day, dark: night", inkText: true },
  ];
  const top = heightAbove(title, key);
  const font = { color: palette.ink, size: 13, family: fontFamily };
  const tall = 340;
  return figure({
    name: "tide-clock",
    data,
    layout: {
      ...baseLayout(palette),
      height: top + tall + 44,
      margin: { l: 30, r: 30, t: top + 8, b: 36 },
      hovermode: false,
      polar: {
        domain: { x: [0, 1], y: [0, 0.93] },
        bgcolor: palette.paper,
        hole: 0,
        angularaxis: { direction: "clockwise", rotation: 270, tickmode: "array", tickvals: Array.from({ length: 8 }, (_, i) => 45 * i), ticktext: ["midnight", "3", "6", "9", "noon", "15", "18", "21"], tickfont: font, showgrid: true, gridcolor: palette.grid, gridwidth: 1, showline: false, linecolor: palette.axis, linewidth: 1, ticks: "" },
        radialaxis: { range: [0, 1], tickmode: "array", tickvals: [ring], ticktext: [""], tickfont: font, angle: 90, showgrid: false, gridcolor: palette.grid, gridwidth: 1, showline: false, showticklabels: false, ticks: "" },
      },
      annotations: [
        ...headNotes(title, key, palette, 30),
        { text: `Hours of the clock (standard time, ${zoneText(offsetHours)})`, xref: "paper", yref: "paper", x: 0.5, y: 0, xanchor: "center", yanchor: "top", yshift: -20, align: "center", font: { color: palette.softInk, size: 12 }, showarrow: false },
      ],
    },
    alt: `A clock face of 24 hours with noon at the top. A line runs about a ring, outside it when the pressure is above the day's mean and inside when below. ${message}`,
    message,
    table: { head: ["hour by the clock", "pressure less the day's mean, hPa", "95 % from", "to"], rows: Array.from({ length: 24 }, (_, h) => [clockTime(h), ...[curve.value, curve.low, curve.high].map((c) => digits(3)(c[6 * h]))]) },
  });
}

/** An hour turned into 0…24. */
function onFace(h: number): number {
  return ((h % 24) + 24) % 24;
}
