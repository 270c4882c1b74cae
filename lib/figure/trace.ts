/** A place on an axis: a number; on date axes civil time as text, `2024-05-03` or `2024-05-03 09:05` (never epoch numbers, which a browser would turn to its own zone). */
export type Position = number | string;

export type Dash = "solid" | "dash" | "dot" | "dashdot";

/** A line; width in px. `hv` steps hold a value until the next one. */
export interface Line {
  readonly color: string;
  readonly width: number;
  readonly dash?: Dash;
  readonly shape?: "linear" | "hv";
}

export type MarkerSymbol = "circle" | "circle-open" | "square" | "diamond" | "triangle-up" | "triangle-down" | "x" | "cross" | "line-ns" | "line-ew";

/** Markers; size in px, one for all or one a point. */
export interface Marker {
  readonly color: string | readonly string[];
  readonly size: number | readonly number[];
  readonly symbol?: MarkerSymbol | readonly MarkerSymbol[];
  readonly opacity?: number;
  readonly line?: { readonly color: string; readonly width: number };
}

/** Bars of error: `array` upward (or to the right), `arrayminus` downward, in units of the axis. */
export interface ErrorBars {
  readonly type: "data";
  readonly symmetric: false;
  readonly array: readonly (number | null)[];
  readonly arrayminus: readonly (number | null)[];
  readonly color: string;
  /** px. */
  readonly thickness: number;
  /** Of the caps · px. */
  readonly width: number;
}

/** What every trace has. */
interface TraceParts {
  /** Pseudo-HTML text: made by `plainText` where it comes from a record. */
  readonly name: string;
  /** Plotly's template, or `hoverinfo: "skip"`. */
  readonly hovertemplate?: string;
  readonly hoverinfo?: "skip";
  /** Text of each point for the template's `%{text}`, or drawn in mode `text`. */
  readonly text?: readonly string[];
  readonly visible?: boolean;
  readonly opacity?: number;
}

interface CartesianParts extends TraceParts {
  /** `x`, `x2` … ; left out is `x`. */
  readonly xaxis?: string;
  readonly yaxis?: string;
}

/** Points or a line. Either `x`, or `x0` and `dx` for even steps (`dx` in ms on a date axis). null in y breaks the line. */
export interface ScatterTrace extends CartesianParts {
  readonly type: "scatter";
  readonly mode: "lines" | "markers" | "lines+markers" | "text";
  readonly x?: readonly (Position | null)[];
  readonly x0?: Position;
  readonly dx?: number;
  readonly y: readonly (Position | null)[];
  readonly line?: Line;
  readonly marker?: Marker;
  /** `tonexty` fills to the trace before it on the same axes; `toself` closes the line (null parts it); `tozeroy` to zero. */
  readonly fill?: "tonexty" | "toself" | "tozeroy";
  readonly fillcolor?: string;
  readonly error_x?: ErrorBars;
  readonly error_y?: ErrorBars;
  readonly textfont?: { readonly color: string; readonly size: number };
  readonly textposition?: "middle center" | "top center" | "bottom center" | "middle right" | "middle left";
  readonly connectgaps?: false;
}

/** Bars: vertical from `base` (0 when left out) upward by y at x, or horizontal from `base` to the right by x at y. */
export interface BarTrace extends CartesianParts {
  readonly type: "bar";
  readonly orientation: "v" | "h";
  readonly x: readonly (Position | null)[];
  readonly y: readonly (Position | null)[];
  /** Where each bar begins, and then x (or y) is its length; ms of length on a date axis. */
  readonly base?: readonly Position[];
  /** Across the bar, units of the axis (ms on a date axis). */
  readonly width: number;
  readonly marker: { readonly color: string | readonly string[]; readonly line?: { readonly color: string; readonly width: number } };
  readonly error_y?: ErrorBars;
}

/** Cells of a grid: z[row][column] at y[row], x[column] (centers, evenly spaced); null is left blank. */
export interface HeatmapTrace extends CartesianParts {
  readonly type: "heatmap";
  readonly x: readonly Position[];
  readonly y: readonly Position[];
  readonly z: readonly (readonly (number | null)[])[];
  readonly zmin: number;
  readonly zmax: number;
  /** Stops from 0 to 1. */
  readonly colorscale: readonly (readonly [number, string])[];
  readonly showscale: boolean;
  /** Always given with `showscale: true`: a bar to the right of the plot. */
  readonly colorbar?: ColorBar;
  /** Blank between cells · px. */
  readonly xgap: number;
  readonly ygap: number;
}

/** The key of a heat map's colors. */
export interface ColorBar {
  readonly title: { readonly text: string; readonly side: "top" | "right"; readonly font: { readonly color: string; readonly size: number } };
  /** Share of the plot's height (or width when lying). */
  readonly len: number;
  /** px. */
  readonly thickness: number;
  readonly orientation: "h" | "v";
  /** Place in parts of the plot, with its anchors. */
  readonly x: number;
  readonly y: number;
  readonly xanchor: "left" | "center" | "right";
  readonly yanchor: "top" | "middle" | "bottom";
  readonly tickvals: readonly number[];
  readonly ticktext: readonly string[];
  readonly tickfont: { readonly color: string; readonly size: number };
  readonly outlinewidth: 0;
}

/** Points or a line about a center; theta in degrees, turning as the polar layout says. */
export interface ScatterPolarTrace extends TraceParts {
  readonly type: "scatterpolar";
  readonly mode: "lines" | "markers" | "lines+markers" | "text";
  readonly r: readonly (number | null)[];
  readonly theta: readonly (number | null)[];
  readonly line?: Line;
  readonly marker?: Marker;
  readonly fill?: "toself" | "tonext";
  readonly fillcolor?: string;
  readonly textfont?: { readonly color: string | readonly string[]; readonly size: number };
}

/** Ring sectors: from `base` outward by r, about theta, so many degrees wide. */
export interface BarPolarTrace extends TraceParts {
  readonly type: "barpolar";
  readonly r: readonly number[];
  readonly theta: readonly number[];
  readonly width: readonly number[];
  readonly base?: readonly number[];
  readonly marker: { readonly color: string | readonly string[]; readonly line?: { readonly color: string; readonly width: number } };
}

/** What a figure may hold; nothing else of Plotly is used. */
export type Trace = ScatterTrace | BarTrace | HeatmapTrace | ScatterPolarTrace | BarPolarTrace;
