import { figure, type Figure } from "./figure.js";
import type { Annotation, Axis, Font, Layout, Shape } from "./layout.js";
import { dashGlyph, headNotes, heightAbove, type KeyEntry, keyHeight, keyRows, note } from "./sheetHead.js";
import { fontFamily, fontSize, type Palette } from "./theme.js";
import type { Scale } from "./tickScale.js";
import type { ScatterTrace } from "./trace.js";

export { dashGlyph, headNotes, heightAbove, type KeyEntry, keyHeight, keyRows, note };

/** One picture of a figure, above or below others. */
export interface Panel {
  /** What is measured and in which unit, set level above the axis so that nobody turns the head. */
  readonly heading: string;
  readonly y: Scale;
  /** Of the plot alone · px. */
  readonly height: number;
  /** Its own axis below it; left out, it shares the one at the bottom. */
  readonly x?: Scale;
  readonly xTitle?: string;
  /** Lines of the grid up and down (default true), and across. */
  readonly grid?: { readonly x?: boolean; readonly y?: boolean };
}

/** What a figure of panels needs. */
export interface SheetParts {
  readonly name: string;
  readonly title: string;
  readonly palette: Palette;
  readonly panels: readonly Panel[];
  /** The axis shared by panels without their own; under the last panel. */
  readonly x?: Scale;
  readonly xTitle?: string;
  /** Further settings of the shared axis, and the space that they take below it · px. */
  readonly xMore?: Partial<Axis>;
  readonly xMoreHeight?: number;
  readonly key?: readonly KeyEntry[];
  readonly data: Figure["data"];
  readonly shapes?: readonly Shape[];
  readonly annotations?: readonly Annotation[];
  readonly hovermode?: Layout["hovermode"];
  readonly alt: string;
  readonly message: string;
  readonly table: Figure["table"];
  /** px; default 46 and 18. */
  readonly left?: number;
  readonly right?: number;
  /** Kept free between title and key, for buttons · px. */
  readonly buttonRow?: number;
  readonly layout?: Partial<Layout>;
}

const headingHeight = 24;
const tickHeight = 20;

/**
 * Lays panels over each other on one sheet, with title, key, headings and axes, and makes the figure.
 *
 * Panel k draws on `yk` (`y` for the first) and on its own `xk`, or on the shared `x`: ask `axesOf`.
 *
 * @param parts see SheetParts; headings, key and annotations are pseudo-HTML (`plainText` for a record's words), title likewise
 */
export function sheet(parts: SheetParts): Figure {
  const { palette, panels, key = [], left = 46, right = 18 } = parts;
  const top = heightAbove(parts.title, key) + (parts.buttonRow ?? 0);
  const below = panels.map((p, i) => heightBelow(p.x ?? (i === panels.length - 1 ? parts.x : undefined), p.x === undefined ? parts.xTitle : p.xTitle, i === panels.length - 1));
  const bottom = below[panels.length - 1] + (parts.xMoreHeight ?? 0);
  const inner = panels.reduce((sum, p, i) => sum + headingHeight + p.height + (i === panels.length - 1 ? 0 : below[i]), 0);
  const axes: Record<string, Axis> = {};
  const annotations: Annotation[] = headNotes(parts.title, key, palette, left, parts.buttonRow);
  let used = 0;
  panels.forEach((panel, i) => {
    const from = used + headingHeight;
    const to = from + panel.height;
    used = to + (i === panels.length - 1 ? 0 : below[i]);
    const domain: [number, number] = [Math.max(0, 1 - to / inner), 1 - from / inner];
    const name = axesOf(panels, i);
    const tail = (axis: string): string => axis.slice(1);
    axes[`yaxis${tail(name.y)}`] = axisOf(panel.y, palette, { domain, anchor: name.x, showgrid: panel.grid?.y ?? true });
    if (panel.x !== undefined) {
      axes[`xaxis${tail(name.x)}`] = axisOf(panel.x, palette, { anchor: name.y, showgrid: panel.grid?.x ?? true, ...titled(panel.xTitle, palette), showline: true, ticks: "outside" });
    } else if (i === lastShared(panels) && parts.x !== undefined) {
      axes.xaxis = axisOf(parts.x, palette, { anchor: name.y, showgrid: panel.grid?.x ?? true, ...titled(parts.xTitle, palette), showline: true, ticks: "outside", ...parts.xMore });
    }
    annotations.push(note(palette, { text: panel.heading, xref: "paper", yref: "paper", x: 0, y: domain[1], xanchor: "left", yanchor: "bottom", xshift: -left + 12, yshift: 4 }));
  });
  const layout: Layout = {
    ...baseLayout(palette),
    height: Math.round(top + inner + bottom),
    margin: { l: left, r: right, t: top, b: bottom },
    hovermode: parts.hovermode ?? "closest",
    ...axes,
    shapes: parts.shapes ?? [],
    annotations: [...annotations, ...(parts.annotations ?? [])],
    ...parts.layout,
  };
  const { name, alt, message, table } = parts;
  const data = [...parts.data, ...panels.flatMap((_, k) => ghostOf(axesOf(panels, k), parts.data))];
  return figure({ name, data, layout, alt, message, table });
}

/** Plotly draws no axis that no trace stands on: an empty panel gets a trace with nothing to see. */
function ghostOf({ x, y }: { readonly x: string; readonly y: string }, data: Figure["data"]): ScatterTrace[] {
  const isUsed = data.some((t) => "yaxis" in t ? t.yaxis === y : y === "y");
  return isUsed ? [] : [{ type: "scatter", mode: "markers", name: "", x: [null], y: [null], xaxis: x, yaxis: y, hoverinfo: "skip" }];
}

/** Names of the axes that panel k draws on. */
export function axesOf(panels: readonly Panel[], k: number): { readonly x: string; readonly y: string } {
  const tail = k === 0 ? "" : String(k + 1);
  // The shared axis is always the first; a panel's own bears the panel's number.
  return { x: panels[k].x === undefined ? "x" : `x${tail}`, y: `y${tail}` };
}

function lastShared(panels: readonly Panel[]): number {
  return panels.findLastIndex((p) => p.x === undefined);
}

/** An axis of the house's look. */
export function axisOf(scale: Scale, palette: Palette, more: Partial<Axis> = {}): Axis {
  return {
    ...scale,
    tickmode: "array",
    tickangle: 0,
    tickfont: { color: palette.softInk, size: fontSize.tick },
    showticklabels: true,
    ticks: "",
    ticklen: 4,
    tickcolor: palette.axis,
    showgrid: true,
    gridcolor: palette.grid,
    gridwidth: 1,
    zeroline: false,
    showline: false,
    linecolor: palette.axis,
    linewidth: 1,
    fixedrange: true,
    automargin: false,
    ...more,
  };
}

function titled(text: string | undefined, palette: Palette): Partial<Axis> {
  return text === undefined ? {} : { title: { text, font: { color: palette.softInk, size: fontSize.tick }, standoff: 6 } };
}

function heightBelow(x: Scale | undefined, title: string | undefined, isLast: boolean): number {
  if (x === undefined) return 12;
  const lines = Math.max(...x.ticktext.map((t) => t.split("<br>").length), 1);
  const under = tickHeight + 14 * (lines - 1);
  return under + (title === undefined ? 0 : 20) + (isLast ? 10 : 14);
}

/** What every figure's layout has, whatever is drawn; height, margin and axes are to be set. */
export function baseLayout(palette: Palette): Layout {
  const font = (color: string, size: number): Font => ({ color, size, family: fontFamily });
  return {
    // Plotly lets a title's second line push the first one out of the picture: titles are annotations.
    title: { text: "", font: font(palette.ink, fontSize.title), x: 0, xref: "container", xanchor: "left", y: 1, yref: "container", yanchor: "top", pad: { l: 12, t: 12 } },
    height: 400,
    autosize: true,
    margin: { l: 46, r: 18, t: 40, b: 40 },
    font: font(palette.ink, fontSize.text),
    paper_bgcolor: palette.paper,
    plot_bgcolor: palette.paper,
    showlegend: false,
    hovermode: "closest",
    hoverlabel: { bgcolor: palette.paper, bordercolor: palette.axis, font: font(palette.ink, fontSize.tick) },
    dragmode: false,
    shapes: [],
    annotations: [],
  };
}
