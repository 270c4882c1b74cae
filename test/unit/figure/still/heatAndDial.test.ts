import { describe, expect, it } from "vitest";
import { figure } from "../../../../lib/figure/figure.js";
import type { Layout } from "../../../../lib/figure/layout.js";
import { axisOf, baseLayout } from "../../../../lib/figure/sheet.js";
import { colorSteps, dateMs, scaleColors, steppedColors } from "../../../../lib/figure/still/axisScale.js";
import { heatColors } from "../../../../lib/figure/still/heatMarks.js";
import { paint } from "../../../../lib/figure/still/paint.js";
import { drawStill } from "../../../../lib/figure/still/still.js";
import { paletteOf } from "../../../../lib/figure/theme.js";
import { fixedScale } from "../../../../lib/figure/tickScale.js";
import type { HeatmapTrace, Trace } from "../../../../lib/figure/trace.js";

const palette = paletteOf();
const blackToWhite = [[0, "#000000"], [1, "#ffffff"]] as const;

const heat = (parts: Partial<HeatmapTrace>): HeatmapTrace => ({ type: "heatmap", name: "cells", x: [0, 1], y: [0, 1], z: [[0, 1], [null, 0.5]], zmin: 0, zmax: 1, colorscale: blackToWhite, showscale: false, xgap: 0, ygap: 0, ...parts });

function svgOf(data: readonly Trace[], more: Partial<Layout> = {}): string {
  const axes = more.polar === undefined ? { xaxis: axisOf(fixedScale([-0.5, 1.5], 2), palette, { anchor: "y" }), yaxis: axisOf(fixedScale([-0.5, 1.5], 2), palette, { anchor: "x" }) } : {};
  const layout: Layout = { ...baseLayout(palette), height: 240, margin: { l: 60, r: 80, t: 40, b: 40 }, ...axes, ...more };
  return drawStill(figure({ name: "f", data, layout, alt: "", message: "", table: { head: [], rows: [] } }), { width: 340 });
}

describe("heat maps of stills", () => {
  it("draw each cell in its value's own color and leave missing ones blank", () => {
    const svg = svgOf([heat({})]);
    expect(svg).toContain('d="M60 120h100v80h-100z" fill="#000000"');
    expect(svg).toContain('d="M160 120h100v80h-100z" fill="#ffffff"');
    expect(svg).toContain('d="M160 40h100v80h-100z" fill="#808080"');
    expect(svg.match(/100v80h-100z/g)?.length).toBe(3);
  });

  it("fall back to even steps for many values, and clamp what is beyond the scale", () => {
    const many = heat({ x: Array.from({ length: 100 }, (_, i) => i), y: [0], z: [Array.from({ length: 100 }, (_, i) => i / 99)] });
    const { colors, indexOf } = heatColors(many);
    expect(colors.length).toBe(colorSteps);
    expect([indexOf(-3), indexOf(0), indexOf(1), indexOf(9)]).toEqual([0, 0, colorSteps - 1, colorSteps - 1]);
    const few = heatColors(heat({ z: [[-5, 0.25, 7]] }));
    expect(few.colors).toEqual(["#000000", "#404040", "#ffffff"]);
  });

  it("keep sharp edges of a scale", () => {
    const flag = [[0, "#000000"], [0.5, "#000000"], [0.5, "#ff0000"], [1, "#ff0000"]] as const;
    expect(scaleColors(flag, [0, 0.49, 0.5, 1])).toEqual(["#000000", "#000000", "#ff0000", "#ff0000"]);
    expect(steppedColors(blackToWhite)[0]).toBe("#000000");
    expect(steppedColors(blackToWhite).at(-1)).toBe("#ffffff");
  });

  it("have a key with its ticks", () => {
    const colorbar = { title: { text: "hours", side: "top", font: { color: "#000000", size: 12 } }, len: 1, thickness: 12, orientation: "v", x: 1, y: 0, xanchor: "left", yanchor: "bottom", tickvals: [0, 1], ticktext: ["none", "all"], tickfont: { color: "#000000", size: 12 }, outlinewidth: 0 } as const;
    const svg = svgOf([heat({ showscale: true, colorbar })]);
    for (const word of ["hours", "none", "all"]) expect(svg).toContain(`>${word}</text>`);
    const y = (word: string): number => Number(new RegExp(`y="([\\d.]+)"[^>]*>${word}<`).exec(svg)?.[1]);
    expect(y("all")).toBeLessThan(y("none"));
  });
});

describe("dials of stills", () => {
  const font = { color: "#000000", size: 12 };
  const polar: Layout["polar"] = {
    domain: { x: [0, 1], y: [0, 1] },
    bgcolor: "#ffffff",
    hole: 0,
    angularaxis: { direction: "clockwise", rotation: 90, tickmode: "array", tickvals: [0, 90], ticktext: ["noon", "six"], tickfont: font, showgrid: true, gridcolor: "#cccccc", gridwidth: 1, showline: true, linecolor: "#999999", linewidth: 1, ticks: "" },
    radialaxis: { range: [0, 2], tickmode: "array", tickvals: [1], ticktext: ["1 hPa"], tickfont: font, angle: 90, showgrid: true, gridcolor: "#cccccc", gridwidth: 1, showline: false, showticklabels: true, ticks: "" },
  };

  it("turn as they are told: theta 0 at the top, clockwise", () => {
    // The dial's center is 160, 120 and its radius 80 px.
    const svg = svgOf([{ type: "scatterpolar", mode: "lines", name: "l", r: [2, 2, 1], theta: [0, 90, 180], line: { color: "#0072b2", width: 2 } }], { polar });
    expect(svg).toContain('d="M160,40L240,120L160,160"');
    expect(svg).toMatch(/<text x="160" [^>]*>noon</);
    expect(svg).toMatch(/<text x="244" [^>]*>six</);
    const other = svgOf([{ type: "scatterpolar", mode: "lines", name: "l", r: [2, 2], theta: [0, 90], line: { color: "#0072b2", width: 2 } }], { polar: { ...polar, angularaxis: { ...polar.angularaxis, direction: "counterclockwise", rotation: 0 } } });
    expect(other).toContain('d="M240,120L160,40"');
  });

  it("draw ring sectors, filled rings, markers and words", () => {
    const svg = svgOf(
      [
        { type: "barpolar", name: "day", r: [1], base: [1], theta: [90], width: [180], marker: { color: "#f2c84b" } },
        { type: "scatterpolar", mode: "lines", name: "mean", r: [1, 1, 1], theta: [0, 120, 240], line: { color: "#555555", width: 1 } },
        { type: "scatterpolar", mode: "lines", name: "high", r: [2, 2, 2], theta: [0, 120, 240], fill: "tonext", fillcolor: "#d55e00" },
        { type: "scatterpolar", mode: "text", name: "w", r: [1], theta: [0], text: ["09:26"], textfont: { color: "#000000", size: 12 } },
      ],
      { polar },
    );
    expect(svg).toContain('transform="translate(160 120)" fill="#f2c84b"');
    expect(svg).toContain('fill-rule="evenodd" fill="#d55e00"');
    expect(svg).toContain(">09:26</text>");
  });
});

describe("colors and dates of stills", () => {
  it("part a color from its opacity", () => {
    expect(paint("rgba(0,114,178,0.2)")).toEqual({ color: "#0072b2", opacity: 0.2 });
    expect(paint("rgb(1, 2, 3)")).toEqual({ color: "#010203", opacity: undefined });
    expect(paint("#abcdef")).toEqual({ color: "#abcdef", opacity: undefined });
  });

  it("read civil times to the second, and nothing else", () => {
    expect(dateMs("2024-05-03 09:05")).toBe(Date.UTC(2024, 4, 3, 9, 5));
    expect(dateMs("2024-05-03T09:05:30.5")).toBe(Date.UTC(2024, 4, 3, 9, 5, 30, 500));
    expect(dateMs("2024-05")).toBe(Date.UTC(2024, 4, 1));
    expect(dateMs("yesterday")).toBeNaN();
    expect(dateMs(5)).toBe(5);
  });
});
