import { describe, expect, it } from "vitest";
import { drawnRecords } from "../../../../lib/cycles/swings/drawnRecords.js";
import { withoutLine } from "../../../../lib/cycles/swings/leastSquaresLine.js";
import { redBackground } from "../../../../lib/cycles/swings/redBackground.js";
import { seasonalStrength } from "../../../../lib/cycles/swings/seasonalStrength.js";
import { sineTaperSpectrum } from "../../../../lib/cycles/swings/sineTaperSpectrum.js";
import { swingSpectrum } from "../../../../lib/cycles/swings/swingSpectrum.js";
import { bridgedHours } from "../../../../lib/grid/bridgedHours.js";
import { random } from "../../../../lib/ground/random.js";
import { expectClose } from "../../../close.js";

/** Irregular six-hourly weather with a wave of so many days on top. */
function weather(days: number, seed: number, wave = 0, size = 0): Float64Array {
  const { normal } = random(seed);
  let [x, y] = [0, 0];
  return Float64Array.from({ length: 4 * days }, (_v, i) => {
    x = 0.75 * x + normal();
    y = 0.75 * y + x;
    return 1000 + y + (size === 0 ? 0 : size * Math.sin((2 * Math.PI * i) / (4 * wave)));
  });
}

/** The test of a beat from its description: 99 records drawn from the fitted background, with the season's strength from 270 days on, gaps and all. */
function described(values: Float64Array, days: number, seed: number) {
  const bridged = bridgedHours(values);
  const n = 4 * days;
  const left = withoutLine(bridged.values);
  const spectrum = sineTaperSpectrum(n, 3);
  const background = redBackground(n, 0.25);
  const bins = Array.from({ length: n / 2 }, (_v, i) => i).filter((bin) => bin > 0 && days / bin <= 12 + 1e-9 && days / bin >= 2 - 1e-9);
  const ratios = (series: Float64Array): number[] => {
    const density = spectrum.of(series);
    const b = background.fit(density);
    return bins.map((bin) => density[bin] / background.at(b, bin));
  };
  const fitted = background.fit(spectrum.of(left));
  const strength = days >= 270 ? seasonalStrength(left, 0.25) : left.map(() => 1);
  const chance = Array.from(
    drawnRecords(values, (cycles) => background.at(fitted, cycles * n), random(seed).normal, 99),
    (record) => Math.max(...ratios(withoutLine(record.map((v, i) => v * strength[i])))),
  );
  const own = ratios(left);
  const tops = bins.map((bin, i) => ({ bin, ratio: own[i], isTop: !(own[i - 1] > own[i]) && !(own[i + 1] > own[i]) })).filter(({ isTop }) => isTop).sort((a, b) => b.ratio - a.ratio);
  const taken: { bin: number; ratio: number }[] = [];
  for (const top of tops) if (taken.length < 3 && taken.every(({ bin }) => Math.abs(bin - top.bin) >= 5)) taken.push(top);
  return taken.map(({ bin, ratio }) => ({ bin, ratio, pValue: (1 + chance.filter((r) => r >= ratio).length) / 100 }));
}

describe("the test of a beat beside its description", () => {
  it.each([
    ["fifty days with a gap", 50, weather(50, 11).map((v, i) => (i > 60 && i < 75 ? Number.NaN : v)), 0.05],
    ["sixty days and a beat of twelve, the slowest looked at", 60, weather(60, 12, 12, 9), 0.05],
    ["sixty days and a beat of two, the quickest looked at", 60, weather(60, 13, 2, 4), 0.05],
    ["179 days", 179, weather(179, 14), 0.05],
    ["180 days", 180, weather(180, 15), 0.03],
    ["269 days of a winter and a summer", 269, weather(269, 16).map((v, i) => 1000 + (v - 1000) * (1 + 0.8 * Math.cos((2 * Math.PI * i) / 1461))), 0.03],
    ["270 days of a winter and a summer", 270, weather(270, 16).map((v, i) => 1000 + (v - 1000) * (1 + 0.8 * Math.cos((2 * Math.PI * i) / 1461))), 0.03],
  ])("%s: peaks, their order, and how many drawn records reach them", (_name, days, values, limit) => {
    const got = swingSpectrum(values, random(7).normal, { draws: 99 });
    const wanted = described(values, days, 7);
    expect(got.peaks.map((p) => [Math.round(days / p.periodDays), p.pValue, p.significant])).toEqual(wanted.map((w) => [w.bin, w.pValue, w.pValue < limit]));
    got.peaks.forEach((p, i) => {
      expectClose(p.ratio, wanted[i].ratio, { relative: 1e-9 });
      expectClose(p.periodLow, days / (wanted[i].bin + 2), { absolute: 1e-9 });
      expectClose(p.periodHigh, days / (wanted[i].bin - 2), { absolute: 1e-9 });
    });
  });

  it("a beat just beyond what it looks at stands at the end of that, 12 or 2 days", () => {
    const first = (values: Float64Array): number => swingSpectrum(values, random(7).normal, { draws: 99 }).peaks[0].periodDays;
    expectClose(first(weather(60, 12, 14, 20)), 12, { absolute: 1e-9 });
    expectClose(first(weather(60, 13, 1.93, 9)), 2, { absolute: 1e-9 });
  });

  it("says how rare it is: under one of a hundred, or nearly all", () => {
    expect(swingSpectrum(weather(90, 18, 5, 12), random(7).normal, { draws: 199 }).says).toMatch(/^The swings tend to return every \d\.\d days \(\d\.\d to \d\.\d\): chance alone does this in fewer than 1 of 100 records of irregular weather\.$/);
    // One push in the middle has all frequencies alike, as no irregular record has.
    const push = Float64Array.from({ length: 200 }, (_v, i) => (i === 100 ? 5 : 0));
    expect(swingSpectrum(push, random(7).normal, { draws: 99 }).says).toBe("The swings come at no fixed beat: a spectrum like this appears by chance in nearly all records of irregular weather.");
    const some = swingSpectrum(weather(50, 11), random(7).normal, { draws: 99 });
    expect(some.says).toBe(`The swings come at no fixed beat: a spectrum like this appears by chance in about ${Math.round(100 * some.peaks[0].pValue)} of 100 records of irregular weather.`);
  });

  it("forty days are enough, a quarter of a day less is not; as many draws as told", () => {
    const of = (steps: number) => swingSpectrum(weather(50, 11).subarray(0, steps), random(7).normal, { draws: 99 });
    expect([of(160).peaks.length > 0, of(159).peaks, of(159).says]).toEqual([true, [], "Too short to tell a beat of the swings from chance: log 1 more day."]);
    expect(swingSpectrum(weather(50, 11), random(7).normal, { draws: 99_999, untested: "Not asked." }).says).toBe("Not asked.");
    expect(swingSpectrum(weather(300, 19), random(7).normal, { untested: "Not asked." }).background!.form).toBe("ln B = a + b L + c L^2 + d L^3 + e L^4, L = ln(f/0.2), f in cycles per day");
  });
});
