import { describe, expect, it } from "vitest";
import { fitTides } from "../../../../lib/cycles/tide/fitTides.js";
import type { TideFit } from "../../../../lib/cycles/tide/tideFit.js";
import { leastSquares } from "../../../../lib/ground/leastSquares.js";
import { series, type Series } from "../../../../lib/record/series.js";
import { expectClose } from "../../../close.js";
import { changed, planted, tideRecord } from "../../../tideRecord.js";

// Traps met in real records, planted one by one: the fit is unharmed, or it says a plain sentence. What the whole answer says of
// clock, level and size is in test/unit/answers/tideDoubts.test.ts; files with odd forms are the readers' matter.
const start = Date.UTC(2024, 2, 1);
const hour = 3_600_000;
const quiet = { name: "quiet", white: 0.03, ar1: { sd: 0.3, efolding: 1 } };
const weather = { name: "weather", white: 0.1, ar1: { sd: 4, efolding: 2 } };
const lines = [{ cyclesPerDay: 1, amplitude: 0.7, crest: 5 }, { cyclesPerDay: 2, amplitude: 1.1, crest: 10 }, { cyclesPerDay: 3, amplitude: 0.12, crest: 2 }];
const record = (days: number, stepMinutes = 60, noise: Parameters<typeof tideRecord>[0]["noise"] = quiet, seed = 41): Series => tideRecord({ days, stepMinutes, noise, lines, seed, start });
const line = (fit: TideFit, name: string): TideFit["constituents"][number] => fit.constituents.find((c) => c.name === name) as TideFit["constituents"][number];
const crest = (fit: TideFit, name: string): number => line(fit, name).maximumAt?.value ?? Number.NaN;
const tide = (s: Series, options: Partial<Parameters<typeof fitTides>[1]> = {}): TideFit => fitTides(s, { longitude: 0, ...options });
const part = (s: Series, keep: (seconds: number) => boolean): Series => {
  const kept = Array.from(s.seconds, (t, i) => ({ t, i })).filter(({ t }) => keep(t));
  return series({ times: kept.map(({ t }) => s.start + 1000 * t), values: kept.map(({ i }) => s.values[i]), quantity: s.quantity });
};

describe("traps of time", () => {
  /** Means over `minutes` of the tide alone, stamped at their end. */
  const stampedAtEnd = (minutes: number): Series => {
    const s = record(60, minutes);
    return changed(s, {
      values: (v, i) => {
        const end = s.start + 1000 * s.seconds[i];
        const mean = Array.from({ length: 60 }, (_, k) => planted(lines, end - ((k + 0.5) / 60) * minutes * 60_000)).reduce((a, b) => a + b, 0) / 60;
        return v - planted(lines, end) + mean;
      },
    });
  };
  it("an hourly mean stamped at its end comes half an hour late and 1 % too small; told, it is right", () => {
    const raw = tide(stampedAtEnd(60));
    expectClose(crest(raw, "S2"), 10.5, { absolute: 0.03 });
    expectClose(line(raw, "S2").amplitude.value, 1.1 * 0.9886, { absolute: 0.01 });
    // What a description with `sampling` does: stamps moved to the middle, the averaging told to the fit.
    const told = tide(changed(stampedAtEnd(60), { times: (t) => t - hour / 2 }), { averagedOver: 3600 });
    expectClose(crest(told, "S2"), 10, { absolute: 0.03 });
    expectClose(line(told, "S2").amplitude.value, 1.1, { absolute: 0.01 });
  });
  it("a three-hour mean stamped at its end comes an hour and a half late and a tenth too small; told, it is right", () => {
    const raw = tide(stampedAtEnd(180));
    expectClose(crest(raw, "S2"), 11.5, { absolute: 0.05 });
    expectClose(line(raw, "S2").amplitude.value, 1.1 * (Math.sin(Math.PI / 4) / (Math.PI / 4)), { absolute: 0.015 });
    const told = tide(changed(stampedAtEnd(180), { times: (t) => t - 1.5 * hour }), { averagedOver: 10_800 });
    expectClose(crest(told, "S2"), 10, { absolute: 0.05 });
    expectClose(line(told, "S2").amplitude.value, 1.1, { absolute: 0.015 });
  });
  it("stamps floored to the hour come early by what was cut off", () => {
    const s = record(60, 20);
    const floored = series({ times: Array.from(s.seconds, (t) => s.start + 1000 * (t - (t % 3600))), values: Array.from(s.values), quantity: s.quantity });
    expectClose(crest(tide(floored), "S2"), 10 - 1 / 3, { absolute: 0.03 });
  });
  it("summer time read as a fixed offset over half of the record: half an hour late and 2 to 4 % too small", () => {
    const s = record(180);
    const fit = tide(changed(s, { times: (t) => t + (t > start + 90 * 24 * hour ? hour : 0) }));
    expectClose(crest(fit, "S2"), 10.5, { absolute: 0.1 });
    expectClose(line(fit, "S2").amplitude.value, 1.1 * Math.cos((Math.PI * 0.5) / 6), { absolute: 0.02 });
  });
  it("a clock that gains ten seconds a day: S2 half an hour late over the year, its size unchanged within 1 %", () => {
    const s = record(365);
    const fit = tide(changed(s, { times: (t) => t + 10 * ((t - start) / 86_400) }), { climatology: false });
    expectClose(crest(fit, "S2"), 10.5, { absolute: 0.1 });
    expectClose(line(fit, "S2").amplitude.value, 1.1, { relative: 0.015 });
  });
});

describe("traps of readings", () => {
  it("every third hour joined by straight lines: only the true ones are fitted, and the tide keeps its size", () => {
    const s = record(60, 60, weather);
    const at = (i: number): number => s.values[Math.min(s.values.length - 1, i)];
    const joined = changed(s, { values: (_, i) => at(i - (i % 3)) + ((at(i - (i % 3) + 3) - at(i - (i % 3))) * (i % 3)) / 3 });
    const [fit, whole] = [tide(joined), tide(s)];
    expect(fit.warnings[0]).toBe("Readings lie on straight lines between every 3 h: only those were fitted, the others were drawn, not measured.");
    // Fitted as they stand they would come out 0.811 times the size: (sin x / x)², x = π/4 (theory).
    expectClose(line(fit, "S2").amplitude.value, line(whole, "S2").amplitude.value, { absolute: 0.08 });
    expect(line(fit, "S2").amplitude.standardError).toBeGreaterThan(0.9 * line(whole, "S2").amplitude.standardError);
  });
  it("three-hourly reports: S2 within 0.02 hPa, and S3 is warned of", () => {
    const s = record(90);
    const sparse = tide(part(s, (t) => (t / 3600) % 3 === 0));
    expectClose(line(sparse, "S2").amplitude.value, line(tide(s), "S2").amplitude.value, { absolute: 0.02 });
    expect(sparse.warnings.join("\n")).toContain("Readings come every 3 h: S3 may be off by a few hundredths");
  });
  it("rounding to 1 hPa, 1 mmHg or 0.01 inHg changes S2 by 0.02 hPa at most over months, and no warning more is given", () => {
    const s = record(120, 60, weather);
    const plain = tide(s);
    for (const unit of [1, 1.333224, 0.3386389]) {
      const rounded = tide(changed(s, { values: (v) => Math.round(v / unit) * unit }));
      for (const name of ["S1", "S2", "S3"]) expectClose(line(rounded, name).amplitude.value, line(plain, name).amplitude.value, { absolute: 0.02 }, `${name}, rounded to ${unit} hPa`);
      expect(rounded.warnings).toEqual(plain.warnings);
    }
  });
  it("broken days are kept: every reading counts, however short its day", () => {
    const s = part(record(60, 60, weather), (t) => Math.floor(t / 86_400) % 3 !== 1 || (t / 3600) % 24 < 15);
    const fit = tide(s);
    expect([fit.readings, fit.hours]).toEqual([s.values.length, s.values.length]);
    expect(line(fit, "S2").detected).toBe(true);
  });
  it("a logger off at night: the hours without readings are named, and the interval is as wide as it must be", () => {
    const s = record(60, 60, weather, 42);
    const fit = tide(part(s, (t) => (t / 3600) % 24 >= 6 && (t / 3600) % 24 < 20));
    expect(fit.warnings.join("\n")).toContain("Some hours of the day are hardly covered (UTC 00, 01, 02, 03, 04, 05, 20, 21, 22, 23 h): the tide rests on the others.");
    for (const [k, c] of fit.constituents.entries()) {
      expect(c.amplitude.low).toBeLessThanOrEqual(lines[k].amplitude);
      expect(c.amplitude.high).toBeGreaterThanOrEqual(lines[k].amplitude);
    }
    expect(line(fit, "S1").detectionLimit).toBeGreaterThan(1.5 * line(tide(s), "S1").detectionLimit);
  });
  it("one step of the barometer in mid-record is split off and told, and the tide stays what it was", () => {
    const s = record(60);
    const fit = tide(changed(s, { values: (v, i) => v + (i >= 30 * 24 + 7 ? 2.5 : 0) }));
    expect(fit.jumps.length).toBe(1);
    expect(fit.warnings.join("\n")).toMatch(/The level jumps by 2\.\d hPa at 2024-03-31T06:30Z: each part was given its own mean and slope\./);
    expectClose(line(fit, "S2").amplitude.value, line(tide(s), "S2").amplitude.value, { absolute: 0.005 });
  });
  it("three days are answered with a warning; nineteen hours are refused", () => {
    const three = tide(record(3, 20));
    expect(three.warnings.join("\n")).toContain("Only 3.0 days: the intervals are wide and less well tried; 20 days or more are better.");
    expect(() => tide(part(record(3, 20), (t) => t < 19 * 3600))).toThrow("fitTides: series must last at least 3 whole days (got 0.7 d); log longer");
  });
});

describe("traps of intervals", () => {
  it("least squares with errors of white noise tells a false interval, too wide or too narrow; the fit's own is the exact one within 15 %", () => {
    const days = 100;
    const table: readonly (readonly [tau: number, name: "S1" | "S2" | "S3", low: number, high: number])[] = [
      // White errors over exact ones: too wide where weather is slow, too narrow where it is quick.
      [2, "S1", 1.1, 1.5], [2, "S2", 1.8, 3.2], [2, "S3", 2.5, 5], [0.15, "S1", 0.4, 0.65], [0.15, "S2", 0.5, 0.85],
    ];
    for (const tau of [2, 0.15]) {
      const fits = [51, 52, 53, 54].map((seed) => {
        const s = record(days, 60, { name: "red", white: 0.01, ar1: { sd: 4, efolding: tau } }, seed);
        const t = Array.from(s.seconds, (x) => x / 86_400);
        const columns = [t.map(() => 1), ...[1, 2, 3, 4].flatMap((k) => [t.map((x) => Math.cos(2 * Math.PI * k * x)), t.map((x) => Math.sin(2 * Math.PI * k * x))])];
        return { fit: tide(s, { climatology: false }), white: leastSquares(columns, Array.from(s.values)).standardErrors };
      });
      for (const [, name, low, high] of table.filter((row) => row[0] === tau)) {
        const n = Number(name[1]);
        // Density of AR(1) in continuous time, one-sided, over the length: 4σ²τ / (1 + (ωτ)²) / T.
        const exact = Math.sqrt((4 * 16 * tau) / (1 + (2 * Math.PI * n * tau) ** 2) / days);
        const [ours, white] = [fits.map(({ fit }) => line(fit, name).amplitude.standardError), fits.map((f) => f.white[2 * n])].map((all) => all.reduce((a, b) => a + b, 0) / 4);
        expectClose(ours, exact, { relative: 0.15 }, `${name}, memory ${tau} d`);
        expect(white / exact, `${name}, memory ${tau} d`).toBeGreaterThan(low);
        expect(white / exact, `${name}, memory ${tau} d`).toBeLessThan(high);
      }
    }
  });
  it("below ten months the output says that the place's own tide may differ with the season, S3 most", () => {
    for (const days of [20, 100, 299]) {
      expect(tide(record(days, 60, weather), { climatology: false }).warnings.join("\n")).toContain(`This is the mean tide of these ${days} days; the place's own may differ from it with the season, by more than the interval (S3 most). Ten months tell.`);
    }
    expect(tide(record(301, 60, weather), { climatology: false }).warnings.join("\n")).not.toContain("the mean tide of these");
  });
});
