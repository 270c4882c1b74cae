import { describe, expect, it } from "vitest";
import { type TideFrame, tideFrame } from "../../../../lib/cycles/tide/tideFrame.js";
import type { TideOptions } from "../../../../lib/cycles/tide/tideFit.js";
import { RecordError } from "../../../../lib/ground/complaint.js";
import { type Series, series } from "../../../../lib/record/series.js";

const start = Date.UTC(2024, 2, 1);
/** Readings that bend at every step, so that no line lies between them. */
const every = (seconds: number, count: number): Series =>
  series({ times: Array.from({ length: count }, (_, i) => start + 1000 * seconds * i), values: Array.from({ length: count }, (_, i) => 1000 + Math.sin(i * i)), quantity: "surface_air_pressure" });
const frame = (s: Series, more: Partial<TideOptions> = {}): TideFrame => tideFrame("ask", s, { longitude: 10, ...more });
const linesOf = (s: Series): string[] => frame(s).fitted.lines.map((l) => l.name);

describe("tideFrame", () => {
  it("hands on what is fitted, with nothing asked for", () => {
    const found = frame(every(3600, 96));
    expect(found).toMatchObject({ spacing: 3600, straight: null, averagedOver: 0 });
    expect(found.readings.seconds.length).toBe(96);
    expect(found.fitted.lines.map((l) => l.name)).toEqual(["S1", "S2", "S3", "S4"]);
    expect(found.fitted.reported).toEqual(["S1", "S2", "S3"]);
    expect(frame(every(3600, 96), { averagedOver: 600, lines: ["S4"] })).toMatchObject({ averagedOver: 600, fitted: { reported: ["S1", "S2", "S3", "S4"] } });
  });

  it("takes three whole days with the last reading's own step, and no less", () => {
    expect(frame(every(1200, 216)).spacing).toBe(1200);
    expect(() => frame(every(1200, 215))).toThrow(new RecordError("ask: series must last at least 3 whole days (got 2.9 d); log longer", "data"));
    // Begun at noon: the days are counted from the first reading.
    const noon = { ...every(1200, 215), start: start + 43_200_000 };
    expect(() => frame(noon)).toThrow("ask: series must last at least 3 whole days (got 2.9 d); log longer");
    expect(() => frame(every(3600, 2))).toThrow("ask: series must last at least 3 whole days (got 0.0 d); log longer");
  });

  it("carries S4 up to 2.6 hours between readings, S3 up to 3.6, and nothing beyond", () => {
    expect(linesOf(every(9360, 60))).toEqual(["S1", "S2", "S3", "S4"]);
    expect(linesOf(every(9361, 60))).toEqual(["S1", "S2", "S3"]);
    expect(linesOf(every(12_960, 60))).toEqual(["S1", "S2", "S3"]);
    expect(() => frame(every(12_961, 60))).toThrow(new RecordError("ask: series must hold a reading every 3 hours or oftener (got one every 3.6 h); log oftener", "data"));
  });

  it("refuses options by name, and accepts their limits", () => {
    const s = every(3600, 96);
    for (const more of [{ longitude: -180 }, { longitude: 180 }, { averagedOver: 21_600 }, { events: [start] }]) expect(frame(s, more).spacing).toBe(3600);
    expect(() => frame(s, { longitude: 180.1 })).toThrow("ask: longitude must be from -180 to 180 degrees east (got 180.1 degrees east)");
    expect(() => frame(s, { averagedOver: -1 })).toThrow("ask: averagedOver must be from 0 to 21600 s (got -1 s)");
    expect(() => frame(s, { events: [start, Number.NaN] })).toThrow("ask: events must be finite (got NaN ms)");
    expect(() => frame(s, { lines: "S4" as never })).toThrow(new TypeError('ask: lines must be a list of names (got "S4")'));
    expect(() => frame(s, { lines: ["S4", 3] as never })).toThrow(new TypeError("ask: lines must be a list of names (got a list of 2)"));
  });

  it("says how many readings are usable where two are not", () => {
    const one = every(3600, 96);
    expect(() => frame({ ...one, values: one.values.map((v, i) => (i === 5 ? v : Number.NaN)) })).toThrow(new RecordError("ask: series must hold usable readings over 3 days (got 1 of 96 readings usable)", "data"));
    let kind = "";
    for (const s of [every(3600, 1), every(3600, 2), every(20_000, 60)]) {
      try {
        frame(s);
      } catch (error) {
        kind += (error as RecordError).kind;
      }
    }
    expect(kind).toBe("datadatadata");
  });

  it("finds readings under straight lines, and goes on with those", () => {
    const hourly = Array.from({ length: 24 * 20 }, (_, h) => 1000 + Math.sin(h * h));
    const lined = series({
      times: Array.from({ length: 6 * (hourly.length - 1) }, (_, i) => start + 600_000 * i),
      values: Array.from({ length: 6 * (hourly.length - 1) }, (_, i) => hourly[Math.floor(i / 6)] + ((hourly[Math.floor(i / 6) + 1] - hourly[Math.floor(i / 6)]) * (i % 6)) / 6),
      quantity: "surface_air_pressure",
    });
    expect(frame(lined)).toMatchObject({ straight: 3600, spacing: 3600 });
    expect(frame(lined).readings.seconds.length).toBe(hourly.length - 1);
  });
});
