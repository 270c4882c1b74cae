import { describe, expect, it } from "vitest";
import { fitTides } from "../../../lib/cycles/tide/fitTides.js";
import { standardPressure } from "../../../lib/air/standardAtmosphere.js";
import type { PlaceRecord } from "../../../lib/record/airRecord.js";
import { type Series, series } from "../../../lib/record/series.js";
import { estimate } from "../../../lib/ground/estimate.js";
import { altitudeOf } from "../../../lib/trust/altitude.js";
import { flagRange } from "../../../lib/trust/faults/flagRange.js";
import { placeCoverage } from "../../../lib/trust/placeCoverage.js";
import { type SolarCheck, solarCheck } from "../../../lib/trust/solarCheck.js";
import { unitDoubt } from "../../../lib/trust/unitDoubt.js";
import { expectClose } from "../../close.js";
import { pressureRecord } from "../../simulation/pressureRecord.js";

const hour = 3600000;
const start = Date.UTC(2024, 0, 20);

function placeOf(values: readonly (number | null)[], times = values.map((_, i) => start + 300000 * i), quantity: "surface_air_pressure" | "air_temperature" = "surface_air_pressure"): PlaceRecord {
  const s = series({ times, values, quantity, place: "roof" });
  return { name: "roof", title: "Roof", exposure: "outdoor", elevation: null, readings: times.length, repeated: 0, conflicting: 0, start: s.start, seconds: s.seconds, series: { [quantity]: s } };
}

describe("placeCoverage", () => {
  it("counts steps, tells gaps longer than 2.5 steps from reading to reading, keeps every value's count", () => {
    const times = [0, 300, 600, 1350, 1650, 1950, 2250].map((s) => start + 1000 * s);
    const c = placeCoverage(placeOf([1010, null, 1012, 1013, 1014, 1015, 1016], times));
    expect(c.medianStepSeconds).toBe(300);
    expect(c.gaps).toEqual([]);
    const wide = placeCoverage(placeOf([1010, 1011, 1012, 1013, 1014], [0, 300, 600, 1351, 1651].map((s) => start + 1000 * s)));
    expect(wide.gaps).toEqual([{ from: start + 600000, to: start + 1351000, hours: 751 / 3600 }]);
    expect(c.quantities.surface_air_pressure).toMatchObject({ values: 6, min: 1010, max: 1016 });
    expect(placeCoverage(placeOf([1, 2, 3])).coverage).toBe(1);
    expectClose(placeCoverage(placeOf([1, 2, 3, 4], [0, 300, 600, 1200].map((s) => start + 1000 * s))).coverage, 0.8, { absolute: 1e-12 }, "four of five steps");
  });
  it("a clock that is a little slow loses nothing; nothing gives 0", () => {
    const times = Array.from({ length: 3000 }, (_, i) => start + 300004 * i);
    expectClose(placeCoverage(placeOf(times.map(() => 1010), times)).coverage, 1, { absolute: 1e-9 }, "slow clock");
    expect(placeCoverage(placeOf([])).coverage).toBe(0);
    expect(placeCoverage(placeOf([])).medianStepSeconds).toBe(0);
  });
});

describe("altitudeOf", () => {
  const site = (elevation: number) => ({ latitude: -7, longitude: 110, elevation });
  const at = (hPa: number) => placeOf(Array.from({ length: 2000 }, (_, i) => hPa + 2 * Math.sin(i / 50)));
  it("fits at the site's own level, with the weather's spread about the implied height", () => {
    const a = altitudeOf(at(standardPressure(1380) + 2), site(1380));
    expect([a?.plausible, a?.looksLike]).toEqual([true, "station"]);
    expectClose(a?.difference ?? 9, 2, { absolute: 0.3 }, "median less expected");
    expect((a?.impliedElevation.high ?? 0) - (a?.impliedElevation.low ?? 0)).toBeGreaterThan(100);
    expect(a?.says).toContain("1380 m");
  });
  it("trap: reduced to sea level at altitude is told as such, with what to do", () => {
    const a = altitudeOf(at(1012), site(1380));
    expect([a?.plausible, a?.looksLike]).toEqual([false, "sea level"]);
    expect(a?.says).toMatch(/looks like pressure reduced to sea level/);
  });
  it("at 3600 m near the equator both the standard pressure and that of its warm air fit, and the height named holds the site", () => {
    const warm = (hPa: number): PlaceRecord => {
      const place = at(hPa);
      const pressure = place.series.surface_air_pressure as Series;
      return { ...place, series: { ...place.series, air_temperature: { ...pressure, quantity: "air_temperature", unit: "degC", values: pressure.values.map(() => 9) } } };
    };
    // U.S. Standard Atmosphere 1976 at 3600 m; with 9 °C there and 6.5 K/km below, 1013.25 hPa at the sea leave 667 hPa.
    for (const hPa of [standardPressure(3600), 667]) {
      const a = altitudeOf(warm(hPa), site(3600));
      expect([a?.plausible, a?.looksLike]).toEqual([true, "station"]);
      expect(a !== null && a.impliedElevation.low <= 3600 && a.impliedElevation.high >= 3600).toBe(true);
    }
    expect(altitudeOf(warm(standardPressure(3000)), site(3600))?.plausible).toBe(false);
  });
  it("indoors the air of the column is that of the place outdoors: a frosty winter at 2500 m is no wrong elevation", () => {
    // 1010 hPa at the sea under 2500 m of air that is −30 °C at the site and 6.5 K/km warmer below.
    const pressure = 1010 * (243.15 / (243.15 + 16.25)) ** 5.2559;
    const room: PlaceRecord = { ...at(pressure), exposure: "indoor" };
    const logged = room.series.surface_air_pressure as Series;
    const yard: PlaceRecord = { ...room, exposure: "outdoor", series: { air_temperature: { ...logged, quantity: "air_temperature", unit: "degC", values: logged.values.map(() => -30) } } };
    expect(altitudeOf(room, site(2500))?.plausible).toBe(false);
    const told = altitudeOf(room, site(2500), yard);
    expect([told?.plausible, told?.looksLike]).toEqual([true, "station"]);
    expectClose(told?.impliedElevation.value ?? 0, 2500, { absolute: 60 }, "height of 1013 hPa instead of 1010");
    // Its own room's warmth is not asked, and a place outdoors uses its own.
    const heated: PlaceRecord = { ...room, series: { ...room.series, air_temperature: { ...logged, quantity: "air_temperature", unit: "degC", values: logged.values.map(() => 21) } } };
    expect(altitudeOf(heated, site(2500), yard)).toEqual(told);
    expect(altitudeOf({ ...heated, exposure: "outdoor" }, site(2500), yard)).not.toEqual(told);
  });
  it("a wrong elevation fits neither", () => {
    const a = altitudeOf(at(standardPressure(700)), site(1380));
    expect([a?.plausible, a?.looksLike]).toEqual([false, "unclear"]);
    expectClose(a?.impliedElevation.value ?? 0, 700, { absolute: 30 }, "height that fits");
  });
  it("near the sea the two cannot be told apart; no pressure gives null", () => {
    expect(altitudeOf(at(1010), site(20))?.looksLike).toBe("unclear");
    expect(altitudeOf(at(1010), site(20))?.plausible).toBe(true);
    expect(altitudeOf(placeOf([20, 21], undefined, "air_temperature"), site(20))).toBeNull();
  });
});

describe("unitDoubt", () => {
  const column = (values: readonly number[], quantity: "surface_air_pressure" | "air_temperature" | "relative_humidity") => {
    const s = series({ times: values.map((_, i) => start + 300000 * i), values, quantity, place: "roof" });
    return { ...s, flags: flagRange(s) };
  };
  it("names the unit that would fit: Pa, kPa, mmHg, inHg, K, Fahrenheit, shares", () => {
    expect(unitDoubt(column([86000, 86100], "surface_air_pressure"), { elevation: 1380 })).toMatch(/read as Pa it would be 860.5 hPa: check the unit/);
    expect(unitDoubt(column([86, 86.1], "surface_air_pressure"))).toMatch(/read as kPa it would be 860.5 hPa/);
    expect(unitDoubt(column([759, 761], "surface_air_pressure"), { elevation: 10 })).toMatch(/read as mmHg it would be 1013.3 hPa/);
    expect(unitDoubt(column([29.9, 29.94], "surface_air_pressure"), { elevation: 10 })).toMatch(/read as inHg it would be 1013.2 hPa/);
    expect(unitDoubt(column([293, 295], "air_temperature"))).toMatch(/read as K it would be 20.9 °C/);
    expect(unitDoubt(column([40, 55, 68, 75, 90], "air_temperature"))).toMatch(/read as degF it would be 20.0 °C/);
    expect(unitDoubt(column([0.5, 0.7, 0.6], "relative_humidity"))).toMatch(/read as a share \(unit 1\) it would be 60.0 %/);
  });
  it("has no doubt about sound columns, a few wild readings, or nothing", () => {
    expect(unitDoubt(column([860, 861], "surface_air_pressure"), { elevation: 1380 })).toBeNull();
    expect(unitDoubt(column([1010, 1012], "surface_air_pressure"))).toBeNull();
    expect(unitDoubt(column([1010, 1012], "surface_air_pressure"), { elevation: 1380 })).toBeNull();
    expect(unitDoubt(column([...Array.from({ length: 99 }, () => 20), 185], "air_temperature"))).toBeNull();
    expect(unitDoubt(column([45, 60], "relative_humidity"))).toBeNull();
    expect(unitDoubt(column([], "relative_humidity"))).toBeNull();
  });
});

describe("solarCheck", () => {
  const longitude = 110.2;
  /** Days of hourly pressure and of temperature warmest at 14.5 h by the sun, by a clock so many hours ahead. */
  function checked(ahead: number, { tide, warm = true, level = 860 }: { tide?: readonly (readonly [number, number, number])[]; warm?: boolean; level?: number } = {}): SolarCheck {
    const [p] = pressureRecord(31, { days: 40, step: 3600, longitude, level, weather: [1, 40], tide: tide ?? [[1, 0.5, 5.5], [2, 1.05, 9.9]] }, [() => 3600 * ahead]);
    const times = Array.from(p.seconds, (s) => p.start + 1000 * s);
    const t = series({ times, values: times.map((at) => 20 + 4 * Math.cos((2 * Math.PI * (at / hour - ahead + longitude / 15 - 14.5)) / 24)), quantity: "air_temperature" });
    const found = solarCheck(fitTides(p, { longitude, climatology: false }), -7.1, warm ? t : null);
    if (found === null) throw new Error("no S2");
    return found;
  }
  it("fits a sound clock and barometer", () => {
    const s = checked(0);
    expect(s.plausible).toBe(true);
    expectClose(s.maximumAt?.value ?? 0, 9.9, { absolute: 0.1 }, "crest");
    expect(s.expected.low < 1.05 && 1.05 < s.expected.high).toBe(true);
    expect(s.says).toMatch(/as it should/);
  });
  it("trap: clock wrong by hours, told modulo twelve by the tide, the half picked by the temperature", () => {
    for (const [ahead, said] of [[4.5, "4.5 h ahead"], [-7.4, "7.4 h behind"], [7, "7.0 h ahead"], [-3, "3.0 h behind"]] as const) {
      const s = checked(ahead);
      expect(s.plausible, said).toBe(false);
      const [, hours, way] = /seems to be (\d+\.\d) h (ahead|behind)/.exec(s.says) ?? [];
      expect(`${way} within 0.3 h: ${Math.abs(Number(hours) - Math.abs(ahead)) <= 0.3}`, s.says).toBe(`${ahead > 0 ? "ahead" : "behind"} within 0.3 h: true`);
    }
    expect(checked(4.5, { warm: false }).says).toMatch(/or the same and twelve hours, which only the temperature could tell/);
  });
  it("twelve hours off leave the crest where it was and the warmest hour at night", () => {
    expect(checked(12).says).toMatch(/warmest hour comes out at 02:\d\d: the clock seems to be twelve hours off/);
    expect(checked(12).plausible).toBe(false);
  });
  it("a crest near noon's seam is compared across it", () => {
    const s = checked(0, { tide: [[1, 0.5, 5.5], [2, 1.05, 10.6]] });
    expect(s.plausible).toBe(true);
  });
  it("trap: a barometer that follows temperature, a damped one, one that is sealed", () => {
    expect(checked(0, { tide: [[1, 4, 14], [2, 1.05, 9.9]] }).says).toMatch(/once-daily tide is [34]\.\d hPa, where sound barometers show up to 2 hPa/);
    const damped = checked(0, { tide: [[1, 0.2, 5.5], [2, 0.35, 9.9]] });
    expect(damped.plausible).toBe(false);
    expect(damped.says).toMatch(/its size is 0\.\d+ hPa \(0\.\d+ to 1\.\d+ is usual/);
    const sealed = checked(0, { tide: [] });
    expect(sealed.plausible === false || /too weak/.test(sealed.says)).toBe(true);
  });
  /** The sound check's fit with another S2 and S1: crest, half width of its interval, size. */
  function told(crest: number, half: number, { s2 = 1.05, s1 = 0.5, latitude = -7.1, warmest = 14.5 } = {}): SolarCheck {
    const [p] = pressureRecord(31, { days: 40, step: 3600, longitude, level: 860, weather: [1, 40], tide: [[1, 0.5, 5.5], [2, 1.05, 9.9]] }, [() => 0]);
    const fit = fitTides(p, { longitude, climatology: false });
    const size = (value: number) => estimate({ value, standardError: 0.02, low: value - 0.04, high: value + 0.04, unit: "hPa" });
    const constituents = fit.constituents.map((c) =>
      c.name === "S2" ? { ...c, detected: true, amplitude: size(s2), maximumAt: estimate({ value: crest, standardError: half / 2, low: crest - half, high: crest + half, unit: "h" }) } : c.name === "S1" ? { ...c, amplitude: size(s1) } : c,
    );
    const times = Array.from(p.seconds, (sec) => p.start + 1000 * sec);
    const t = series({ times, values: times.map((at) => 20 + 4 * Math.cos((2 * Math.PI * (at / hour + longitude / 15 - warmest)) / 24)), quantity: "air_temperature" });
    const found = solarCheck({ ...fit, constituents }, latitude, t);
    if (found === null) throw new Error("no S2");
    return found;
  }
  it("a crest at 00:19 whose wide interval touches the usual hours cannot tell; a narrow one is a wrong clock's", () => {
    const wide = told(0.32, 1.9);
    expect([wide.plausible, wide.says]).toEqual([true, "the tide crests at 00:19 ± 1.9 h by the sun, where 09:18 to 10:42 is usual: too uncertain to check the clock by it"]);
    expect(told(0.32, 1.5)).toMatchObject({ plausible: false, says: expect.stringMatching(/^the tide crests at 00:19 ± 1\.5 h by the sun, .*: the clock or the zone seems to be 2\.2 h ahead/) });
  });
  it("both sides of each limit: the interval of an hour, of half the band, the band's edge", () => {
    expect(told(10, 1).says).toMatch(/^the tide crests at 10:00 ± 60 min by the sun, as it should, .* fit the sun$/);
    expect(told(10, 1.01)).toMatchObject({ plausible: true, says: expect.stringMatching(/too uncertain to check the clock by it$/) });
    expect(told(9.1, 0.71)).toMatchObject({ plausible: true, says: expect.stringMatching(/^the tide crests at 09:06 ± 43 min by the sun, .*too uncertain/) });
    expect(told(9.1, 0.69)).toMatchObject({ plausible: true, says: expect.stringMatching(/^the tide crests at 09:06 by the sun, at the edge of what is usual, 09:18 to 10:42, and its size .*half an hour off/) });
    expect(told(9.1, 0.19)).toMatchObject({ plausible: false, says: expect.stringMatching(/clock or the zone seems to be 1\.0 h behind/) });
    expect(told(10.69, 0.2).says).toMatch(/as it should/);
  });
  it("an odd size is told beside a crest that tells nothing, and is the barometer's", () => {
    const odd = told(0.32, 1.9, { s2: 2.4 });
    expect([odd.plausible, odd.says]).toEqual([false, expect.stringMatching(/^the size of the tide is 2\.40 hPa \(0\.67 to 1\.54 is usual at this latitude\): a sign of the barometer.*too uncertain to check the clock by it$/)]);
  });
  it("trap: a false S1 is told before the hour of S2, which it spoils too", () => {
    for (const [crest, half] of [[0.32, 0.2], [4, 3], [9.9, 0.1]] as const) {
      const s = told(crest, half, { s1: 4 });
      expect([s.plausible, s.says]).toEqual([false, expect.stringMatching(/^the once-daily tide is 4\.0 hPa, where sound barometers show up to 2 hPa/)]);
      expect(s.says).not.toMatch(/clock/);
    }
    expect(told(9.9, 0.1, { s1: 2.03 }).plausible).toBe(true);
  });
  it("twelve hours are told by the temperature, whether the crest is known or not", () => {
    expect(told(10, 0.1, { warmest: 2.5 })).toMatchObject({ plausible: false, says: expect.stringMatching(/^the tide crests at 10:00 by the sun, as it should, but the warmest hour comes out at 02:30: the clock seems to be twelve hours off/) });
    expect(told(9, 1.9, { warmest: 2.5 })).toMatchObject({ plausible: false, says: expect.stringMatching(/too uncertain to check the clock by it, but the warmest hour comes out at 02:30: the clock seems to be twelve hours off/) });
    expect(told(9, 1.9, { warmest: 14.5 }).plausible).toBe(true);
  });
});
