import { beforeAll, describe, expect, it } from "vitest";
import { displaySymbol } from "../../../lib/ground/display.js";
import type { Figure } from "../../../lib/figure/figure.js";
import type { Annotation, Axis } from "../../../lib/figure/layout.js";
import { figureNames, type RecordAnswers, recordFigures } from "../../../lib/figure/recordFigures.js";
import { paletteOf } from "../../../lib/figure/theme.js";
import type { AirRecord, PlaceRecord } from "../../../lib/record/airRecord.js";
import { drawnRecord } from "./drawnRecord.js";
import { schemaFaults } from "./schemaFaults.js";

let drawn: { record: AirRecord; answers: RecordAnswers };
let figures: Figure[];

const axesOf = (figure: Figure): [string, Axis][] => Object.entries(figure.layout).filter(([key]) => /^[xy]axis/.test(key)) as [string, Axis][];
/** Every text that Plotly reads as pseudo-HTML or as a template. */
function textsOf(figure: Figure): string[] {
  const found: string[] = [];
  const walk = (value: unknown, key: string): void => {
    if (typeof value === "string" && ["text", "name", "hovertemplate", "label", "ticktext"].includes(key)) found.push(value);
    else if (Array.isArray(value)) for (const v of value) walk(v, key);
    else if (typeof value === "object" && value !== null) for (const [k, v] of Object.entries(value)) walk(v, k);
  };
  walk({ data: figure.data, layout: figure.layout }, "");
  return found;
}

describe("the judge itself", () => {
  it("sees attributes and values that Plotly does not know", () => {
    expect(schemaFaults({ data: [{ type: "scatter", mode: "lines", y: [1] } as never], layout: {} })).toEqual([]);
    expect(schemaFaults({ data: [{ type: "scatter", mode: "curves" } as never], layout: {} })).toEqual(['data[0].mode: "curves" is no flaglist']);
    expect(schemaFaults({ data: [{ type: "scatter", colour: "#000000" } as never], layout: {} })).toEqual(["data[0].colour: Plotly knows no such attribute"]);
    expect(schemaFaults({ data: [{ type: "pie" }], layout: { xaxis2: { ticks: "both" } } })).toEqual(["data[0].type: pie is not used here", 'layout.xaxis2.ticks: "both" is no enumerated']);
    expect(schemaFaults({ data: [], layout: { height: Number.NaN, annotations: [{ xanchor: "start" }] } })).toHaveLength(2);
  });
});

for (const name of ["hill-school", "harbor-loft"]) {
  describe(`figures of ${name}`, () => {
    beforeAll(async () => {
      drawn = await drawnRecord(name);
      figures = Object.values(recordFigures(drawn.record, drawn.answers)).flatMap((make) => make() ?? []);
    }, 120_000);

    it("all are there, under their names", () => {
      expect(figures.map((f) => f.name)).toEqual([...figureNames]);
    });

    it("Plotly's schema finds nothing, in the light and in the dark", () => {
      const dark = Object.values(recordFigures(drawn.record, drawn.answers, { theme: "dark" })).flatMap((make) => make() ?? []);
      for (const figure of [...figures, ...dark]) expect(schemaFaults(figure), figure.name).toEqual([]);
      for (const figure of dark) {
        expect(figure.layout.paper_bgcolor).toBe(paletteOf("dark").paper);
        // No ink of the light theme is left over.
        expect(JSON.stringify([figure.data, figure.layout]).includes(paletteOf("light").ink), figure.name).toBe(false);
      }
    });

    it("each is below 200 kB, holds only JSON and is frozen", () => {
      for (const figure of figures) {
        const parts = { data: figure.data, layout: figure.layout };
        const text = JSON.stringify(parts);
        expect(text.length, figure.name).toBeLessThan(200_000);
        // What JSON cannot hold (NaN, Infinity, undefined in a list, typed arrays) would come back changed.
        expect(JSON.parse(text), figure.name).toEqual(parts);
        expect(Object.isFrozen(figure.data) && Object.isFrozen(figure.layout.annotations), figure.name).toBe(true);
      }
    });

    it("every axis has its range and as many texts as ticks, all ticks inside", () => {
      for (const figure of figures) {
        for (const [key, axis] of axesOf(figure)) {
          const at = `${figure.name} ${key}`;
          expect(axis.ticktext.length, at).toBe(axis.tickvals.length);
          expect(axis.tickvals.length, at).toBeGreaterThan(0);
          const number = (v: number | string): number => (axis.type === "date" ? Date.parse(`${String(v).replace(" ", "T")}${String(v).length > 10 ? ":00Z" : ""}`) : axis.type === "log" ? Math.log10(Number(v)) : Number(v));
          const ends = axis.range.map((v) => (axis.type === "log" ? Number(v) : number(v))).sort((a, b) => a - b);
          expect(ends[0], at).toBeLessThan(ends[1]);
          for (const v of axis.tickvals) {
            expect(number(v), at).toBeGreaterThanOrEqual(ends[0] - 1e-6);
            expect(number(v), at).toBeLessThanOrEqual(ends[1] + 1e-6);
          }
        }
      }
    });

    it("traces stand on axes that are there, and x is as long as y", () => {
      for (const figure of figures) {
        for (const trace of figure.data) {
          if (trace.type !== "scatter" && trace.type !== "heatmap") continue;
          for (const axis of [trace.xaxis ?? "x", trace.yaxis ?? "y"]) expect(figure.layout, figure.name).toHaveProperty(`${axis[0]}axis${axis.slice(1)}`);
          if (trace.type === "scatter" && trace.x !== undefined) expect(trace.x.length, `${figure.name} ${trace.name}`).toBe(trace.y.length);
          if (trace.type === "heatmap") {
            expect(trace.z.length, figure.name).toBe(trace.y.length);
            for (const row of trace.z) expect(row.length, figure.name).toBe(trace.x.length);
          }
        }
      }
    });

    it("dates are text, never numbers that a browser would turn to its own zone", () => {
      for (const figure of figures) {
        const dates = new Set(axesOf(figure).filter(([, a]) => a.type === "date").map(([key]) => key.replace("axis", "")));
        for (const trace of figure.data) {
          if (!("xaxis" in trace || trace.type === "scatter" || trace.type === "heatmap")) continue;
          if (!dates.has((trace as { xaxis?: string }).xaxis ?? "x")) continue;
          const x = (trace as { x?: readonly unknown[]; x0?: unknown }).x ?? [(trace as { x0?: unknown }).x0];
          for (const v of x) if (v !== null) expect(String(v), figure.name).toMatch(/^\d{4}-\d\d-\d\d( \d\d:\d\d)?$/);
        }
      }
    });

    it("date axes name their zone, hours by the sun theirs", () => {
      for (const figure of figures) {
        const texts = textsOf(figure).join("\n");
        if (axesOf(figure).some(([, a]) => a.type === "date") || ["mean-day", "tide-clock", "house-day", "tide-months"].includes(figure.name)) expect(texts, figure.name).toMatch(/UTC[+−]\d\d:\d\d/);
      }
    });

    it("texts are free of markup but for breaks and bold, and lines of title and key fit a narrow screen", () => {
      for (const figure of figures) {
        for (const text of textsOf(figure)) expect(text.replace(/<\/?b>|<br>/g, ""), figure.name).not.toMatch(/[<>]/);
        for (const a of figure.layout.annotations as Annotation[]) {
          if (a.yref === "paper" && a.yanchor === "bottom") for (const line of a.text.split("<br>")) expect(line.replace(/<\/?b>/g, "").length, `${figure.name}: ${line}`).toBeLessThanOrEqual(52);
        }
      }
    });

    it("says in words and in a table what it shows", () => {
      for (const figure of figures) {
        expect(figure.message.length, figure.name).toBeGreaterThan(20);
        expect(figure.message, figure.name).not.toMatch(/NaN|undefined|null|Infinity|(^|[^\d])-\d/);
        expect(figure.alt.length, figure.name).toBeGreaterThan(40);
        expect(figure.table.rows.length, figure.name).toBeGreaterThan(0);
        for (const row of figure.table.rows) expect(row.length, figure.name).toBe(figure.table.head.length);
        const bundle = figure[displaySymbol]();
        expect(bundle["text/plain"]).toBe(figure.message);
        expect(bundle["application/vnd.plotly.v1+json"]).toMatchObject({ data: figure.data, layout: figure.layout });
      }
    });

    it("outside and inside differ by color and by dash wherever both are lines", () => {
      const traces = figures.find((f) => f.name === "traces") as Figure;
      const lines = traces.data.filter((t) => t.type === "scatter" && t.fill === undefined).map((t) => (t.type === "scatter" ? [t.line?.color, t.line?.dash] : []));
      expect(new Set(lines.map(([c]) => c)).size).toBe(2);
      expect(new Set(lines.map(([, d]) => d)).size).toBe(2);
    });
  });
}

describe("words of a record", () => {
  it("cannot become markup, templates or a turned line", async () => {
    const evil = '<script>alert(1)</script> <a href="javascript:x">"\u202e%{x} &amp; <b>';
    const places = Object.fromEntries(Object.entries(drawn.record.places).map(([name, p]): [string, PlaceRecord] => [name, { ...p, title: evil }]));
    const record: AirRecord = { ...drawn.record, title: evil, places, events: drawn.record.events.map((e) => ({ ...e, title: evil })) };
    for (const make of Object.values(recordFigures(record, drawn.answers))) {
      const figure = make();
      if (figure === null) continue;
      expect(schemaFaults(figure), figure.name).toEqual([]);
      for (const text of textsOf(figure)) {
        expect(text.replace(/<\/?b>|<br>/g, ""), figure.name).not.toMatch(/[<>]/);
        expect(text, figure.name).not.toMatch(/[\u202a-\u202e\u2066-\u2069]/);
        for (const [, inside] of text.matchAll(/%\{([^}]*)\}/g)) expect(inside, `${figure.name}: ${text}`).toMatch(/^([xyz](\|[^}]*|:[^}]*)?|text)$/);
      }
    }
  });
});
