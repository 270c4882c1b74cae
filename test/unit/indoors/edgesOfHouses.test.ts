import { describe, expect, it } from "vitest";
import { absoluteHumidity } from "../../../lib/air/absoluteHumidity.js";
import { tQuantile } from "../../../lib/ground/distributions.js";
import { adaptiveComfort, outdoorRunningMean } from "../../../lib/indoors/adaptiveComfort.js";
import { changeBetween, changeOfMean } from "../../../lib/indoors/changeOfRoom.js";
import { changingEvents, coLocations, eventPeriods } from "../../../lib/indoors/eventPeriods.js";
import { humidityClass, humidityClassLimit } from "../../../lib/indoors/humidityClass.js";
import { dailyDifferences, meanDifference } from "../../../lib/indoors/meanDifference.js";
import { hourlyMoisture, hourlyVaporPressure, vaporPressureExcess } from "../../../lib/indoors/moistureExcess.js";
import { daySums } from "../../../lib/grid/daySums.js";
import { countOf, dailyInfluence, dailyMeans, pairedHours } from "../../../lib/indoors/pairedHours.js";
import { coolingTimeConstant, roomFilter, roomResponse } from "../../../lib/indoors/roomFilter.js";
import { sensorClass, sideBySide } from "../../../lib/indoors/sensorOffset.js";
import { shareOfHours } from "../../../lib/indoors/shareOfHours.js";
import { surfaceHumidity, surfaceRisk } from "../../../lib/indoors/surfaceRisk.js";
import { weatherDepartures } from "../../../lib/indoors/weatherDepartures.js";
import { withoutCycles } from "../../../lib/indoors/withoutCycles.js";
import { movingBackground } from "../../../lib/grid/movingBackground.js";
import { penetrationDepth, wallResponse } from "../../../lib/indoors/wallLayers.js";
import { expectClose } from "../../close.js";

const _ = Number.NaN;
const hours = (n: number, v: number): Float64Array => new Float64Array(n).fill(v);
const at = (n: number, temperature: number, humidity: number) => ({ temperature: hours(n, temperature), humidity: hours(n, humidity) });

describe("shareOfHours, its rules", () => {
  /** Hours of 30 days, so many of them seen, each in a day of its own from the first on. */
  const scattered = (seen: number): Float64Array => Float64Array.from({ length: 720 }, (_v, h) => (h % 24 === 7 && h < 24 * seen ? 1 : 0));

  it("nothing seen: one look in five days, under the normal law", () => {
    const { share, effectiveCount } = shareOfHours(hours(480, 0));
    expect(effectiveCount).toBe(4);
    const z = 1.959964 ** 2 / 4;
    // Wilson's interval at p = 0: 0 to z/(1 + z).
    expectClose(share!.high, z / (1 + z), { absolute: 1e-12 });
    expectClose(share!.standardError, z / (1 + z) / (2 * 1.959964), { absolute: 1e-12 });
    expect([share!.value, share!.low, share!.unit]).toEqual([0, 0, "1"]);
    const all = shareOfHours(hours(480, 1));
    expect([all.hours, all.hoursJudged, all.effectiveCount, all.share!.high]).toEqual([480, 480, 4, 1]);
    expectClose(all.share!.low, 1 / (1 + z), { absolute: 1e-12 });
  });

  it("under a day of hours: at most one look in two days; from a day on as many as the days' scatter says", () => {
    expect(shareOfHours(scattered(10)).effectiveCount).toBe(15);
    expect(shareOfHours(scattered(10).map((v) => 1 - v)).effectiveCount).toBe(15);
    expect(shareOfHours(scattered(23)).effectiveCount).toBe(15);
    expect(shareOfHours(scattered(24)).effectiveCount).toBeGreaterThan(15);
  });

  it("looks are what the long-run variance of the days says, each day by the hours judged in it", () => {
    const p = (so: Float64Array): number => so.reduce((s, v) => s + (Number.isNaN(v) ? 0 : v), 0) / so.filter((v) => !Number.isNaN(v)).length;
    // Thirty days; on every third only the first ten hours are known; a block of hours seen on some days.
    const patchy = (seenDays: number): Float64Array => Float64Array.from({ length: 720 }, (_v, h) => (Math.floor(h / 24) % 3 === 2 && h % 24 >= 10 ? _ : Math.floor(h / 24) % 7 < seenDays && h % 24 < 9 ? 1 : 0));
    for (const so of [patchy(1), patchy(2), patchy(4), scattered(29), scattered(1)]) {
      const share = p(so);
      const spread = dailyInfluence(daySums(so.map((v) => v - share)))!;
      const judged = so.filter((v) => !Number.isNaN(v)).length;
      const seen = so.reduce((s, v) => s + (Number.isNaN(v) ? 0 : v), 0);
      const looks = Math.min(seen < 24 ? 15 : judged, Math.max(1, (share * (1 - share)) / (spread.varianceOfSum / judged ** 2)));
      const found = shareOfHours(so);
      expectClose(found.effectiveCount, looks, { relative: 1e-12 });
      const t = tQuantile(0.975, spread.terms);
      const z = (t * t) / looks;
      const half = (t / (1 + z)) * Math.sqrt((share * (1 - share)) / looks + z / (4 * looks));
      expectClose(found.share!.high, (share + z / 2) / (1 + z) + half, { absolute: 1e-12 });
      expectClose(found.share!.low, Math.max(0, (share + z / 2) / (1 + z) - half), { absolute: 1e-12 });
      expectClose(found.share!.standardError!, (found.share!.high - found.share!.low) / (2 * t), { absolute: 1e-12 });
    }
  });

  it("parts of an hour count as parts, and what is no share is refused by its place", () => {
    expect(shareOfHours([0.5, _, 0.25])).toMatchObject({ hours: 0.75, hoursJudged: 2, share: null, effectiveCount: _ });
    expect(() => shareOfHours([0, 1.01])).toThrow(new RangeError("shareOfHours: isSo must be 1, 0 or NaN (got 1.01 at index 1)"));
    expect(() => shareOfHours([-0.01])).toThrow("shareOfHours: isSo must be 1, 0 or NaN (got -0.01 at index 0)");
    expect(Object.isFrozen(shareOfHours([]))).toBe(true);
    expect(Object.isFrozen(shareOfHours(hours(480, 0)))).toBe(true);
  });

  it("the interval holds the share and stays in 0…1", () => {
    for (const seen of [1, 10, 29]) {
      const { share } = shareOfHours(scattered(seen));
      expect(share!.value).toBe(seen / 720);
      expect(0 <= share!.low && share!.low < share!.value && share!.value < share!.high && share!.high < 1).toBe(true);
      const rest = shareOfHours(scattered(seen).map((v) => 1 - v)).share!;
      expectClose(rest.high, 1 - share!.low, { absolute: 1e-12 });
    }
  });
});

describe("adaptive comfort, its bands", () => {
  const n = 24 * 20;
  const bandsAt = (inside: number, outside: number) => adaptiveComfort(hours(n, inside), hours(n, outside)).bands;

  it("each band on both sides of its limits, at 20 °C outside", () => {
    // From memory of EN 16798-1 (0.33 Θ + 18.8; +2/−3, +3/−4, +4/−5) and ASHRAE 55 (0.31 t + 17.8; ±2.5, ±3.5).
    const limits = [["EN 16798-1 category I", 22.4, 27.4], ["EN 16798-1 category II", 21.4, 28.4], ["EN 16798-1 category III", 20.4, 29.4], ["ASHRAE 55, 90 %", 21.5, 26.5], ["ASHRAE 55, 80 %", 20.5, 27.5]] as const;
    limits.forEach(([band, low, high], i) => {
      for (const [air, below, above] of [[low - 0.01, 360, 0], [low + 0.01, 0, 0], [high - 0.01, 0, 0], [high + 0.01, 0, 360]]) {
        expect(bandsAt(air, 20)[i], `${band} at ${air} °C`).toMatchObject({ band, hours: 360, below, above });
        expect(bandsAt(air, 20)[i].within!.value).toBe(below + above === 0 ? 1 : 0);
      }
    });
  });

  it("judges only inside the range of the air outside", () => {
    const judged = (outside: number): number[] => bandsAt(22, outside).map((b) => b.hours);
    expect(judged(9.99)).toEqual([0, 0, 0, 0, 0]);
    expect(judged(10.01)).toEqual([360, 360, 360, 360, 360]);
    expect(judged(29.99)).toEqual([360, 360, 360, 360, 360]);
    expect(judged(30.01)).toEqual([0, 0, 0, 360, 360]);
    expect(judged(33.49)).toEqual([0, 0, 0, 360, 360]);
    expect(judged(33.51)).toEqual([0, 0, 0, 0, 0]);
  });

  it("a day counts with 18 hours, and the days before the day itself make the mean", () => {
    const outside = hours(n, 20);
    outside.fill(_, 240, 246);
    expect(adaptiveComfort(hours(n, 22), outside).bands[0].hours).toBe(360);
    outside.fill(_, 240, 247);
    // The day after the one left out has no yesterday.
    expect(adaptiveComfort(hours(n, 22), outside).bands[0].hours).toBe(336);
    const step = Float64Array.from({ length: 24 * 6 }, (_v, h) => (h < 120 ? 15 : 99));
    expectClose(adaptiveComfort(hours(144, 22), step).outdoorRunningMean, 15, { absolute: 1e-12 });
    expect(adaptiveComfort(hours(24, 22), hours(24, 15)).outdoorRunningMean).toBeNaN();
    const gap = hours(n, 22);
    gap[200] = _;
    expect(adaptiveComfort(gap, hours(n, 20)).bands[0].hours).toBe(359);
  });

  it("the European bands weigh the days before, yesterday most; the American ones do not", () => {
    // Six days of 10 °C and one of 20 °C before the day judged: (20 + 2.8 · 10)/3.8 = 12.63 °C and 80/7 = 11.43 °C.
    const outside = Float64Array.from({ length: 192 }, (_v, h) => (h >= 144 && h < 168 ? 20 : 10));
    const warmest = [0.33 * (48 / 3.8) + 18.8 + 2, 0.33 * (48 / 3.8) + 18.8 + 3, 0.33 * (48 / 3.8) + 18.8 + 4, 0.31 * (80 / 7) + 17.8 + 2.5, 0.31 * (80 / 7) + 17.8 + 3.5];
    warmest.forEach((limit, i) => {
      for (const [air, above] of [[limit - 0.01, 0], [limit + 0.01, 24]]) {
        const inside = Float64Array.from({ length: 192 }, (_v, h) => (h >= 168 ? air : _));
        expect(adaptiveComfort(inside, outside).bands[i], `band ${i} at ${air} °C`).toMatchObject({ hours: 24, above });
      }
    });
    expect(() => adaptiveComfort([1], [1, 2])).toThrow(new RangeError("adaptiveComfort: outside must have the length of inside, 1 h (got 2 h)"));
  });

  it("says where its bands come from, and that they mislead in hot climates, from 22 °C on", () => {
    const memory = "Comfort bands from memory of two standards, for rooms without cooling machines; a thermometer tells air, people feel walls and sun too.";
    const hot = "In hot and humid climates these bands mislead: people there were found to follow the outdoor temperature about twice as steeply.";
    expect(adaptiveComfort(hours(n, 22), hours(n, 21.9)).says).toEqual([memory]);
    expect(adaptiveComfort(hours(n, 22), hours(n, 22.1)).says).toEqual([memory, hot]);
    const frozen = adaptiveComfort(hours(n, 22), hours(n, 20));
    expect([frozen, frozen.bands, frozen.bands[0], frozen.says].every(Object.isFrozen)).toBe(true);
  });

  it("running mean: eight tenths, six tenths … of seven days, or plain", () => {
    const days = [20, 18, 16, 15, 14, 13, 12, 40];
    const w = [1, 0.8, 0.6, 0.5, 0.4, 0.3, 0.2];
    expectClose(outdoorRunningMean(days), w.reduce((s, v, k) => s + v * days[k], 0) / 3.8, { absolute: 1e-12 });
    expectClose(outdoorRunningMean(days, { weighted: false }), 108 / 7, { absolute: 1e-12 });
    expectClose(outdoorRunningMean([10, 20, _, 20, 20, _, 20], { weighted: false }), 18, { absolute: 1e-12 });
    expectClose(outdoorRunningMean([10, 20, _, 20, 20, _, 20]), (10 + 20 * 1.9) / 2.9, { absolute: 1e-12 });
    expect(outdoorRunningMean([10, 20, _, 20, 20, _, _])).toBeNaN();
    expect(outdoorRunningMean([_, 20, 20, 20, 20, 20, 20])).toBeNaN();
  });
});

describe("humidity class, its rules", () => {
  const days = (v: number, n = 30): number[] => new Array<number>(n).fill(v);

  it("a limit itself belongs to the class above it", () => {
    expect([2, 4, 6, 8].map((v) => humidityClass(days(v), days(0), 0).class)).toEqual([2, 3, 4, 5]);
    expect([1, 2, 3, 4].map((k) => humidityClassLimit(k, 15))).toEqual([0.5, 1, 1.5, 2]);
    expect(humidityClassLimit(1, 30)).toBe(0);
    expect(() => humidityClassLimit(0, 0)).toThrow("humidityClassLimit: number must be from 1 to 4 (got 0)");
  });

  it("too warm from 18 °C on, and both sentences", () => {
    expect(humidityClass(days(1), days(17.9), 0).class).not.toBe(null);
    expect(humidityClass(days(1), days(18.1), 0)).toMatchObject({ class: null, share: null, lowest: null, highest: null, weeks: 24, says: "No humidity class: it is too warm outside; the limits fall to 0 at 20 °C and lie closer together than sensors can tell." });
    expect(humidityClass(days(3), days(0), 0).says).toBe("Humidity class 2 (limits from memory of ISO 13788).");
    expect(humidityClass(days(3), days(0), 1.5).says).toBe("Humidity class undecided between 1 and 3: the interval of the moisture excess, sensors included, crosses a limit.");
    expect(humidityClass(days(3), days(0), 1.5)).toMatchObject({ class: null, lowest: 1, highest: 3, share: 1 });
    expect(humidityClass(days(3, 6), days(0, 6), 0)).toMatchObject({ weeks: 0, says: "No humidity class: less than a week of humidity in both places." });
    for (const found of [humidityClass(days(3), days(0), 0), humidityClass(days(3), days(19), 0), humidityClass([], [], 0)]) expect(Object.isFrozen(found)).toBe(true);
  });

  it("refuses by name", () => {
    expect(() => humidityClass([1], [1, 2], 0)).toThrow(new RangeError("humidityClass: outdoor must have the length of excess, 1 d (got 2 d)"));
    expect(() => humidityClass([1], [1], -1)).toThrow(new RangeError("humidityClass: halfWidth must be at least 0 g m-3 (got -1 g m-3)"));
  });

  it("a week needs five days of both", () => {
    expect(humidityClass(days(3, 7), days(0, 7), 0)).toMatchObject({ weeks: 1, class: 2, share: 1 });
    expect(humidityClass([3, _, 3, 3, 3, 3, 3], [0, 0, 0, _, 0, 0, 0], 0).weeks).toBe(1);
    expect(humidityClass([3, _, 3, 3, 3, 3, 3], [0, 0, 0, _, _, 0, 0], 0).weeks).toBe(0);
  });

  it("the mean of the weeks decides, the share counts those at or below, each at its own warmth", () => {
    // Weeks of 1, of mixtures, and of 5: 8 running weeks of 14 days with a step after 7.
    const found = humidityClass([...days(1, 7), ...days(5, 7)], days(0, 14), 0);
    const weekly = [0, 1, 2, 3, 4, 5, 6, 7].map((k) => 1 + (4 * k) / 7);
    expect(found).toMatchObject({ weeks: 8, class: 2 });
    expect(found.share).toBe(weekly.filter((v) => v < 4).length / 8);
    // 1.5 g/m³ is class 1 in frost, class 2 at 10 °C.
    expect(humidityClass(days(1.5, 14), [...days(0, 7), ...days(10, 7)], 0).class).toBe(2);
  });

  it("tells the excess by the air outside, each limit opening its class", () => {
    expect(humidityClass([1, 2, 3, 4, 5, 6], [-0.1, 0, 5, 10, 15, _], 0).byOutdoor.map((b) => [b.from, b.to, b.days, b.excess])).toEqual([
      [null, 0, 1, 1], [0, 5, 1, 2], [5, 10, 1, 3], [10, 15, 1, 4], [15, null, 1, 5],
    ]);
  });
});

describe("surfaces, their rules", () => {
  it("the air outside is the mean of the last 24 hours, of at least 18", () => {
    const outside = Float64Array.from({ length: 60 }, (_v, h) => (h < 30 ? 0 : 10));
    const surface = (air: number): number => surfaceHumidity(at(60, 20, 50), hours(60, air), 0.5)[59];
    const got = surfaceHumidity(at(60, 20, 50), outside, 0.5);
    expectClose(got[29], surface(0), { absolute: 1e-9 });
    expectClose(got[41], surface(5), { absolute: 1e-9 });
    expectClose(got[53], surface(10), { absolute: 1e-9 });
    outside.fill(_, 36, 42);
    expect(Number.isNaN(surfaceHumidity(at(60, 20, 50), outside, 0.5)[41])).toBe(false);
    outside.fill(_, 36, 43);
    expect(surfaceHumidity(at(60, 20, 50), outside, 0.5)[42]).toBeNaN();
    expect(surfaceHumidity(at(60, 20, _), outside, 0.5)[30]).toBeNaN();
  });

  it("hours that were missing leave the mean as they came", () => {
    const outside = Float64Array.from({ length: 100 }, (_v, h) => (h >= 30 && h < 34 ? _ : h));
    const got = surfaceHumidity(at(100, 60, 50), outside, 0);
    // Hours 33 to 56 without 33 itself; hours 40 to 63.
    const surface = (air: number): number => surfaceHumidity(at(30, 60, 50), hours(30, air), 0)[29];
    expectClose(got[56], surface(45), { relative: 1e-9 });
    expectClose(got[63], surface(51.5), { relative: 1e-9 });
    expect(() => surfaceHumidity(at(2, 20, 50), hours(1, 0), 0.7)).toThrow(new RangeError("surfaceHumidity: outside must have the length of inside, 2 h (got 1 h)"));
    // Saturated air on a surface as warm as itself is at 100 %, and that counts.
    expect(surfaceRisk(at(48, 20, 100), hours(48, -5), { factor: 1 }).condensation.hours).toBe(31);
  });

  it("at the ends of the factor the surface is the air outside, or the room", () => {
    expectClose(surfaceHumidity(at(48, 20, 50), hours(48, -5), 1)[40], 50, { absolute: 1e-9 });
    // 11.663 hPa over 4.21 hPa of saturation at −5 °C.
    expect(surfaceHumidity(at(48, 20, 50), hours(48, -5), 0)[40]).toBeGreaterThan(270);
    expect(surfaceHumidity(at(48, 20, 50), hours(48, 400), 0.7)[40]).toBeNaN();
    expect(surfaceHumidity(at(48, 20, 50), hours(48, -400), 0.7)[40]).toBeNaN();
    expect(() => surfaceHumidity(at(48, 20, 50), hours(48, 0), -0.1)).toThrow("surfaceHumidity: factor must be from 0 to 1 (got -0.1)");
  });

  it("counts what it judged, with a factor of 0.7 unless told otherwise and its neighbors", () => {
    const risk = surfaceRisk(at(200, 20, 50), hours(200, -5));
    expect(risk).toEqual(surfaceRisk(at(200, 20, 50), hours(200, -5), { factor: 0.7 }));
    expect([risk.hoursJudged, risk.mould.factor, risk.condensation.hours]).toEqual([183, 0.7, 0]);
    expect(risk.mould.share!.value).toBe(1);
    const others = (factor: number): number[] => surfaceRisk(at(48, 20, 50), hours(48, -5), { factor }).mould.atOtherFactors.map((f) => f.factor);
    expect(others(0.02)).toEqual([0, 0.07]);
    expect(others(0)).toEqual([0.05]);
    expect(others(0.97)).toEqual([0.92, 1]);
    expect([risk, risk.mould, risk.mould.atOtherFactors, risk.mould.atOtherFactors[0]].every(Object.isFrozen)).toBe(true);
  });
});

describe("walls, their rules", () => {
  const brick = { thickness: 0.25, conductivity: 0.77, density: 1700, heatCapacity: 840 };

  it("a thin light layer is its resistance alone, the films of the room and the air outside included", () => {
    const thin = { thickness: 1e-4, conductivity: 0.05, density: 10, heatCapacity: 1000 };
    const wall = wallResponse([thin]);
    expectClose(wall.transmittance, 1 / (0.13 + 0.002 + 0.04), { relative: 1e-12 });
    expectClose(wall.decrementFactor, 1, { absolute: 1e-6 });
    expectClose(wall.timeLag, 0, { absolute: 1e-3 });
    expect(wallResponse([thin], { inner: 0.13, outer: 0.04 })).toEqual(wall);
    expectClose(wallResponse([thin, thin], { inner: 0, outer: 0 }).transmittance, 1 / 0.004, { relative: 1e-12 });
    expect(Object.isFrozen(wall)).toBe(true);
  });

  it("one layer without films, by its own formula: Z₁₂ = sinh((1 + i) x) δ/((1 + i) λ)", () => {
    const depth = penetrationDepth(brick);
    expectClose(depth, Math.sqrt((0.77 * 86400) / (Math.PI * 1700 * 840)), { relative: 1e-12 });
    expectClose(penetrationDepth(brick, { periodHours: 6 }), depth / 2, { relative: 1e-12 });
    const x = 0.25 / depth;
    // |sinh((1 + i) x)|² = sinh² x + sin² x, and |1 + i| = √2; its argument less 45° is how late the heat is.
    const size = (Math.sqrt(Math.sinh(x) ** 2 + Math.sin(x) ** 2) * depth) / (Math.SQRT2 * 0.77);
    const wall = wallResponse([brick], { inner: 0, outer: 0 });
    expectClose(wall.decrementFactor, 0.25 / 0.77 / size, { relative: 1e-12 });
    const angle = Math.atan2(Math.cosh(x) * Math.sin(x), Math.sinh(x) * Math.cos(x)) - Math.PI / 4;
    expectClose(wall.timeLag, (24 * angle) / (2 * Math.PI), { relative: 1e-12 });
  });

  it("a lag of more than half a day is not taken for a lead; the order of layers does not change U", () => {
    const thick = wallResponse([{ ...brick, thickness: 0.6 }]);
    expect(thick.timeLag).toBeGreaterThan(12);
    const wool = { thickness: 0.1, conductivity: 0.04, density: 30, heatCapacity: 1000 };
    const [a, b] = [wallResponse([brick, wool]), wallResponse([wool, brick])];
    expectClose(a.transmittance, b.transmittance, { relative: 1e-12 });
    expect(Math.abs(a.decrementFactor - b.decrementFactor)).toBeGreaterThan(0.01);
  });

  it("refuses by the name of what is wrong", () => {
    for (const name of ["conductivity", "density", "heatCapacity"] as const) {
      for (const v of [0, -1, Infinity]) expect(() => penetrationDepth({ ...brick, [name]: v })).toThrow(new RangeError(`penetrationDepth: ${name} must be positive (got ${v})`));
      expect(() => penetrationDepth({ ...brick, [name]: 1e10 })).toThrow(`penetrationDepth: ${name} must be from 0.000001 to 1000000000 (got 10000000000)`);
    }
    expect(() => penetrationDepth(brick, { periodHours: 0 })).toThrow("penetrationDepth: periodHours must be positive (got 0)");
    expect(() => wallResponse([{ ...brick, thickness: Infinity }])).toThrow("wallResponse: thickness must be positive (got Infinity m)");
    expect(() => wallResponse([{ ...brick, thickness: 250 }])).toThrow("wallResponse: layers must be at most 300 penetration depths thick (got 2.05e+3); thickness is in m");
    expect(() => wallResponse([brick], { outer: 11 })).toThrow("wallResponse: outer must be from 0 to 10 m² K/W (got 11 m² K/W)");
    expect(() => wallResponse([brick], { inner: -1 })).toThrow("wallResponse: inner must be from 0 to 10 m² K/W (got -1 m² K/W)");
  });
});

describe("sensors, their rules", () => {
  it("the class: 0.3 to 0.6 K and 2 to 3 %, moisture from both sensors' own air", () => {
    const found = sensorClass({ temperature: 20, humidity: 50 }, { temperature: 5, humidity: 80 });
    expect(found.temperature).toMatchObject({ value: 0, standardError: 0.3, low: -0.6, high: 0.6, unit: "K" });
    expect(found.humidity).toMatchObject({ value: 0, standardError: 2, low: -3, high: 3, unit: "%" });
    // Saturation 17.27 and 6.80 g/m³ (WMO, R_v 461.5): 3 % are 0.518 and 0.204; 0.3 K at 50 % and 80 % are 0.152 and 0.107.
    expectClose(found.moisture!.high, Math.hypot(0.518, 0.152, 0.204, 0.107), { absolute: 0.003 });
    const parts = [[20, 50], [5, 80]].flatMap(([t, rh]) => [0.03 * absoluteHumidity(t, 100), absoluteHumidity(t + 0.3, rh) - absoluteHumidity(t, rh)]);
    expectClose(found.moisture!.high, Math.hypot(...parts), { relative: 1e-12 });
    expect(found.moisture).toMatchObject({ value: 0, unit: "g m-3", standardError: found.moisture!.high, low: -found.moisture!.high });
    expect(found.basis).toBe("class");
    expect(Object.isFrozen(found)).toBe(true);
  });

  it("humidity that cannot be, or a temperature that is not known, leaves the temperature's part", () => {
    const air = { temperature: 20, humidity: 50 };
    for (const humidity of [0, 105]) expect(sensorClass(air, { temperature: 5, humidity }).moisture).not.toBe(null);
    for (const other of [{ temperature: 5, humidity: -1 }, { temperature: 5, humidity: 105.1 }, { temperature: _, humidity: 50 }, { temperature: 5, humidity: _ }]) {
      for (const found of [sensorClass(air, other), sensorClass(other, air)]) {
        expect([found.humidity, found.moisture, found.temperature!.high, found.basis]).toEqual([null, null, 0.6, "class"]);
        expect(Object.isFrozen(found)).toBe(true);
      }
    }
  });

  it("side by side: six hours, two of them neighbors, missing ends cut", () => {
    const a = [_, 21, 21.2, _, 21, 21.2, 21, 21.2, _];
    const b = hours(9, 20);
    const found = sideBySide(a, b, { unit: "K" });
    expectClose(found.bias!.value, 1.1, { absolute: 1e-12 });
    expect([found.hours, found.bias!.unit, Object.isFrozen(found)]).toEqual([6, "K", true]);
    expect(sideBySide([_, 21, 21.2, _, 21, 21.2, 21, _, _], b, { unit: "K" })).toEqual({ bias: null, hours: 5 });
    const alone = Array.from({ length: 13 }, (_v, h) => (h % 2 === 0 ? 21 : _));
    expect(sideBySide(alone, hours(13, 20), { unit: "K" })).toEqual({ bias: null, hours: 7 });
    expect(() => sideBySide([1, Infinity], [1, 2], { unit: "K" })).toThrow("sideBySide: inside must be finite or NaN (got Infinity at index 1)");
    expect(() => sideBySide([1, 2], [-Infinity, 2], { unit: "K" })).toThrow("sideBySide: outside must be finite or NaN (got -Infinity at index 0)");
    expect(() => sideBySide([1, 2], [1], { unit: "K" })).toThrow(new RangeError("sideBySide: outside must have the length of inside, 2 h (got 1 h)"));
  });
});

describe("moist hours", () => {
  it("both ends of the ranges count, beyond them nothing", () => {
    const limits = { temperature: [-100, 100, 20, 20, -100.1, 100.1, 20, 20], humidity: [50, 10, 0, 105, 50, 50, -0.1, 105.1] };
    for (const f of [hourlyMoisture, hourlyVaporPressure]) expect([...f(limits)].map(Number.isNaN)).toEqual([false, false, false, false, true, true, true, true]);
    expect(vaporPressureExcess(at(192, 20, 50), at(192, 20, 40)).difference!.unit).toBe("hPa");
  });
});

describe("mean differences and days", () => {
  it("a day needs 20 hours of both, and the unit is what it was told", () => {
    const inside = hours(24 * 7, 3);
    expect(meanDifference(inside, hours(24 * 7, 1)).difference).toMatchObject({ value: 2, unit: "K" });
    expect(meanDifference(inside, hours(24 * 7, 1), { unit: "hPa" }).difference!.unit).toBe("hPa");
    expect([...dailyDifferences([...hours(20, 4), ...hours(4, _), ...hours(19, 4), ...hours(5, _)], hours(48, 1))]).toEqual([3, _]);
    expect(meanDifference(hours(24 * 5, 3), hours(24 * 5, 1))).toMatchObject({ difference: null, daysUsed: 5, memoryDays: _, isShort: true });
    for (const found of [meanDifference(inside, inside), meanDifference([], [])]) expect(Object.isFrozen(found)).toBe(true);
    expect(() => meanDifference([1], [1, 2])).toThrow("meanDifference: outside must have the length of inside, 1 h (got 2 h)");
  });

  it("counts, sums, and the six days that a spread needs, two of them neighbors", () => {
    expect(countOf(Uint8Array.of(1, 0, 1, 1))).toBe(3);
    expect([...daySums([...hours(23, 1), _, ...hours(24, _), 2, 3])]).toEqual([23, _, 5]);
    expect([...daySums([])]).toEqual([]);
    // A day of 17 hours, one of 18 that runs from 1 to 18 with mean 9.5, and a part of a day.
    const values = [...hours(17, 3), ...hours(7, _), ...hours(6, _), ...hours(18, 1).map((v, k) => v + k), 4, 6];
    expect([...dailyMeans(values, 18)]).toEqual([_, 9.5, _]);
    expect([...dailyMeans(values, 2)]).toEqual([3, 9.5, 5]);
    expect([...dailyMeans([], 1)]).toEqual([]);
    expect([...pairedHours("x", [1, _, 3], [1, 2, _])]).toEqual([1, 0, 0]);
    expect(() => pairedHours("x", [Infinity], [1])).toThrow("x: inside must be finite or NaN (got Infinity at index 0)");
    expect(dailyInfluence([1, 2, 1, 3, 1])).toBe(null);
    expect(dailyInfluence([1, 2, 1, 3, 1, 2])).not.toBe(null);
    expect(dailyInfluence([1, _, 1, _, 1, _, 2, _, 1, _, 2, _, 1])).toBe(null);
    expect(dailyInfluence([_, 1, 2, _, 1, _, 3, _, 1, _, 2])).not.toBe(null);
  });
});

describe("a room of one constant, its rules", () => {
  it("answers as 1/(1 + iωτ), once a day unless told otherwise", () => {
    const omega = (2 * Math.PI) / 24;
    const found = roomResponse(12);
    expectClose(found.gain, 1 / Math.sqrt(1 + (12 * omega) ** 2), { relative: 1e-14 });
    expectClose(found.lagHours, Math.atan(12 * omega) / omega, { relative: 1e-14 });
    expect(roomResponse(12, { cyclesPerDay: 1 })).toEqual(found);
    expectClose(roomResponse(6, { cyclesPerDay: 2 }).lagHours, found.lagHours / 2, { relative: 1e-14 });
    expect(roomResponse(0)).toEqual({ gain: 1, lagHours: 0 });
    expect(Object.isFrozen(found)).toBe(true);
    expect(() => roomResponse(1e7)).toThrow("roomResponse: tau must be from 0 to 1000000 h (got 10000000 h)");
    expect(() => roomResponse(1, { cyclesPerDay: 0 })).toThrow("roomResponse: cyclesPerDay must be from 1e-9 to 1000000 cpd (got 0 cpd)");
  });

  it("cools by e in each constant, from either side", () => {
    expectClose(coolingTimeConstant(20, 5 + 15 / Math.E, 5, 8), 8, { relative: 1e-14 });
    expectClose(coolingTimeConstant(0, 10 - 10 / Math.E ** 2, 10, 8), 4, { relative: 1e-12 });
    expect(() => coolingTimeConstant(20, 20, 5, 8)).toThrow("coolingTimeConstant: after must lie between before and outside (got 20 °C between 20 °C and 5 °C)");
    expect(() => coolingTimeConstant(20, 5, 5, 8)).toThrow("after must lie between before and outside");
    expect(() => coolingTimeConstant(20, 10, 5, 0)).toThrow("coolingTimeConstant: hours must be from 1e-9 to 1000000 h (got 0 h)");
  });

  it("after a step follows the exact answer to straight runs", () => {
    // Outside rises from 0 to 1 within an hour: inside = 1 − τ(1 − a) there, then 1 − (1 − inside₁) a^(h−1).
    const got = roomFilter(Float64Array.of(0, 1, 1, 1), 6);
    const a = Math.exp(-1 / 6);
    const first = 1 - 6 * (1 - a);
    [0, first, 1 - (1 - first) * a, 1 - (1 - first) * a * a].forEach((v, h) => {
      expectClose(got[h], v, { absolute: 1e-14 });
    });
    expect([...roomFilter(Float64Array.of(7), 6)]).toEqual([7]);
  });
});

describe("events, their rules", () => {
  const start = Date.UTC(2024, 2, 1);
  const day = 86_400_000;
  const axis = { start, hours: 240 };
  const event = (from: number, to: number | null = null, kind: string | null = null) => ({ at: start + from * day, to: to === null ? null : start + to * day, kind, title: `day ${from}` });

  it("a co-location without an end is neither a stretch nor a change; events at the ends are none", () => {
    expect(coLocations([event(2, null, "co-location"), event(3, 4)])).toEqual([]);
    expect(changingEvents([event(2, null, "co-location"), event(0), event(10), event(9.9), event(0.1)], axis).map((e) => e.title)).toEqual(["day 0.1", "day 9.9"]);
  });

  it("periods are titled by what bounds them, and end with the axis", () => {
    const periods = eventPeriods([event(4), event(9)], axis);
    expect(periods.map((p) => [p.title, p.fromHour, p.toHour])).toEqual([
      ["before: day 4", 0, 48], ["after: day 4, before: day 9", 144, 168], ["after: day 9", 240, 240],
    ]);
    expect([periods, periods[0], eventPeriods([], axis)].every(Object.isFrozen)).toBe(true);
  });
});

describe("changes, their rules", () => {
  const side = (value: number, standardError: number, degreesOfFreedom: number) => ({ value, standardError, degreesOfFreedom });

  it("refuses by the side that is wrong", () => {
    expect(() => changeBetween(side(1, 1, 3), side(1, Infinity, 3))).toThrow(new RangeError("changeBetween: after must have a standard error and degrees of freedom (got Infinity and 3)"));
    expect(() => changeBetween(side(1, 1, 0), side(1, 1, 3))).toThrow("changeBetween: before must have a standard error and degrees of freedom (got 1 and 0)");
    expect(() => changeBetween(side(_, 1, 3), side(1, 1, 3))).toThrow("changeBetween: before.value must be finite (got NaN)");
    expect(() => changeBetween(side(1, 1, 3), side(1e61, 1, 3))).toThrow("changeBetween: values and standard errors must lie within ±1e+60 (got 1e+61 at index 1)");
  });

  it("the interval is Student's; without a unit a pure number", () => {
    const { change, degreesOfFreedom } = changeBetween(side(1, 0.3, 4), side(2, 0, 9));
    expect([degreesOfFreedom, change.unit, change.standardError]).toEqual([4, "1", 0.3]);
    // t of 4 degrees of freedom at 0.975: 2.776445 (printed tables).
    expectClose(change.high, 1 + 2.776445 * 0.3, { absolute: 1e-6 });
    expectClose(change.low, 1 - 2.776445 * 0.3, { absolute: 1e-6 });
    expect(Object.isFrozen(changeBetween(side(1, 0.3, 4), side(2, 0, 9)))).toBe(true);
  });

  it("a mean's change: what it refuses, and what it is told without", () => {
    const daily = Array.from({ length: 30 }, (_v, k) => Math.sin(k * k) + (k >= 15 ? 2 : 0));
    const outdoor = Array.from({ length: 30 }, (_v, k) => 10 + Math.cos(k * k * 1.3));
    const found = changeOfMean(daily, outdoor, 15);
    expect(found).toEqual(changeOfMean(daily, outdoor, 15, { unit: "K", daysBefore: 2 }));
    expect([found.change!.unit, Object.isFrozen(found)]).toEqual(["K", true]);
    expect(changeOfMean(daily, outdoor, 15, { unit: "hPa" }).change!.unit).toBe("hPa");
    expect(changeOfMean(daily, outdoor, 25)).toEqual({ change: null, phi: _, degreesOfFreedom: _ });
    expect(changeOfMean(daily.map((v, k) => (k === 29 ? _ : v)), outdoor, 20).change).toBe(null);
    expect(changeOfMean(daily, outdoor.map((v, k) => (k === 29 ? _ : v)), 20).change).toBe(null);
    expect(() => changeOfMean(daily, outdoor, _)).toThrow("changeOfMean: event must be finite (got NaN d)");
    expect(() => changeOfMean([Infinity], [1], 0)).toThrow("changeOfMean: daily must be finite or NaN (got Infinity at index 0)");
    expect(() => changeOfMean([1], [Infinity], 0)).toThrow("changeOfMean: outdoor must be finite or NaN (got Infinity at index 0)");
  });

  it("a day whose air outside is not known stands aside, and counts as the day before for those after it", () => {
    const daily = Array.from({ length: 30 }, (_v, k) => Math.sin(k * k) + (k >= 15 ? 2 : 0));
    const outdoor = Array.from({ length: 30 }, (_v, k) => 10 + Math.cos(k * k * 1.3));
    for (const d of [7, 20]) {
      const unknown = changeOfMean(daily, outdoor.map((v, k) => (k === d ? _ : v)), 15);
      expect(unknown).toEqual(changeOfMean(daily.map((v, k) => (k === d ? _ : v)), outdoor.map((v, k) => (k === d ? outdoor[d - 1] : v)), 15));
      expect(unknown).not.toEqual(changeOfMean(daily.map((v, k) => (k === d ? _ : v)), outdoor, 15));
    }
    // Before the first day the first day stands.
    expect(changeOfMean(daily, outdoor, 15)).toEqual(changeOfMean([_, _, ...daily], [outdoor[0], outdoor[0], ...outdoor], 17));
    // A day at the very mean does not make the air outside flat.
    const even = outdoor.map((_v, k) => (k === 3 ? 10 : k % 2 === 0 ? 9 : 11));
    even[4] = 10;
    expect(changeOfMean(daily, even, 15).change).not.toBe(null);
    expect(() => changeOfMean(daily, [1], 15)).toThrow(new RangeError("changeOfMean: outdoor must have the length of daily, 30 d (got 1 d)"));
    expect(() => changeOfMean(daily, outdoor, 15, { daysBefore: 7.5 })).toThrow("changeOfMean: daysBefore must be from 0 to 7 d (got 7.5 d)");
  });
});

describe("cycles and slow weather taken out", () => {
  it("mean, slope and four waves of the day leave nothing, hours that are masked have nothing", () => {
    const n = 240;
    const turn = (2 * Math.PI) / 24;
    const values = Float64Array.from({ length: n }, (_v, h) => 12 + 0.05 * h + [1, 2, 3, 4].reduce((s, c) => s + Math.cos(turn * c * h + c) / c, 0));
    const mask = Uint8Array.from(values, (_v, h) => (h % 17 === 3 ? 0 : 1));
    const left = withoutCycles(values, mask);
    left.forEach((v, h) => {
      if (mask[h] === 0) expect(v).toBeNaN();
      else expect(Math.abs(v)).toBeLessThan(1e-9);
    });
    const fifth = withoutCycles(values.map((v, h) => v + Math.cos(turn * 5 * h)), new Uint8Array(n).fill(1));
    fifth.forEach((v, h) => {
      // A line takes a hundredth of ten days of it.
      expectClose(v, Math.cos(turn * 5 * h), { absolute: 0.02 }, `hour ${h}`);
    });
    const slow = Float64Array.from({ length: n }, (_v, h) => Math.sin(h / 20));
    const out = withoutCycles(slow, new Uint8Array(n).fill(1));
    const mean = movingBackground(out, 121);
    weatherDepartures(slow, new Uint8Array(n).fill(1)).forEach((v, h) => {
      expectClose(v, out[h] - mean[h], { absolute: 1e-12 }, `hour ${h}`);
    });
  });

  it("needs 48 hours", () => {
    const two = Float64Array.from({ length: 60 }, (_v, h) => Math.sin(h * h));
    const mask = (count: number): Uint8Array => Uint8Array.from(two, (_v, h) => (h < count ? 1 : 0));
    expect(withoutCycles(two, mask(48)).filter((v) => !Number.isNaN(v)).length).toBe(48);
    expect(() => withoutCycles(two, mask(47))).toThrow(new RangeError("withoutCycles: mask must hold at least 48 hours (got 47 h); log longer"));
    expect(() => dailyDifferences([1], [1, 2])).toThrow("dailyDifferences: outside must have the length of inside, 1 h (got 2 h)");
  });
});
