import { describe, expect, it } from "vitest";
import { type Figure, figure } from "../../../../lib/figure/figure.js";
import type { Layout } from "../../../../lib/figure/layout.js";
import { axisOf, baseLayout } from "../../../../lib/figure/sheet.js";
import { drawStill } from "../../../../lib/figure/still/still.js";
import { paletteOf } from "../../../../lib/figure/theme.js";
import { fixedScale } from "../../../../lib/figure/tickScale.js";
import type { Trace } from "../../../../lib/figure/trace.js";

const palette = paletteOf();

/** A figure of 340 × 240 px whose plot is 240 × 160 px: x and y from 0 to 10. */
function picture(data: readonly Trace[], layout: Partial<Layout> = {}, words: { alt?: string; message?: string } = {}): Figure {
  const { alt = "what is to be seen", message = "what it says" } = words;
  return figure({
    name: "sample",
    data,
    layout: {
      ...baseLayout(palette),
      height: 240,
      margin: { l: 60, r: 40, t: 40, b: 40 },
      xaxis: axisOf(fixedScale([0, 10], 3), palette, { anchor: "y" }),
      yaxis: axisOf(fixedScale([0, 10], 3), palette, { anchor: "x" }),
      ...layout,
    },
    alt,
    message,
    table: { head: [], rows: [] },
  });
}

const line = (parts: Partial<Extract<Trace, { type: "scatter" }>>): Trace => ({ type: "scatter", mode: "lines", name: "a line", x: [0, 5, 10], y: [0, 10, 5], line: { color: palette.outside, width: 2 }, ...parts });
const svgOf = (data: readonly Trace[], layout: Partial<Layout> = {}): string => drawStill(picture(data, layout), { width: 340 });
/** The `d` of every path in the traces' groups. */
const paths = (svg: string): string[] => [...svg.matchAll(/<g class="trace"[^>]*>(.*?)<\/g>/gs)].flatMap((g) => [...g[1].matchAll(/ d="([^"]*)"/g)].map((m) => m[1]));

describe("drawStill", () => {
  it("puts a value where the axes say", () => {
    expect(paths(svgOf([line({})]))).toEqual(["M60,200L180,40L300,120"]);
  });

  it("breaks a line at a missing value, and draws nothing of a trace without one", () => {
    expect(paths(svgOf([line({ x: [0, 2.5, 5, 7.5, 10], y: [0, 0, null, 10, 10] })]))).toEqual(["M60,200L120,200M240,40L300,40"]);
    expect(paths(svgOf([line({ y: [null, null, null] })]))).toEqual([]);
    expect(paths(svgOf([line({ visible: false })]))).toEqual([]);
  });

  it("takes even steps, and steps that hold", () => {
    expect(paths(svgOf([{ ...line({ y: [0, 10, 5] }), x: undefined, x0: 0, dx: 5 } as Trace]))).toEqual(["M60,200L180,40L300,120"]);
    expect(paths(svgOf([line({ line: { color: "#000000", width: 1, shape: "hv" } })]))).toEqual(["M60,200L180,200L180,40L300,40L300,120"]);
  });

  it("fills to the line before it, piece by piece where both break", () => {
    const lower = line({ y: [2, null, 2], line: { color: "#000000", width: 0 } });
    const upper = line({ y: [4, null, 4], line: { color: "#000000", width: 0 }, fill: "tonexty", fillcolor: "rgba(0,114,178,0.2)" });
    const svg = svgOf([lower, upper]);
    expect(paths(svg)).toEqual(["M60,136ZL60,168ZZM300,136ZL300,168ZZ"]);
    expect(svg).toContain('fill="#0072b2" fill-opacity="0.2"');
    expect(paths(svgOf([line({ y: [2, 2, 2], line: undefined }), line({ y: [4, 4, 4], line: undefined, fill: "tonexty", fillcolor: "#000000" })]))).toEqual(["M60,136L180,136L300,136L300,168L180,168L60,168Z"]);
  });

  it("fills to zero and within itself", () => {
    expect(paths(svgOf([line({ line: undefined, fill: "tozeroy", fillcolor: "#123456" })]))).toEqual(["M60,200L180,40L300,120V200H60Z"]);
    expect(paths(svgOf([line({ line: undefined, fill: "toself", fillcolor: "#123456" })]))).toEqual(["M60,200L180,40L300,120Z"]);
  });

  it("draws error bars with caps, lopsided ones too, and leaves out what is not known", () => {
    const bars = { type: "data", symmetric: false, array: [1, null, 2], arrayminus: [2, 1, 0], color: "#a0326b", thickness: 1, width: 3 } as const;
    expect(paths(svgOf([line({ mode: "markers", line: undefined, y: [5, 5, 5], error_y: bars })]))).toEqual(["M60 152V104M57 152h6M57 104h6M300 120V88M297 120h6M297 88h6"]);
  });

  it("draws like markers in one path and others one by one", () => {
    const svg = svgOf([line({ mode: "markers", marker: { color: "#a0326b", size: [6, 6, 9], symbol: ["circle", "circle", "diamond"] } })]);
    const [dots, diamond] = paths(svg);
    expect(dots).toBe("M60 200h0M180 40h0");
    expect(svg).toContain('stroke-linecap="round" stroke="#a0326b" stroke-width="6"');
    expect(diamond).toMatch(/^M5\.85 0L0 5\.85/);
    expect(svg).toContain("translate(300 120)");
  });

  it("reads dates as civil time, whatever the machine's zone", () => {
    const days = { type: "date", range: ["2024-05-01", "2024-05-11"], tickvals: ["2024-05-01", "2024-05-06 00:00"], ticktext: ["1", "6"] } as const;
    const layout = { xaxis: axisOf(days as never, palette, { anchor: "y" }) };
    expect(paths(svgOf([line({ x: ["2024-05-01", "2024-05-06", "2024-05-11 00:00"] })], layout))).toEqual(["M60,200L180,40L300,120"]);
    expect(paths(svgOf([{ ...line({}), x: undefined, x0: "2024-05-01", dx: 5 * 86_400_000 } as Trace], layout))).toEqual(["M60,200L180,40L300,120"]);
    expect(() => svgOf([line({})], { xaxis: axisOf({ ...days, range: ["soon", "later"] } as never, palette) })).toThrow("axisScale: range must hold two ends (got soon to later)");
  });

  it("knows logarithmic axes: ranges in powers of ten, values as they are, nothing at or below zero", () => {
    const layout = { yaxis: axisOf({ type: "log", range: [-1, 1], tickvals: [0.1, 1, 10], ticktext: ["0.1", "1", "10"] } as never, palette, { anchor: "x" }) };
    const svg = svgOf([line({ y: [0.1, 1, 0] })], layout);
    expect(paths(svg)).toEqual(["M60,200L180,120"]);
    expect(svg).toContain(">0.1</text>");
    const noted = svgOf([], { ...layout, annotations: [{ text: "here", xref: "x", yref: "y", x: 5, y: 0, xanchor: "center", yanchor: "middle", align: "center", font: { color: "#000000", size: 10 }, showarrow: false }] });
    expect(noted).toMatch(/<text x="180" y="123\.5"[^>]*>here/);
  });

  it("draws bars from their base, upright and lying, and lengths in ms on date axes", () => {
    const bar = (parts: Partial<Extract<Trace, { type: "bar" }>>): Trace => ({ type: "bar", orientation: "v", name: "bars", x: [5], y: [5], width: 2, marker: { color: "#0072b2" }, ...parts });
    expect(paths(svgOf([bar({})]))).toEqual(["M156 200V120H204V200Z"]);
    expect(paths(svgOf([bar({ base: [2] })]))).toEqual(["M156 168V88H204V168Z"]);
    expect(paths(svgOf([bar({ orientation: "h", base: [1] })]))).toEqual(["M84 136H204V104H84Z"]);
    expect(paths(svgOf([bar({ y: [null] })]))).toEqual([]);
    const days = { type: "date", range: ["2024-05-01", "2024-05-11"], tickvals: [], ticktext: [] } as const;
    expect(paths(svgOf([bar({ orientation: "h", x: [5 * 86_400_000], base: ["2024-05-01"] })], { xaxis: axisOf(days as never, palette, { anchor: "y" }) }))).toEqual(["M60 136H180V104H60Z"]);
  });

  it("draws ticks of the range only, grid lines through every panel that shares the axis, and its title", () => {
    const xaxis = axisOf({ type: "linear", range: [0, 10], tickvals: [0, 5, 12], ticktext: ["nil", "five", "out"] } as never, palette, { anchor: "y", title: { text: "hours", font: { color: "#000000", size: 12 }, standoff: 4 } });
    const upper = axisOf(fixedScale([0, 1], 2), palette, { anchor: "x", domain: [0.6, 1], showgrid: false });
    const lower = axisOf(fixedScale([0, 10], 3), palette, { anchor: "x", domain: [0, 0.4], showgrid: false });
    const svg = svgOf([line({}), line({ yaxis: "y2", y: [0, 1, 0] })], { xaxis, yaxis: lower, yaxis2: upper });
    expect(svg).toContain(">nil</text>");
    expect(svg).not.toContain(">out</text>");
    expect(svg).toContain("M60 200V136M180 200V136M60 104V40M180 104V40");
    expect(svg).toContain(">hours</text>");
  });

  it("cuts shapes at the panel they belong to and lets those of the paper be", () => {
    const shape = { type: "rect", x0: -5, x1: 5, y0: 0, y1: 1, fillcolor: "#eeeeee", line: { color: "#000000", width: 0 }, layer: "below" } as const;
    expect(svgOf([], { shapes: [{ ...shape, xref: "x", yref: "y" }] })).toMatch(/<rect x="-60" y="184" width="240" height="16" clip-path="url\(#sample-panel0\)" fill="#eeeeee"\/>/);
    const free = svgOf([], { shapes: [{ ...shape, xref: "paper", yref: "y domain", x0: 0, x1: 1 }] });
    expect(free).toContain('<rect x="60" y="40" width="240" height="160" fill="#eeeeee"/>');
  });

  it("escapes every text, and says what it shows to those who cannot see it", () => {
    const evil = '<script>alert("x")</script>\u202e';
    const svg = drawStill(picture([line({ name: "a &lt;b&gt; line" })], { annotations: [{ text: "5 &lt; 6<br><b>sure</b> <i>no</i>", xref: "x", yref: "y", x: 5, y: 5, xanchor: "left", yanchor: "top", align: "left", font: { color: "#000000", size: 10 }, showarrow: false }] }, { alt: evil, message: evil }), { width: 340, id: "one" });
    expect(svg).toContain('<title id="one-title">&lt;script&gt;alert(&quot;x&quot;)&lt;/script&gt;\ufffd</title><desc id="one-desc">');
    expect(svg).toContain('role="img" aria-labelledby="one-title one-desc"');
    expect(svg).toContain('5 &lt; 6<tspan x="182" dy="13"><tspan font-weight="600">sure</tspan> &lt;i&gt;no&lt;/i&gt;</tspan>');
    expect(svg).toContain("<title>a &lt;b&gt; line</title>");
    expect(svg).not.toContain("<script");
  });

  it("sets a title where the drawing library does: one line by the height of its letters, the first of two by its foot", () => {
    const { title } = baseLayout(palette);
    expect(svgOf([], { title: { ...title, text: "One" } })).toMatch(/<text x="12" y="22\.5" font-size="15"[^>]*>One</);
    expect(svgOf([], { title: { ...title, text: "One<br>two" } })).toMatch(/<text x="12" y="12" [^>]*>One<tspan x="12" dy="19\.5">two</);
  });

  it("refuses an axis that is not there and margins without room", () => {
    expect(() => svgOf([line({ yaxis: "y7" })])).toThrow("axisNamed: the layout must hold axis y7 (got x, y)");
    expect(() => drawStill(picture([]), { width: 90 })).toThrow("plotFrame: width must leave room for the plot (got 90 px with margins of 60 and 40 px)");
  });

  it("changes nothing it is given and draws the same again", () => {
    const sample = picture([line({ fill: "tozeroy", fillcolor: "#eeeeee" })]);
    const before = JSON.stringify(sample);
    expect(drawStill(sample)).toBe(drawStill(sample));
    expect(JSON.stringify(sample)).toBe(before);
  });
});
