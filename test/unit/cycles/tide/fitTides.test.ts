import { beforeAll, describe, expect, it } from "vitest";
import { dailyCycle } from "../../../../lib/cycles/tide/dailyCycle.js";
import { fitTides } from "../../../../lib/cycles/tide/fitTides.js";
import { joinFits, tideSums } from "../../../../lib/cycles/tide/joinFits.js";
import { meanDay } from "../../../../lib/cycles/tide/meanDay.js";
import { tideAt, withoutTide } from "../../../../lib/cycles/tide/tideAt.js";
import type { TideFit } from "../../../../lib/cycles/tide/tideFit.js";
import { RecordError } from "../../../../lib/ground/complaint.js";
import { flagBit } from "../../../../lib/record/flag.js";
import { series, type Series } from "../../../../lib/record/series.js";
import { expectClose } from "../../../close.js";
import { changed, planted, tideRecord } from "../../../tideRecord.js";

const quiet = { name: "quiet", white: 0.02 };
const weather = { name: "weather", white: 0.1, ar1: { sd: 4, efolding: 2 } };
const lines = [
  { cyclesPerDay: 1, amplitude: 0.6, crest: 1.5 },
  { cyclesPerDay: 2, amplitude: 1.1, crest: 2.4 },
  { cyclesPerDay: 3, amplitude: 0.15, crest: 5 },
];
const start = Date.UTC(2024, 2, 1);
const hour = 3_600_000;
const record = (days: number, stepMinutes = 60, seed = 1, noise: Parameters<typeof tideRecord>[0]["noise"] = quiet): Series =>
  tideRecord({ days, stepMinutes, noise, lines, seed, missing: 0.05, start });
const line = (fit: TideFit, name: string): TideFit["constituents"][number] => {
  const found = fit.constituents.find((c) => c.name === name);
  if (found === undefined) throw new Error(`no ${name}`);
  return found;
};
const messageOf = (f: () => unknown): string => {
  try {
    f();
  } catch (error) {
    return `${(error as Error).name}: ${(error as Error).message}`;
  }
  return "no error";
};
const part = (s: Series, keep: (seconds: number) => boolean): Series => {
  const kept = Array.from(s.seconds, (t, i) => ({ t, i })).filter(({ t }) => keep(t));
  return series({ times: kept.map(({ t }) => s.start + 1000 * t), values: kept.map(({ i }) => s.values[i]), quantity: s.quantity });
};

describe("fitTides", () => {
  it("finds planted lines, in local mean solar time", () => {
    for (const longitude of [0, 110.2, -122.3, 180, -180]) {
      const fit = fitTides(record(40), { longitude });
      for (const [name, n, planted] of [["S1", 1, lines[0]], ["S2", 2, lines[1]], ["S3", 3, lines[2]]] as const) {
        const { amplitude, maximumAt, detected } = line(fit, name);
        expect(detected).toBe(true);
        expect(Math.abs(amplitude.value - planted.amplitude)).toBeLessThan(4.5 * amplitude.standardError);
        const wanted = (((planted.crest + longitude / 15) % (24 / n)) + 24 / n) % (24 / n);
        expect(maximumAt?.value).toBeGreaterThanOrEqual(0);
        expect(maximumAt?.value).toBeLessThan(24 / n);
        const away = Math.abs((maximumAt?.value ?? 99) - wanted);
        expect(Math.min(away, 24 / n - away)).toBeLessThan(4.5 * (maximumAt?.standardError ?? 0));
      }
      expect(fit.constituents.map((c) => c.name)).toEqual(["S1", "S2", "S3"]);
      expect(fit.coefficients.map((c) => c.name)).toEqual(["S1", "S2", "S3", "S4"]);
    }
  });

  it("carries what is needed to judge it", () => {
    const fit = fitTides(record(30, 20, 2, weather), { longitude: 10, lines: ["S4", "M2"] });
    expect(fit.constituents.map((c) => c.name)).toEqual(["S1", "S2", "S3", "S4", "L2"]);
    expect([fit.from, fit.to, fit.days]).toEqual([start, start + 720 * hour, 30]);
    expect(fit.readings + fit.leftOut).toBe(2160);
    expectClose(fit.coverage, fit.readings / 2160, { absolute: 1e-9 });
    expect(fit.means).toBe("bridged");
    expect([fit.unit, fit.quantity, fit.place]).toEqual(["hPa", "surface_air_pressure", "here"]);
    expect(fit.noise.whiteShare).toBeLessThan(0.5);
    expect(Object.isFrozen(fit) && Object.isFrozen(fit.constituents) && Object.isFrozen(fit.constituents[0]) && Object.isFrozen(fit.warnings)).toBe(true);
    for (const c of fit.constituents) {
      expect(c.amplitude.low).toBeLessThanOrEqual(c.amplitude.value);
      expect(c.amplitude.low === 0).toBe(!c.detected);
      expect(c.maximumAt === null).toBe(!c.detected);
      // s₀² is about density / T: 20 % of the readings' noise is lost to gaps and bridging at most.
      expectClose(c.noiseDensity / fit.days, (c.detectionLimit / 3.95) ** 2, { relative: 0.25 });
    }
    expect(JSON.parse(JSON.stringify(fit))).toEqual(fit);
  });

  it("finds the moon's tide on the moon's clock, whenever the record begins", () => {
    const moon = (at: number): number => {
      // Twice the mean moon's hour angle at 75° E, less the angle of a crest 4.2 lunar hours after its transit.
      const angle = 136.4907 + 28.9841042 * ((at - Date.UTC(2000, 0, 1)) / hour) + 150 - 30 * 4.2;
      return 0.4 * Math.cos((angle * Math.PI) / 180);
    };
    for (const begin of [Date.UTC(2019, 6, 7, 5), Date.UTC(2024, 1, 11)]) {
      const s = tideRecord({ days: 40, stepMinutes: 60, noise: quiet, lines, seed: 21, start: begin });
      const lunar = changed(s, { values: (v, i) => v + moon(s.start + 1000 * s.seconds[i]) });
      const fit = fitTides(lunar, { longitude: 75, lines: ["L2"] });
      expectClose(line(fit, "L2").amplitude.value, 0.4, { absolute: 0.01 });
      expectClose(line(fit, "L2").maximumAt?.value ?? Number.NaN, 4.2, { absolute: 0.03 });
      const at = begin + 1234 * hour;
      expectClose(tideAt(fit, [at])[0], planted(lines, at) + moon(at), { absolute: 0.03 });
    }
  });

  it("leaves out flagged and missing readings", () => {
    const s = record(20);
    const spoiled = Array.from(s.values, (v, i) => (i % 50 === 7 ? v + 80 : v));
    const flags = spoiled.map((_, i) => (i % 50 === 7 ? flagBit.spike : 0));
    const with_ = fitTides(series({ times: Array.from(s.seconds, (t) => s.start + 1000 * t), values: spoiled, flags, quantity: s.quantity }), { longitude: 0 });
    const without = fitTides(changed(s, { values: (v, i) => (i % 50 === 7 ? Number.NaN : v) }), { longitude: 0 });
    expect(with_).toEqual(without);
  });

  it("readings averaged over three hours are fitted at their full size", () => {
    const s = record(40);
    const averaged = changed(s, {
      values: (_, i) => 1000 + Array.from({ length: 50 }, (_, k) => 4 * k - 98).reduce((sum, m) => sum + planted(lines, s.start + 1000 * s.seconds[i] + m * 60_000), 0) / 50 + 0.001 * Math.sin(i * i),
    });
    // Fifty points: the mean over 200 minutes by the midpoint rule.
    const fit = fitTides(averaged, { longitude: 0, averagedOver: 12_000 });
    for (const [k, name] of ["S1", "S2", "S3"].entries()) expectClose(line(fit, name).amplitude.value, lines[k].amplitude, { relative: 0.01 }, name);
    expectClose(line(fitTides(averaged, { longitude: 0 }), "S3").amplitude.value, 0.15 * (Math.sin(1.309) / 1.309), { relative: 0.01 });
    const rest = withoutTide(averaged, fit);
    expect(Math.max(...Array.from(rest.values, (v) => Math.abs(v - 1000)))).toBeLessThan(0.01);
  });

  it("white noise at fine steps switches to plain means", () => {
    const s = tideRecord({ days: 20, stepMinutes: 10, noise: { name: "white", white: 0.5 }, lines, seed: 3, missing: 0.2 });
    expect(fitTides(s, { longitude: 0 }).means).toBe("plain");
    expect(fitTides(record(20), { longitude: 0 }).means).toBe("hourly");
  });

  it("a jump is split off and told", () => {
    const s = record(40, 20, 5, weather);
    const fit = fitTides(changed(s, { values: (v, i) => v + (s.seconds[i] > 20.5 * 86_400 ? 20 : 0) }), { longitude: 0 });
    expect(fit.jumps.length).toBe(1);
    expect(fit.warnings.join()).toMatch(/The level jumps by \d+\.\d hPa at 2024-03-21T1[12]:\d\dZ: each part was given its own mean and slope\./);
    const untouched = fitTides(s, { longitude: 0 });
    expectClose(line(fit, "S2").amplitude.value, line(untouched, "S2").amplitude.value, { absolute: line(untouched, "S2").amplitude.standardError });
    const told = fitTides(s, { longitude: 0, events: [start + 15 * 86_400_000] });
    expect(told.jumps).toEqual([{ at: start + 15 * 86_400_000, size: null }]);
  });

  it("three-hourly readings joined to hourly: only the true ones, with both warnings", () => {
    const s = tideRecord({ days: 40, stepMinutes: 60, noise: weather, lines, seed: 6, start });
    const joined = changed(s, { values: (_, i) => s.values[i - (i % 3)] + ((s.values[Math.min(s.values.length - 1, i - (i % 3) + 3)] - s.values[i - (i % 3)]) * (i % 3)) / 3 });
    const fit = fitTides(joined, { longitude: 0 });
    expect(fit.readings).toBe(320);
    expect(fit.warnings[0]).toBe("Readings lie on straight lines between every 3 h: only those were fitted, the others were drawn, not measured.");
    expect(fit.warnings[1]).toContain("S3");
    const sparse = fitTides(part(s, (t) => (t / 3600) % 3 === 0), { longitude: 0 });
    expect(line(fit, "S2").amplitude).toEqual(line(sparse, "S2").amplitude);
    expect(sparse.coefficients.map((c) => c.name)).toEqual(["S1", "S2", "S3"]);
    expect(sparse.warnings.some((w) => w.includes("straight"))).toBe(false);
  });

  it("hours of the day that are hardly covered are told", () => {
    const s = record(30, 60, 8, weather);
    const fit = fitTides(part(s, (t) => ![9, 10, 11, 12].includes((t / 3600) % 24) || t > 25 * 86_400), { longitude: 0 });
    expect(fit.warnings.join()).toContain("(UTC 09, 10, 11, 12 h)");
    expect(fitTides(s, { longitude: 0 }).warnings.join()).not.toContain("hardly covered");
  });

  it("months are those of local mean solar time, and of more than 60 days", () => {
    expect(fitTides(record(60), { longitude: 0 }).climatology).toEqual([]);
    const fit = fitTides(record(92), { longitude: 0 });
    expect(fit.climatology.map((m) => m.month)).toEqual([3, 4, 5]);
    expect(fit.climatology.map((m) => Math.round(m.days / 0.95))).toEqual([31, 30, 31]);
    for (const { constituents } of fit.climatology) expectClose(constituents[1].amplitude.value, 1.1, { absolute: 4.5 * constituents[1].amplitude.standardError });
    expect(fitTides(record(40), { longitude: 0, climatology: true }).climatology.map((m) => m.month)).toEqual([3, 4]);
    // 1 March 00:00 UTC is still February at 90° W; seven hours are no month.
    expect(fitTides(record(92), { longitude: -90 }).climatology.map((m) => m.month)).toEqual([3, 4, 5]);
    expect(fitTides(tideRecord({ days: 62, stepMinutes: 60, noise: quiet, lines, seed: 9, start: start - 6 * hour }), { longitude: 180 }).climatology.map((m) => [m.month, m.days])).toEqual([[3, 30.75], [4, 30]]);
  });

  it("a tide that changes with the season is told from 300 days on", () => {
    const yearly = (s: Series): Series =>
      changed(s, { values: (v, i) => v + 0.5 * Math.cos((2 * Math.PI * s.seconds[i]) / 86_400 / 365.25) * planted([lines[1]], s.start + 1000 * s.seconds[i]) });
    const steady = fitTides(record(365, 60, 11, weather), { longitude: 0 }).seasonal;
    expect([steady.changes, steady.lines.length]).toEqual([false, 3]);
    const changing = fitTides(yearly(record(365, 60, 11, weather)), { longitude: 0 });
    expect(changing.seasonal.changes).toBe(true);
    expect(changing.seasonal.says).toMatch(/changes with the season \(S2, p (< 0\.0001|= 0\.00\d+)\): the numbers are the mean over the record/);
    expect(steady.says).toMatch(/stands out in these 365 days \(smallest p = 0\.\d+ of S1, S2 and S3, each tested at 1 %\)\./);
    expect(changing.warnings).toContain(changing.seasonal.says);
    expect(changing.seasonal.pValue).toBeLessThan(0.01);
    const short = fitTides(yearly(record(200, 60, 11, weather)), { longitude: 0 });
    expect([short.seasonal.changes, short.seasonal.pValue]).toEqual([null, null]);
    expect(short.warnings.join()).toContain("This is the mean tide of these 200 days; the place's own may differ from it with the season");
  });
});

describe("as text", () => {
  const text = (fit: object): string => (fit as Record<symbol, () => Record<string, string>>)[Symbol.for("Jupyter.display")]()["text/plain"];
  it("one line a constituent, with what is not detected told as such", () => {
    const fit = fitTides(record(30, 60, 3, weather), { longitude: 0, lines: ["L2"] });
    const lines_ = text(fit).split("\n");
    expect(lines_[0]).toMatch(/^here, surface_air_pressure: 30\.0 days, 6\d\d hours with readings, mean 9\d\d\.\d hPa$|mean 10\d\d\.\d hPa$/);
    expect(lines_[2]).toMatch(/^ {2}S2 {2}\d\.\d\d hPa \([\d.]+ to [\d.]+\) {2}crest at [\d.]+ h \([\d.]+ to [\d.]+\) sun time$/);
    expect(lines_[4]).toMatch(/^ {2}L2 .* not detected; this record would show 0\.\d+ hPa$/);
    expect(lines_.at(-1)).toBe("  In brackets: 95 % intervals.");
    expect(text(meanDay(record(5), { offset: 0 })).split("\n").length).toBe(25);
  });
});

describe("what is refused", () => {
  const data = /^RecordError: /;
  it.each([
    ["under three days", () => fitTides(part(record(10), (t) => t < 71 * 3600 && t > 0), { longitude: 0 }), data, "fitTides: series must last at least 3 whole days (got 2.9 d); log longer"],
    ["nothing usable", () => fitTides(changed(record(5), { values: () => Number.NaN }), { longitude: 0 }), data, "(got 0 of 120 readings usable)"],
    ["one every six hours", () => fitTides(part(record(30), (t) => (t / 3600) % 6 === 0), { longitude: 0 }), data, "must hold a reading every 3 hours or oftener (got one every 6.0 h); log oftener"],
    ["S2 and L2 in 9 days", () => fitTides(record(9), { longitude: 0, lines: ["L2"] }), data, "lines must be separable over the record (got S2 and L2 in 9.0 d, need 14.8 d (Rayleigh)); drop one or log longer"],
    ["S1 and K1 in 100 days", () => fitTides(record(100), { longitude: 0, lines: ["K1"] }), data, "S1 and K1 in 100.0 d, need 365.3 d (Rayleigh)"],
    ["S4 from three-hourly readings", () => fitTides(part(record(30), (t) => (t / 3600) % 3 === 0), { longitude: 0, lines: ["S4"] }), data, "9 readings a day or fewer"],
    ["four hours of each day only", () => fitTides(part(record(30), (t) => (t / 3600) % 24 < 4), { longitude: 0 }), data, "must carry the lines asked for"],
    ["readings that never change", () => fitTides(changed(record(20), { values: () => 1000 }), { longitude: 0 }), data, "must carry the lines asked for"],
    ["an unknown line", () => fitTides(record(20), { longitude: 0, lines: ["S9"] }), /^TypeError: /, 'fitTides: lines must be among S1, S2, S3, S4, L2, K1, P1, O1, N2, T2, R2, K2 (got "S9")'],
    ["lines that are no list", () => fitTides(record(20), { longitude: 0, lines: "S2" as unknown as string[] }), /^TypeError: /, "lines must be a list of names"],
    ["temperature", () => fitTides({ ...record(20), quantity: "air_temperature" }, { longitude: 0 }), /^TypeError: /, "use dailyCycle for other quantities"],
    ["longitude 181", () => fitTides(record(20), { longitude: 181 }), /^RangeError: /, "longitude must be from -180 to 180 degrees east (got 181 degrees east)"],
    ["no longitude", () => fitTides(record(20), {} as { longitude: number }), /^TypeError: /, "longitude must be a number"],
    ["a week's average", () => fitTides(record(20), { longitude: 0, averagedOver: 604_800 }), /^RangeError: /, "averagedOver must be from 0 to 21600 s"],
    ["another unit", () => withoutTide({ ...record(5), unit: "%" }, fitTides(record(20), { longitude: 0 })), /^RangeError: /, "be in the fit's unit, hPa"],
    ["no place on earth for a mean day", () => meanDay(record(5), {}), /^TypeError: /, "give longitude or offset (got neither)"],
    ["two", () => meanDay(record(5), { longitude: 1, offset: 1 }), /^TypeError: /, "got both"],
    ["no sums", () => joinFits([]), /^RangeError: /, "at least one stretch"],
  ] as [string, () => unknown, RegExp, string][])("%s", (_, call, kind, words) => {
    expect(messageOf(call)).toMatch(kind);
    expect(messageOf(call)).toContain(words);
  });

  it("is of kind data, and exactly three days are enough", () => {
    try {
      fitTides(part(record(10), (t) => t < 60 * 3600), { longitude: 0 });
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(RecordError);
      expect((error as RecordError).kind).toBe("data");
    }
    const three = fitTides(tideRecord({ days: 3, stepMinutes: 20, noise: quiet, lines, seed: 2 }), { longitude: 0 });
    expect(three.days).toBe(3);
    expect(three.coefficients[0].degreesOfFreedom).toBe(12); // no side frequency below 5 days: 4 T
    expect(three.warnings[0]).toContain("Only 3.0 days");
    expect(new Set(fitTides(record(9, 60, 3), { longitude: 0 }).coefficients.map((c) => c.noiseRatio)).size).toBe(1); // one ratio for all
    expect(new Set(fitTides(record(21, 60, 3), { longitude: 0 }).coefficients.map((c) => c.noiseRatio)).size).toBe(4);
  });
});

describe("tideAt, withoutTide, meanDay, dailyCycle", () => {
  const s = record(40, 60, 4);
  let fit: TideFit;
  beforeAll(() => {
    fit = fitTides(s, { longitude: 30 });
  });
  it("the tide at instants, both ways of giving them", () => {
    const at = [start, start + 5 * hour, Number.NaN, start - 9000 * hour];
    const values = tideAt(fit, at);
    expect(values[2]).toBeNaN();
    for (const i of [0, 1, 3]) expectClose(values[i], planted(lines, at[i]), { absolute: 0.02 });
    const same = tideAt(fit, { start: start - hour, seconds: Float64Array.of(3600, 6 * 3600) });
    expectClose(same[0], values[0], { absolute: 1e-9 });
    expectClose(same[1], values[1], { absolute: 1e-9 });
  });
  it("an average over no time, over less than none or over more than six hours is refused; an instant that is none has no tide", () => {
    const at = (averagedOver: number) => () => tideAt(fit, [start], { averagedOver });
    for (const [over, got] of [[Number.NaN, "NaN s"], [Infinity, "Infinity s"], [-1, "-1 s"], [21_601, "21601 s"]] as const) expect(at(over)).toThrow(new RangeError(`tideAt: averagedOver must be from 0 to 21600 s (got ${got})`));
    expect(at(21_600)()[0]).not.toBeNaN();
    expect(at(0)()).toEqual(tideAt(fit, [start]));
    expect(tideAt(fit, [Infinity])[0]).toBeNaN();
  });
  it("without its tide a record has none, and keeps its mean, instants and flags", () => {
    const rest = withoutTide(s, fit);
    expect([rest.seconds, rest.flags, rest.start]).toEqual([s.seconds, s.flags, s.start]);
    expect(Object.isFrozen(rest)).toBe(true);
    const again = fitTides(rest, { longitude: 30 });
    for (const c of again.constituents) expect(c.amplitude.value).toBeLessThan(1e-4);
    expectClose(again.mean, fit.mean, { absolute: 1e-4 });
  });
  it("the mean day is the tide plus the level, in either time", () => {
    const day = meanDay(s, { longitude: 30 });
    const shifted = meanDay(s, { offset: 2 });
    expect(shifted).toEqual(day);
    for (let h = 0; h < 24; h++) {
      expectClose(day.departure[h], planted(lines, start + (h - 2) * hour), { absolute: 0.02 });
      expectClose(day.mean[h] - day.departure[h], 1000, { absolute: 0.01 });
      expect(day.spread[h]).toBeGreaterThan(0.005);
      expect(day.spread[h]).toBeLessThan(0.06);
      expect(day.days[h]).toBeGreaterThan(30);
    }
    expect(meanDay(part(s, (t) => t < 0), { offset: 0 }).mean.every((v) => Number.isNaN(v))).toBe(true);
    const half = meanDay(part(s, (t) => (t / 3600) % 24 < 12), { offset: 0 });
    expect(half.mean[3]).not.toBeNaN();
    expect(half.mean[15]).toBeNaN();
  });
  it("the daily cycle of temperature, with its caution, in K", () => {
    const fit = dailyCycle({ ...changed(s, { values: (v) => v - 985 }), quantity: "air_temperature", unit: "degC" }, { longitude: 0 });
    expect(fit.warnings[0]).toContain("not a sine");
    expect([fit.unit, fit.constituents[0].amplitude.unit, fit.quantity]).toEqual(["K", "K", "air_temperature"]);
    expectClose(fit.mean, 15, { absolute: 0.01 });
    const rest = withoutTide({ ...s, unit: "degC", quantity: "air_temperature" }, fit);
    expect(rest.unit).toBe("degC");
  });
});

describe("sums of months", () => {
  const s = record(120, 60, 12, weather);
  const month = (k: number): Series => part(s, (t) => Math.floor(t / 86_400 / 30) === k);
  let whole: TideFit;
  let first: TideFit;
  let sums: ReturnType<typeof tideSums>[];
  beforeAll(() => {
    whole = fitTides(s, { longitude: 20 });
    first = fitTides(part(s, (t) => t < 60 * 86_400), { longitude: 20 });
    sums = [0, 1, 2, 3].map((k) => JSON.parse(JSON.stringify(tideSums(month(k), first))) as ReturnType<typeof tideSums>);
  });

  it("add up to the fit of the whole, within what months of their own cost", () => {
    const joined = joinFits(sums);
    for (const name of ["S1", "S2", "S3"]) {
      const [a, b] = [line(joined, name).amplitude, line(whole, name).amplitude];
      expectClose(a.value, b.value, { absolute: 0.25 * b.standardError }, name); // own mean and slope a month, other θ
      expectClose(a.standardError, b.standardError, { relative: 0.25 }, name); // φ has ν of 76 there and 160 here: 20 %
    }
    expect([joined.days, joined.readings]).toEqual([120, whole.readings]);
    expectClose(joined.mean, whole.mean, { absolute: 2 });
    expect(JSON.stringify(sums[0]).length).toBeLessThan(4000);
  });
  it("the order is irrelevant, and one month joined is itself", () => {
    expect(joinFits([sums[2], sums[0], sums[1]])).toEqual(joinFits(sums.slice(0, 3)));
    const [a, b] = [joinFits([sums[0]]), fitTides(month(0), { longitude: 20 })];
    expectClose(line(a, "S2").amplitude.value, line(b, "S2").amplitude.value, { absolute: 0.2 * line(b, "S2").amplitude.standardError });
  });
  it("what cannot be added is refused", () => {
    expect(messageOf(() => joinFits([sums[0], sums[0]]))).toContain("must not overlap in time (got two that share 2024-03-01T00:00:00.000Z); leave one out");
    expect(messageOf(() => joinFits([sums[0], { ...sums[1], unit: "K" }]))).toContain('unit must be "hPa" in all sums (got "K")');
    expect(messageOf(() => joinFits([sums[0], { ...sums[1], lines: ["S1"] }]))).toContain("lines must be S1, S2, S3, S4 in all sums (got S1)");
    expect(messageOf(() => joinFits([{ ...sums[0], right: [1] }]))).toContain("have the size of their lines");
    expect(messageOf(() => joinFits([{} as (typeof sums)[0]]))).toContain("be made by tideSums");
    expect(messageOf(() => tideSums(part(s, (t) => t < 40 * 3600), first))).toContain("tideSums: series must last at least 3 days");
    expect(messageOf(() => tideSums({ ...s, unit: "K" }, first))).toContain("be in the fit's unit, hPa");
  });
});
