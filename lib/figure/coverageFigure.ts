import type { CheckAnswer } from "../answers/checkRecord.js";
import { recordView } from "../answers/recordView.js";
import { counted, shareInWords } from "../answers/words.js";
import { remembered } from "../ground/remembered.js";
import type { AirRecord, PlaceRecord } from "../record/airRecord.js";
import { flagBit, leftOut } from "../record/flag.js";
import { civilText } from "./axisTime.js";
import type { Figure } from "./figure.js";
import { placeLooks } from "./placeLook.js";
import { axesOf, type Panel, sheet } from "./sheet.js";
import { type FigureOptions, type Palette, paletteOf } from "./theme.js";
import { namedScale, timeScale, timeTitle } from "./tickScale.js";
import type { HeatmapTrace } from "./trace.js";

const dayMs = 86_400_000;
const hourMs = 3_600_000;
/** Columns of cells at most: more could not be told apart. */
const mostColumns = 400;
/** … and of all places together: the figure stays below 200 kB. */
const mostOfAll = 1600;
/** Faults whose readings stay in every analysis, only marked. */
const keptFaults = flagBit.saturated | flagBit.warmed;
/** What a cell shows: 0…1 is the share of readings that are there, then the two kinds of faults. */
const markedCell = 1.5;
const leftOutCell = 2;

/**
 * The record at a glance: which hours of which days hold readings, and where faults are.
 *
 * Each cell is an hour of a day of the record's standard time (of several days in records over 400 days: then the mean share, and a fault
 * shows when a tenth of the hours has one). A level shift is a line at the instant it happens.
 *
 * @param record  with its faults marked (`flagRecord`)
 * @param answer  from `checkRecord`, for steps, shares and level shifts
 * @param options theme
 * @returns       a frozen Figure
 * @example coverageFigure(flagRecord(record), checkRecord(record)).message
 */
export function coverageFigure(record: AirRecord, answer: CheckAnswer, options: FigureOptions = {}): Figure {
  const palette = paletteOf(options.theme);
  const { offsetHours } = recordView(record);
  const looks = placeLooks(record, palette);
  const hourTicks = namedScale([0, 24], [0, 6, 12, 18, 24].map((h) => [h, `${String(h).padStart(2, "0")} h`] as const));
  const panels: Panel[] = looks.map((look) => ({
    heading: `${look.title}: ${shareInWords(answer.places[look.place.name]?.coverage ?? 0)} of readings there`,
    y: hourTicks,
    height: 120,
    grid: { x: false, y: false },
  }));
  const data = looks.map((look, k): HeatmapTrace => {
    const axes = axesOf(panels, k);
    const step = answer.places[look.place.name]?.medianStepSeconds ?? 0;
    return { ...cellsOf(look.place, step, offsetHours, palette, Math.min(mostColumns, Math.floor(mostOfAll / looks.length))), name: look.title, xaxis: axes.x, yaxis: axes.y };
  });
  const shifts = looks.flatMap((look, k) => {
    const axes = axesOf(panels, k);
    const faults = answer.places[look.place.name]?.faults.filter((f) => f.flag === "step") ?? [];
    return faults.map((f) => ({ at: civilText(Date.parse(f.from) + offsetHours * hourMs), axes }));
  });
  const rows = looks.map(({ place }) => {
    const p = answer.places[place.name];
    const out = p === undefined ? 0 : p.flags.range + p.flags.spike + p.flags.stuck + p.flags.swapped;
    return [place.title, place.readings, Math.round(1000 * (p?.coverage ?? 0)) / 10, p?.gaps.length ?? 0, Math.round(10 * Math.max(0, ...(p?.gaps ?? []).map((g) => g.hours))) / 10, out] as const;
  });
  const message = rows.map(([title, readings, , gaps, longest, out]) => `${title}: ${counted(readings, "reading")}, ${gaps === 0 ? "no gap" : `${counted(gaps, "gap")}, the longest ${longest} h`}, ${counted(out, "value")} left out as faulty`).join(". ");
  return sheet({
    name: "coverage",
    title: "The record at a glance, hour by hour",
    palette,
    panels,
    x: timeScale(record.from, record.to, offsetHours),
    xTitle: timeTitle(offsetHours),
    key: [
      { color: fullColor(palette), glyph: "■", text: "all readings there", inkText: true },
      { color: palette.axis, glyph: "□", text: "none", inkText: true },
      { color: palette.fault, glyph: "■", text: "faulty, left out", inkText: true },
      { color: markedColor(palette), glyph: "■", text: "marked, kept", inkText: true },
      ...(shifts.length === 0 ? [] : [{ color: palette.ink, glyph: "┊", text: "level shift" }]),
    ],
    data,
    shapes: shifts.map(({ at, axes }) => ({ type: "line", xref: axes.x, yref: axes.y, x0: at, x1: at, y0: 0, y1: 24, line: { color: palette.ink, width: 1.5, dash: "dot" }, layer: "above" })),
    alt: `A grid for each place, days from left to right, hours of the day from bottom to top, colored where readings are there and dark where they are faulty. ${message}.`,
    message: `${message}.`,
    table: { head: ["place", "readings", "coverage, %", "gaps", "longest gap, h", "values left out"], rows: rows.map((r) => [...r]) },
  });
}

function fullColor(palette: Palette): string {
  return palette.name === "light" ? "#c3daec" : "#2f6a94";
}

function markedColor(palette: Palette): string {
  return palette.name === "light" ? "#cf86b1" : "#8a4a6e";
}

type Cells = Pick<HeatmapTrace, "x" | "y" | "z">;

/** The figure is made in two themes, of the same readings. */
const known = remembered<PlaceRecord, Cells>();

function cellsOf(place: PlaceRecord, step: number, offsetHours: number, palette: Palette, most: number): Omit<HeatmapTrace, "name"> {
  return {
    type: "heatmap",
    ...known(place, `${step} ${offsetHours} ${most}`, () => countedCells(place, step, offsetHours, most)),
    zmin: 0,
    zmax: leftOutCell,
    colorscale: [[0, palette.blank], [0.5, fullColor(palette)], [0.6, markedColor(palette)], [0.85, markedColor(palette)], [0.9, palette.fault], [1, palette.fault]],
    showscale: false,
    xgap: 0,
    ygap: 0,
    hovertemplate: "%{x|%-d %b %Y}, about %{y:.0f} h",
  };
}

function countedCells(place: PlaceRecord, step: number, offsetHours: number, most: number): Cells {
  const { start, seconds } = place;
  const civil = (i: number): number => start + 1000 * seconds[i] + offsetHours * hourMs;
  const n = seconds.length;
  const firstDay = n === 0 ? 0 : Math.floor(civil(0) / dayMs);
  const days = n === 0 ? 0 : Math.floor(civil(n - 1) / dayMs) - firstDay + 1;
  const span = Math.max(1, Math.ceil(days / most));
  const columns = Math.ceil(days / span);
  // A reading every two or three hours fills the hours it stands for.
  const hours = [1, 2, 3, 4, 6, 8, 12, 24].find((h) => h * 3600 >= step - 60) ?? 24;
  const height = 24 / hours;
  const counts = Array.from({ length: height }, () => new Float64Array(columns));
  const faulty = Array.from({ length: height }, () => new Float64Array(columns));
  const marked = Array.from({ length: height }, () => new Float64Array(columns));
  const all = Object.values(place.series).map((s) => s.flags);
  for (let i = 0; i < n; i++) {
    const at = civil(i);
    const column = Math.floor((Math.floor(at / dayMs) - firstDay) / span);
    const row = Math.floor((at % dayMs) / hourMs / hours);
    counts[row][column]++;
    let bits = 0;
    for (let k = 0; k < all.length; k++) bits |= all[k][i];
    if ((bits & leftOut) !== 0) faulty[row][column]++;
    else if ((bits & keptFaults) !== 0) marked[row][column]++;
  }
  const expected = step > 0 ? (span * hours * 3600) / step : 1;
  // One spike in a dozen readings is shown where the cell is an hour; in cells of many days a tenth must be faulty.
  const least = span === 1 ? 1 : expected / 10;
  const cell = (row: number, column: number): number | null => {
    if (counts[row][column] === 0) return null;
    if (faulty[row][column] >= least) return leftOutCell;
    if (marked[row][column] >= least) return markedCell;
    return Math.round(20 * Math.min(1, counts[row][column] / expected)) / 20;
  };
  return {
    x: Array.from({ length: columns }, (_, c) => civilText(dayMs * (firstDay + c * span + span / 2))),
    y: Array.from({ length: height }, (_, r) => hours * (r + 0.5)),
    z: counts.map((_, row) => Array.from({ length: columns }, (__, column) => cell(row, column))),
  };
}
