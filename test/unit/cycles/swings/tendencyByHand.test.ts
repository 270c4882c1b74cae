import { describe, expect, it } from "vitest";
import { bandError, endShare, gapShare } from "../../../../lib/cycles/swings/bandError.js";
import { dayToDayTide } from "../../../../lib/cycles/swings/dayToDayTide.js";
import { pressureSwings } from "../../../../lib/cycles/swings/pressureSwings.js";
import { type PressureTendency, pressureTendency, type TendencyNoise, type TideOfPlace } from "../../../../lib/cycles/swings/pressureTendency.js";
import { shortestStepNoise } from "../../../../lib/cycles/swings/shortestStepNoise.js";
import { sineTaperSpectrum } from "../../../../lib/cycles/swings/sineTaperSpectrum.js";
import { swingBand } from "../../../../lib/cycles/swings/swingBand.js";
import { swingSpectrum } from "../../../../lib/cycles/swings/swingSpectrum.js";
import { characteristicWords, tendencyCharacteristic } from "../../../../lib/cycles/swings/tendencyCharacteristic.js";
import { tendencyTerm } from "../../../../lib/cycles/swings/tendencyTerm.js";
import { RecordError } from "../../../../lib/ground/complaint.js";
import { random } from "../../../../lib/ground/random.js";
import { expectClose } from "../../../close.js";
import { inventedPressure } from "./inventedPressure.js";

const _ = Number.NaN;
const start = Date.UTC(2024, 5, 1);
const hourMs = 3_600_000;
const known: TideOfPlace = { valueAt: (at) => (0.5 * (at - start)) / hourMs, changeVariance: (_at, hours) => 0.01 * hours, isDetected: true };
const of = (hours: readonly number[], values: readonly number[], tide = known, noise: TendencyNoise = { reading: 0.1, dayToDay: 0.02 }): PressureTendency =>
  pressureTendency({ start, seconds: hours.map((h) => 3600 * h), values }, tide, noise);

describe("pressureTendency by hand", () => {
  const nine = [0, 1, 2, 3, 4, 5, 6, 7, 8];

  it("three hours back from the newest, tide taken off, errors of two readings, of the fit, of the day", () => {
    const got = of(nine, [0, 0, 1, 1, 2, 4, 5, 6, 9]);
    // 8 − 5 and 5 − 2 h: 9 − 4 and 4 − 1, of which the tide is 1.5.
    expect([[...got.series.at], [...got.series.raw], [...got.series.tideFree]]).toEqual([[start + 5 * hourMs, start + 8 * hourMs], [3, 5], [1.5, 3.5]]);
    const last = got.last!;
    const dayToDay = Math.sqrt(2 * (2 - Math.SQRT2) * 0.02);
    expect([last.at, last.raw.value, last.tideFree.value, last.raw.unit, last.tideFree.unit]).toEqual([start + 8 * hourMs, 5, 3.5, "hPa", "hPa"]);
    expectClose(last.errors.readings, 0.1 * Math.SQRT2, { absolute: 1e-12 });
    expectClose(last.errors.tideFit, Math.sqrt(0.03), { absolute: 1e-12 });
    expectClose(last.errors.dayToDay, dayToDay, { absolute: 1e-12 });
    const error = Math.sqrt(0.02 + 0.03 + dayToDay ** 2);
    expectClose(last.tideFree.standardError, error, { absolute: 1e-12 });
    expectClose(last.tideFree.low, 3.5 - 1.959964 * error, { absolute: 1e-12 });
    expectClose(last.raw.high, 5 + 1.959964 * 0.1 * Math.SQRT2, { absolute: 1e-12 });
    expect(last.term).toBe("rising");
    // At 6.5 h a reading of 5.5 between two: 1.5 − 0.75 and 3.5 − 0.75 in the halves, the second more by 2.
    expect([last.characteristic, last.characteristicSays]).toEqual([3, "fell or held, then rose, or rose ever faster; higher now"]);
    expect([got, got.series, got.last, last.errors, got.warnings].every(Object.isFrozen)).toBe(true);
    expect(got.warnings).toEqual([]);
    // A variance below nothing is none.
    expect(of(nine, nine, { ...known, changeVariance: () => -1 }).last!.errors.tideFit).toBe(0);
  });

  it("the half hour that a reading may be off is scaled away, and no more than that", () => {
    const from = [-3, -2, -1, 0];
    const got = of([...from, 3.5], [1, 1, 1, 0, 7], { ...known, valueAt: () => 0 });
    expectClose(got.last!.raw.value, 6, { absolute: 1e-12 });
    expect(got.warnings).toEqual([]);
    const far = of([...from, 3.5 + 1 / 3600], [1, 1, 1, 0, 7]);
    expect([far.last, far.warnings]).toEqual([null, ["no newest tendency: a gap in the last three hours"]]);
    const near = of([-4, -3, -2, 0, 1, 2.5], [1, 1, 1, 0, 0, 5], { ...known, valueAt: () => 0 });
    expectClose(near.last!.raw.value, 6, { absolute: 1e-12 });
  });

  it("warnings: what cannot be told, what is most of the error, what was not taken out", () => {
    const calm = of(nine, nine.map((h) => h / 2));
    const unusual = "within a day of unusual daily tide the tendency's interval is too narrow";
    expect(calm.warnings).toEqual([unusual]);
    const rising = nine.map((h) => 3 * h);
    expect(of(nine, rising).warnings).toEqual([]);
    expect(of(nine, rising, known, { reading: 9, dayToDay: null }).warnings).toEqual(["too short to tell how the daily tide changes from day to day: the tendency's interval is too narrow"]);
    // √0.03 is 0.17: more than 0.14 and 0.01 together, not more than with 0.1 of the day.
    const own = "most of the tendency's uncertainty (± 0.34 hPa) is the tide's own; a longer record makes it smaller";
    expect([of(nine, rising, known, { reading: 0.1, dayToDay: 0.0001 }).warnings, of(nine, rising, known, { reading: 0.1, dayToDay: 0.01 }).warnings]).toEqual([[own], []]);
    const small = (variance: number) => of(nine, rising, { ...known, changeVariance: () => variance }, { reading: 0.001, dayToDay: 0 }).warnings;
    expect([small(0.0025), small(0.0026).length]).toEqual([[], 1]);
    // Undetected and less than its own variance: left in; else taken out.
    const none = "no tide stands out of the weather yet: nothing was taken out of the tendency";
    const unsure = (variance: number) => of(nine, rising, { ...known, isDetected: false, changeVariance: () => variance }, { reading: 9, dayToDay: 0 });
    expect([unsure(2.26).warnings, unsure(2.26).last!.tideFree.value, [...unsure(2.26).series.tideFree]]).toEqual([[none], 9, [9, 9]]);
    expect([unsure(2.25).warnings, unsure(2.25).last!.tideFree.value]).toEqual([[], 7.5]);
    expect(of(nine, nine.map((h) => h / 2), { ...known, isDetected: false, changeVariance: () => 0 }, { reading: 9, dayToDay: 0 }).warnings).toEqual([]);
  });

  it("too few readings, too rare ones, and refusals by name", () => {
    const empty = of([0], [1]);
    expect([empty.last, empty.series.at.length, empty.warnings, Object.isFrozen(empty.warnings)]).toEqual([null, 0, ["no tendency: fewer than two readings"], true]);
    expect([of([0, 1, 2, 3, 6], [1, 2, 3, 4, 5]).last!.characteristic, of([0, 1, 2, 3, 6], [1, 2, 3, 4, 5]).last!.characteristicSays]).toEqual([null, null]);
    expect(of([0, 3 + 2 / 3600, 6 + 4 / 3600], [1, 2, 3]).last).not.toBe(null);
    expect(of([0, 3 + 3 / 3600, 6 + 6 / 3600], [1, 2, 3]).warnings).toEqual(["no tendency: readings are more than 3 hours apart"]);
    expect(() => pressureTendency({ start: _, seconds: [0], values: [1] }, known, { reading: 0, dayToDay: 0 })).toThrow(/^pressureTendency: readings.start must be from -8640000000000000 to 8640000000000000 ms/);
    expect(() => of([0, 1], [1, Infinity])).toThrow(/^pressureTendency: readings.values/);
    expect(() => of([0, 1], [1, 2], known, { reading: -1, dayToDay: 0 })).toThrow(/^pressureTendency: noise.reading must be from 0 to .* hPa \(got -1 hPa\)$/);
    expect(() => of([0, 1], [1, 2], known, { reading: 0, dayToDay: -1 })).toThrow(/^pressureTendency: noise.dayToDay must be from 0 to .* hPa² \(got -1 hPa²\)$/);
    expect([tendencyTerm(_), tendencyTerm(2, { low: 0, high: 4 }), tendencyTerm(2, { low: 1, high: 4 }), tendencyTerm(-2, { low: -4, high: -1 }), tendencyTerm(7)]).toEqual(["no clear change", "no clear change", "rising", "falling", "rising very rapidly"]);
  });

  it("the shape's halves have errors of their own", () => {
    const shape = (pressures: readonly number[], noise: TendencyNoise, tide = still, step = 0.5) => of(pressures.map((_v, i) => step * i), pressures, tide, noise).last!.characteristic;
    const still: TideOfPlace = { valueAt: () => 0, changeVariance: () => 0, isDetected: true };
    const r: TendencyNoise = { reading: 0.1, dayToDay: 0 };
    // Half-hourly: 0.15 up and down again is less than 1.96 √2 of 0.1.
    expect([shape([0, 0, 0, 0.15, 0, 0, 0], r), shape([0, 0, 0, 0.3, 0, 0, 0], r)]).toEqual([4, 0]);
    // Rises of 0.5 and 0.95: they differ by 0.45, less than 1.96 √6 of 0.1; by 0.5 they differ enough.
    expect([shape([0, 0, 0, 0.5, 0, 0, 1.45], r), shape([0, 0, 0, 0.5, 0, 0, 1.5], r)]).toEqual([2, 3]);
    // Hourly the middle is a mean of two: 1.96 · 2 of 0.1.
    expect([shape([0, 0.25, 0.75, 1.45], r, still, 1), shape([0, 0.25, 0.75, 1.36], r, still, 1)]).toEqual([3, 2]);
    // The tide's error of the first half is that at its end, an hour and a half before the last reading.
    const middle = start + 1.5 * hourMs;
    const sure = { reading: 0, dayToDay: 0 };
    expect(shape([0, 0, 0, 1, 1, 1, 1.5], sure)).toBe(1);
    expect(shape([0, 0, 0, 1, 1, 1, 1.5], sure, { ...still, changeVariance: (at, hours) => (at === middle && hours === 1.5 ? 4 : 0) })).toBe(3);
  });

  it("an undetected tide is left in where its change over the three hours before is less than its error", () => {
    // It rises by 2 in the three hours before 8 h and by 6 in those after, by 1 in those before 5 h.
    const bent: TideOfPlace = { valueAt: (at) => [0, 0, 0, 0, 0, 1, 1, 1, 2, 3, 5, 8][Math.round((at - start) / hourMs)], changeVariance: () => 3, isDetected: false };
    const got = of(nine, nine, bent, { reading: 9, dayToDay: 0 });
    expect([...got.series.tideFree]).toEqual([3, 3]);
    const less = of(nine, nine, { ...bent, changeVariance: () => 0.5 }, { reading: 9, dayToDay: 0 });
    expect([...less.series.tideFree]).toEqual([2, 2]);
    const between = of(nine, nine, { ...bent, valueAt: (at) => [0, 0, 0, 0, 0, 3, 3, 3, 4, 9, 9, 9][Math.round((at - start) / hourMs)], changeVariance: () => 2 }, { reading: 9, dayToDay: 0 });
    expect([...between.series.tideFree]).toEqual([0, 3]);
  });

  it("every shape of three hours from the directions of its halves, its bend and its whole", () => {
    const go = (value: number) => ({ value, standardError: 0 });
    const code = (a: number, b: number, bend: number, total: number): number => tendencyCharacteristic(go(a), go(b), go(bend), go(total));
    expect([code(1, 1, 0, 0), code(-1, -1, 0, 0), code(0, -1, 0, 0), code(0, 1, 0, 0), code(1, 0, 0, 0), code(-1, 0, 0, 0)]).toEqual([2, 7, 0, 5, 0, 5]);
    expect([code(0, 1, 0, 1), code(0, -1, 0, -1), code(1, 0, 0, 1), code(-1, 0, 0, -1)]).toEqual([3, 8, 1, 6]);
    expect([0.1, 0.0999].map((v) => code(v, v, 0, v))).toEqual([2, 4]);
    expect([0, 4, 5].map((c) => characteristicWords[c])).toEqual(["rose, then fell; no lower now than three hours ago", "held; same as three hours ago", "fell, then rose; no higher now than three hours ago"]);
  });
});

describe("noise of the shortest step by hand", () => {
  const zigzag = (n: number, step = 300): { seconds: number[]; values: number[] } => ({ seconds: Array.from({ length: n }, (_v, i) => step * i), values: Array.from({ length: n }, (_v, i) => (i % 2 === 0 ? 1 : -1)) });
  const noise = ({ seconds, values }: { seconds: number[]; values: number[] }): number | null => shortestStepNoise(seconds, values);

  it("twenty second differences of 4: the median of their squares over six and chi-square's median, computed with scipy as 0.45494", () => {
    expectClose(noise(zigzag(22))!, Math.sqrt(16 / 6 / 0.45494), { relative: 1e-12 });
    expect([noise(zigzag(21)), noise(zigzag(40, 301)), noise(zigzag(1)), noise({ seconds: [], values: [] })]).toEqual([null, null, null, null]);
    expect(noise(zigzag(40, 300))).not.toBe(null);
  });

  it("a step of the display over √12 at least", () => {
    const steps = zigzag(60);
    // Rises by 0.5 each ten readings: nearly all second differences are 0.
    expectClose(noise({ ...steps, values: steps.values.map((_v, i) => 0.5 * Math.floor(i / 10)) })!, 0.5 / Math.sqrt(12), { absolute: 1e-12 });
    expect(noise({ ...steps, values: steps.values.map(() => 7) })).toBe(0);
    expect(noise({ ...steps, values: steps.values.map((_v, i) => (i < 30 ? 7 : 7 + 1e-10)) })!).toBeLessThan(1e-9);
  });

  it("uneven steps, long ones and missing readings are left out", () => {
    const n = 45;
    const late = zigzag(n);
    // A reading a minute late every fifth time: three second differences in five go.
    late.seconds = late.seconds.map((s, i) => s + (i % 5 === 0 ? 60 : 0));
    late.values = late.values.map((v, i) => (i % 5 === 0 ? 50 : v));
    expect(noise(late)).toBe(null);
    const little = { ...late, seconds: late.seconds.map((s, i) => s - (i % 5 === 0 ? 45 : 0)) };
    expect(noise(little)).not.toBe(null);
    // Every other reading missing: the usual step is twice as long.
    const half = zigzag(60, 150);
    half.values = half.values.map((_v, i) => (i % 2 === 1 ? _ : i % 4));
    expectClose(noise(half)!, Math.sqrt(64 / 4 / 6 / 0.45494), { relative: 1e-12 });
    // Ten minutes between readings are no usual step, even where they follow each other evenly.
    const at = [...Array.from({ length: 60 }, (_v, i) => 300 * i), ...Array.from({ length: 40 }, (_v, i) => 18_000 + 600 * i)];
    expect(noise({ seconds: at, values: at.map((_v, i) => (i < 61 ? 7 : 7 + 0.01 * (i % 2))) })).toBe(0);
    const gaps = zigzag(57);
    gaps.seconds = gaps.seconds.map((s, i) => s + 300 * Math.floor(i / 3));
    expect(noise(gaps)).toBe(null);
  });
});

describe("parts of the band by hand", () => {
  it("tapers: sines of unit power, the mean of their squared transforms", () => {
    const n = 8;
    const values = Float64Array.of(1, 3, -2, 0, 5, 1, -1, 2);
    const got = sineTaperSpectrum(n, 2);
    const wanted = (bin: number): number =>
      [1, 2].reduce((sum, k) => {
        let [re, im] = [0, 0];
        for (let j = 0; j < n; j++) {
          const w = Math.sqrt(2 / 9) * Math.sin((Math.PI * k * (j + 1)) / 9) * values[j];
          re += w * Math.cos((2 * Math.PI * bin * j) / n);
          im += w * Math.sin((2 * Math.PI * bin * j) / n);
        }
        return sum + (re * re + im * im) / 2;
      }, 0);
    expect([got.length, got.of(values).length, Object.isFrozen(got)]).toEqual([8, 5, true]);
    got.of(values).forEach((v, i) => {
      expectClose(v, wanted(i), { absolute: 1e-12 }, `bin ${i}`);
    });
  });

  it("error: the end's share and the gap's together, fading over twelve hours, and white noise over √24", () => {
    const isReal = new Uint8Array(24 * 40).fill(1);
    isReal.fill(0, 480, 504);
    const got = bandError(isReal, 2, 0.3);
    const of = (index: number, gap: number): number => Math.hypot(2 * Math.hypot(endShare(Math.min(index, 959 - index) / 24), gap), 0.3 / Math.sqrt(24));
    for (const [index, gap] of [[0, 0], [100, 0], [468, 0], [469, 0.21 / 12], [479, (0.21 * 11) / 12], [480, 0.21], [503, 0.21], [936, 0], [935, 0], [504, (0.21 * 11) / 12], [514, 0.21 / 12], [515, 0], [959, 0]] as const) expectClose(got[index], of(index, gap), { absolute: 1e-12 }, `hour ${index}`);
    expect([gapShare(0), gapShare(3), gapShare(72), gapShare(73), gapShare(200)]).toEqual([0, 0.015, 1, 1, 1]);
    expectClose(gapShare(18), 0.14, { absolute: 1e-12 });
    expect([0.99, 1, 14.9, 15, 400].map(endShare)).toEqual([0.56, 0.4, 0.06, 0.04, 0.04]);
  });

  it("the band refuses by name, takes eight days, and adds 0.45 of the tide's change to its error", () => {
    const hours = inventedPressure(40, 3);
    expect(() => swingBand(hours, { noise: -1 })).toThrow(/^swingBand: noise must be from 0 to .* hPa \(got -1 hPa\)$/);
    expect(() => swingBand(hours, { dayToDay: -1 })).toThrow(/^swingBand: dayToDay must be from 0 to .* hPa² \(got -1 hPa²\)$/);
    try {
      swingBand(hours.subarray(0, 191));
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(RecordError);
      expect([(error as RecordError).kind, (error as RecordError).message]).toEqual(["data", "swingBand: hours must span at least 8 d (got 8.0 d); log 1 more day"]);
    }
    const [plain, daily] = [swingBand(hours), swingBand(hours, { dayToDay: 0.04 })];
    expect([plain.dailyError, Object.isFrozen(plain), plain.shortestDays, plain.longestDays]).toEqual([0, true, 2, 15]);
    expectClose(daily.dailyError, 0.45 * 0.2, { absolute: 1e-12 });
    expectClose(daily.standardError[400], Math.hypot(plain.standardError[400], 0.09), { absolute: 1e-12 });
    // The root mean square three days from the ends, of measured hours; of all where nothing else was.
    const inner = [...plain.band].slice(72, -72);
    expectClose(plain.sigma, Math.sqrt(inner.reduce((s, v) => s + v * v, 0) / inner.length), { relative: 1e-12 });
    const ends = swingBand(hours.map((v, i) => (i >= 72 && i < 888 ? _ : v)));
    const outer = [...ends.band].filter((_v, i) => i < 72 || i >= 888);
    expectClose(ends.sigma, Math.sqrt(outer.reduce((s, v) => s + v * v, 0) / outer.length), { relative: 1e-12 });
    // What stands at 0.7 to 1.3 cpd above a power law through the means about 0.6 and 1.5; ten days, so that the limits are bins.
    const ten = hours.slice(0, 240).map((v, i) => v + 2 * Math.sin((2 * Math.PI * i) / 24.5));
    const line = ten.reduce((s, v, i) => s + (i - 119.5) * v, 0) / ((240 * (240 ** 2 - 1)) / 12);
    const mean = ten.reduce((s, v) => s + v / 240, 0);
    const density = sineTaperSpectrum(240, 5).of(ten.map((v, i) => v - mean - line * (i - 119.5)));
    const [below, above] = [[5, 6, 7], [13, 14, 15, 16, 17]].map((bins) => bins.reduce((s, i) => s + density[i] / bins.length, 0));
    const power = Math.log(above / below) / Math.log(2.5);
    const excess = [7, 8, 9, 10, 11, 12, 13].reduce((s, i) => s + density[i] - below * (i / 6) ** power, 0);
    expectClose(dayToDayTide(ten)!, (2 * excess) / 240, { relative: 1e-9 });
    expect(excess).toBeGreaterThan(0);
    expect(dayToDayTide(new Float64Array(240))).toBe(0);
    expect([dayToDayTide(hours.subarray(0, 191)), dayToDayTide(hours.subarray(0, 192)) === null]).toEqual([null, false]);
  });
});

describe("a beat by hand", () => {
  const six = Float64Array.from({ length: 200 }, (_v, i) => 3 * Math.sin((2 * Math.PI * i) / 20) + Math.sin(i * i) + 0.4 * Math.sin(i / 3));
  const { normal } = random(4);

  it("a peak's ends are two bins away in frequency, its p counts the drawn records that reach it", () => {
    const got = swingSpectrum(six, random(4).normal, { draws: 99 });
    const [first] = got.peaks;
    // Periods from 12 down to 2 days of fifty: bins 5 to 25, of which the first stands at index 0.
    const ratio = (bin: number): number => got.density[bin - 1] / got.backgroundDensity[bin - 1];
    const bins = Array.from({ length: 21 }, (_v, i) => 5 + i);
    const highest = bins.reduce((best, bin) => (ratio(bin) > ratio(best) ? bin : best));
    expect(Math.abs(highest - 10)).toBeLessThanOrEqual(1);
    expect([got.days, first.significant, first.pValue]).toEqual([50, true, 0.01]);
    expectClose(first.periodDays, 50 / highest, { absolute: 1e-9 });
    expectClose(first.periodLow, 50 / (highest + 2), { absolute: 1e-9 });
    expectClose(first.periodHigh, 50 / (highest - 2), { absolute: 1e-9 });
    expectClose(first.ratio, ratio(highest), { relative: 1e-9 });
    expect(got.says).toBe(`The swings tend to return every ${(50 / highest).toFixed(1)} days (${(50 / (highest + 2)).toFixed(1)} to ${(50 / (highest - 2)).toFixed(1)}): chance alone does this in about 1 of 100 records of irregular weather.`);
    expect([got, got.peaks, first, got.background, got.background!.coefficients].every(Object.isFrozen)).toBe(true);
    expect(got.background!.form).toBe("ln B = a + b L + c L^2, L = ln(f/0.2), f in cycles per day");
    expect(got.background!.coefficients.length).toBe(3);
    expectClose(got.cyclesPerDay[0], 1 / 50, { absolute: 1e-12 });
    // One-sided: twice the mean of the squares, a quarter of a day each.
    expectClose(got.density[9], 0.5 * sineTaperSpectrum(200, 3).of(six.map((v) => v - six.reduce((s, w) => s + w / 200, 0)))[10], { relative: 0.02 });
  });

  it("refuses draws below 99, above 99999 and broken ones; is silent under eight days", () => {
    for (const draws of [98, 100_000, 99.5, _]) expect(() => swingSpectrum(six, normal, { draws })).toThrow(`swingSpectrum: draws must be a whole number from 99 to 99999 (got ${draws})`);
    const short = swingSpectrum(six.subarray(0, 31), normal);
    expect([short.background, short.peaks, short.says, short.density.length, short.cyclesPerDay.length, short.backgroundDensity.length]).toEqual([null, [], "Too short to tell a beat of the swings from chance: log 33 more days.", 0, 0, 0]);
    expect(swingSpectrum(six.subarray(0, 32), normal).background).not.toBe(null);
    expect(swingSpectrum(new Float64Array(200).fill(1000), normal, { untested: "Asked of no one." }).says).toBe("Asked of no one.");
    expect(swingSpectrum(Float64Array.from({ length: 200 }, (_v, i) => 1000 + i / 7), normal).says).toBe("The pressure did not change: there are no swings to look at.");
  });
});

describe("pressureSwings by hand", () => {
  const tide: TideOfPlace = { valueAt: () => 0, changeVariance: () => 0, isDetected: true };
  const all = (values: Float64Array, noise = 0.05) => pressureSwings({ hours: { firstAt: start, values }, readings: { start, seconds: Float64Array.from(values, (_v, i) => 3600 * i), values }, tide, tideVariance: 0.5, noise }, { untested: "Not asked." });

  it("what is missing, what is short, and what of it is said", () => {
    const hours = inventedPressure(31, 7);
    const full = all(hours);
    expect(full.warnings.filter((w) => !w.startsWith("few storms") && !w.startsWith("within a day"))).toEqual([]);
    expectClose(full.parts!.standardError[300], swingBand(hours, { noise: 0.05, dayToDay: dayToDayTide(hours)! }).standardError[300], { absolute: 1e-12 });
    // Few storms are told of where the strength's interval rests on few, and only there.
    const short31 = [full, all(inventedPressure(200, 8))].map((got) => [got.band!.isShort, got.warnings.includes("few storms are in this record: the interval of the swings' strength may be too narrow")]);
    for (const [isShort, isTold] of short31) expect(isTold).toBe(isShort);
    expect(new Set(short31.map(([isShort]) => isShort)).size).toBe(2);
    expect([full.spectrum.says, full.band!.slowBy, full.band!.longestDays]).toEqual(["Not asked.", "15-day filter", 15]);
    expect([full.band, full.warnings, full].every(Object.isFrozen)).toBe(true);
    const lost = (count: number) => all(hours.map((v, i) => (i >= 300 && i < 300 + count ? _ : v))).warnings.filter((w) => w.includes("missing"));
    expect([lost(74), lost(75)]).toEqual([[], ["10 % of the hours are missing: the errors were tried with up to 10 % missing only"]]);
    const straight = (days: number) => all(hours.subarray(0, 24 * days)).warnings.filter((w) => w.startsWith("under 30"));
    expect([straight(30), straight(29)]).toEqual([[], ["under 30 days the slow background is a straight line, so swings over 15 days are not told: log 1 more day"]]);
    expect(straight(10)).toEqual(["under 30 days the slow background is a straight line, so swings over 5 days are not told: log 20 more days"]);
    const short = (values: Float64Array) => all(values).warnings.filter((w) => w.startsWith("too short for"));
    expect([short(hours.subarray(0, 192)), short(hours.subarray(0, 191)), short(hours.subarray(0, 120))]).toEqual([[], ["too short for the swings of several days: log 1 more day"], ["too short for the swings of several days: log 3 more days"]]);
    // Missing ends do not make it longer.
    expect(short(Float64Array.from([_, _, ...hours.subarray(0, 191), _]))).toHaveLength(1);
    expect(() => all(hours, -1)).toThrow(/^pressureSwings: noise must be from 0 to .* hPa \(got -1 hPa\)$/);
  });

  it("no strength from five days, from days without a neighbor, or from a pressure that never changes", () => {
    const hours = inventedPressure(31, 7);
    const on = (days: readonly number[]) => all(hours.map((v, i) => (days.includes(Math.floor(i / 24)) ? v : _)));
    const told = "too few days hold readings to tell the strength of the swings";
    expect([[0, 1, 2, 20, 30], [0, 1, 2, 3, 20, 30], [0, 5, 10, 15, 20, 25, 30]].map((days) => [on(days).band === null, on(days).warnings.includes(told)])).toEqual([[true, true], [false, false], [true, true]]);
    // What the filters leave of a pressure that never changes is rounding, with readings' noise or without.
    for (const noise of [0, 0.05]) {
      const still = all(new Float64Array(24 * 31).fill(1013.7), noise);
      expect([still.band, still.warnings.includes(told), still.warnings.includes("the pressure did not change: there are no swings"), still.events]).toEqual([null, false, true, []]);
    }
  });
});
