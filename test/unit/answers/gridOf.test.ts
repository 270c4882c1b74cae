import { describe, expect, it } from "vitest";
import { columnNames, gridFlagBit, gridFlagNames } from "../../../lib/answers/cleanedGrid.js";
import { derivations } from "../../../lib/answers/derivedSeries.js";
import { gridOf } from "../../../lib/answers/gridOf.js";
import { absoluteHumidity } from "../../../lib/air/absoluteHumidity.js";
import { dewPoint } from "../../../lib/air/dewPoint.js";
import { columnTemperature, seaLevelPressureThrough } from "../../../lib/air/seaLevelPressure.js";
import { tideAt } from "../../../lib/cycles/tide/tideAt.js";
import { displaySymbol } from "../../../lib/ground/display.js";
import { random } from "../../../lib/ground/random.js";
import { flagBit } from "../../../lib/record/flag.js";
import type { Quantity } from "../../../lib/record/quantity.js";
import { recordFromSeries } from "../../../lib/record/recordFromSeries.js";
import { series } from "../../../lib/record/series.js";
import { flagRecord } from "../../../lib/trust/faults/flagRecord.js";
import { tidesOf } from "../../../lib/answers/tidesOf.js";
import { expectClose } from "../../close.js";

const start = Date.UTC(2024, 2, 1);
const minute = 60_000;
const site = { latitude: -7, longitude: 110, elevation: 1380 };

/** Ten minutes apart: a daily cycle, a tide of 1.2 hPa, slow weather; inside the same, damped. A spike outside at reading 700. */
function house(days: number, about: Parameters<typeof recordFromSeries>[1] = { site, places: { porch: { exposure: "outdoor" }, room: { exposure: "indoor" } } }) {
  const { normal } = random(5501);
  const times = Array.from({ length: days * 144 }, (_, i) => start + 10 * minute * i);
  let weather = 0;
  const pressure = times.map((_, i) => {
    weather = 0.999 * weather + 0.03 * normal();
    return 861 + weather + 1.2 * Math.cos(4 * Math.PI * (i / 144 - 0.41)) + 0.02 * normal();
  });
  const outside = times.map((_, i) => 22 + 4 * Math.cos(2 * Math.PI * (i / 144 - 0.6)) + 0.05 * normal());
  const humidity = outside.map((t) => 75 - 3 * (t - 22) + 0.3 * normal());
  const of = (place: string, quantity: Quantity, values: number[]) => series({ times, values, quantity, place });
  const spiked = outside.map((t, i) => (i === 700 ? t + 25 : t));
  return recordFromSeries(
    [
      of("porch", "air_temperature", spiked),
      of("porch", "relative_humidity", humidity),
      of("porch", "surface_air_pressure", pressure),
      of("room", "air_temperature", outside.map((t) => 23 + 0.3 * (t - 22))),
      of("room", "surface_air_pressure", pressure.map((p) => p + 0.6)),
    ],
    about,
  );
}

const record = house(12);
const all = gridOf(record, { derived: derivations });
const columnOf = (answer: typeof all, place: string, quantity: string) => answer.grid.columns.find((c) => c.place === place && c.quantity === quantity)!;

describe("gridOf", () => {
  it("lays every place on one axis, logged columns first, then what was asked for", () => {
    expect([all.rows, all.stepSeconds, all.grid.start]).toEqual([12 * 144, 600, start]);
    expect(all.columns.map((c) => `${c.place} ${c.quantity} ${c.unit}`)).toEqual([
      "porch air_temperature degC",
      "porch relative_humidity %",
      "porch surface_air_pressure hPa",
      "porch dew_point_temperature degC",
      "porch mass_concentration_of_water_vapor_in_air g m-3",
      "porch air_pressure_at_mean_sea_level hPa",
      "porch surface_air_pressure_tide_free hPa",
      "room air_temperature degC",
      "room surface_air_pressure hPa",
      "room air_pressure_at_mean_sea_level hPa",
      "room surface_air_pressure_tide_free hPa",
    ]);
    expect(all.warnings).toEqual([
      "room: no dew-point was made: it takes air temperature and relative humidity of one place",
      "room: no absolute-humidity was made: it takes air temperature and relative humidity of one place",
    ]);
    for (const c of all.grid.columns) for (const array of [c.values, c.flags, c.filled, c.stepCoverage]) expect(array.length).toBe(all.rows);
    expect(Object.keys(JSON.parse(JSON.stringify(all)))).toEqual(["record", "stepSeconds", "rows", "columns", "warnings"]);
  });

  it("leaves a spike out, counts it, bridges it and marks both", () => {
    const t = columnOf(all, "porch", "air_temperature");
    expect(t.leftOut).toEqual({ range: 0, spike: 1, stuck: 0, swapped: 0 });
    expect(t.flags[700]).toBe(flagBit.spike | gridFlagBit.filled);
    expect([t.filled[700], t.stepCoverage[700], t.filled[699], t.stepCoverage[699]]).toEqual([1, 0, 0, 1]);
    expectClose(t.values[700], (t.values[699] + t.values[701]) / 2, { absolute: 1e-12 });
    expect(t.filledSteps).toBe(1);
    expect(t.coverage).toBe((12 * 144 - 1) / (12 * 144));
    // What is made of it is as faulty; pressure is not.
    expect(columnOf(all, "porch", "dew_point_temperature").flags[700]).toBe(flagBit.spike | gridFlagBit.filled);
    expect(columnOf(all, "porch", "surface_air_pressure").flags[700]).toBe(0);
    const open = gridOf(record, { fillUpTo: 0 });
    expect(columnOf(open, "porch", "air_temperature").values[700]).toBeNaN();
    expect(columnOf(open, "porch", "air_temperature").flags[700]).toBe(flagBit.spike);
  });

  it("a step is the mean of what was derived reading by reading", () => {
    const hourly = gridOf(record, { step: 3600, derived: ["dew-point", "absolute-humidity"] });
    const p = record.places.porch;
    for (const h of [0, 17, 200]) {
      const six = Array.from({ length: 6 }, (_, k) => 6 * h + k);
      const mean = (of: (t: number, rh: number) => number) => six.reduce((sum, i) => sum + of(p.series.air_temperature!.values[i], p.series.relative_humidity!.values[i]), 0) / 6;
      expectClose(columnOf(hourly, "porch", "dew_point_temperature").values[h], mean(dewPoint), { absolute: 1e-11 });
      expectClose(columnOf(hourly, "porch", "mass_concentration_of_water_vapor_in_air").values[h], mean(absoluteHumidity), { absolute: 1e-11 });
    }
    expect(columnOf(hourly, "porch", "surface_air_pressure").meanInstant).toBe(1500);
    // Reading 700 is the fifth of its hour: five of six are left.
    expectClose(columnOf(hourly, "porch", "air_temperature").stepCoverage[116], 5 / 6, { relative: 1e-6 });
  });

  it("reduces to sea level through one mean column of outdoor air, so that the tide is only scaled", () => {
    const p = columnOf(all, "room", "surface_air_pressure").values;
    const sea = columnOf(all, "room", "air_pressure_at_mean_sea_level").values;
    const ratios = Array.from(sea, (v, k) => v / p[k]);
    // Twelve whole days: the window is the record, the factor one number.
    expectClose(Math.max(...ratios), Math.min(...ratios), { relative: 1e-9 });
    const flagged = flagRecord(record).places.porch.series;
    const mean = (s: { values: Float64Array; flags: Uint16Array }) => {
      const hours = Array.from({ length: 288 }, (_, h) => {
        const sound = [0, 1, 2, 3, 4, 5].map((k) => 6 * h + k).filter((i) => (s.flags[i] & flagBit.spike) === 0);
        return sound.reduce((sum, i) => sum + s.values[i], 0) / sound.length;
      });
      return hours.reduce((a, b) => a + b, 0) / hours.length;
    };
    const air = columnTemperature(mean(flagged.air_temperature!), 1380, mean(flagged.relative_humidity!));
    expectClose(sea[50], seaLevelPressureThrough(p[50], 1380, air), { absolute: 1e-6 });
    expect(columnOf(all, "room", "air_pressure_at_mean_sea_level").made).toBe("station pressure reduced from 1380 m by the hypsometric equation, through air of the 30-day mean temperature and humidity of porch");
  });

  it("follows the season in a long record, over thirty days", () => {
    const days = 80;
    const times = Array.from({ length: days * 24 }, (_, i) => start + 3_600_000 * i);
    const slow = times.map((_, i) => 10 + i / 240 + 5 * Math.cos((2 * Math.PI * i) / 24));
    const of = (quantity: Quantity, values: number[]) => series({ times, values, quantity, place: "porch" });
    // Pressure wanders a little, or it is stuck.
    const answer = gridOf(recordFromSeries([of("air_temperature", slow), of("relative_humidity", times.map((_, i) => 60 + (i % 7))), of("surface_air_pressure", times.map((_, i) => 860 + Math.sin(i / 9)))], { site }), { derived: ["sea-level"] });
    const [p, sea] = ["surface_air_pressure", "air_pressure_at_mean_sea_level"].map((q) => columnOf(answer, "porch", q).values);
    const columnAt = (k: number) => (0.034163 * 1380) / Math.log(sea[k] / p[k]);
    // 1 K every ten days between the windows of the two ends, and none inside them; humidity is 63 % on average.
    expectClose(columnAt(50 * 24) - columnAt(30 * 24), columnTemperature(15, 1380, 63) - columnTemperature(13, 1380, 63), { absolute: 0.01 });
    expectClose(columnAt(10 * 24), columnAt(14), { absolute: 1e-6 });
  });

  it("takes the tide out as tidesOf and tideAt have it", () => {
    const free = columnOf(all, "porch", "surface_air_pressure_tide_free");
    const p = columnOf(all, "porch", "surface_air_pressure").values;
    const fit = tidesOf(record).fits.porch;
    for (const k of [3, 500, 1000]) expectClose(free.values[k], p[k] - tideAt(fit, [start + 10 * minute * k])[0], { absolute: 1e-9 });
    expect(free.standardName).toBe(null);
    expect(free.made).toMatch(/^station pressure less its fitted tide \(S1, S2, S3, S4\); mean and slope stay$/);
  });

  it("says what it cannot make", () => {
    expect(() => gridOf(house(2), { derived: ["tide-free"] })).toThrow(/must let tide-free be made in one place at least \(got: porch: no tide-free was made: .*3 whole days/);
    expect(() => gridOf(house(12, {}), { derived: ["sea-level"] })).toThrow("site.elevation must be told for the pressure at sea level (got none)");
    expect(() => gridOf(record, { derived: ["frost" as never] })).toThrow('gridOf: derived must be of dew-point, absolute-humidity, sea-level, tide-free (got "frost")');
    expect(() => gridOf(record, { step: -1 })).toThrow("regularGrid: step must be positive (got -1 s)");
    expect(() => gridOf(record, { step: 0.01 })).toThrow(/gridOf: step must leave at most 60000000 values \(got 0\.01 s over 12\.0 d in 5 columns\)/);
    expect(gridOf(record, { step: 60 }).warnings).toEqual(["the step of 60 s is shorter than the 600 s between readings: most steps are bridges or empty"]);
  });

  it("is not asked for what was logged", () => {
    const logged = recordFromSeries([series({ times: [start, start + 3_600_000], values: [1012, 1013], quantity: "air_pressure_at_mean_sea_level" })], { site });
    const answer = gridOf(logged, { derived: ["sea-level"] });
    expect(answer.columns).toHaveLength(1);
    expect(answer.warnings).toEqual(["here: no sea-level was made: it was logged"]);
  });

  it("changes nothing of the record, and has a text form", () => {
    const before = record.places.porch.series.air_temperature!.flags.slice();
    gridOf(record);
    expect(record.places.porch.series.air_temperature!.flags).toEqual(before);
    const text = all[displaySymbol](80)["text/plain"];
    expect(text).toMatch(/1728 steps of 10 min, stamped by its beginning in UTC; 11 columns/);
    expect(text).toMatch(/porch +air temperature +°C +99\.9 % +1 +1 spike/);
    expect(text.split("\n").every((l) => l.length <= 110)).toBe(true);
  });
});

describe("names of a grid", () => {
  it("columns tell place, quantity and unit", () => {
    expect(columnNames({ place: "a b", quantity: "relative_humidity", unit: "%" })).toEqual({ value: "a b.relative_humidity_percent", flag: "a b.relative_humidity_flag", coverage: "a b.relative_humidity_coverage" });
  });
  it("bits are those of the flags, and one more", () => {
    expect(gridFlagNames.map((n) => gridFlagBit[n])).toEqual([1, 2, 4, 8, 16, 32, 64, 128]);
  });
});
