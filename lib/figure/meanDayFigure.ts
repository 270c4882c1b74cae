import { zoneText } from "../answers/headText.js";
import { meanDayOf } from "../answers/meanDayOf.js";
import { pressureOf } from "../answers/placeTide.js";
import type { TidesAnswer } from "../answers/tidesOf.js";
import { estimateInWords } from "../answers/words.js";
import { meanDay } from "../cycles/tide/meanDay.js";
import type { TideFit } from "../cycles/tide/tideFit.js";
import { clockTime } from "../ground/clockTime.js";
import { tQuantile } from "../ground/distributions.js";
import type { AirRecord } from "../record/airRecord.js";
import type { Figure } from "./figure.js";
import { lookOf, placeLooks } from "./placeLook.js";
import { bandTrace } from "./bandTrace.js";
import { digits } from "./roundedValues.js";
import { note, type Panel, sheet } from "./sheet.js";
import { type FigureOptions, paletteOf } from "./theme.js";
import { hourScale, numberScale } from "./tickScale.js";
import type { Trace } from "./trace.js";

/**
 * The mean day of pressure, hour by hour, and the fitted tide with its 95 % interval.
 *
 * Hours are those of the sun at the place (local mean solar time). The interval is that of the sum of the fitted solar lines, each with its
 * own covariance; points are means of departures from each day's mean (`meanDay`) and carry no error.
 *
 * @param record        with its faults marked (`flagRecord`)
 * @param answer        from `tidesOf`
 * @param options.place which place; the first outdoor one of the answer when left out
 * @returns             a frozen Figure
 * @throws RangeError   when the answer does not hold the place
 * @example meanDayFigure(flagRecord(record), tidesOf(record)).message
 */
export function meanDayFigure(record: AirRecord, answer: TidesAnswer, options: FigureOptions & { readonly place?: string } = {}): Figure {
  const palette = paletteOf(options.theme);
  const { look, held: fit } = lookOf("meanDayFigure", placeLooks(record, palette), answer.fits, options.place);
  const series = pressureOf(look.place);
  const observed = series === null ? [] : meanDay(series, { longitude: fit.longitude }).departure;
  const hours = Array.from({ length: 97 }, (_, i) => i / 4);
  const curve = tideCurve(fit, hours);
  const day = meanDayOf(fit);
  const round = digits(3);
  const at = (h: number): string => clockTime(h);
  const panels: Panel[] = [
    {
      heading: fit.quantity === "surface_air_pressure" ? "Pressure at the station less its daily mean, hPa" : "Sea-level pressure less its daily mean, hPa",
      height: 260,
      y: numberScale([...curve.low, ...curve.high, ...observed], { zero: true, most: 7, pad: 0.12 }),
    },
  ];
  const [low, high] = panels[0].y.range as [number, number];
  const data: Trace[] = [
    bandTrace({ name: "95 % interval of the tide", x: hours, low: curve.low.map(round), high: curve.high.map(round), color: palette.fit, fillcolor: palette.fitBand }),
    { type: "scatter", mode: "lines", name: "fitted tide", x: hours, y: curve.value.map(round), line: { color: palette.fit, width: 2.5 }, hovertemplate: "tide %{y:.2f} hPa at %{x:.1f} h" },
    { type: "scatter", mode: "markers", name: "mean of the hour", x: observed.map((_, h) => h + 0.5), y: observed.map(round), marker: { color: palette.ink, size: 6, symbol: "circle-open" }, hovertemplate: "mean of the hour %{y:.2f} hPa" },
  ];
  const zeroLine = { type: "line", xref: "x", yref: "y", x0: 0, x1: 24, y0: 0, y1: 0, line: { color: palette.axis, width: 1 }, layer: "below" } as const;
  const turns = [...day.highest.map((h) => ({ h, up: true })), ...day.lowest.map((h) => ({ h, up: false }))].slice(0, 4);
  const annotations = turns.map(({ h, up }) => {
    const k = Math.round(4 * h) % 96;
    const y = up ? curve.high[k] : curve.low[k];
    return note(palette, { text: at(h), x: h, y: Math.min(high, Math.max(low, y)), xanchor: h < 1.2 ? "left" : h > 22.8 ? "right" : "center", yanchor: up ? "bottom" : "top", yshift: up ? 6 : -6, font: { color: palette.fit, size: 13 } });
  });
  const s2 = fit.constituents.find((c) => c.name === "S2");
  const seen = s2?.detected === true && s2.maximumAt !== null;
  const message = seen
    ? `On the mean day the pressure at ${look.place.title} is highest at ${day.highest.map(at).join(" and ")} and lowest at ${day.lowest.map(at).join(" and ")} by the sun; its twice-daily part swings ${estimateInWords(s2.amplitude)} to either side.`
    : `No twice-daily tide stands out of the weather at ${look.place.title} yet: it is at most ${s2 === undefined ? "unknown" : s2.amplitude.high.toFixed(2)} hPa from mean to crest.`;
  return sheet({
    name: "mean-day",
    title: `The mean day of pressure: ${look.title}`,
    palette,
    panels,
    x: hourScale(),
    xTitle: `Hour by the sun (mean solar time, ${zoneText(fit.longitude / 15)})`,
    key: [
      { color: palette.fit, glyph: "━━", text: "fitted tide, band: 95 %" },
      { color: palette.ink, glyph: "○", text: "mean of each hour" },
    ],
    data,
    shapes: [zeroLine],
    annotations,
    alt: `A curve over the hours of the day: the fitted tide with its 95 % band, and 24 points, the means of the hours. ${message}`,
    message,
    table: {
      head: ["hour (solar time)", "mean of the hour, hPa", "tide at its middle, hPa", "95 % from", "to"],
      rows: Array.from({ length: 24 }, (_, h) => [`${String(h).padStart(2, "0")}–${String(h + 1).padStart(2, "0")}`, round(observed[h] ?? Number.NaN), ...[curve.value, curve.low, curve.high].map((c) => round(c[4 * h + 2]))]),
    },
  });
}

/** The solar lines of a fit by hour of local mean solar time, with the 95 % interval of their sum · unit of the fit. */
export function tideCurve(fit: TideFit, hours: readonly number[]): { readonly value: readonly number[]; readonly low: readonly number[]; readonly high: readonly number[] } {
  const solar = fit.coefficients.filter((c) => /^S\d$/.test(c.name));
  const t = tQuantile(0.975, Math.min(...solar.map((c) => c.degreesOfFreedom)));
  const at = hours.map((hour) => {
    const days = (hour - fit.longitude / 15) / 24;
    let [value, variance] = [0, 0];
    for (const c of solar) {
      const angle = 2 * Math.PI * c.cyclesPerDay * days;
      const [x, y] = [Math.cos(angle), Math.sin(angle)];
      value += c.cosine * x + c.sine * y;
      variance += x * x * c.varianceOfCosine + y * y * c.varianceOfSine + 2 * x * y * c.covariance;
    }
    const reach = t * Math.sqrt(Math.max(0, variance));
    return { value, low: value - reach, high: value + reach };
  });
  return { value: at.map((a) => a.value), low: at.map((a) => a.low), high: at.map((a) => a.high) };
}
