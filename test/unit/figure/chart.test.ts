import { describe, expect, it } from "vitest";
import { chart, type ChartParts } from "../../../lib/figure/chart.js";

const wave = Float64Array.from({ length: 5000 }, (_, i) => Math.sin(i / 40));
const x = Float64Array.from(wave, (_, i) => i);
const parts = (more: Partial<ChartParts>): ChartParts => ({ title: "A wave", heading: "hPa", xTitle: "h", lines: [{ label: "sine", x, y: wave }], message: "It rises and falls.", ...more });

describe("chart", () => {
  it("thins a long line and keeps its extremes", () => {
    const y = wave.slice();
    y[3333] = 9;
    const [trace] = chart(parts({ lines: [{ label: "sine", x, y }] })).data as any[];
    expect(trace.y.length).toBeLessThanOrEqual(600);
    expect(Math.max(...trace.y)).toBe(9);
  });

  it("a line with an interval is a band and a line; points carry bars", () => {
    const lines = [
      { label: "fit", x: [0, 1], y: [1, 2], low: [0, 1], high: [2, 3], role: "fit" as const },
      { label: "seen", x: [0, 1], y: [1.5, 2.5], as: "points" as const, low: [1, 2], high: [2, 3.5] },
    ];
    const made = chart(parts({ lines }));
    expect(made.data.map((t: any) => [t.type, t.mode, t.fill])).toEqual([["scatter", "lines", "toself"], ["scatter", "lines", undefined], ["scatter", "markers", undefined]]);
    expect((made.data[2] as any).error_y.array).toEqual([0.5, 1]);
    expect(made.layout.annotations.length).toBeGreaterThan(3);
  });

  it("over time its places are the record's standard time", () => {
    const made = chart(parts({ offsetHours: 7, lines: [{ label: "t", x: [Date.UTC(2024, 0, 1, 17), Date.UTC(2024, 0, 2, 17)], y: [1, 2] }] }));
    expect((made.data[0] as any).x).toEqual(["2024-01-02", "2024-01-03"]);
    expect(JSON.stringify(made.layout)).toContain("UTC+07:00");
  });

  it("leaves out what has no logarithm, and NaN parts a line", () => {
    const made = chart(parts({ log: { x: true, y: true }, lines: [{ label: "s", x: [0, 1, 10, 100], y: [5, 1, Number.NaN, 0.01] }] }));
    expect((made.data[0] as any).x).toEqual([1, 10, 100]);
    expect((made.data[0] as any).y).toEqual([1, null, 0.01]);
  });

  it("bars, frozen, with words made harmless", () => {
    const made = chart(parts({ title: "<b>x</b>", lines: [{ label: "<i>", x: [1, 2, 3], y: [4, 5, 6], as: "bars" }] }));
    expect(Object.isFrozen(made) && Object.isFrozen(made.data)).toBe(true);
    expect(JSON.stringify(made)).not.toContain("<i>");
    expect((made.data[0] as any).width).toBe(0.9);
  });

  it("refuses nothing to draw and arrays that do not fit, by name", () => {
    expect(() => chart(parts({ lines: [] }))).toThrow("chart: lines must hold at least one line (got none)");
    expect(() => chart(parts({ lines: [{ label: "a", x: [1, 2], y: [1] }] }))).toThrow('chart: line "a" must have arrays as long as its x, 2 (got 1)');
  });
});
