import { describe, expect, it } from "vitest";
import { bandTrace } from "../../../lib/figure/bandTrace.js";
import { dayBand } from "../../../lib/figure/dayBand.js";
import { figure, plainText } from "../../../lib/figure/figure.js";
import { digits, significant } from "../../../lib/figure/roundedValues.js";
import { axesOf, baseLayout, note, type Panel, sheet } from "../../../lib/figure/sheet.js";
import { paletteOf } from "../../../lib/figure/theme.js";
import { fixedScale } from "../../../lib/figure/tickScale.js";
import { displaySymbol } from "../../../lib/ground/display.js";
import { series } from "../../../lib/record/series.js";
import { schemaFaults } from "./schemaFaults.js";

const palette = paletteOf();

describe("figure", () => {
  const parts = { name: "one", data: [{ type: "scatter", mode: "lines", name: "a", x: [1, 2], y: [3, null] }] as const, layout: baseLayout(palette), alt: "a line", message: "It rises.", table: { head: ["x"], rows: [[1]] } };

  it("is frozen through and through, and shows itself in a notebook", () => {
    const made = figure(structuredClone(parts));
    expect(() => (made.data[0] as { name: string }).name = "b").toThrow(TypeError);
    expect(() => (made.layout.margin as { l: number }).l = 0).toThrow(TypeError);
    expect(Object.keys(made)).toEqual(["name", "data", "layout", "alt", "message", "table"]);
    const bundle = made[displaySymbol]();
    expect(bundle["text/plain"]).toBe("It rises.");
    expect(bundle["application/vnd.plotly.v1+json"]).toMatchObject({ data: parts.data, layout: { height: 400 }, config: { responsive: true, displaylogo: false } });
  });
});

describe("plainText", () => {
  it("takes the sting out of markup, templates and marks of direction", () => {
    expect(plainText("<b>Loft & co")).toBe("&lt;b&gt;Loft &amp; co");
    expect(plainText("a\u202eb\u0007c\n d")).toBe("a b c d");
    expect(plainText("%{x}")).toBe("% {x}");
    expect(plainText("日本の気温")).toBe("日本の気温");
  });

  it("cuts whole signs, before it escapes", () => {
    expect(plainText("😀😀😀😀", 3)).toBe("😀😀…");
    expect(plainText("&&&&", 3)).toBe("&amp;&amp;…");
  });
});

describe("bandTrace", () => {
  it("closes an outline for each run that is whole", () => {
    const band = bandTrace({ name: "b", x: [0, 1, 2, 3, 4], low: [1, 1, null, 1, 1], high: [2, 2, 2, 3, 3], color: "#000000", fillcolor: "rgba(0,0,0,0.2)" });
    expect(band.x).toEqual([0, 1, 1, 0, null, 3, 4, 4, 3]);
    expect(band.y).toEqual([2, 2, 1, 1, null, 3, 3, 1, 1]);
  });
});

describe("dayBand", () => {
  const hourly = (days: number, of: (h: number) => number): ReturnType<typeof series> => series({ times: Array.from({ length: 24 * days }, (_, h) => 3_600_000 * h), values: Array.from({ length: 24 * days }, (_, h) => of(h)), quantity: "air_temperature" });

  it("has every extreme and the mean of days with enough hours, by the clock of the place", () => {
    const band = dayBand(hourly(3, (h) => (h === 30 ? 40 : h === 31 ? -5 : 10)), 0);
    expect(band.low).toEqual([10, -5, 10]);
    expect(band.high).toEqual([10, 40, 10]);
    expect(band.mean[0]).toBe(10);
    // Two hours east the first day has 22 hours, and a fourth has two: too few for a mean.
    const east = dayBand(hourly(3, () => 10), 2);
    expect(east.mean).toEqual([10, 10, 10, Number.NaN]);
    expect(east.begins[0]).toBe(0);
  });

  it("gathers days where there are too many, and leaves out what no analysis uses", () => {
    const band = dayBand(hourly(30, (h) => h), 0, 10);
    expect([band.spanDays, band.low.length, band.low[1], band.high[1]]).toEqual([3, 10, 72, 143]);
    const flagged = { ...hourly(1, (h) => h), flags: Uint16Array.from({ length: 24 }, (_, h) => (h === 23 ? 2 : 0)) };
    expect(dayBand(flagged, 0).high).toEqual([22]);
    expect(dayBand(series({ times: [], values: [], quantity: "air_temperature" }), 0).begins).toEqual([]);
  });
});

describe("rounding", () => {
  it("makes what is missing null and knows no minus zero", () => {
    expect([1.006, Number.NaN, null, -0.0001, Infinity].map(digits(2))).toEqual([1.01, null, null, 0, null]);
    expect([0.012345, Number.NaN].map(significant(3))).toEqual([0.0123, null]);
  });
});

describe("sheet", () => {
  const panels: Panel[] = [
    { heading: "One, hPa", y: fixedScale([0, 1]), height: 100 },
    { heading: "Two, hPa", y: fixedScale([0, 1]), height: 200 },
  ];
  const parts = { name: "two", title: "A title that is much too long for a narrow telephone", palette, panels, x: fixedScale([0, 9]), xTitle: "Days", data: [], alt: "", message: "", table: { head: [], rows: [] } };

  it("lays panels over each other at their heights in px", () => {
    const { layout } = sheet({ ...parts, key: [{ color: palette.ink, glyph: "━━", text: "a" }, { color: palette.ink, glyph: "╍╍", text: "b" }] });
    const inner = layout.height - layout.margin.t - layout.margin.b;
    const tall = (axis: "yaxis" | "yaxis2"): number => inner * (Number(layout[axis]?.domain?.[1]) - Number(layout[axis]?.domain?.[0]));
    expect(Math.abs(tall("yaxis") - 100)).toBeLessThan(0.5);
    expect(Math.abs(tall("yaxis2") - 200)).toBeLessThan(0.5);
    expect(layout.xaxis?.anchor).toBe("y2");
    expect(axesOf(panels, 1)).toEqual({ x: "x", y: "y2" });
    expect(schemaFaults({ data: [], layout })).toEqual([]);
  });

  it("breaks a long title and sets two entries of the key in a row", () => {
    const { layout } = sheet({ ...parts, key: ["a", "b", "c"].map((text) => ({ color: palette.ink, glyph: "■", text })) });
    const plain = sheet(parts).layout;
    expect(layout.annotations[0].text).toBe("<b>A title that is much too long for a</b><br><b>narrow telephone</b>");
    expect(layout.margin.t - plain.margin.t).toBe(2 * 19);
    expect(new Set(layout.annotations.slice(1, 7).map((a) => a.x))).toEqual(new Set([0, 0.5]));
  });

  it("puts an unseen trace on a panel without one, since Plotly draws no axis without", () => {
    const line = { type: "scatter", mode: "lines", name: "a", x: [0], y: [1] } as const;
    expect(sheet({ ...parts, data: [line] }).data.map((t) => [t.name, "yaxis" in t ? t.yaxis : "y"])).toEqual([["a", "y"], ["", "y2"]]);
    expect(sheet({ ...parts, data: [line, { ...line, yaxis: "y2" }] }).data.length).toBe(2);
  });

  it("gives a panel its own axis below it", () => {
    const own = [panels[0], { ...panels[1], x: fixedScale([0, 2]), xTitle: "Hours" }];
    const { layout } = sheet({ ...parts, panels: own });
    expect(layout.xaxis?.anchor).toBe("y");
    expect(layout.xaxis2?.anchor).toBe("y2");
    expect(axesOf(own, 1)).toEqual({ x: "x2", y: "y2" });
  });

  it("writes notes in ink unless told", () => {
    expect(note(palette, { text: "a", x: 1, y: 2 })).toMatchObject({ xref: "x", font: { color: palette.ink, size: 13 }, showarrow: false });
  });
});
