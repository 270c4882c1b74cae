import { describe, expect, it } from "vitest";
import { adaptiveComfort, outdoorRunningMean } from "../../../lib/indoors/adaptiveComfort.js";
import { humidityClass, humidityClassLimit } from "../../../lib/indoors/humidityClass.js";
import { hourlyMoisture, moistureExcess, vaporPressureExcess } from "../../../lib/indoors/moistureExcess.js";
import { sensorClass, sideBySide } from "../../../lib/indoors/sensorOffset.js";
import { shareOfHours } from "../../../lib/indoors/shareOfHours.js";
import { surfaceHumidity, surfaceRisk } from "../../../lib/indoors/surfaceRisk.js";
import { expectClose } from "../../close.js";

const hours = (n: number, v: number): Float64Array => new Float64Array(n).fill(v);
const at = (n: number, temperature: number, humidity: number) => ({ temperature: hours(n, temperature), humidity: hours(n, humidity) });

describe("moisture", () => {
  it("is the difference of absolute humidities and of vapor pressures, whatever the temperature does", () => {
    const n = 24 * 8;
    expectClose(moistureExcess(at(n, 20, 50), at(n, 5, 80)).difference?.value ?? 0, 8.6208 - 5.4374, { absolute: 0.02 }, "absolute humidities by hand");
    expectClose(vaporPressureExcess(at(n, 20, 50), at(n, 20, 40)).difference?.value ?? 0, 2.3326, { absolute: 0.001 }, "a tenth of saturation");
    expect(moistureExcess(at(n, 20, 50), at(n, 20, 50)).difference).toMatchObject({ value: 0, unit: "g m-3" });
  });

  it("leaves out what is missing or cannot be", () => {
    const found = hourlyMoisture({ temperature: [20, 20, 20, Number.NaN, 250], humidity: [50, 106, -1, 50, 50] });
    expect([...found].map(Number.isNaN)).toEqual([false, true, true, true, true]);
    expect(moistureExcess(at(24 * 8, 20, Number.NaN), at(24 * 8, 5, 80)).difference).toBeNull();
  });
});

describe("humidity class", () => {
  const days = (v: number): number[] => new Array(30).fill(v);
  it("both sides of each limit, and the limits fall with warmth outside", () => {
    expect([1.9, 2.1, 3.9, 4.1, 5.9, 6.1, 7.9, 8.1].map((v) => humidityClass(days(v), days(-5), 0).class)).toEqual([1, 2, 2, 3, 3, 4, 4, 5]);
    expect(humidityClass(days(1.9), days(10), 0).class).toBe(2);
    expect(humidityClass(days(-3), days(0), 0).class).toBe(1);
    expect([humidityClassLimit(2, 0), humidityClassLimit(2, 10), humidityClassLimit(2, 25), humidityClassLimit(4, -9)]).toEqual([4, 2, 0, 8]);
    expect(() => humidityClassLimit(5, 0)).toThrow("number must be from 1 to 4 (got 5)");
  });

  it("tells the excess by the temperature outside", () => {
    const { byOutdoor } = humidityClass([4, 3, Number.NaN, 2, 1], [-3, 0, 2, 4.9, 30], 0);
    expect(byOutdoor).toEqual([
      { from: null, to: 0, days: 1, excess: 4 },
      { from: 0, to: 5, days: 2, excess: 2.5 },
      { from: 5, to: 10, days: 0, excess: null },
      { from: 10, to: 15, days: 0, excess: null },
      { from: 15, to: null, days: 1, excess: 1 },
    ]);
  });

  it("undecided when the interval crosses a limit; none in warm air, under a week, or with lengths that differ", () => {
    expect(humidityClass(days(3.8), days(0), 0.3)).toMatchObject({ class: null, lowest: 2, highest: 3, share: 1 });
    expect(humidityClass(days(3), days(19), 0.3)).toMatchObject({ class: null, share: null });
    expect(humidityClass([1, 1, 1], [0, 0, 0], 0).weeks).toBe(0);
    expect(humidityClass([...days(1).slice(0, 15), ...days(5).slice(0, 15)], days(0), 0).share).toBeLessThan(1);
    expect(() => humidityClass([1], [1, 2], 0)).toThrow("outdoor must have the length of excess, 1 d (got 2 d)");
    expect(() => humidityClass([1], [1], -1)).toThrow("halfWidth must be at least 0 g m-3");
  });
});

describe("shareOfHours", () => {
  it("never seen, always seen, half seen", () => {
    const never = shareOfHours(hours(24 * 20, 0));
    expect(never).toMatchObject({ hours: 0, hoursJudged: 480, effectiveCount: 4 });
    expect(never.share?.low).toBe(0);
    expect(never.share?.high).toBeGreaterThan(0.3);
    expect(shareOfHours(hours(24 * 20, 1)).share).toMatchObject({ value: 1, high: 1 });
    const half = shareOfHours(Float64Array.from({ length: 24 * 200 }, (_, h) => (h % 24 < 12 ? 1 : 0)));
    expect(half.share?.value).toBe(0.5);
    // The same half of every day: as good as 4 800 independent hours, no better.
    expect(half.effectiveCount).toBe(4800);
  });

  it("too short, empty, missing", () => {
    expect(shareOfHours(hours(24 * 5, 1)).share).toBeNull();
    expect(shareOfHours([])).toMatchObject({ hours: 0, hoursJudged: 0, share: null });
    expect(shareOfHours(hours(200, Number.NaN)).share).toBeNull();
  });
});

describe("surfaces", () => {
  it("80 % falls at 12.617 °C and condensation at 9.255 °C for 20 °C and 50 %", () => {
    // Outside at −5 °C: the factor of a surface at 12.617 °C is 0.7047, at 9.255 °C 0.5702.
    const room = at(48, 20, 50);
    expectClose(surfaceHumidity(room, hours(48, -5), 17.617 / 25)[40], 80, { absolute: 0.01 }, "WMO Magnus");
    expectClose(surfaceHumidity(room, hours(48, -5), 14.255 / 25)[40], 100, { absolute: 0.02 }, "dew point");
    expect(surfaceRisk(room, hours(48, -5), { factor: 0.71 }).mould.hours).toBe(0);
    expect(surfaceRisk(room, hours(48, -5), { factor: 0.7 }).mould.hours).toBe(31);
    expect(surfaceRisk(room, hours(48, -5), { factor: 0.7 }).mould.atOtherFactors).toEqual([{ factor: 0.65, hours: 31 }, { factor: 0.75, hours: 0 }]);
    // A hygrometer 3 % off counts more than the surface: at 0.7 and 50 % the surface stands at 80.6 %, at 47 % at 75.8 %, at 0.75 and 53 % at 78 %.
    expect(surfaceRisk(room, hours(48, -5), { factor: 0.7 }).mould.atOtherReadings).toEqual([{ humidity: -3, hours: 0 }, { humidity: 3, hours: 31 }]);
    expect(surfaceRisk(at(48, 20, 99), hours(48, 19), { factor: 1 }).condensation.atOtherReadings).toEqual([{ humidity: -3, hours: 0 }, { humidity: 3, hours: 31 }]);
    expect(surfaceRisk(at(48, 20, 2), hours(48, 19), { factor: 1 }).mould.atOtherReadings.map((r) => r.hours)).toEqual([0, 0]);
    expect(surfaceRisk(room, hours(48, -5), { factor: 0.57 }).condensation.hours).toBe(31);
    expect(surfaceRisk(room, hours(48, -5), { factor: 1 }).condensation.atOtherFactors.map((f) => f.factor)).toEqual([0.95]);
  });

  it("needs 18 of the last 24 hours outside; lengths and factor are checked", () => {
    const cold = hours(48, -5);
    const got = surfaceHumidity(at(48, 20, 50), cold, 0.7);
    expect([got[16], got[17]].map(Number.isNaN)).toEqual([true, false]);
    expect(() => surfaceHumidity(at(48, 20, 50), hours(47, 1), 0.7)).toThrow("outside must have the length of inside, 48 h (got 47 h)");
    expect(() => surfaceHumidity(at(48, 20, 50), cold, 1.1)).toThrow("factor must be from 0 to 1 (got 1.1)");
  });
});

describe("comfort", () => {
  it("running mean: with all, some and too few days", () => {
    expectClose(outdoorRunningMean([20, 18, 16, 15, 14, 13, 12]), 16.684, { absolute: 5e-4 }, "printed digits");
    expectClose(outdoorRunningMean([10, 10, 10, Number.NaN, 10, Number.NaN, 10]), 10, { absolute: 1e-12 }, "rounding");
    expect(outdoorRunningMean([Number.NaN, 1, 1, 1, 1, 1, 1])).toBeNaN();
    expect(outdoorRunningMean([1, 1, 1, 1])).toBeNaN();
  });

  it("bands about 0.33 Θ + 18.8 and 0.31 t + 17.8, only inside their range of outdoor temperature", () => {
    const n = 24 * 20;
    const bandsAt = (inside: number, outside: number) => adaptiveComfort(hours(n, inside), hours(n, outside)).bands;
    // At 20 °C outside: comfort 25.4 °C, category I 22.4…27.4; the other 24.0 ± 2.5 °C.
    expect(bandsAt(27.3, 20)[0].within?.value).toBe(1);
    expect(bandsAt(27.5, 20)[0]).toMatchObject({ above: bandsAt(27.5, 20)[0].hours, below: 0 });
    expect(bandsAt(22.3, 20)[0].below).toBeGreaterThan(0);
    expect(bandsAt(26.4, 20)[3].within?.value).toBe(1);
    expect(bandsAt(26.6, 20)[3].within?.value).toBe(0);
    expect(bandsAt(20, 5).every((b) => b.hours === 0 && b.within === null)).toBe(true);
    expect(adaptiveComfort(hours(n, 28), hours(n, 27)).says.join(" ")).toMatch(/hot and humid/);
    expect(adaptiveComfort(hours(n, 22), hours(n, 12)).says.join(" ")).not.toMatch(/hot and humid/);
    expect(() => adaptiveComfort([1], [])).toThrow("outside must have the length of inside, 1 h (got 0 h)");
  });
});

describe("sensors", () => {
  it("side by side: bias, and nothing under 6 hours or without neighbors", () => {
    const a = Float64Array.from({ length: 30 }, (_, h) => 20.3 + 0.05 * Math.sin(h));
    const { bias, hours: n } = sideBySide(a, hours(30, 20), { unit: "K" });
    expectClose(bias?.value ?? 0, 0.3, { absolute: 0.02 }, "planted");
    expect(n).toBe(30);
    expect(sideBySide(a.subarray(0, 5), hours(5, 20), { unit: "K" }).bias).toBeNull();
    expect(sideBySide(a.map((v, h) => (h % 2 === 0 ? v : Number.NaN)), hours(30, 20), { unit: "K" }).bias).toBeNull();
    expect(sideBySide([], [], { unit: "K" })).toEqual({ bias: null, hours: 0 });
    expect(() => sideBySide([1], [], { unit: "K" })).toThrow("outside must have the length of inside");
  });

  it("class: 0.7 to 0.8 g/m³ between two uncorrected sensors at 20 °C, 50 %; null without humidity", () => {
    const air = { temperature: 20, humidity: 50 };
    expectClose(sensorClass(air, air).moisture?.high ?? 0, 0.76, { absolute: 0.01 }, "0.52 and 0.16 g/m³ from each");
    expect(sensorClass(air, { temperature: 5, humidity: Number.NaN })).toMatchObject({ humidity: null, moisture: null, basis: "class" });
  });
});
