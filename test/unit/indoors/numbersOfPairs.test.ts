import { describe, expect, it } from "vitest";
import { type Estimate, estimate } from "../../../lib/ground/estimate.js";
import { random } from "../../../lib/ground/random.js";
import { bandResponse } from "../../../lib/indoors/bandResponse.js";
import { crossSpectrum } from "../../../lib/indoors/crossSpectrum.js";
import { type DailyResponse, dailyResponse } from "../../../lib/indoors/dailyResponse.js";
import { humidityClass } from "../../../lib/indoors/humidityClass.js";
import { laggedCorrelation, rawCorrelation } from "../../../lib/indoors/laggedCorrelation.js";
import { type ChangeSide, changesAt } from "../../../lib/indoors/pairChanges.js";
import { type PairHours, type PairNumbers, type PairWorkings, pairNumbers } from "../../../lib/indoors/pairNumbers.js";
import { timeConstant } from "../../../lib/indoors/timeConstant.js";
import { expectClose } from "../../close.js";
import { madeInside, madeOutside } from "./madeRecord.js";

const _ = Number.NaN;
const n = 24 * 30;
const outside = madeOutside(n, 31);
const inside = madeInside(outside, 9, 32);
const flat = (v: number, length = n): Float64Array => new Float64Array(length).fill(v);
const hoursOf = (parts: Partial<PairHours> = {}): PairHours => ({ insideTemperature: inside, outsideTemperature: outside, insideHumidity: flat(_), outsideHumidity: flat(_), ...parts });
const plain = { factor: 0.7, lagCorrection: 0, sensorMoisture: 0 };
const only = (values: Float64Array, keep: (h: number) => boolean): Float64Array => values.map((v, h) => (keep(h) ? v : _));

describe("pairNumbers", () => {
  // Asked in each test: what breaks while the tests are gathered fails none of them.
  const whole = () => pairNumbers(hoursOf(), plain);

  it("describes what both places share", () => {
    const { numbers, workings } = whole();
    const { numbers: few } = pairNumbers(hoursOf({ insideTemperature: Float64Array.of(1, 3, _, 9), outsideTemperature: Float64Array.of(2, 2, 50, _), insideHumidity: flat(_, 4), outsideHumidity: flat(_, 4) }), plain);
    expect(few.days).toBe(2 / 24);
    expectClose(few.spread.inside, Math.SQRT2, { absolute: 1e-14 });
    expect([few.spread.outside, few.spread.unit]).toEqual([0, "degC"]);
    expect([few.meanDifference, few.varianceRatio, few.decrementFactor, few.timeLag, few.timeConstant, few.maxCorrelation.value, few.maxCorrelation.lag, few.maxCorrelation.raw, few.response]).toEqual([null, null, null, null, null, null, null, null, []]);
    expect(few.comfort).not.toBe(null);
    const none = pairNumbers(hoursOf({ outsideTemperature: flat(_) }), plain).numbers;
    expect([none.days, none.comfort]).toEqual([0, null]);
    expect([numbers, workings, numbers.spread, numbers.maxCorrelation, numbers.response, numbers.response[0], few.response].every(Object.isFrozen)).toBe(true);
  });

  it("fits from six days on", () => {
    const cut = (days: number): PairNumbers => pairNumbers(hoursOf({ insideTemperature: inside.slice(0, 24 * days), outsideTemperature: outside.slice(0, 24 * days), insideHumidity: flat(_, 24 * days), outsideHumidity: flat(_, 24 * days) }), plain).numbers;
    expect([cut(5).varianceRatio, cut(5).response.length]).toEqual([null, 0]);
    expect([cut(6).varianceRatio === null, cut(6).response.length]).toEqual([false, 6]);
  });

  it("an hour of the day that is shared on fewer than three days cannot be fitted", () => {
    const rare = (days: number) => pairNumbers(hoursOf({ insideTemperature: only(inside, (h) => h % 24 !== 5 || h < 24 * days) }), plain);
    expect([rare(2).workings.hoursNeverShared, rare(2).numbers.response.length, rare(2).workings.line, rare(2).workings.room]).toEqual([1, 0, null, null]);
    expect([rare(3).workings.hoursNeverShared, rare(3).numbers.response.length]).toEqual([0, 6]);
    expect(pairNumbers(hoursOf({ insideTemperature: only(inside, (h) => h % 24 < 12) }), plain).workings.hoursNeverShared).toBe(12);
  });

  it("moves every lag by what the readings' minutes differ, and nothing else", () => {
    const { numbers } = whole();
    const later = pairNumbers(hoursOf(), { ...plain, lagCorrection: 0.5 }).numbers;
    const pairs: readonly (readonly [Estimate | null, Estimate | null])[] = [
      [numbers.timeLag, later.timeLag],
      [numbers.maxCorrelation.lag, later.maxCorrelation.lag],
      ...numbers.response.map((b, i) => [b.lagHours, later.response[i].lagHours] as const),
    ];
    expect(pairs.filter(([a]) => a !== null).length).toBeGreaterThanOrEqual(4);
    for (const [a, b] of pairs) {
      if (a === null || b === null) expect(a).toBe(b);
      else {
        for (const key of ["value", "low", "high"] as const) expectClose(b[key] - a[key], 0.5, { absolute: 1e-12 }, key);
        expect([b.standardError, Object.isFrozen(b)]).toEqual([a.standardError, true]);
      }
    }
    expect(later.decrementFactor).toEqual(numbers.decrementFactor);
    expect(later.maxCorrelation.value).toEqual(numbers.maxCorrelation.value);
  });

  it("a lag of the largest correlation only where that stands out of chance", () => {
    const stranger = pairNumbers(hoursOf({ insideTemperature: madeOutside(n, 77) }), plain).numbers.maxCorrelation;
    expect(stranger.value).not.toBe(null);
    expect(stranger.lag).toBe(null);
    const same = pairNumbers(hoursOf({ insideTemperature: outside }), plain).numbers.maxCorrelation;
    expect(same.value!.value).toBeGreaterThan(1 - 1e-9);
    expectClose(same.lag!.value, 0, { absolute: 1e-9 });
  });

  it("is held where inside neither follows nor moves within a day", () => {
    const { workings } = whole();
    const held = flat(20).map((v, h) => v + 0.01 * Math.sin(h * h));
    expect(pairNumbers(hoursOf({ insideTemperature: held }), plain).workings.isHeld).toBe(true);
    // Not following, but moving by a degree within the day.
    expect(pairNumbers(hoursOf({ insideTemperature: held.map((v, h) => v + 100 * (held[h] - 20)) }), plain).workings.isHeld).toBe(false);
    expect(workings.isHeld).toBe(false);
  });

  it("a held house has a decrement factor from 0 up and no lag; a surface the factor that was told; a refusal the routine's name", () => {
    const held = pairNumbers(hoursOf({ insideTemperature: outside.map((_v, h) => 20 + 0.3 * Math.cos((2 * Math.PI * (h - 9)) / 24) + 0.02 * Math.sin(h * h)) }), plain);
    expect(held.workings.isHeld).toBe(true);
    expect(held.numbers.decrementFactor).toEqual({ ...held.workings.line!.decrementFactor!, low: 0 });
    expect(held.workings.line!.decrementFactor!.low).toBeGreaterThan(0);
    expect([held.numbers.timeLag, Object.isFrozen(held.numbers.decrementFactor)]).toEqual([null, true]);
    expect(pairNumbers(hoursOf({ insideHumidity: flat(60) }), { ...plain, factor: 0.55 }).numbers.mould!.factor).toBe(0.55);
    expect(() => pairNumbers(hoursOf({ outsideTemperature: flat(1, 5) }), plain)).toThrow("pairNumbers: outside must have the length of inside, 720 h (got 5 h)");
  });

  it("the humidity class is that of the moisture, the sensors' own part beside its interval", () => {
    const { numbers } = whole();
    const damp = hoursOf({ insideHumidity: flat(60), outsideHumidity: flat(70) });
    const got = pairNumbers(damp, { ...plain, sensorMoisture: 0.4 });
    const excess = got.numbers.moistureExcess!;
    expect(excess.unit).toBe("g m-3");
    expect(got.numbers.vaporPressureExcess!.unit).toBe("hPa");
    expect(got.numbers.humidityClass).toEqual(humidityClass(got.workings.moisture.daily, got.workings.outdoorDaily, (excess.high - excess.low) / 2 + 0.4));
    got.workings.outdoorDaily.forEach((v, k) => {
      expectClose(v, outside.slice(24 * k, 24 * k + 24).reduce((s, w) => s + w, 0) / 24, { absolute: 1e-12 }, `day ${k}`);
    });
    expect([got.numbers.condensation === null, got.numbers.mould === null]).toEqual([false, false]);
    // Humidity inside, but no hour to judge.
    const blind = pairNumbers(hoursOf({ insideHumidity: flat(60), outsideTemperature: only(outside, (h) => h < 10) }), plain).numbers;
    expect([blind.condensation, blind.mould, blind.humidityClass]).toEqual([null, null, null]);
    expect([numbers.condensation, numbers.mould, numbers.humidityClass]).toEqual([null, null, null]);
  });
});

describe("changesAt", () => {
  const around = (value: number, half: number, unit = "1"): Estimate => estimate({ value, standardError: half / 2, low: value - half, high: value + half, unit });
  const side = (fromHour: number, toHour: number, parts: Partial<PairNumbers> = {}): ChangeSide => ({
    fromHour, toHour,
    numbers: { days: (toHour - fromHour) / 24, decrementFactor: around(0.3, 0.1), timeLag: around(4, 1, "h"), timeConstant: around(12, 2, "h"), ...parts } as PairNumbers,
    workings: { line: { degreesOfFreedom: 8 }, room: { swings: { degreesOfFreedom: 5 } } } as unknown as PairWorkings,
  });
  const days = 40;
  const daily = Float64Array.from({ length: days }, (_v, k) => Math.sin(k * k) + (k >= 20 ? 3 : 0));
  const air = Float64Array.from({ length: days }, (_v, k) => 10 + Math.cos(1.7 * k * k));
  const whole = { difference: { daily }, moisture: { daily: daily.map((v) => 2 * v) }, vapor: { daily: flat(_, days) }, outdoorDaily: air } as unknown as PairWorkings;
  const before = side(0, 18 * 24);
  const after = side(22 * 24, 40 * 24, { decrementFactor: around(0.6, 0.1), timeLag: around(2, 1, "h"), timeConstant: around(6, 2, "h") });
  const all = () => changesAt("windows", before, after, whole);
  const of = (quantity: string) => all().find((c) => c.quantity === quantity)!;

  it("tells each quantity in its order and unit", () => {
    const found = all();
    expect(found.map((c) => [c.event, c.quantity, c.change?.unit ?? null, c.ratio === null, c.says])).toEqual([
      ["windows", "meanDifference", "K", true, null],
      ["windows", "decrementFactor", "1", false, null],
      ["windows", "timeLag", "h", true, null],
      ["windows", "timeConstant", "h", false, null],
      ["windows", "moistureExcess", "g m-3", true, null],
      ["windows", "vaporPressureExcess", null, true, 'No change told for "windows": a side has no such number.'],
    ]);
    expect([found, found[0]].every(Object.isFrozen)).toBe(true);
  });

  it("differences by Welch, ratios on the scale of the logarithm", () => {
    expectClose(of("decrementFactor").change!.value, 0.3, { absolute: 1e-14 });
    expectClose(of("decrementFactor").change!.standardError!, Math.hypot(0.05, 0.05), { absolute: 1e-14 });
    expectClose(of("timeConstant").change!.value, -6, { absolute: 1e-14 });
    const ratio = of("decrementFactor").ratio!;
    expectClose(ratio.value, 2, { absolute: 1e-12 });
    const error = Math.hypot(0.05 / 0.3, 0.05 / 0.6);
    expectClose(ratio.standardError!, 2 * error, { absolute: 1e-12 });
    expectClose(ratio.low * ratio.high, 4, { absolute: 1e-10 });
    // Two logarithms with 8 degrees of freedom each: Welch gives 11.76, t between those of 11 and 12 (2.2010 and 2.1788 in printed tables).
    const t = Math.log(ratio.high / 2) / error;
    expect(t > 2.1788 && t < 2.201).toBe(true);
    // The time constant has its own degrees of freedom, 5 a side of equal errors: 10, t = 2.2281.
    const tau = of("timeConstant").change!;
    expectClose((tau.high - tau.value) / tau.standardError!, 2.228139, { absolute: 1e-5 });
    const lag = of("timeLag").change!;
    expectClose((lag.high - lag.value) / lag.standardError!, 2.119905, { absolute: 1e-5 });
  });

  it("means count the days of the two sides only", () => {
    const found = all();
    expectClose(of("meanDifference").change!.value, 3, { absolute: 0.6 });
    expectClose(of("moistureExcess").change!.value, 2 * of("meanDifference").change!.value, { relative: 1e-6 });
    const wild = { ...whole, difference: { daily: daily.map((v, k) => (k >= 18 && k < 22 ? 1e6 : v)) } } as unknown as PairWorkings;
    expect(changesAt("windows", before, after, wild)[0]).toEqual(found[0]);
    const edge = { ...whole, difference: { daily: daily.map((v, k) => (k === 17 || k === 22 ? 50 : v)) } } as unknown as PairWorkings;
    expect(changesAt("windows", before, after, edge)[0]).not.toEqual(found[0]);
  });

  it("says why there is none: too few days, or no such number", () => {
    const short = changesAt("windows", side(0, 9.9 * 24), after, whole);
    expect(short.every((c) => c.change === null && c.ratio === null && c.says === 'No change told for "windows": fewer than 10 days on a side of the event.')).toBe(true);
    expect(changesAt("windows", before, side(22 * 24, 31.9 * 24), whole)[1].says).toMatch(/fewer than 10 days/);
    expect(changesAt("windows", side(0, 240), after, whole)[1].says).toBe(null);
    const bound = changesAt("windows", side(0, 18 * 24, { decrementFactor: around(0.1, 0.1), timeConstant: null }), after, whole);
    expect(bound.filter((c) => c.says !== null).map((c) => c.quantity)).toEqual(["decrementFactor", "timeConstant", "vaporPressureExcess"]);
    expect(bound[1].says).toBe('No change told for "windows": a side has no such number.');
    // A lag may have an end at 0 or below.
    expect(changesAt("windows", side(0, 18 * 24, { timeLag: around(0.5, 1, "h") }), after, whole)[2].change).not.toBe(null);
  });
});

describe("timeConstant, its reasons", () => {
  const line = (real: number, imaginary: number, error = 0): DailyResponse => ({ decrementFactor: null, timeLag: null, real, imaginary, radialError: error, tangentialError: error, t: 2, degreesOfFreedom: 5, daysUsed: 20 });
  const reasonsOf = (l: DailyResponse): readonly string[] => timeConstant(inside, outside, { line: l }).reasons;

  it("the daily line of a room of one constant has Re(1/H) = 1, to a tenth or to its error", () => {
    // 1/H = 1 + iωτ: H = 1/(1 + 2i) = 0.2 − 0.4i.
    expect(reasonsOf(line(0.2, -0.4))).toEqual([]);
    // 1/H = 1.09 + 2i and 1.12 + 2i.
    for (const [re, odd] of [[1.09, false], [1.12, true], [0.91, false], [0.88, true]] as const) {
      const power = re * re + 4;
      expect(reasonsOf(line(re / power, -2 / power)).includes("daily line"), `${re}`).toBe(odd);
      // An error of H of 0.02 each way is 0.02/|H|² = 0.1 of 1/H, twice that at 95 %.
      expect(reasonsOf(line(re / power, -2 / power, 0.02 / 1))).toEqual([]);
    }
  });

  it("tells each reason in a sentence", () => {
    const off = timeConstant(inside, outside, { line: line(0.9, 0) });
    expect(off.says).toEqual(["No time constant: a room of one constant would answer the daily cycle otherwise (sun, heating, or heavy walls behind light ones)."]);
    expect([off.timeConstant, off.reasons]).toEqual([null, ["daily line"]]);
    expect([off, off.reasons, off.says].every(Object.isFrozen)).toBe(true);
    const still = timeConstant(flat(20).map((v, h) => v + 0.01 * Math.sin(h * h)), outside, { line: line(0.2, -0.4) });
    expect(still.reasons).toContain("unexplained");
    expect(still.says).toContain("No time constant: inside hardly follows outside (a thermostat, air conditioning or people hold it); log with the heating off, or in summer.");
    const same = timeConstant(outside, outside, { line: line(0.2, -0.4) });
    expect(same.reasons).toContain("edge");
    expect(same.says).toContain("No time constant: none between 0.7 h and 300 h fits better than the rest.");
    const brief = timeConstant(inside.subarray(0, 96), outside.subarray(0, 96), { line: line(0.2, -0.4) });
    expect(brief.reasons).toContain("short");
    expect(brief.says).toContain("No time constant: fewer than 6 days of both places together; log longer.");
  });

  it("places that never change have no time constant, whatever rounding leaves of them, and nobody calls forty days fewer than six", () => {
    for (let k = 0; k < 12; k++) {
      const found = timeConstant(flat(15 + 0.37 * k), flat(3.3 + 1.1 * k));
      expect(found.timeConstant).toBe(null);
      expect(found.reasons).toContain("unexplained");
      expect([found.swings.explained, found.all.explained]).toEqual([0, 0]);
    }
    const calm = timeConstant(inside, flat(15));
    expect([calm.timeConstant, calm.reasons[0]]).toEqual([null, "short"]);
    expect(calm.says[0]).toBe("No time constant: the hours logged tell too little of it for an interval with an end; log longer, in weather that changes.");
  });

  it("the variants may differ by their errors together, and not by more", () => {
    const long = madeOutside(960, 11);
    const heated = (by: number): ReturnType<typeof timeConstant> => timeConstant(madeInside(long, 12, 12).map((v, h) => v + by * Math.cos((2 * Math.PI * (h - 16)) / 24)), long, { line: line(0.2, -0.4) });
    const seen = [0, 0.1, 0.2, 0.8].map((by) => {
      const { reasons, says, swings, all, timeConstant: tau } = heated(by);
      const apart = Math.abs(Math.log(all.tau!.value / swings.tau!.value));
      const isApart = apart > swings.t * Math.hypot(all.standardErrorOfLog, swings.standardErrorOfLog);
      expect(reasons).toEqual(isApart ? ["variants"] : []);
      expect(says).toEqual(isApart ? [`No time constant: with the daily cycle it would be ${Math.round(all.tau!.value)} h, without it ${Math.round(swings.tau!.value)} h.`] : []);
      expect(tau).toBe(isApart ? null : swings.tau);
      return isApart;
    });
    expect(seen).toEqual([false, false, true, true]);
  });

  it("one variant alone at an end of the search, or without an interval, is enough", () => {
    const made = (days: number, tau: number, seed: number, by = 0): ReturnType<typeof timeConstant> => {
      const air = madeOutside(24 * days, seed);
      return timeConstant(madeInside(air, tau, seed).map((v, h) => v + by * Math.cos((2 * Math.PI * (h - seed)) / 24)), air, { line: line(0.2, -0.4) });
    };
    const [heated, slow, endless] = [made(14, 3, 6, 3), made(8, 250, 4), made(6, 80, 58, 3)];
    expect([heated.swings.isAtEdge, heated.all.isAtEdge, heated.reasons.includes("edge")]).toEqual([false, true, true]);
    expect([slow.swings.isAtEdge, slow.all.isAtEdge, slow.reasons.includes("edge")]).toEqual([true, false, true]);
    expect([endless.swings.tau === null, endless.all.tau, endless.reasons[0]]).toEqual([false, null, "short"]);
  });

  it("eight time constants of record are needed; how many days more is told by the upper end of its interval, unless the value means nothing", () => {
    const short = timeConstant(madeInside(madeOutside(24 * 14, 34), 250, 34).map((v, h) => v + 3 * Math.cos((2 * Math.PI * (h - 10)) / 24)), madeOutside(24 * 14, 34), { line: line(0.2, -0.4) });
    expect([short.reasons.includes("short"), short.swings.isAtEdge]).toEqual([true, false]);
    const days = Math.ceil((8 * short.swings.tau!.high - 24 * 14) / 24);
    expect(short.says).toContain(`No time constant: the record must be 8 times as long as it; log about ${days} more days.`);
    // Noise about 20 °C, and a slow room heated by the clock that lies at an end of the search: short too, but no length can be told.
    const chance = random(63);
    const noisy = timeConstant(flat(20, 144).map((v) => v + 0.3 * chance.normal()), madeOutside(144, 9), { line: line(0.2, -0.4) });
    expect([noisy.swings.isAtEdge, noisy.swings.explained < 0.3]).toEqual([false, true]);
    const air = madeOutside(24 * 8, 74);
    const atEnd = timeConstant(madeInside(air, 250, 74).map((v, h) => v + 3 * Math.cos((2 * Math.PI * (h - 2)) / 24)), air, { line: line(0.2, -0.4) });
    expect([atEnd.swings.isAtEdge, atEnd.swings.explained >= 0.3]).toEqual([true, true]);
    for (const { swings, reasons, says } of [noisy, atEnd]) {
      expect(swings.spanHours).toBeLessThan(8 * swings.tau!.value);
      expect(reasons.at(-1)).toBe("short");
      expect(says.some((sentence) => sentence.includes("8 times"))).toBe(false);
    }
  });
});

describe("correlations, their words and ends", () => {
  it("the raw one says how many hours its hours are worth", () => {
    const raw = rawCorrelation(inside, outside);
    expect(raw.says).toBe(
      "The plain correlation misleads: any two places that see the same sun agree in their daily cycle, and neighboring hours are not independent, " +
        `so that these 720 hours count as ${Math.round(raw.effectiveCount)} once the cycle is out.`,
    );
    expect(raw.withCycle).toBeGreaterThan(0.3);
    expect(raw.pValue).toBeLessThan(0.2);
    expect(Object.isFrozen(raw)).toBe(true);
    const [mi, mo] = [inside, outside].map((v) => v.reduce((s, w) => s + w, 0) / n);
    const sum = (f: (h: number) => number): number => Array.from({ length: n }, (_v, h) => f(h)).reduce((s, v) => s + v, 0);
    const pearson = sum((h) => (inside[h] - mi) * (outside[h] - mo)) / Math.sqrt(sum((h) => (inside[h] - mi) ** 2) * sum((h) => (outside[h] - mo) ** 2));
    expectClose(raw.withCycle, pearson, { absolute: 1e-12 });
    const still = rawCorrelation(flat(20), outside);
    expect([still.withCycle, still.withoutCycle, still.pValue, still.effectiveCount]).toEqual([_, _, _, 720]);
    expect(() => rawCorrelation(flat(1, 47), flat(1, 47))).toThrow(new RangeError("rawCorrelation: inside and outside must share at least 48 hours (got 47 h); log longer"));
  });

  it("a copy has its lag; at an end of the range it has none", () => {
    const found = laggedCorrelation(inside, outside);
    expect(found.byLag.length).toBe(37);
    for (const lag of [-12, -5, 0, 7, 23]) {
      const copy = Float64Array.from({ length: n }, (_v, h) => outside[(h - lag + n) % n]);
      const own = laggedCorrelation(copy, outside);
      expect(own.byLag.indexOf(Math.max(...own.byLag)) - 12, `lag ${lag}`).toBe(lag);
      if (lag === -12) expect([own.lag, Number.isNaN(own.curvature)]).toEqual([null, true]);
      else expectClose(own.lag!.value, lag, { absolute: 0.3 }, `lag ${lag}`);
    }
    const none = laggedCorrelation(flat(20), outside);
    expect([none.correlation, none.lag, none.standardErrorOfAtanh, none.curvature, Number.isNaN(none.byLag[0])]).toEqual([null, null, _, _, true]);
    expect([found, none].every(Object.isFrozen)).toBe(true);
  });
});

describe("cross spectra, their options", () => {
  const [x, y] = [outside.subarray(0, 96), inside.subarray(0, 96)];

  it("Hann segments that share half, less their mean, every step present, unless told otherwise", () => {
    const found = crossSpectrum(x, y, 24, { stepSeconds: 3600 });
    expect(found).toEqual(crossSpectrum(x, y, 24, { stepSeconds: 3600, window: "Hann", removed: "mean", overlap: 0.5, leastPresent: 1 }));
    expect([found.segments, found.shiftSteps, found.real.length, found.cyclesPerDay[1], Object.isFrozen(found)]).toEqual([7, 12, 13, 1, true]);
    expect(crossSpectrum(x, y, 25, { stepSeconds: 3600, overlap: 0 })).toMatchObject({ segments: 3, shiftSteps: 25 });
    expect(crossSpectrum(x, y, 4, { stepSeconds: 3600, overlap: 0.95 })).toMatchObject({ segments: 93, shiftSteps: 1 });
  });

  it("one step missing in either place drops a segment, or counts as nothing where that is allowed", () => {
    const holed = x.map((v, h) => (h === 3 ? _ : v));
    for (const [a, b] of [[holed, y], [x, holed]]) {
      expect(crossSpectrum(a, b, 24, { stepSeconds: 3600, overlap: 0 }).segments).toBe(3);
      expect(crossSpectrum(a, b, 24, { stepSeconds: 3600, overlap: 0, leastPresent: 23 / 24 }).segments).toBe(4);
    }
    const none = crossSpectrum(x.map(() => _), y, 24, { stepSeconds: 3600 });
    for (const part of [none.real, none.imaginary, none.densityX, none.densityY, none.coherence]) expect(part.every(Number.isNaN)).toBe(true);
    // A line is taken out over the steps that are there.
    const line = Float64Array.from({ length: 24 }, (_v, h) => (h === 5 ? _ : 3 + 2 * h));
    const flatLine = crossSpectrum(line, line, 24, { stepSeconds: 3600, removed: "line", leastPresent: 0.5 });
    expect(Math.max(...flatLine.densityX)).toBeLessThan(1e-20);
    expect(Math.max(...crossSpectrum(line, line, 24, { stepSeconds: 3600, removed: "mean", leastPresent: 0.5 }).densityX)).toBeGreaterThan(1);
  });

  it("refuses by name", () => {
    const call = (more: object, segment = 24) => () => crossSpectrum(x, y, segment, { stepSeconds: 3600, ...more });
    expect(call({ stepSeconds: 0 })).toThrow("crossSpectrum: stepSeconds must be from 1e-9 to 1000000000000 s (got 0 s)");
    expect(call({ overlap: 0.96 })).toThrow("crossSpectrum: overlap must be from 0 to 0.95 (got 0.96)");
    expect(call({ leastPresent: 0 })).toThrow("crossSpectrum: leastPresent must be from 5e-324 to 1 (got 0)");
    expect(call({}, 3)).toThrow("crossSpectrum: segmentSteps must be from 4 to 96 steps (got 3 steps)");
    expect(call({}, 24.5)).toThrow("crossSpectrum: segmentSteps must be a whole number (got 24.5 steps)");
    expect(() => crossSpectrum([1, 2, 3, Infinity], [1, 2, 3, 4], 4, { stepSeconds: 1 })).toThrow("crossSpectrum: x must be finite or NaN (got Infinity at index 3)");
    expect(() => crossSpectrum([1, 2, 3, 4], [Infinity, 2, 3, 4], 4, { stepSeconds: 1 })).toThrow("crossSpectrum: y must be finite or NaN (got Infinity at index 0)");
    expect(() => crossSpectrum([1, 2, 3, 4], [1, 2, 3], 4, { stepSeconds: 1 })).toThrow("crossSpectrum: y must have the length of x, 4 (got 3)");
  });
});

describe("bands, their words", () => {
  it("a place that does not vary, too few stretches, no answer above the noise", () => {
    const still = bandResponse(flat(20), outside);
    expect(still.map((b) => [b.from, b.to])).toEqual([[0.08, 0.16], [0.16, 0.32], [0.32, 0.64], [0.75, 1.25], [1.4, 2.6], [3, 6]]);
    expect(still.filter((b) => b.says === "One of the places does not vary at all here.").length).toBeGreaterThan(2);
    const short = bandResponse(inside.subarray(0, 24 * 13), outside.subarray(0, 24 * 13));
    expect(short[0].says).toMatch(/^Too few whole stretches for 0\.08 to 0\.16 cycles per day: log about \d+ more days\.$/);
    expectClose(short[0].cyclesPerDay, Math.sqrt(0.08 * 0.16), { relative: 0.5 });
    const stranger = bandResponse(madeOutside(n, 78), outside).filter((b) => b.says?.startsWith("No answer"));
    expect(stranger.length).toBeGreaterThan(0);
    for (const b of stranger) {
      expect(b.says).toBe(`No answer above the noise between ${b.from} and ${b.to} cycles per day.`);
      expect([b.lagHours, b.gain!.low]).toEqual([null, 0]);
    }
    expect([still, still[0]].every(Object.isFrozen)).toBe(true);
  });

  it("a house that only scales the air outside: gain, no lag, full coherence, at every band", () => {
    for (const b of bandResponse(outside.map((v) => 0.25 * v + 3), outside)) {
      if (b.gain === null) continue;
      expectClose(b.gain.value, 0.25, { absolute: 1e-9 });
      expectClose(b.lagHours!.value, 0, { absolute: 1e-9 });
      expectClose(b.coherence!, 1, { absolute: 1e-9 });
      expect([b.gain.unit, b.lagHours!.unit, b.says]).toEqual(["1", "h", null]);
      expect(b.coherenceLimit! > 0 && b.coherenceLimit! < 1).toBe(true);
    }
  });
});

describe("daily response, its parts", () => {
  it("a lag turns the answer back, a lead forward; six whole days are needed", () => {
    const wave = (gain: number, lag: number, length = 24 * 20): Float64Array => Float64Array.from({ length }, (_v, h) => gain * Math.cos((2 * Math.PI * (h - 14 - lag)) / 24));
    const late = dailyResponse(wave(1, 6), wave(4, 0));
    expectClose(late.real, 0, { absolute: 1e-12 });
    expectClose(late.imaginary, -0.25, { absolute: 1e-12 });
    expect([late.decrementFactor!.unit, late.timeLag!.unit, Object.isFrozen(late)]).toEqual(["1", "h", true]);
    const short = dailyResponse(wave(1, 6, 24 * 7), wave(4, 0, 24 * 7));
    expect([short.daysUsed, short.decrementFactor, short.timeLag, short.radialError, short.tangentialError, short.t, short.degreesOfFreedom]).toEqual([5, null, null, _, _, _, 0]);
    expectClose(short.imaginary, -0.25, { absolute: 1e-12 });
    expect(dailyResponse([], [])).toMatchObject({ daysUsed: 0, real: _, imaginary: _ });
  });
});
