import { describe, expect, it } from "vitest";
import { checkRecord } from "../../../lib/answers/checkRecord.js";
import { tidesOf } from "../../../lib/answers/tidesOf.js";
import { openRecord } from "../../../lib/door/disk/openRecord.js";
import { random } from "../../../lib/ground/random.js";
import { civilChanges } from "../../../lib/ground/civilChanges.js";
import type { AirRecord, PlaceRecord } from "../../../lib/record/airRecord.js";
import type { Series } from "../../../lib/record/series.js";
import { clockDoubts } from "../../../lib/trust/clock/clockDoubts.js";
import { skippedHours } from "../../../lib/trust/clock/skippedHours.js";
import { driftBySun, summerBySun } from "../../../lib/trust/clock/sunClock.js";
import { sunDays } from "../../../lib/trust/clock/sunDays.js";
import { sunDrift, unseenDrift } from "../../../lib/trust/clock/sunDrift.js";
import { sunTerm } from "../../../lib/trust/clock/sunTerm.js";
import { usualSummer } from "../../../lib/trust/clock/summerTimeDates.js";
import { foldAtZero } from "../../../lib/trust/faults/foldAtZero.js";
import { unfoldedWarmth } from "../../../lib/trust/faults/unfoldedWarmth.js";
import { feltTemperature } from "../../../lib/trust/feltTemperature.js";
import { expectClose } from "../../close.js";
import { type CivilPlan, civilLog, readLog } from "../../simulation/civilLog.js";
import { disorderedLog } from "../../simulation/disorderedLog.js";
import { inventedHouse, type Readings, recordOf } from "../../simulation/inventedHouse.js";
import { seasonHouse } from "../../simulation/seasonHouse.js";

const dayMs = 86_400_000;
const berlin = { lat: 50, lon: 10, rule: "Europe/Berlin", off: "+01:00" } as const;
const reasons = (record: AirRecord): string => checkRecord(record).verdict.reasons.join("\n");
const told = (record: AirRecord): string => clockDoubts(record, []).map(({ says }) => says).join("\n");
const log = (plan: Partial<CivilPlan>): Promise<AirRecord> => civilLog(41, { ...berlin, step: 1800, days: 60, start: Date.UTC(2024, 1, 20), mode: "keeps", ...plan });

describe("a civil clock read as a fixed offset", () => {
  it("civilChanges: the wall's hours of the European rule in 2024 (Directive 2000/84/EC: 01:00 UTC, last Sundays of March and October)", () => {
    const of = (zone: string): string[] => civilChanges(zone, Date.UTC(2024, 0, 1), Date.UTC(2025, 0, 1)).map((c) => `${new Date(c.at).toISOString().slice(5, 16)} ${new Date(c.wall).toISOString().slice(11, 16)} ${c.seconds}`);
    expect(of("Europe/Berlin")).toEqual(["03-31T01:00 02:00 3600", "10-27T01:00 03:00 -3600"]);
    expect(of("Europe/London")).toEqual(["03-31T01:00 01:00 3600", "10-27T01:00 02:00 -3600"]);
    expect(of("Nowhere/Else")).toEqual([]);
  });

  it("usualSummer: one rule a place, none in the tropics", () => {
    const of = (latitude: number, longitude: number): string[] => usualSummer(Date.UTC(2024, 0, 1), Date.UTC(2025, 0, 1), latitude, longitude).map(({ at, seconds }) => `${new Date(at).toISOString().slice(5, 10)} ${seconds}`);
    expect(of(50, 10)).toEqual(["03-31 3600", "10-27 -3600"]);
    expect(of(40, -75)).toEqual(["03-10 3600", "11-03 -3600"]);
    expect(of(-34, 150)).toEqual(["04-07 -3600", "10-06 3600"]);
    expect(of(10, 10)).toEqual([]);
    expect(usualSummer(2, 1, 50, 10)).toEqual([]);
  });

  it("the skipped hour is told with hour, date and zone; the same hour in a log full of lost hours is not", async () => {
    const record = await log({});
    expect(told(record)).toMatch(/^the log of outside has no reading stamped from 02:00 to 03:00 on 2024-03-31, just the hour that civil clocks skip \(zones like Europe\/Berlin\).*: its clock seems to keep summer time, while the description says the fixed zone \+01:00, so that for half of the year every hour is read an hour wrong; give the zone by its IANA name$/);
    expect(skippedHours(record.places.outside, "Europe/Berlin"), "a zone with summer time").toEqual([]);
    expect(told(await log({ mode: "clean" }))).toBe("");
    const { places } = await log({ mode: "clean" });
    const without = (isLost: (hours: number) => boolean): PlaceRecord => {
      const { outside } = places;
      const kept = [...outside.seconds.keys()].filter((i) => !isLost(Math.floor((outside.start + 1000 * outside.seconds[i]) / 3_600_000)));
      return { ...outside, readings: kept.length, seconds: Float64Array.from(kept, (i) => outside.seconds[i]), series: {} };
    };
    const change = Math.floor(Date.UTC(2024, 2, 31, 1) / 3_600_000);
    expect(skippedHours(without((h) => h === change), "+01:00").map((c) => new Date(c.wall).toISOString())).toEqual(["2024-03-31T02:00:00.000Z"]);
    expect(skippedHours(without((h) => h === change || h === change + 1), "+01:00"), "two hours").toEqual([]);
    expect(skippedHours(without((h) => h === change || h % 97 === 5), "+01:00"), "an hour every four days").toEqual([]);
  });

  it("the hour that an hourly log shows twice is a jump of an hour, and summer time", async () => {
    const record = await log({ step: 3600, start: Date.UTC(2024, 9, 1) });
    expect(record.jumps.map(({ at, seconds }) => `${new Date(at).toISOString().slice(0, 16)} ${seconds}`)).toEqual(["2024-10-27T01:00 -3600"]);
    expect(told(record)).toMatch(/goes back by 60 min on 2024-10-27, when civil clocks change: it seems to keep summer time/);
    expect((await log({ step: 3600, start: Date.UTC(2024, 9, 1), mode: "iana" })).jumps).toEqual([]);
  });

  it("a clock on standard time under a zone with summer time: readings in an hour that was skipped", async () => {
    const record = await log({ mode: "standard" });
    expect(record.inSkippedHours).toBe(2);
    expect(told(record)).toContain("2 readings are stamped in the hour that the clocks of Europe/Berlin skip, such as on 2024-03-31");
    expect(told(record)).toContain("if it stays on standard time, give that as a fixed offset");
    expect(told(await log({ mode: "iana" }))).toBe("");
  });

  it("where no stamp tells it, the sun does: the tide crests, and the day warms, an hour later in summer", () => {
    const [start, days] = [Date.UTC(2024, 3, 20), 300];
    const dates = usualSummer(start, start + days * dayMs, -34, 150);
    const plan = { days, step: 1800, start, latitude: -34, longitude: 150, clock: (ms: number) => (ms >= dates[0].at ? 3600 : 0) };
    const record = recordOf({ ...plan, elevation: 30 }, { outside: { exposure: "outdoor", readings: seasonHouse(48, plan) } });
    const sun = summerBySun(record.places.outside, 150, dates);
    expectClose(sun?.estimate.value ?? 0, 1, { absolute: 0.3 }, "h");
    expect(sun?.by).toBe("both");
    expect(told({ ...record, zone: "+10:00" })).toMatch(/^the twice-daily tide of outside crests, and the day warms, (0\.[789]|1\.[0-3]) h later after 2024-10-06 than before it \(± 0\.\d h\), by the logger's clock: its clock seems to keep summer time, while the description says the fixed zone \+10:00; give the zone by its IANA name$/);
    // The same clock under a zone that it does not follow: an hour earlier when the zone is on summer time.
    const still = recordOf({ ...plan, elevation: 30 }, { outside: { exposure: "outdoor", readings: seasonHouse(48, { ...plan, clock: (ms: number) => (ms >= dates[0].at ? -3600 : 0) }) } });
    expect(told({ ...still, zone: "Australia/Sydney", zoneChanges: dates })).toContain("its clock seems not to have changed when the zone Australia/Sydney did; if it stays on standard time, give that as a fixed offset");
    expect(summerBySun(record.places.outside, 150, [])).toBe(null);
    expect(summerBySun(record.places.outside, 150, [{ at: start + 5 * dayMs, seconds: 3600 }]), "five days on a side").toBe(null);
  });
});

describe("what neither stamps nor the sun can tell", () => {
  it("a clock put back in autumn without a trace, under a weak tide: the limit is a reason", async () => {
    const record = await civilLog(77, { ...berlin, step: 3600, days: 200, start: Date.UTC(2024, 6, 2), mode: "drops" });
    expect(reasons(record)).toMatch(/whether the clock of outside was changed by an hour on 2024-10-27, when civil clocks are, cannot be told: no stamp shows it, and the sun sees an hour no better than ± 0\.\d h here/);
    expect(reasons(await civilLog(78, { ...berlin, step: 3600, days: 60, start: Date.UTC(2024, 6, 2), mode: "clean" })), "no change in its days").not.toContain("was changed by an hour");
  });
});

describe("the sun against real seasons", () => {
  it("thirty-year means of a real place: neither summer time nor a drift, in the whole year and in parts; an hour planted is found", async () => {
    const record = await openRecord("datasets/puget-normals");
    const [place] = Object.values(record.places);
    const longitude = record.site?.longitude ?? 0;
    const part = (from: number, to: number, ahead: (ms: number) => number): PlaceRecord => {
      const cut = (s: Series): Series => {
        const kept = [...s.seconds.keys()].filter((i) => s.start + 1000 * s.seconds[i] >= from && s.start + 1000 * s.seconds[i] < to);
        return { ...s, seconds: Float64Array.from(kept, (i) => s.seconds[i] + ahead(s.start + 1000 * s.seconds[i])), values: Float64Array.from(kept, (i) => s.values[i]), flags: new Uint16Array(kept.length) };
      };
      return { ...place, exposure: "outdoor", series: { surface_air_pressure: cut(place.series.air_pressure_at_mean_sea_level as Series), air_temperature: cut(place.series.air_temperature as Series) } };
    };
    for (const [from, to] of [[Date.UTC(2010, 0, 3), Date.UTC(2010, 11, 29)], [Date.UTC(2010, 0, 3), Date.UTC(2010, 6, 20)], [Date.UTC(2010, 5, 1), Date.UTC(2010, 11, 15)]]) {
      const dates = usualSummer(from, to, 47, longitude);
      const clean = part(from, to, () => 0);
      expectClose(summerBySun(clean, longitude, dates)?.estimate.value ?? 9, 0, { absolute: 0.15 }, "h: a real season is no summer time");
      const drift = driftBySun(clean, longitude)?.estimate;
      expect(drift !== undefined && drift.low < 0 && drift.high > 0, "a real season is no drift").toBe(true);
      const summer = part(from, to, (ms) => (ms >= dates[0].at && (dates[1] === undefined || ms < dates[1].at) ? 3600 : 0) * (dates[0].seconds > 0 ? 1 : 0) + (dates[0].seconds < 0 && ms < dates[0].at ? 3600 : 0));
      expectClose(summerBySun(summer, longitude, dates)?.estimate.value ?? 0, 1, { absolute: 0.15 }, "h");
    }
  });

  it("sunDays and sunTerm refuse what tells nothing", () => {
    const r = seasonHouse(42, { days: 14, step: 3600, start: Date.UTC(2024, 0, 1), latitude: 10, longitude: 0 });
    const { air_temperature: t } = recordOf(null, { outside: { exposure: "outdoor", readings: r } }).places.outside.series;
    if (t === undefined) throw new Error("no temperature");
    expect(sunDays(t, 0, 1), "under 15 days").toBe(null);
    expect(sunDays({ ...t, values: t.values.map(() => Number.NaN) }, 0, 1)).toBe(null);
    expect(sunTerm({ days: Float64Array.of(1, 2, 3), across: new Float64Array(3), anHour: new Float64Array(3).fill(1) }, () => 1, [0.1, 0.1]), "a term that does not vary").toBe(null);
    expect(sunTerm({ days: Float64Array.of(1, 2, 3), across: new Float64Array(3), anHour: new Float64Array(3).fill(1) }, (d) => d, [0.1, 0.1]), "few days").toBe(null);
  });

  it("sunTerm gives back what was put in: a slope, beside a mean and a season", () => {
    const days = Float64Array.from({ length: 300 }, (_, d) => 19_000 + d);
    const later = days.map((d, i) => 0.5 + 0.002 * (d - 19_000) + 0.1 * Math.cos((2 * Math.PI * d) / 365.25) + 0.01 * ((i * 37) % 11 - 5));
    const found = sunTerm({ days, across: later.map((h) => 0.3 * h), anHour: new Float64Array(300).fill(0.3) }, (d) => d, [0.15, 0.1]);
    expectClose(found?.value ?? 0, 0.002, { absolute: 2 * (found?.standardError ?? 0) + 1e-5 }, "h a day");
  });

  it("a drift that is not told leaves its limit among the reasons, and none in JSON", () => {
    const plan = { days: 90, step: 1800, start: Date.UTC(2024, 2, 1), latitude: 48, longitude: 10 };
    const record = recordOf({ ...plan, elevation: 30 }, { outside: { exposure: "outdoor", readings: seasonHouse(43, plan) } });
    const drift = sunDrift(record);
    const { secondsADay } = unseenDrift(drift as NonNullable<typeof drift>);
    expect(reasons(record)).toMatch(new RegExp(`the clock of outside .*: a steady gain or loss of up to [0-9.]+ (min|h) over the record \\(${Math.ceil(secondsADay)} s a day\\) would have stayed unseen`));
    expect("solarDrift" in checkRecord(record).clock).toBe(false);
    const fast = seasonHouse(43, { ...plan, days: 300, clock: (ms) => ((ms - plan.start) / dayMs) * 20 });
    const gains = recordOf({ ...plan, elevation: 30 }, { outside: { exposure: "outdoor", readings: fast } });
    expectClose(checkRecord(gains).clock.solarDrift?.value ?? 0, 20, { absolute: 10 }, "s a day");
  });
});

describe("lost minus signs", () => {
  const plan = { days: 120, step: 1800, start: Date.UTC(2023, 10, 10), latitude: 55, longitude: 10, mean: 4 };
  const winter = seasonHouse(44, plan);
  const record = (of: (t: number) => number): AirRecord => recordOf({ ...plan, elevation: 30 }, { outside: { exposure: "outdoor", readings: { ...winter, air_temperature: winter.air_temperature.map(of) } } });

  it("are told with days and count, and no clock is blamed", () => {
    const says = reasons(record(Math.abs));
    expect(says).toMatch(/temperatures of outside below zero seem to have lost their minus sign: none is below 0 °C, though on \d+ days from 2023-1\d-\d\d to 2024-0\d-\d\d they come down to it, and \d+ of \d+ cold days are coldest by day and warmest by night/);
    expect(says).not.toContain("twelve hours");
    expect(checkRecord(record(Math.abs)).verdict.level).toBe("poor");
    expect(tidesOf(record(Math.abs)).places.outside.warnings.join()).not.toContain("twelve hours");
  });

  it("honest frost, values cut at zero and water at zero are not", () => {
    for (const of of [(t: number) => t, (t: number) => Math.max(0, t), (t: number) => (t < 0 ? 0 : t < 1.5 ? 0.3 * t : t - 1), (t: number) => t + 40]) {
      const { outside } = record(of).places;
      expect(foldAtZero(outside.series.air_temperature as Series, 0)).toBe(null);
    }
    // Days that each come down to zero, none of them on its head; and a clock twelve hours off whose coldest reading is zero.
    const perDay = 48;
    const lift = (t: Float64Array): Float64Array => t.map((v, i) => v - Math.floor(Math.min(...t.subarray(perDay * Math.floor(i / perDay), perDay * Math.floor(i / perDay) + perDay))));
    const lowest = Math.min(...winter.air_temperature);
    const turned = (t: Float64Array): Float64Array => t.map((_, i) => t[(i + perDay / 2) % t.length] - lowest);
    for (const of of [lift, turned]) {
      const { outside } = recordOf(null, { outside: { exposure: "outdoor", readings: { ...winter, air_temperature: of(winter.air_temperature) } } }).places;
      expect(foldAtZero(outside.series.air_temperature as Series, 10 / 15)).toBe(null);
    }
    expect(unfoldedWarmth(record((t) => t), { ...record((t) => t).places.outside, series: {} })).toBe(null);
  });
});

describe("rows out of order", () => {
  const plan = { days: 40, step: 3600, start: Date.UTC(2023, 3, 3), latitude: 50, longitude: 10 };
  const house = seasonHouse(45, plan);
  const lines = Array.from(house.times, (t, i) => `${new Date(t).toISOString().slice(0, 19)},${house.air_temperature[i].toFixed(1)},${house.relative_humidity[i].toFixed(0)},${house.surface_air_pressure[i].toFixed(1)}`);
  const read = (kind: Parameters<typeof disorderedLog>[2]): Promise<AirRecord> => readLog(["time,t,rh,p", ...disorderedLog(lines, 24, kind, 46)], berlin);

  it("halves exchanged: told with count and place, and no jump; the readings are those of the log in order", async () => {
    const record = await read("halves");
    expect(record.jumps).toEqual([]);
    expect(reasons(record)).toContain("480 rows of outside stand out of order in the log (2023-04-02 23:00 to 2023-04-22 22:00 UTC, behind 2023-05-12 22:00 UTC) and were put in place by their stamps: no jump of the clock, as they fit between the others");
    expect(record.places.outside.series.air_temperature?.values).toEqual((await read("none")).places.outside.series.air_temperature?.values);
  });

  it("days and rows in any order are no jumps; a clock set back is one, and no disorder", async () => {
    for (const kind of ["two days", "all days", "rows", "days reversed", "twenty rows"] as const) {
      const record = await read(kind);
      expect([record.jumps.length, record.disorder?.length], kind).toEqual([0, 1]);
    }
    for (const kind of ["clock back 3 d", "clock back 5 h", "clock reset"] as const) {
      const record = await read(kind);
      expect([record.jumps.length > 0, record.disorder], kind).toEqual([true, undefined]);
    }
  });
});

describe("a barometer that feels its own temperature", () => {
  const house = inventedHouse(47, { days: 40, step: 900, climate: "middle", room: "free", digits: [0.1, 1, 0.1] });
  const { outside, inside } = house;
  const warm = { ...outside, surface_air_pressure: outside.surface_air_pressure.map((p, i) => Math.round(10 * (p + 0.05 * (outside.air_temperature[i] - 10))) / 10) };
  const record = (readings: Readings): AirRecord => recordOf(house.site, { outside: { exposure: "outdoor", readings }, inside: { exposure: "indoor", readings: inside } });

  it("is told in check and in the warnings of its tide, with its size; the other is not accused", () => {
    const sentence = /the barometer of outside reads 0\.05 ± 0\.01 hPa higher for each degree that its own thermometer is warmer, as the one of inside shows beside it: about 0\.\d\d hPa of its once-daily tide S1 is the sensor's own/i;
    expect(reasons(record(warm))).toMatch(sentence);
    const { places } = tidesOf(record(warm));
    expect(places.outside.warnings.join("\n")).toMatch(sentence);
    expect(places.inside.warnings.join("\n")).not.toContain("its own thermometer");
    expect(feltTemperature(record(warm)).map(({ place }) => place)).toEqual(["outside"]);
  });

  it("air whose warmth comes with high pressure is no fault of a barometer, alone or where another beside it shows the same", () => {
    const chance = random(31);
    let gust = 0;
    const gusts = outside.air_temperature.map(() => (gust = 0.9 * gust + 0.5 * chance.normal()));
    const added = (t: Float64Array, by: number): Float64Array => t.map((v, i) => v + by * gusts[i]);
    const air = (by: number): Readings => ({ ...outside, air_temperature: added(outside.air_temperature, 1), surface_air_pressure: added(outside.surface_air_pressure, by) });
    const beside = (by: number): AirRecord => recordOf(house.site, { outside: { exposure: "outdoor", readings: air(by) }, inside: { exposure: "indoor", readings: { ...inside, surface_air_pressure: added(inside.surface_air_pressure, by) } } });
    const alone = (by: number): AirRecord => recordOf(house.site, { outside: { exposure: "outdoor", readings: air(by) } });
    expect(feltTemperature(alone(1))).toEqual([]);
    expect(feltTemperature(beside(0.5))).toEqual([]);
    expect(feltTemperature(alone(0.5)).map(({ place }) => place)).toEqual(["outside"]);
  });

  it("a sound pair is not, nor one whose pressure is written too coarsely to tell", () => {
    expect(feltTemperature(record(outside))).toEqual([]);
    const coarse = (p: Float64Array): Float64Array => p.map((v) => Math.round(v));
    expect(feltTemperature(recordOf(house.site, { outside: { exposure: "outdoor", readings: { ...warm, surface_air_pressure: coarse(warm.surface_air_pressure) } }, inside: { exposure: "indoor", readings: { ...inside, surface_air_pressure: coarse(inside.surface_air_pressure) } } }))).toEqual([]);
  });
});
