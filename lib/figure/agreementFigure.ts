import type { CheckAnswer } from "../answers/checkRecord.js";
import { recordView } from "../answers/recordView.js";
import { capital, estimateInWords, unitInWords } from "../answers/words.js";
import type { Estimate } from "../ground/estimate.js";
import { regularGrid } from "../grid/regularGrid.js";
import type { AirRecord } from "../record/airRecord.js";
import { isAbout } from "../record/eventPlaces.js";
import { flagBit } from "../record/flag.js";
import { houseUnit, quantityWords } from "../record/quantity.js";
import { bandTrace } from "./bandTrace.js";
import { standardTime } from "./axisTime.js";
import { type Figure, plainText } from "./figure.js";
import { digits } from "./roundedValues.js";
import { axesOf, type Panel, sheet } from "./sheet.js";
import { type FigureOptions, paletteOf } from "./theme.js";
import { numberScale, timeScale, timeTitle } from "./tickScale.js";
import type { Shape } from "./layout.js";
import type { Trace } from "./trace.js";

const hourMs = 3_600_000;
/** Points of a panel at most; longer records show means of several hours. */
const mostPoints = 420;
const mostOfAll = 2000;
/** Panels at most: many places make very many pairs, and the table has them all. */
const mostPanels = 10;

/**
 * How two sensors agree: their difference over time, with the bias and its 95 % interval, and the limits between which 95 of 100 single
 * differences lie.
 *
 * A panel for each entry of the answer: every quantity while both stood side by side, and the barometers over the whole record. Points are
 * means of one hour, or of the fewest hours that leave at most 420 points.
 *
 * @param record  with its faults marked (`flagRecord`)
 * @param answer  from `checkRecord`
 * @param options theme
 * @returns       null where nothing could be compared
 * @example agreementFigure(flagRecord(record), checkRecord(record))?.message
 */
export function agreementFigure(record: AirRecord, answer: CheckAnswer, options: FigureOptions = {}): Figure | null {
  const palette = paletteOf(options.theme);
  const { offsetHours, titles } = recordView(record);
  const time = standardTime(offsetHours);
  const shown = answer.agreement.slice(0, mostPanels);
  const pairs = new Set(answer.agreement.map((e) => `${e.a}\n${e.b}`)).size;
  const entries = shown.flatMap((entry) => {
    const found = differences(record, entry, Math.min(mostPoints, Math.floor(mostOfAll / shown.length)));
    return found === null ? [] : [{ entry, ...found }];
  });
  if (entries.length === 0) return null;
  const title = (name: string): string => plainText(titles[name] ?? name, pairs > 1 ? 11 : 18).replace(/ /g, "\u00a0");
  const panels: Panel[] = entries.map(({ entry, values, times, hours }) => ({
    heading: pairs > 1 ? `${title(entry.a)} − ${title(entry.b)}: ${(quantityWords[entry.quantity].split(" ").at(-1) ?? "")}, ${unitInWords(entry.bias.unit)}` : `${capital(quantityWords[entry.quantity])}, ${unitInWords(entry.bias.unit)}: ${entry.basis === "co-location" ? "side by side" : `means of ${hours} h`}`,
    y: numberScale([...values, entry.limits.low, entry.limits.high], { most: 5, least: 0.2 }),
    height: 110,
    x: timeScale(times[0], times[times.length - 1], offsetHours),
  }));
  const data: Trace[] = [];
  const shapes: Shape[] = [];
  entries.forEach(({ entry, times, values }, k) => {
    const { x, y } = axesOf(panels, k);
    const axes = { xaxis: x, yaxis: y };
    const ends = [time(times[0]), time(times[times.length - 1])];
    const round = digits(3);
    data.push({ ...bandTrace({ name: "95 % interval of the bias", x: ends, low: [entry.bias.low, entry.bias.low].map(round), high: [entry.bias.high, entry.bias.high].map(round), color: palette.fit, fillcolor: palette.fitBand }), ...axes });
    data.push({ type: "scatter", mode: "markers", name: "difference", x: times.map(time), y: values.map(round), ...axes, marker: { color: palette.reference, size: 3 }, hovertemplate: "%{y:.2f}, %{x}" });
    data.push({ type: "scatter", mode: "lines", name: "bias", x: ends, y: [entry.bias.value, entry.bias.value].map(round), ...axes, line: { color: palette.fit, width: 2 }, hovertemplate: "bias %{y:.2f}" });
    if (hasDrift(entry)) data.push({ type: "scatter", mode: "lines", name: "drift", x: ends, y: driftEnds(entry, times, values).map(round), ...axes, line: { color: palette.ink, width: 2, dash: "dot" }, hovertemplate: "drift" });
    for (const v of [entry.limits.low, entry.limits.high]) shapes.push({ type: "line", xref: x, yref: y, x0: ends[0], x1: ends[1], y0: v, y1: v, line: { color: palette.ink, width: 1, dash: "dash" }, layer: "above" });
    shapes.push({ type: "line", xref: x, yref: y, x0: ends[0], x1: ends[1], y0: 0, y1: 0, line: { color: palette.axis, width: 1 }, layer: "below" });
  });
  const { a, b } = entries[0].entry;
  const said = entries.map(({ entry }) => `${pairs > 1 ? `${titles[entry.a] ?? entry.a} minus ${titles[entry.b] ?? entry.b}, ` : ""}${quantityWords[entry.quantity]} ${estimateInWords(entry.bias)}${entry.basis === "pressure" ? " (whole record)" : " (side by side)"}${hasDrift(entry) ? `, drifting by ${estimateInWords(entry.drift)}`.replace(" year-1", " a year") : ""}`);
  const message = `${pairs > 1 ? "" : `${titles[a] ?? a} minus ${titles[b] ?? b}: `}${said.join("; ")}.`;
  return sheet({
    name: "agreement",
    title: pairs > 1 ? "Do the sensors agree?" : `Do the sensors agree? ${title(a)} minus ${title(b)}`,
    palette,
    panels: panels.map((p, k) => (k === panels.length - 1 ? { ...p, xTitle: timeTitle(offsetHours) } : p)),
    key: [
      { color: palette.fit, glyph: "━━", text: "bias, band: 95 %" },
      { color: palette.reference, glyph: "●", text: "differences" },
      ...(entries.some(({ entry }) => hasDrift(entry)) ? [{ color: palette.ink, glyph: "┅┅", text: "they drift apart" }] : []),
      { color: palette.ink, glyph: "╍╍", text: "95 of 100 single differences lie between" },
    ],
    data,
    shapes,
    alt: `${entries.length} panels of differences over time with their mean and limits. ${message}`,
    message,
    table: { head: ["sensors", "quantity", "basis", "bias", "single differences from", "to", "drift"], rows: answer.agreement.map((entry) => [`${titles[entry.a] ?? entry.a} − ${titles[entry.b] ?? entry.b}`, quantityWords[entry.quantity], entry.basis, estimateInWords(entry.bias), digits(2)(entry.limits.low), digits(2)(entry.limits.high), entry.drift === null ? null : estimateInWords(entry.drift)]) },
  });
}

type Entry = CheckAnswer["agreement"][number];

/** Whether the two barometers drift apart beyond doubt. */
function hasDrift(entry: Entry): entry is Entry & { readonly drift: Estimate } {
  return entry.drift !== null && (entry.drift.low > 0 || entry.drift.high < 0);
}

/** Ends of the drift's line, laid through the middle of the points. */
function driftEnds(entry: Entry & { readonly drift: Estimate }, times: readonly number[], values: readonly number[]): [number, number] {
  const years = (times[times.length - 1] - times[0]) / (365.25 * 24 * hourMs);
  const center = times.reduce((a, b) => a + b, 0) / times.length;
  const level = values.reduce((a, b) => a + b, 0) / values.length;
  const first = level - (entry.drift.value * (center - times[0])) / (365.25 * 24 * hourMs);
  return [first, first + entry.drift.value * years];
}

interface Differences {
  readonly times: readonly number[];
  readonly values: readonly number[];
  /** Hours in a mean. */
  readonly hours: number;
}

/** Mean differences of the hours that an entry of the answer was made of. */
function differences(record: AirRecord, entry: Entry, most: number): Differences | null {
  const event = record.events.find((e) => entry.basis === "co-location" && e.kind === "co-location" && e.to !== null && e.at <= record.to && e.to >= record.from && isAbout(e, [entry.a]) && isAbout(e, [entry.b]));
  const skipped = entry.basis === "pressure" ? flagBit.step : 0;
  const pair = [entry.a, entry.b].map((name) => record.places[name]?.series[entry.quantity]);
  const [a, b] = pair;
  if (a === undefined || b === undefined || a.seconds.length === 0 || b.seconds.length === 0) return null;
  const isMeant = (at: number): boolean => event === undefined || event.to === null || (at >= event.at && at < event.to);
  const kept = [a, b].map((s) => ({ ...s, unit: houseUnit[s.quantity], values: s.values.map((v, i) => (isMeant(s.start + 1000 * s.seconds[i]) && (s.flags[i] & skipped) === 0 ? v : Number.NaN)) }));
  const grid = regularGrid(kept, { step: 3600, method: "none" });
  const all = Array.from(grid.columns[0].values, (v, k) => v - grid.columns[1].values[k]);
  const there = [...all.keys()].filter((k) => !Number.isNaN(all[k]));
  if (there.length < 2) return null;
  const hours = Math.ceil((there[there.length - 1] - there[0] + 1) / most);
  const sums = new Map<number, { sum: number; count: number }>();
  for (const k of there) {
    const bin = Math.floor((k - there[0]) / hours);
    const known = sums.get(bin) ?? { sum: 0, count: 0 };
    sums.set(bin, { sum: known.sum + all[k], count: known.count + 1 });
  }
  const bins = [...sums].filter(([, { count }]) => 2 * count >= hours);
  return {
    hours,
    times: bins.map(([bin]) => grid.start + hourMs * (there[0] + (bin + 0.5) * hours)),
    values: bins.map(([, { sum, count }]) => sum / count),
  };
}
