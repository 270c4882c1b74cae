import type { Dash, Position } from "./trace.js";

/** A font; size in px. */
export interface Font {
  readonly color: string;
  readonly size: number;
  readonly family?: string;
}

/** One axis. Range, ticks and their texts are always written out, so that every drawing of it is the same. */
export interface Axis {
  readonly type: "linear" | "log" | "date";
  /** Ends, left to right or bottom to top (may fall) · powers of ten on a log axis · civil time as text on a date axis. */
  readonly range: readonly [Position, Position];
  /** `auto` only where a reader moves about (`explore`): Plotly then finds its own ticks, a still takes those given. */
  readonly tickmode: "array" | "auto";
  readonly nticks?: number;
  /** Data values, in the range · also on a log axis. */
  readonly tickvals: readonly Position[];
  /** As many; an empty text is a tick without a label; `<br>` begins a new line. */
  readonly ticktext: readonly string[];
  /** Share of the plot's width or height that it takes; left out is all. */
  readonly domain?: readonly [number, number];
  /** The axis it stands at, `x`, `y2` …; left out is the first one. */
  readonly anchor?: string;
  /** The axis whose domain this one shares (a second scale on the right). */
  readonly overlaying?: string;
  readonly side?: "left" | "right" | "top" | "bottom";
  readonly title?: { readonly text: string; readonly font: Font; readonly standoff: number };
  readonly tickangle: 0;
  readonly tickfont: Font;
  readonly showticklabels: boolean;
  readonly ticks: "outside" | "";
  readonly ticklen: number;
  readonly tickcolor: string;
  readonly showgrid: boolean;
  readonly gridcolor: string;
  readonly gridwidth: number;
  readonly zeroline: false;
  readonly showline: boolean;
  readonly linecolor: string;
  readonly linewidth: number;
  readonly fixedrange?: boolean;
  /** Zooms with this axis. */
  readonly matches?: string;
  readonly automargin: false;
  /** d3 time format of the hover box on date axes. */
  readonly hoverformat?: string;
  /** The bar under `explore` with which a reader moves about; a still leaves it out. */
  readonly rangeslider?: { readonly visible: boolean; readonly thickness: number; readonly bgcolor: string; readonly bordercolor: string; readonly borderwidth: number };
  readonly showspikes?: boolean;
  readonly spikemode?: "across";
  readonly spikesnap?: "cursor";
  readonly spikethickness?: number;
  readonly spikecolor?: string;
  readonly spikedash?: Dash;
}

/** A clock face or compass. */
export interface Polar {
  readonly domain: { readonly x: readonly [number, number]; readonly y: readonly [number, number] };
  readonly bgcolor: string;
  readonly hole: number;
  readonly angularaxis: {
    readonly direction: "clockwise" | "counterclockwise";
    /** Where theta 0 stands · degrees counterclockwise from the right (90 is the top). */
    readonly rotation: number;
    readonly tickmode: "array";
    /** Degrees. */
    readonly tickvals: readonly number[];
    readonly ticktext: readonly string[];
    readonly tickfont: Font;
    readonly showgrid: boolean;
    readonly gridcolor: string;
    readonly gridwidth: number;
    readonly showline: boolean;
    readonly linecolor: string;
    readonly linewidth: number;
    readonly ticks: "outside" | "";
  };
  readonly radialaxis: {
    readonly range: readonly [number, number];
    readonly tickmode: "array";
    readonly tickvals: readonly number[];
    readonly ticktext: readonly string[];
    readonly tickfont: Font;
    /** Direction along which its labels stand · degrees, as theta 0 is counted (counterclockwise from the right). */
    readonly angle: number;
    readonly showgrid: boolean;
    readonly gridcolor: string;
    readonly gridwidth: number;
    readonly showline: boolean;
    readonly showticklabels: boolean;
    readonly ticks: "";
  };
}

/** A rectangle or a line, in data (`x`, `y2`), in parts of the plot (`paper`), or in parts of one axis (`y2 domain`). */
export interface Shape {
  readonly type: "rect" | "line";
  readonly xref: string;
  readonly yref: string;
  readonly x0: Position;
  readonly x1: Position;
  readonly y0: Position;
  readonly y1: Position;
  readonly fillcolor?: string;
  readonly line: { readonly color: string; readonly width: number; readonly dash?: Dash };
  readonly layer: "below" | "above";
}

/** A text without a box; on a log axis x and y are powers of ten. */
export interface Annotation {
  /** Pseudo-HTML: `<br>`, `<b>…</b>` and the entities &amp; &lt; &gt; only. */
  readonly text: string;
  readonly xref: string;
  readonly yref: string;
  readonly x: Position;
  readonly y: Position;
  readonly xanchor: "left" | "center" | "right";
  readonly yanchor: "top" | "middle" | "bottom";
  /** Moves it · px, right and up. */
  readonly xshift?: number;
  readonly yshift?: number;
  readonly align: "left" | "center" | "right";
  readonly font: Font;
  readonly showarrow: false;
  /** Behind the text, so that lines do not run through it. */
  readonly bgcolor?: string;
  readonly borderpad?: number;
  /** Degrees clockwise. */
  readonly textangle?: number;
}

/** A button of `explore`: what it sets on the traces and the layout. */
export interface Button {
  readonly label: string;
  readonly method: "update";
  readonly args: readonly [Readonly<Record<string, readonly unknown[]>>, Readonly<Record<string, unknown>>];
}

/** A row of buttons. A still leaves it out. */
export interface ButtonRow {
  readonly type: "buttons";
  readonly direction: "right";
  readonly active: number;
  readonly showactive: true;
  readonly x: number;
  readonly y: number;
  readonly xanchor: "left";
  readonly yanchor: "top" | "bottom";
  readonly pad: { readonly t: number; readonly r: number; readonly b: number; readonly l: number };
  readonly bgcolor: string;
  readonly bordercolor: string;
  readonly font: Font;
  readonly buttons: readonly Button[];
}

/** How a figure stands on its page. The width is the page's; the height is given. */
export interface Layout {
  /** Top left of the whole picture; `<br>` begins a new line. */
  readonly title: {
    readonly text: string;
    readonly font: Font;
    readonly x: 0;
    readonly xref: "container";
    readonly xanchor: "left";
    readonly y: 1;
    readonly yref: "container";
    readonly yanchor: "top";
    readonly pad: { readonly l: number; readonly t: number };
  };
  /** px. */
  readonly height: number;
  readonly autosize: true;
  /** px about the plot. */
  readonly margin: { readonly l: number; readonly r: number; readonly t: number; readonly b: number };
  readonly font: Font;
  readonly paper_bgcolor: string;
  readonly plot_bgcolor: string;
  readonly showlegend: false;
  readonly hovermode: "x unified" | "closest" | "x" | "y" | false;
  /** Whether `x unified` reaches over all panels. */
  readonly hoversubplots?: "axis" | "single";
  readonly hoverlabel: { readonly bgcolor: string; readonly bordercolor: string; readonly font: Font };
  readonly dragmode: "zoom" | "pan" | false;
  readonly barmode?: "overlay";
  readonly xaxis?: Axis;
  readonly yaxis?: Axis;
  readonly [axis: `xaxis${number}`]: Axis;
  readonly [axis: `yaxis${number}`]: Axis;
  readonly polar?: Polar;
  readonly shapes: readonly Shape[];
  readonly annotations: readonly Annotation[];
  readonly updatemenus?: readonly ButtonRow[];
}
