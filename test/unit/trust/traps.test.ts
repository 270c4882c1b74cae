import { describe, expect, it } from "vitest";
import { checkRecord } from "../../../lib/answers/checkRecord.js";
import { reduceToSeaLevel } from "./seaLevel.js";
import type { AirRecord, PlaceRecord } from "../../../lib/record/airRecord.js";
import type { Series } from "../../../lib/record/series.js";
import { driftBySun } from "../../../lib/trust/clock/sunClock.js";
import { expectClose } from "../../close.js";
import { type HousePlan, inventedHouse, type Readings, recordOf, redNoise } from "../../simulation/inventedHouse.js";
import { random } from "../../../lib/ground/random.js";
import { pressureRecord } from "../../simulation/pressureRecord.js";

/**
 * Traps of real records that `check` can see, each planted in an invented record and found by its sentence. Sizes of the traps: measured
 * on real hourly pressure and house logs by this project; what cannot be seen stands in the README of lib/trust.
 */
type House = ReturnType<typeof inventedHouse>;
const hour = 3600000;
const plan: HousePlan = { days: 60, step: 900, climate: "tropics", room: "free", digits: [0.1, 1, 0.1] };
const recordFrom = ({ site, outside, inside }: House): AirRecord => recordOf(site, { outside: { exposure: "outdoor", readings: outside }, inside: { exposure: "indoor", readings: inside } });
const alone = ({ site, outside }: House, latitude = site.latitude): AirRecord => recordOf({ ...site, latitude }, { outside: { exposure: "outdoor", readings: outside } });
const reasonsOf = (record: AirRecord): string => checkRecord(record).verdict.reasons.join("\n");
const levelOf = (record: AirRecord): string => checkRecord(record).verdict.level;

/** Pressure alone, at one place. */
function pressureOnly(seed: number, days: number, step: number, clock: (ms: number) => number, latitude = 5, more: Parameters<typeof pressureRecord>[1] = { days, step }): AirRecord {
  const [s] = pressureRecord(seed, { ...more, days, step }, [clock]);
  const empty = new Float64Array(s.values.length).fill(Number.NaN);
  const { places, ...rest } = recordOf({ latitude, longitude: 0, elevation: 30 }, { outside: { exposure: "outdoor", readings: { times: s.seconds.map((t) => s.start + 1000 * t), air_temperature: empty, relative_humidity: empty, surface_air_pressure: s.values } } });
  const { surface_air_pressure } = places.outside.series;
  return { ...rest, places: { outside: { ...places.outside, series: { surface_air_pressure } } } };
}

/** A copy of a house with the outdoor readings kept at some indices only. */
function thinned(house: House, isKept: (i: number) => boolean): House {
  const pick = (x: Float64Array): Float64Array => x.filter((_, i) => isKept(i));
  const { times, air_temperature, relative_humidity, surface_air_pressure } = house.outside;
  return { ...house, outside: { times: pick(times), air_temperature: pick(air_temperature), relative_humidity: pick(relative_humidity), surface_air_pressure: pick(surface_air_pressure) } };
}

describe("traps of time", () => {
  it("a three-hour mean stamped at its end: the tide comes an hour late", () => {
    const house = inventedHouse(1001, { ...plan, days: 90 });
    const { outside } = house;
    const mean = (x: Float64Array, i: number): number => x.slice(Math.max(0, i - 11), i + 1).reduce((a, b) => a + b, 0) / Math.min(12, i + 1);
    const averaged = (x: Float64Array): Float64Array => x.map((_, i) => mean(x, i));
    // Each row holds the mean of the three hours before its stamp: the crest comes 1.5 h late.
    const late: Readings = { times: outside.times, air_temperature: averaged(outside.air_temperature), relative_humidity: averaged(outside.relative_humidity), surface_air_pressure: averaged(outside.surface_air_pressure) };
    expect(reasonsOf(alone({ ...house, outside: late }))).toMatch(/the clock or the zone seems to be 1\.\d h ahead/);
  });

  it("a lone clock that gains 10 s a day: the tide crests ever later (396 days)", () => {
    const record = pressureOnly(1002, 396, 1800, (ms) => ((ms - Date.UTC(2024, 0, 20)) / 86400000) * 10);
    expect(reasonsOf(record)).toMatch(/the twice-daily tide of outside crests ever later: by the sun its clock gains 1\d ± \d+ s a day|gains [89] ± \d+ s a day/);
    expectClose(driftBySun(record.places.outside, 0)?.estimate.value ?? 0, 10, { absolute: 3 }, "s a day: 99 % interval of about ± 3");
    expect(reasonsOf(pressureOnly(1003, 396, 1800, () => 0))).not.toMatch(/crests ever/);
  });

  it("driftBySun says nothing under 15 days, of nothing, and of a short list; of 200 days it says how little it knows", () => {
    const place = (days: number): PlaceRecord => pressureOnly(1004, days, 3600, () => 0).places.outside;
    const whole = place(200);
    const told = driftBySun(whole, 0)?.estimate;
    expect(told !== undefined && told.low < 0 && told.high > 0, "a sound clock").toBe(true);
    expect((told?.high ?? 0) - (told?.low ?? 0), "more than the season could do in 200 days, ± 0.2 h").toBeGreaterThan(7);
    expect(driftBySun(place(14), 0)).toBe(null);
    const changed = (s: Partial<Series>): PlaceRecord => ({ ...whole, series: { surface_air_pressure: { ...(whole.series.surface_air_pressure as Series), ...s } } });
    expect(driftBySun(changed({ values: new Float64Array(whole.readings).fill(Number.NaN) }), 0)).toBe(null);
    expect(driftBySun(changed({ seconds: new Float64Array(0), values: new Float64Array(0) }), 0)).toBe(null);
  });

  it("two loggers, one of which gains 20 s a day: their barometers tell it", () => {
    const house = inventedHouse(1005, { ...plan, step: 300 });
    const first = house.inside.times[0];
    const inside = { ...house.inside, times: house.inside.times.map((t) => t + ((t - first) / 86400000) * 20000) };
    expect(reasonsOf(recordFrom({ ...house, inside }))).toMatch(/the clock of outside loses (1[5-9]|2[0-5]) ± \d+ s a day against that of inside/);
  });
});

describe("traps of readings", () => {
  it("every third hour, joined by straight lines to hourly", () => {
    const house = inventedHouse(1010, { ...plan, step: 3600 });
    const joined = (x: Float64Array): Float64Array => x.map((_, i) => { const a = 3 * Math.floor(i / 3); const b = Math.min(x.length - 1, a + 3); return b === a ? x[a] : x[a] + ((x[b] - x[a]) * (i - a)) / (b - a); });
    const drawn = { ...house.outside, surface_air_pressure: joined(house.outside.surface_air_pressure) };
    expect(reasonsOf(alone({ ...house, outside: drawn }))).toMatch(/readings lie on straight lines between every 3 h: only those were fitted/);
  });

  it("three-hourly readings: S3 is not sure", () => {
    const house = thinned(inventedHouse(1011, { ...plan, step: 3600 }), (i) => i % 3 === 0);
    expect(reasonsOf(alone(house))).toMatch(/readings come every 3 h: S3 may be off/);
  });

  it("rounding to 1 hPa, 1 mmHg or 0.01 inHg is no complaint", () => {
    for (const digit of [1, 1.33322387415, 0.3386388640341]) {
      const record = recordFrom(inventedHouse(1012, { ...plan, digits: [0.1, 1, digit] }));
      expect(levelOf(record), reasonsOf(record)).toBe("good");
    }
  });

  it("broken days are kept: a record whose every second day has a hole is fitted whole, and nothing is wrong with it but the coverage", () => {
    const reasons = reasonsOf(alone(thinned(inventedHouse(1013, plan), (i) => Math.floor(i / 96) % 2 === 0 || i % 96 > 8)));
    expect(reasons).toMatch(/clock, zone and barometer fit the sun/);
  });

  it("codes for missing that nobody declared: −999.9, −99, −9, one by one and for hours", () => {
    for (const [quantity, code, runs] of [["air_temperature", -999.9, 1], ["air_temperature", -99, 40], ["air_temperature", -9, 1], ["relative_humidity", -9, 6], ["surface_air_pressure", -999.9, 1], ["surface_air_pressure", 9999, 30]] as const) {
      const house = inventedHouse(1014, plan);
      for (let k = 0; k < 12; k++) house.outside[quantity].fill(code, 200 + 400 * k, 200 + 400 * k + runs);
      expect(reasonsOf(alone(house)), `${quantity} ${code}`).toMatch(new RegExp(`reads exactly ${String(code).replace("-", "−")} \\S+ ${12 * runs} times, far from everything else: it looks like a code for a missing value`));
    }
  });

  it("a code that no flag catches spoils what comes after; honest extremes are no code", () => {
    const house = inventedHouse(1015, plan);
    for (let k = 0; k < 12; k++) house.outside.air_temperature.fill(-9, 200 + 400 * k, 240 + 400 * k);
    // Stuck for ten hours at one value is seen as stuck; half a day of them in a row is no weather either way.
    expect(reasonsOf(alone(house))).toMatch(/reads exactly −9 °C 480 times/);
    expect(reasonsOf(recordFrom(inventedHouse(1016, { ...plan, climate: "middle", digits: [0.5, 1, 1] })))).not.toMatch(/code for a missing value/);
  });
});

describe("traps of pressure", () => {
  it("reduced to sea level with the temperature of the moment, at 1380 m: told by level and by the once-daily tide", () => {
    const house = inventedHouse(1020, plan);
    const reduced = reduceToSeaLevel(house.outside, 1380);
    const reasons = reasonsOf(alone({ ...house, outside: reduced }));
    expect(reasons).toMatch(/the barometer of outside does not fit the height \(10\d\d\.\d hPa where 858\.1 hPa is usual\)/);
    expect(reasons).toMatch(/the once-daily tide is \d\.\d hPa, where sound barometers show up to 2 hPa.*reduced to sea level|tide crests at/);
  });

  it("reduced with a 30-day mean temperature: the level tells it, the tide is whole", () => {
    const house = inventedHouse(1021, plan);
    const reduced = { ...house.outside, surface_air_pressure: house.outside.surface_air_pressure.map((p) => p * 1.175) };
    const answer = checkRecord(alone({ ...house, outside: reduced }));
    expect(answer.altitude.outside.looksLike).toBe("sea level");
    expect(answer.altitude.outside.says).toMatch(/give the field the quantity air_pressure_at_mean_sea_level/);
  });

  it("broken barometers: following the temperature, damped, jumping by more than 5 hPa", () => {
    const broken = (change: (p: number, t: number, i: number) => number): string => {
      const house = inventedHouse(1022, { ...plan, days: 90 });
      const { surface_air_pressure: p, air_temperature: t } = house.outside;
      return reasonsOf(alone({ ...house, outside: { ...house.outside, surface_air_pressure: p.map((v, i) => change(v, t[i], i)) } }));
    };
    expect(broken((p, t) => p + 1.2 * (t - 20))).toMatch(/once-daily tide is [3-9]\.\d hPa, where sound barometers show up to 2 hPa|the tide crests at/);
    expect(broken((p) => 859 + 0.15 * (p - 859))).toMatch(/tide is missing: at most|its size is 0\.\d+ hPa .*a sign of the barometer/);
    expect(broken((p, _, i) => p + (i > 4000 ? 9 : 0))).toMatch(/the pressure: the level jumps by (8|9)\.\d hPa at 2024-04-1\dT\S+ each part was given|the barometer of outside jumps to another level/);
  });

  it("the formula is context and not truth: a tide 20 % smaller or 50 % larger is sound", () => {
    for (const share of [0.8, 1.5]) {
      const record = pressureOnly(1023, 90, 1800, () => 0, 5, { days: 90, step: 1800, tide: [[1, 0.5, 5.5], [2, 1.15 * share, 10]] });
      expect(reasonsOf(record), `${share}`).toMatch(/clock, zone and barometer fit the sun/);
    }
  });

  it("a noisy barometer is not called a broken clock", () => {
    const house = inventedHouse(1024, { ...plan, days: 90 });
    const noise = redNoise(random(7), house.outside.times.length, 0.25, 0.3, 1);
    const reasons = reasonsOf(alone({ ...house, outside: { ...house.outside, surface_air_pressure: house.outside.surface_air_pressure.map((p, i) => p + noise[i]) } }));
    expect(reasons).not.toMatch(/the clock or the zone seems/);
  });
});

describe("traps of the outdoor sensor", () => {
  it("the sun on it for an hour or so on some days, at one hour", () => {
    const house = inventedHouse(1030, { ...plan, step: 300 });
    const { times, air_temperature: t, relative_humidity: rh } = house.outside;
    const saturation = (v: number): number => Math.exp((17.62 * v) / (243.12 + v));
    for (let day = 10; day < 40; day += 3) {
      const first = times.findIndex((at) => at >= times[0] + (24 * day + 15.5) * hour);
      for (let i = 0; i <= 18; i++) {
        const heat = 4.5 * Math.sin((Math.PI * i) / 18) ** 2;
        rh[first + i] *= saturation(t[first + i]) / saturation(t[first + i] + heat);
        t[first + i] += heat;
      }
    }
    expect(reasonsOf(recordFrom(house))).toMatch(/the sensor of outside is warmed at times, first on 2024-03-\d\d \(on \d+ days, by up to \+[3-9]\.\d K/);
  });
});
