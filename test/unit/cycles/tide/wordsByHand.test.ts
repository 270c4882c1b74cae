import { describe, expect, it } from "vitest";
import { argumentAtEpoch, tideEpoch } from "../../../../lib/cycles/tide/argumentAtEpoch.js";
import { fittedLines, pairsOf, requireSeparable } from "../../../../lib/cycles/tide/fittedLines.js";
import { cyclesPerDay, type LineOfTide, tideLines } from "../../../../lib/cycles/tide/lineTable.js";
import { meanDay } from "../../../../lib/cycles/tide/meanDay.js";
import { tideAt, withoutTide } from "../../../../lib/cycles/tide/tideAt.js";
import type { Constituent, TideFit } from "../../../../lib/cycles/tide/tideFit.js";
import type { TideSteps } from "../../../../lib/cycles/tide/tideSteps.js";
import { tideText } from "../../../../lib/cycles/tide/tideText.js";
import { type TideCircumstances, tideWarnings } from "../../../../lib/cycles/tide/tideWarnings.js";
import { RecordError } from "../../../../lib/ground/complaint.js";
import { estimate } from "../../../../lib/ground/estimate.js";
import { series, type Series } from "../../../../lib/record/series.js";
import { expectClose } from "../../../close.js";

const _ = Number.NaN;
const hourMs = 3_600_000;
const named = (...names: string[]): LineOfTide[] => names.map((name) => tideLines.find((l) => l.name === name)!);

describe("lines that are fitted", () => {
  const names = (asked: readonly string[], withS4 = true) => {
    const { lines, reported } = fittedLines("fitTides", asked, withS4);
    return [lines.map((l) => l.name), reported];
  };

  it("S1 to S4 always, S4 told only where asked for, the moon's by its old name too, in the table's order", () => {
    expect(names([])).toEqual([["S1", "S2", "S3", "S4"], ["S1", "S2", "S3"]]);
    expect(names(["S4"])).toEqual([["S1", "S2", "S3", "S4"], ["S1", "S2", "S3", "S4"]]);
    expect(names(["K2", "M2", "S1"], false)).toEqual([["S1", "S2", "S3", "L2", "K2"], ["S1", "S2", "S3", "L2", "K2"]]);
  });

  it("refuses what is no line, and S4 that the readings cannot carry", () => {
    expect(() => names(["S2", "S7"])).toThrow(new TypeError('fitTides: lines must be among S1, S2, S3, S4, L2, K1, P1, O1, N2, T2, R2, K2 (got "S7")'));
    let caught: unknown;
    try {
      names(["S4"], false);
    } catch (error) {
      caught = error;
    }
    expect(caught).toBeInstanceOf(RecordError);
    expect((caught as RecordError).kind).toBe("data");
    expect((caught as RecordError).message).toBe("fitTides: lines must be carried by the readings (got S4 with 9 readings a day or fewer); drop S4 or log every two hours or oftener");
  });

  it("two lines are told apart from one turn of their difference on; the closest pair is named", () => {
    const need = (days: number, ...lines: string[]) => () => requireSeparable("fitTides", named(...lines), days);
    // S1 to S3 differ by a cycle a day, and have a rule of their own.
    expect(need(0.5, "S1", "S2", "S3")).not.toThrow();
    const beat = 1 / (cyclesPerDay(named("K2")[0]) - 2);
    expect(need(beat - 1e-6, "S2", "K2")).toThrow("fitTides: lines must be separable over the record (got S2 and K2 in 182.6 d, need 182.7 d (Rayleigh)); drop one or log longer");
    expect(need(beat, "S2", "K2")).not.toThrow();
    expect(need(10, "S2", "L2", "K2")).toThrow("got S2 and K2 in 10.0 d");
    expect(need(10, "K2", "S2", "L2")).toThrow("got K2 and S2 in 10.0 d");
    expect(need(100, "S2", "L2", "K2")).toThrow("got S2 and K2 in 100.0 d");
    expect(need(14, "S2", "L2", "S1")).toThrow("got S2 and L2 in 14.0 d, need 14.8 d");
    try {
      need(1, "S2", "L2")();
    } catch (error) {
      expect((error as RecordError).kind).toBe("data");
    }
  });

  it("pairs: the turn since 2000, and what an average over its readings' time leaves", () => {
    const [s2, l2] = pairsOf(named("S2", "L2"), tideEpoch + 10 * 86_400_000, 10_800);
    expect([s2.cyclesPerDay, s2.turn]).toEqual([2, 0]);
    // Three hours of twelve: sin(π/4)/(π/4).
    expectClose(s2.damping, 0.9003163161571062, { absolute: 1e-12 });
    expectClose(l2.turn, 0.32273613333, { absolute: 1e-9 }, "ten days of 1.932273613 a day: 19.32");
    expectClose(pairsOf(named("L2"), tideEpoch - 86_400_000, 0)[0].turn, 2 - 1.932273613, { absolute: 1e-9 });
    expect(pairsOf(named("S1"), tideEpoch, 0)[0]).toEqual({ cyclesPerDay: 1, turn: 0, damping: 1 });
  });

  it("each line says what it is, in words of its own", () => {
    expect(tideLines.every((l) => /^[a-zS][\w ,:']+$/.test(l.says) && Object.isFrozen(l))).toBe(true);
    expect(new Set(tideLines.map((l) => l.says)).size).toBe(12);
    expect(Object.isFrozen(tideLines)).toBe(true);
  });

  it("arguments at 2000 are sums of the mean longitudes, from 0 to 360", () => {
    // Moon 211.7283, sun 279.9736, perigees 83.2975 and 282.9373: the table in the file.
    const at = (name: string): number => argumentAtEpoch(named(name)[0]);
    expect(["S1", "S2", "S3", "S4"].map(at)).toEqual([0, 0, 0, 0]);
    expectClose(at("L2"), 2 * 279.9736 - 2 * 211.7283, { absolute: 1e-9 });
    expectClose(at("P1"), 360 - 279.9736, { absolute: 1e-9 });
    expectClose(at("K1"), 279.9736, { absolute: 1e-9 });
    expectClose(at("O1"), 360 + 279.9736 - 2 * 211.7283, { absolute: 1e-9 });
    expectClose(at("N2"), -3 * 211.7283 + 2 * 279.9736 + 83.2975, { absolute: 1e-9 });
    expectClose(at("T2"), 282.9373 - 279.9736, { absolute: 1e-9 });
    expectClose(at("R2"), 360 + 279.9736 - 282.9373, { absolute: 1e-9 });
    expectClose(at("K2"), 2 * 279.9736 - 360, { absolute: 1e-9 });
  });
});

describe("tideAt by hand", () => {
  const coefficient = (perDay: number, cosine: number, sine: number) => ({ cyclesPerDay: perDay, cosine, sine });
  const made = (all: readonly object[], averagedOver = 0): TideFit => ({ epoch: tideEpoch, unit: "hPa", averagedOver, coefficients: all }) as unknown as TideFit;
  const all = [coefficient(1, 0.5, -0.2), coefficient(2, 1, 0.3), coefficient(2, 0.1, 0.1), coefficient(6, -0.04, 0.02), coefficient(7, 0.3, 0.1), coefficient(1.932, 0.06, -0.03), coefficient(0, 0.7, 5)];
  const plain = (days: number, damping: (f: number) => number = () => 1): number => all.reduce((sum, { cyclesPerDay: f, cosine, sine }) => sum + damping(f) * (cosine * Math.cos(2 * Math.PI * f * days) + sine * Math.sin(2 * Math.PI * f * days)), 0);

  it("is the sum of all lines, daily or not, at instants given either way", () => {
    const days = [0, 0.3, 11.77, -4.21];
    const at = days.map((d) => tideEpoch + d * 86_400_000);
    const got = tideAt(made(all), at);
    const relative = tideAt(made(all), { start: tideEpoch - 86_400_000, seconds: Float64Array.from(days, (d) => 86_400 * (d + 1)) });
    days.forEach((d, i) => {
      expectClose(got[i], plain(d), { absolute: 1e-9 }, `at ${d} d`);
      expectClose(relative[i], plain(d), { absolute: 1e-9 }, `at ${d} d by seconds`);
    });
    expectClose(tideAt(made([coefficient(1.5, 2, 1)]), [tideEpoch + 8 * hourMs])[0], -2, { absolute: 1e-12 });
    expect([...tideAt(made([]), [0, 1])]).toEqual([0, 0]);
  });

  it("an average over three hours leaves sin(x)/x of each line", () => {
    const got = tideAt(made(all), [tideEpoch + 0.3 * 86_400_000], { averagedOver: 10_800 })[0];
    const damping = (f: number): number => (f === 0 ? 1 : Math.sin((Math.PI * f) / 8) / ((Math.PI * f) / 8));
    expectClose(got, plain(0.3, damping), { absolute: 1e-12 });
    expect(() => tideAt(made(all), [0], { averagedOver: -1 })).toThrow(new RangeError("tideAt: averagedOver must be from 0 to 21600 s (got -1 s)"));
  });

  it("taken out of a series as its readings were averaged; °C against a fit in K, and no other units", () => {
    const given: Series = series({ times: [tideEpoch + 0.3 * 86_400_000, tideEpoch + 86_400_000], values: [10, null], quantity: "surface_air_pressure" });
    const rest = withoutTide(given, made(all, 10_800));
    expectClose(rest.values[0], 10 - tideAt(made(all), [tideEpoch + 0.3 * 86_400_000], { averagedOver: 10_800 })[0], { absolute: 1e-12 });
    expect([rest.values[1], Object.isFrozen(rest), given.values[0]]).toEqual([_, true, 10]);
    const kelvin = { ...made([]), unit: "K" };
    expect(withoutTide({ ...given, unit: "degC" }, kelvin).unit).toBe("degC");
    expect(() => withoutTide({ ...given, unit: "degC" }, made([]))).toThrow(new RangeError('withoutTide: series must be in the fit\'s unit, hPa (got "degC")'));
    expect(() => withoutTide(given, kelvin)).toThrow("withoutTide: series must be in the fit's unit, K");
  });
});

describe("meanDay by hand", () => {
  const start = Date.UTC(2024, 0, 1);
  const of = (hours: readonly number[], values: readonly (number | null)[]): Series => series({ times: hours.map((h) => start + hourMs * h), values, quantity: "surface_air_pressure" });

  it("departures from the means of days, spread over days, days with four fifths of the hours that are ever there", () => {
    // Hours 0, 6, 12, 18 of three days; the second lacks two, the third one of them: four fifths of four are 3.2.
    const got = meanDay(of([0, 6, 12, 18, 24, 30, 48, 54, 60, 66, 72, 78, 84], [1, 2, 3, 6, 50, 50, 5, 5, 9, 9, 70, 70, 70]), { offset: 0 });
    expect(got.days.filter((n) => n > 0)).toEqual([2, 2, 2, 2]);
    expect([0, 6, 12, 18].map((h) => got.departure[h])).toEqual([-2, -1.5, 1, 2.5]);
    expect([0, 6, 12, 18].map((h) => got.mean[h])).toEqual([3, 3.5, 6, 7.5]);
    [0, Math.SQRT1_2, Math.SQRT2, Math.SQRT1_2].forEach((v, i) => {
      expectClose(got.spread[6 * i], v, { absolute: 1e-14 }, `spread ${i}`);
    });
    expect([got.mean[1], got.departure[1], got.spread[1], got.days[1], got.unit]).toEqual([_, _, _, 0, "hPa"]);
    expect([got.mean, got.departure, got.spread, got.days].every(Object.isFrozen)).toBe(true);
    expect(meanDay({ ...of([0, 1, 24, 25], [1, 2, 3, 4]), values: Float64Array.of(1e200, -1e200, -1e200, 1e200) }, { offset: 0 }).spread[0]).toBe(_);
    const five = meanDay(of([0, 6, 12, 18, 20, 24, 30, 36, 42], [1, 1, 1, 1, 6, 3, 3, 3, 3]), { offset: 0 });
    expect([five.days[0], five.days[20], five.mean[0], five.spread[20]]).toEqual([2, 1, 2, _]);
  });

  it("readings of an hour are averaged first; hours are those of the place, ends and beginnings too", () => {
    const got = meanDay(of([0, 0.5, 1, 23.99], [1, 3, 5, 8]), { offset: 0 });
    expect([got.mean[0], got.mean[1], got.mean[23], got.departure[0]]).toEqual([2, 5, 8, -3]);
    const east = meanDay(of([0, 1], [1, 3]), { longitude: 30 });
    expect([east.mean[2], east.mean[3]]).toEqual([1, 3]);
    const west = meanDay(of([0, 1], [1, 3]), { offset: -2 });
    expect([west.mean[22], west.mean[23], west.days[23]]).toEqual([1, 3, 1]);
    for (const longitude of [-180, 180]) expect(meanDay(of([0, 1], [1, 3]), { longitude }).mean[12]).toBe(1);
    for (const offset of [-26, 26]) expect(meanDay(of([0, 1], [1, 3]), { offset }).days[(24 + offset + 24) % 24]).toBe(1);
  });

  it("refuses no zone, two, and one that is none", () => {
    const day = of([0], [1]);
    expect(() => meanDay(day, {})).toThrow(new TypeError("meanDay: options must give longitude or offset (got neither)"));
    expect(() => meanDay(day, { longitude: 1, offset: 1 })).toThrow(new TypeError("meanDay: options must give longitude or offset (got both)"));
    expect(() => meanDay(day, { longitude: 181 })).toThrow("meanDay: longitude must be from -180 to 180 degrees east (got 181 degrees east)");
    expect(() => meanDay(day, { offset: 27 })).toThrow("meanDay: offset must be from -26 to 26 h (got 27 h)");
  });

  it("as text: 24 lines under a head", () => {
    const text = (meanDay(of([0, 1], [1, 3]), { offset: 0 }) as unknown as Record<symbol, () => Record<string, string>>)[Symbol.for("Jupyter.display")]()["text/plain"].split("\n");
    expect([text.length, ...text.slice(0, 4)]).toEqual([25, "hour  mean  departure", "00  1.00  -1.00", "01  3.00  1.00", "02  NaN  NaN"]);
  });
});

describe("a fit as text", () => {
  const around = (value: number, half: number, unit: string) => estimate({ value, standardError: half / 2, low: value - half, high: value + half, unit });
  const line = (name: string, half: number, crest: number | null = 9): Constituent => ({
    name, cyclesPerDay: 2, amplitude: around(1.23456, half, "hPa"), maximumAt: crest === null ? null : around(crest, 0.05, "h"), detected: crest !== null, detectionLimit: 0.0456, noiseDensity: 1,
  });
  const made = (constituents: readonly Constituent[], more: Partial<TideFit> = {}): string[] =>
    tideText({ place: "here", quantity: "surface_air_pressure", days: 30.04, hours: 700, mean: 1000.06, unit: "hPa", constituents, warnings: ["first", "second"], ...more } as unknown as TideFit).split("\n");

  it("head, lines with their clocks, warnings, and what the brackets are", () => {
    expect(made([line("S2", 0.05), line("L2", 0.05), line("K1", 0.05), line("S1", 0.05, null)])).toEqual([
      "here, surface_air_pressure: 30.0 days, 700 hours with readings, mean 1000.1 hPa",
      "  S2  1.235 hPa (1.185 to 1.285)  crest at 9.000 h (8.950 to 9.050) sun time",
      "  L2  1.235 hPa (1.185 to 1.285)  crest at 9.000 h (8.950 to 9.050) lunar hours after the moon's transit",
      "  K1  1.235 hPa (1.185 to 1.285)  crest at 9.000 h (8.950 to 9.050) of its own clock",
      "  S1  1.235 hPa (1.185 to 1.285)  not detected; this record would show 0.046 hPa",
      "  ! first",
      "  ! second",
      "  In brackets: 95 % intervals.",
    ]);
    expect(made([], { unit: "K", warnings: [] })).toEqual(["here, surface_air_pressure: 30.0 days, 700 hours with readings, mean 1000.1 degC", "  In brackets: 95 % intervals."]);
  });

  it("two digits of the interval's half, none after the point for wide ones, six at most, three where there is none", () => {
    const shown = (half: number): string => made([line("S2", half)])[1].split("  ")[2].split(" ")[0];
    expect([30, 3, 0.3, 0.03, 3e-7, 0].map(shown)).toEqual(["1", "1.2", "1.23", "1.235", "1.234560", "1.235"]);
  });
});

describe("warnings of a tide", () => {
  const midnight = Date.UTC(2024, 2, 1);
  /** Four days of hours, of which some are thin. */
  const steps = (isThere: (h: number) => boolean, firstHour = 0): TideSteps => ({ midnight, perHour: 2, firstHour, hours: 96, phase: 0, values: Float64Array.from({ length: 192 }, (_v, k) => (isThere(firstHour + Math.floor(k / 2)) ? 1 : _)), instants: new Float64Array(192), regular: true });
  const of = (more: Partial<TideCircumstances> = {}): string[] =>
    tideWarnings({ quantity: "surface_air_pressure", unit: "hPa", days: 400, spacing: 1800, straight: null, jumps: [], midnight, steps: steps(() => true), changes: false, seasonSays: "The season changes it.", ...more });

  it("a year of whole hours has none", () => {
    expect(of()).toEqual([]);
  });

  it("up to twenty days, drawn lines, rare readings", () => {
    expect(of({ days: 20 })).toEqual(["Only 20.0 days: the intervals are wide and less well tried; 20 days or more are better."]);
    expect(of({ days: 20.1 })).toEqual([]);
    expect(of({ straight: 10_800 })).toEqual(["Readings lie on straight lines between every 3 h: only those were fitted, the others were drawn, not measured."]);
    expect(of({ straight: 5400 })[0]).toMatch(/between every 90 min:/);
    expect(of({ spacing: 9000 })).toEqual(["Readings come every 150 min: S3 may be off by a few hundredths of its unit, because faster beats look like it."]);
    expect(of({ spacing: 8999 })).toEqual([]);
  });

  it("hours of the day with under half of the usual number of readings, by their UTC hour", () => {
    const says = (hours: string): string => `Some hours of the day are hardly covered (UTC ${hours} h): the tide rests on the others.`;
    expect(of({ steps: steps((h) => h % 24 !== 3 && h % 24 !== 20) })).toEqual([says("03, 20")]);
    expect(of({ steps: steps((h) => ((h % 24) + 24) % 24 !== 3, -7) })).toEqual([says("03")]);
    // One of four days lost leaves three quarters, three lost a quarter, two lost a half of what others have: just over half of the mean.
    for (const [lost, isTold] of [[1, false], [2, false], [3, true]] as const) expect(of({ steps: steps((h) => h % 24 !== 5 || h >= 24 * lost) }).length).toBe(isTold ? 1 : 0);
    expect(of({ steps: steps((h) => h % 24 !== 3), spacing: 5399 }).length).toBe(1);
    expect(of({ steps: steps((h) => h % 24 !== 3), spacing: 5400 })).toEqual([]);
    expect(of({ steps: steps(() => false) })).toEqual([]);
  });

  it("jumps by their instant, with their size where it is known", () => {
    expect(of({ jumps: [{ at: 36_060, size: -3.24 }, { at: 90_000, size: _ }] })).toEqual([
      "The level jumps by -3.2 hPa at 2024-03-01T10:01Z: each part was given its own mean and slope.",
      "The level may have changed at 2024-03-02T01:00Z: each part was given its own mean and slope.",
    ]);
  });

  it("sea-level pressure, a season that changes it, and one that was not tested", () => {
    expect(of({ quantity: "air_pressure_at_mean_sea_level" })).toEqual([expect.stringMatching(/^This is sea-level pressure: the temperature used in its reduction adds a false tide.* Fit station pressure\.$/)]);
    expect(of({ changes: true })).toEqual(["The season changes it."]);
    expect(of({ changes: null, days: 123.5 })).toEqual(["This is the mean tide of these 124 days; the place's own may differ from it with the season, by more than the interval (S3 most). Ten months tell."]);
  });
});
