import type { SwingsAnswer } from "../answers/swingsOf.js";
import { limitFactors } from "../cycles/spectrum/densityLimits.js";
import type { AirRecord } from "../record/airRecord.js";
import { bandTrace } from "./bandTrace.js";
import type { Figure } from "./figure.js";
import { lookOf, placeLooks } from "./placeLook.js";
import { significant } from "./roundedValues.js";
import { note, type Panel, sheet } from "./sheet.js";
import { type FigureOptions, paletteOf } from "./theme.js";
import { decades, logScale } from "./tickScale.js";
import type { Trace } from "./trace.js";

/** Three sine tapers give each bin six degrees of freedom. */
const degreesOfFreedom = 6;
/** Frequencies above are no weather of days, and the background is not fitted there · cpd. */
const highest = 0.9;
/** Periods that are tested for a beat · d. */
const tested = [2, 12] as const;
/** Points at most: in long records neighboring bins are drawn as their lowest and highest. */
const mostPoints = 500;

/**
 * The spectrum of the swings over its red background, with the band in which 95 of 100 single heights of irregular weather lie.
 *
 * The band holds bin by bin; whether the highest of all heights is more than chance is told by the p-value beside it, which counts every
 * period looked at.
 *
 * @param record        for the place's title
 * @param answer        from `swingsOf`
 * @param options.place which place; the first outdoor one of the answer when left out
 * @returns             null where the record is too short for a spectrum (under 8 days)
 * @throws RangeError   when the answer does not hold the place
 * @example spectrumFigure(record, swingsOf(record))?.message
 */
export function spectrumFigure(record: AirRecord, answer: SwingsAnswer, options: FigureOptions & { readonly place?: string } = {}): Figure | null {
  const palette = paletteOf(options.theme);
  const { look, held: parts } = lookOf("spectrumFigure", placeLooks(record, palette), answer.parts, options.place);
  const { spectrum } = parts.swings;
  const count = spectrum.cyclesPerDay.findLastIndex((f) => f <= highest) + 1;
  if (count < 3) return null;
  const kept = thinnedBins(spectrum.density.subarray(0, count));
  const x = kept.map((i) => significant(4)(spectrum.cyclesPerDay[i]) as number);
  const round = significant(3);
  const background = kept.map((i) => spectrum.backgroundDensity[i]);
  const limits = limitFactors(degreesOfFreedom);
  const low = background.map((b) => b / limits.high);
  const high = background.map((b) => b / limits.low);
  const density = kept.map((i) => spectrum.density[i]);
  const ends = [Math.min(...density, ...low), Math.max(...density, ...high)];
  const [bottom, top] = [ends[0] / 1.3, ends[1] * (ends[1] / ends[0]) ** 0.22];
  const [from, to] = [x[0], highest];
  const panels: Panel[] = [
    {
      heading: "Strength of the swings, hPa² per cycle a day",
      height: 260,
      y: logScale(bottom, top, decades(bottom, top)),
    },
  ];
  const first = spectrum.peaks[0];
  const data: Trace[] = [
    bandTrace({ name: "95 % of single heights", x, low: low.map(round), high: high.map(round), color: palette.reference, fillcolor: palette.referenceBand }),
    { type: "scatter", mode: "lines", name: "red background", x, y: background.map(round), line: { color: palette.reference, width: 1.5, dash: "dash" }, hoverinfo: "skip" },
    { type: "scatter", mode: "lines", name: "spectrum", x, y: density.map(round), line: { color: look.color, width: 1.5 }, text: x.map((f) => `${(1 / f).toFixed(1)} d`), hovertemplate: "%{text}: %{y:.3g} hPa² per cpd" },
  ];
  const annotations = [
    note(palette, { text: `tested: ${tested[0]} to ${tested[1]} days`, yref: "paper", x: Math.log10(Math.sqrt(Math.max(from, 1 / tested[1]) / tested[0])), y: 0, xanchor: "center", yanchor: "bottom", yshift: 3, font: { color: palette.softInk, size: 12 } }),
  ];
  if (first !== undefined) {
    const peak = nearest(x, 1 / first.periodDays);
    annotations.push(note(palette, { text: `${first.periodDays.toFixed(1)} d: p = ${first.pValue.toFixed(first.pValue < 0.01 ? 3 : 2)}<br>${first.significant ? "a beat" : "no beat"}`, x: Math.log10(x[peak]), y: Math.log10(Math.max(density[peak], high[peak])), xanchor: "center", yanchor: "bottom", yshift: 6, align: "center", font: { color: look.color, size: 12 } }));
  }
  const periods = [100, 50, 30, 20, 10, 5, 3, 2, 1.5].map((d) => [1 / d, `${d} d`] as const);
  return sheet({
    name: "spectrum",
    title: `Do the swings have a beat? ${look.title}`,
    palette,
    panels,
    x: logScale(from, to, wellApart(periods, from, to)),
    xTitle: "Period, days (tide taken out)",
    key: [
      { color: look.color, glyph: "━━", text: "spectrum" },
      { color: palette.reference, glyph: "╍╍", text: "red background" },
      { color: palette.reference, glyph: "▒", text: "95 of 100 single heights of irregular weather" },
    ],
    data,
    shapes: [{ type: "rect", xref: "x", yref: "paper", x0: Math.max(from, 1 / tested[1]), x1: 1 / tested[0], y0: 0, y1: 0.02, fillcolor: palette.grid, line: { color: palette.grid, width: 0 }, layer: "below" }],
    annotations,
    alt: `A spectrum falling from long periods at the left to short ones at the right, with a dashed smooth background and a band about it. ${spectrum.says}`,
    message: spectrum.says,
    table: { head: ["period, days", "height over background", "chance (p)", "significant"], rows: spectrum.peaks.map((p) => [Math.round(10 * p.periodDays) / 10, Math.round(100 * p.ratio) / 100, p.pValue, p.significant ? "yes" : "no"]) },
  });
}

/** Bins to draw: all, or of each equal stretch in the logarithm of frequency the lowest and the highest. */
function thinnedBins(density: Float64Array): number[] {
  const n = density.length;
  if (n <= mostPoints) return Array.from({ length: n }, (_, i) => i);
  const kept = new Set<number>();
  const bins = mostPoints / 2;
  let from = 0;
  for (let b = 1; b <= bins; b++) {
    const to = Math.min(n, Math.max(from + 1, Math.round(n ** (b / bins))));
    let [low, high] = [from, from];
    for (let i = from; i < to; i++) {
      if (density[i] < density[low]) low = i;
      if (density[i] > density[high]) high = i;
    }
    if (from < n) {
      kept.add(low);
      kept.add(high);
    }
    from = to;
  }
  return [...kept].sort((a, b) => a - b);
}

/** Ticks at least an eighth of the axis apart. */
function wellApart(ticks: readonly (readonly [number, string])[], from: number, to: number): (readonly [number, string])[] {
  const least = Math.log(to / from) / 8;
  let before = -Infinity;
  return ticks.filter(([f]) => {
    if (f < from || f > to || Math.log(f) - before < least) return false;
    before = Math.log(f);
    return true;
  });
}

function nearest(values: readonly number[], to: number): number {
  return values.reduce((best, v, i) => (Math.abs(v - to) < Math.abs(values[best] - to) ? i : best), 0);
}
