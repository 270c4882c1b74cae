import { describe, expect, it } from "vitest";
import { displaySymbol } from "../../../../lib/ground/display.js";
import { estimate } from "../../../../lib/ground/estimate.js";
import { regularGrid } from "../../../../lib/grid/regularGrid.js";
import { recordFromSeries } from "../../../../lib/record/recordFromSeries.js";
import { series } from "../../../../lib/record/series.js";
import { bundleFrom, bundleOf, plainText } from "../../../../lib/door/kernel/bundle.js";
import { libraryHtml } from "../../../../lib/door/kernel/figureHtml.js";

const drawing = "application/vnd.plotly.v1+json";
const textOf = (value: unknown): string => String(bundleOf(value).data["text/plain"]);
const times = Array.from({ length: 30 }, (_, i) => Date.UTC(2024, 0, 1) + i * 600_000);

describe("plain values", () => {
  it("primitives, functions, classes, cycles", () => {
    expect([1, "a", null, undefined, 5n, true].map(textOf)).toEqual(["1", "'a'", "null", "undefined", "5n", "true"]);
    const round: Record<string, unknown> = { a: 1 };
    round.self = round;
    expect(textOf(round)).toContain("[Circular");
    expect(textOf(new Map([["a", 1]]))).toBe("Map(1) { 'a' => 1 }");
  });
  it("what is deep or long is shown shorter, a text never", () => {
    const deep = Object.fromEntries(Array.from({ length: 100 }, (_, i) => [`key${i}`, { inner: { a: { b: [i, "a long enough text to need a line of its own in the end"] } } }]));
    expect(textOf(deep).split("\n").length).toBeLessThanOrEqual(151);
    expect(textOf("a\n".repeat(400))).not.toContain("more lines");
    expect(plainText(new Proxy({}, { ownKeys: () => { throw new Error("shy"); } }))).toMatch(/\{\}|cannot be shown/);
  });
});

describe("the library's plain things", () => {
  it("an Estimate, alone and inside", () => {
    const e = estimate({ value: 1.021, standardError: 0.012, low: 0.997, high: 1.045, unit: "hPa" });
    expect(textOf(e)).toBe("1.02 ± 0.02 hPa");
    expect(textOf({ amplitude: e, n: 1 })).toBe("{ amplitude: 1.02 ± 0.02 hPa, n: 1 }");
    expect(textOf([{ line: "S2", amplitude: e }, { line: "S1", amplitude: e }])).toBe("line  amplitude\nS2    1.02 ± 0.02 hPa\nS1    1.02 ± 0.02 hPa");
  });
  it("a series, a grid and a record", () => {
    const pressure = series({ times, values: times.map((_, i) => (i === 1 ? Number.NaN : 1000 + i / 7)), quantity: "surface_air_pressure", place: "veranda" });
    const shown = bundleOf(pressure);
    expect(shown.data["text/plain"]).toMatch(/^station pressure at veranda, 30 readings\n[^\n]*hPa\n2024-01-01T00:00:00Z +1000\n2024-01-01T00:10:00Z\n[\s\S]*… and 10 more$/);
    expect(shown.data["text/html"]).toContain('<td align="right">1000</td>');
    const record = recordFromSeries([pressure]);
    expect(textOf(record)).toMatch(/place +exposure +readings +quantities\nveranda +30 +station pressure/);
    expect(textOf(regularGrid([pressure]))).toMatch(/^30 steps of 600 s from 2024-01-01T00:00:00Z, 1 column\n/);
  });
  it("a list of like things is a table, escaped; of unlike things it is not", () => {
    expect(bundleOf([{ a: "<b>", n: 1.23456789 }]).data["text/html"]).toContain("<td>&#60;b&#62;</td><td align=\"right\">1.23457</td>");
    expect(bundleOf([{ a: 1 }, { b: 1 }]).data["text/html"]).toBe(undefined);
    expect(bundleOf([1, 2]).data["text/html"]).toBe(undefined);
  });
});

describe("display methods and bundles", () => {
  it("gives metadata, bytes, and text when there is none", () => {
    const bundle = bundleOf({ [displaySymbol]: () => [{ "image/png": new Uint8Array([1, 2, 3]), "application/json": { a: Number.NaN, b: 5n } }, { width: 3 }] });
    expect(bundle.data).toMatchObject({ "image/png": "AQID", "application/json": { a: null, b: "5" }, "text/plain": expect.any(String) });
    expect(bundle.metadata).toEqual({ width: 3 });
    expect(bundleFrom({ "text/html": "<b>" }).data["text/plain"]).toBe("text/html");
  });
  it("a method that fails or gives nonsense is told in one line", () => {
    expect(textOf({ a: 1, [displaySymbol]: () => 5 })).toMatch(/a: 1[\s\S]*\(its display method failed: TypeError: the display method must return an object/);
  });
});

describe("figures", () => {
  const figure = { name: "rise", data: [], layout: { height: 300 }, alt: "A line <rises>", message: "It rises.", table: { head: ["x"], rows: [[1], [null]] } };
  const withDisplay = { ...figure, [displaySymbol]: () => ({ "text/plain": "It rises.", [drawing]: { data: [{ name: "</script><b>\u2028" }], layout: figure.layout } }) };
  it("html has no way out of its script, words for all, and the numbers", () => {
    const { data, isFigure } = bundleOf(withDisplay);
    const html = String(data["text/html"]);
    expect(isFigure).toBe(true);
    expect(html.match(/<\/script>/g)).toHaveLength(1);
    expect(html).not.toContain("\u2028");
    expect(html).toContain('aria-label="A line &#60;rises&#62;"');
    expect(html).toContain("<p>It rises.</p>");
    expect(html).toContain("<tr><td></td></tr>");
  });
  it("the library is carried as text without a single sign that html could take for its own", () => {
    const html = libraryHtml();
    expect(html.match(/<\/?script>/g)).toEqual(["<script>", "</script>"]);
    expect(html.length).toBeLessThan(2_100_000);
  });
});
