import { describe, expect, it } from "vitest";
import { columnTemperature, seaLevelPressureThrough } from "../../../lib/air/seaLevelPressure.js";
import { type TidesAnswer, tidesOf } from "../../../lib/answers/tidesOf.js";
import { displaySymbol } from "../../../lib/ground/display.js";
import { type Random, random } from "../../../lib/ground/random.js";
import { recordFromSeries } from "../../../lib/record/recordFromSeries.js";
import { series } from "../../../lib/record/series.js";
import { expectClose } from "../../close.js";

// Traps of real records, planted in an invented hill station, as the whole answer tells them. Sizes of the effects: of theory, or
// wide bars about what was measured on real stations.
const start = Date.UTC(2024, 0, 10);
const hour = 3_600_000;
const site = { latitude: 12, longitude: 30, elevation: 1160 };
const level = 882; // usual at 1160 m
const days = 60;

interface Air {
  readonly times: number[];
  readonly pressure: number[];
  readonly temperature: number[];
}

/** Hourly station pressure with S1 0.7 hPa at 5 h and S2 1.0 hPa at 10 h sun time, and a day of temperature, read by a clock that gains so many seconds a day. */
function air(parts: { days?: number; seed?: number; s2?: number; weather?: number; level?: number; gains?: number } = {}): Air {
  const { days: n = days, seed = 6601, s2 = 1, weather = 0.2, level: mean = level, gains = 0 } = parts;
  const { normal }: Random = random(seed);
  const [times, pressure, temperature]: [number[], number[], number[]] = [[], [], []];
  let [slow, warm] = [0, 0];
  for (let i = 0; i < 24 * n; i++) {
    slow = 0.97 * slow + weather * normal();
    warm = 0.95 * warm + 0.4 * normal();
    const sun = i - (gains * i) / 24 / 3600 + site.longitude / 15;
    times.push(start + hour * i);
    pressure.push(mean + slow + 0.7 * Math.cos((2 * Math.PI * (sun - 5)) / 24) + s2 * Math.cos((4 * Math.PI * (sun - 10)) / 24) + 0.02 * normal());
    temperature.push(20 + warm + 6 * Math.cos((2 * Math.PI * (sun - 14.5)) / 24) + 1.2 * Math.cos((4 * Math.PI * (sun - 2)) / 24));
  }
  return { times, pressure, temperature };
}

function answer(a: Air, pressure: readonly number[], more: { quantity?: "surface_air_pressure" | "air_pressure_at_mean_sea_level"; times?: readonly number[]; at?: Partial<typeof site>; withTemperature?: boolean } = {}): TidesAnswer {
  const { quantity = "surface_air_pressure", times = a.times, at = {}, withTemperature = true } = more;
  const list = [series({ times, values: pressure, quantity, place: "mast" })];
  if (withTemperature) list.push(series({ times, values: a.temperature, quantity: "air_temperature", place: "mast" }));
  return tidesOf(recordFromSeries(list, { site: { ...site, ...at }, places: { mast: { exposure: "outdoor" } } }));
}
const line = (t: TidesAnswer, k: number): { size: number; at: number } => {
  const c = t.places.mast.constituents[k - 1];
  return { size: c.amplitude.value, at: c.maximumAt?.value ?? Number.NaN };
};
const told = (t: TidesAnswer): string => t.places.mast.warnings.join("\n");
const text = (t: TidesAnswer, columns: number): string => t[displaySymbol](columns)["text/plain"];
const a = air();
const sound = answer(a, a.pressure);
/** Reduced to sea level with a temperature of the column for each hour. */
const reduced = (of: (i: number) => number): number[] => a.pressure.map((p, i) => seaLevelPressureThrough(p, site.elevation, columnTemperature(of(i), site.elevation, 60)));

describe("a sound station", () => {
  it("has its tide told, and no doubt beside the season", () => {
    expectClose(line(sound, 1).size, 0.7, { absolute: 0.1 });
    expectClose(line(sound, 2).size, 1, { absolute: 0.02 });
    expectClose(line(sound, 2).at, 10, { absolute: 0.05 });
    expect(sound.places.mast.warnings.length).toBe(1);
    expect(told(sound)).toContain("the mean tide of these 60 days; the place's own may differ from it with the season");
  });
});

describe("traps of pressure", () => {
  it("reduced to sea level with the temperature of the moment: S1 three times too large and hours early; told", () => {
    const t = answer(a, reduced((i) => a.temperature[i]), { quantity: "air_pressure_at_mean_sea_level" });
    expect(line(t, 1).size).toBeGreaterThan(2.5 * line(sound, 1).size);
    expect(line(sound, 1).at - line(t, 1).at).toBeGreaterThan(1);
    expect(told(t)).toContain("This is sea-level pressure: the temperature used in its reduction adds a false tide, more so the higher the place. With the temperature of the moment S1 can triple");
    expect(told(t)).toContain("The once-daily tide is");
  });
  it("the same said to be station pressure: its level gives it away", () => {
    const t = answer(a, reduced((i) => a.temperature[i]));
    expect(told(t)).toMatch(/The median is 10\d\d\.\d hPa where 88\d\.\d hPa is usual at 1160 m: this looks like pressure reduced to sea level; .* S1 may come out three times too large and hours too early\./);
  });
  it("reduced with the mean of now and twelve hours ago: S1 nearly right, a false part in S2; told", () => {
    const t = answer(a, reduced((i) => (a.temperature[i] + a.temperature[Math.max(0, i - 12)]) / 2), { quantity: "air_pressure_at_mean_sea_level" });
    expectClose(line(t, 1).size / line(sound, 1).size, 1.14, { absolute: 0.15 });
    expect(Math.abs(line(t, 2).size - 1.14 * line(sound, 2).size) + Math.abs(line(t, 2).at - 10)).toBeGreaterThan(0.15);
    expect(told(t)).toContain("with the mean over twelve hours S2 grows and comes early");
  });
  it("reduced with one mean temperature: everything times the ratio of the pressures, hours unchanged", () => {
    const t = answer(a, reduced(() => 20), { quantity: "air_pressure_at_mean_sea_level" });
    const ratio = seaLevelPressureThrough(level, site.elevation, columnTemperature(20, site.elevation, 60)) / level;
    for (const k of [1, 2]) {
      expectClose(line(t, k).size / line(sound, k).size, ratio, { absolute: 0.01 });
      expectClose(line(t, k).at, line(sound, k).at, { absolute: 0.02 });
    }
  });
  it("a barometer that feels 0.05 hPa/K: S1 changes by up to a fourth and an hour, S2 by 0.06 hPa at most", () => {
    const t = answer(a, a.pressure.map((p, i) => p + 0.05 * (a.temperature[i] - 20)));
    expect(line(t, 1).size).toBeLessThan(0.95 * line(sound, 1).size);
    expect(Math.abs(line(t, 1).at - line(sound, 1).at)).toBeGreaterThan(0.4);
    expectClose(line(t, 2).size, line(sound, 2).size, { absolute: 0.061 }, "0.05 hPa/K times 1.2 K of twice-daily temperature");
    expect(text(t, 100).replace(/\s+/g, " ")).toContain("S1 is no better than the barometer's own temperature error");
  });
  it("broken barometers: one that follows the temperature, one that is damped, one that is sealed in are each told", () => {
    expect(told(answer(a, a.pressure.map((p, i) => p + 3.6 * Math.cos((2 * Math.PI * (i + site.longitude / 15 - 14.5)) / 24))))).toMatch(/The once-daily tide is \d\.\d hPa, where sound barometers show up to 2 hPa: the barometer may feel temperature/);
    expect(told(answer(a, a.pressure.map((p) => level + 0.4 * (p - level))))).toMatch(/its size is 0\.\d\d hPa \(0\.6\d to 1\.5\d is usual at this latitude\): a sign of the barometer rather than of the clock, or of a special place/);
    const { normal } = random(6604);
    let slow = 0;
    expect(told(answer(a, a.pressure.map(() => { slow = 0.97 * slow + 0.2 * normal(); return level + slow; })))).toContain("The twice-daily tide is missing");
  });
  it("a size outside the usual is a sign, never a verdict: the tide is told all the same", () => {
    const strong = air({ s2: 1.9 });
    const t = answer(strong, strong.pressure);
    expectClose(line(t, 2).size, 1.9, { absolute: 0.02 });
    expect(told(t)).toContain("or of a special place");
  });
});

describe("traps of the clock", () => {
  it("wrong by hours: told with the hours, the warmest hour picking the half of the day", () => {
    const t = answer(a, a.pressure, { times: a.times.map((ms) => ms + 4.6 * hour) });
    expectClose(line(t, 2).at, 2.6, { absolute: 0.1 });
    expect(told(t)).toMatch(/The tide crests at 02:3\d by the sun, where 09:18 to 10:42 is usual: the clock or the zone seems to be 4\.[56] h ahead/);
    expect(told(answer(a, a.pressure, { times: a.times.map((ms) => ms + 12 * hour) }))).toContain("twelve hours off (am and pm exchanged?)");
  });
  it("summer time read as standard time: the lines are smeared, and it is told where", () => {
    const long = air({ days: 150, s2: 0.8, level: 1013 });
    const change = Date.UTC(2024, 2, 31, 1);
    const t = answer(long, long.pressure, { times: long.times.map((ms) => ms + (ms >= change ? hour : 0)), at: { latitude: 38, elevation: 10 } });
    expect(told(t)).toMatch(/The log of mast has no reading stamped from 01:00 to 02:00 on 2024-03-31, just the hour that civil clocks skip .*, and the twice-daily tide crests, and the day warms, (0\.9|1\.0|1\.1) h later from then on \(± 0\.\d h\): its clock seems to keep summer time.*smears the tide/);
    const fine = answer(long, long.pressure, { at: { latitude: 38, elevation: 10 } });
    expect(told(fine)).not.toContain("smears");
  });
  it("a clock that gains ten seconds a day for a year: told", () => {
    const long = air({ days: 365, level: 1013, gains: 10 });
    const t = answer(long, long.pressure, { at: { elevation: 10 } });
    expect(told(t)).toMatch(/by the sun its clock gains (8|9|10|11|12) ± \d s a day, (5|6|7)\d min from 2024-01-\d\d to 202[45]-\d\d-\d\d; a clock that changes smears the tide/);
  });
});

describe("readings that are none", () => {
  it("missing codes are left out, and a quantity of nothing else is said", () => {
    const coded = a.pressure.map((p, i) => (i % 37 === 5 ? -999.9 : p));
    const t = answer(a, coded);
    expectClose(line(t, 2).size, line(sound, 2).size, { absolute: 0.01 });
    expect(t.fits.mast.leftOut).toBe(coded.filter((p) => p === -999.9).length);
    expect(() => answer(a, a.pressure.map(() => Number.NaN))).toThrow("must hold air pressure for the tide (got none)");
    expect(() => answer(a, a.pressure.map(() => -999.9))).toThrow(/fitTides: series must hold usable readings over 3 days \(got 0 of 1440 readings usable\)/);
  });
  it("nineteen hours, and no day more, are refused in one sentence", () => {
    const few = a.times.map((_, i) => (i < 19 ? a.pressure[i] : Number.NaN));
    expect(() => answer(a, few, { withTemperature: false })).toThrow("fitTides: series must last at least 3 whole days (got 0.7 d); log longer");
  });
});

describe("the text on narrow screens", () => {
  const year = air({ days: 400, s2: 0.35, weather: 0.6 });
  const t = answer(year, year.pressure);
  const record = JSON.parse(JSON.stringify(t));

  it.each([60, 80, 100, 120])("no line is longer than %d columns, and nothing is lost", (columns) => {
    for (const each of [t, sound, answer(a, reduced((i) => a.temperature[i]))]) {
      const plain = text(each, columns);
      for (const l of plain.split("\n")) expect([...l].length, l).toBeLessThanOrEqual(columns);
      const flat = plain.replace(/\s+/g, " ");
      for (const warning of each.places.mast.warnings) expect(flat).toContain(warning);
      for (const word of ["once a day", "twice a day", "3 times a day", "UTC+00:00", "from lowest to highest", "Not for aviation or navigation"]) expect(flat).toContain(word);
      for (const { amplitude, detected } of each.places.mast.constituents) if (detected) expect(flat).toContain(amplitude.value.toFixed(2).slice(0, 3));
    }
    const months = text(t, columns);
    for (const month of ["Jan", "Jun", "Dec"]) expect(months).toContain(`    ${month}  `);
  });

  it("the p-value of the season stands in the text and in the JSON, for each line too", () => {
    const { seasonal } = record.places.mast;
    expect(Object.keys(seasonal)).toEqual(["changes", "says", "pValue", "lines"]);
    expect(seasonal.pValue).toBeGreaterThan(0);
    expect(seasonal.pValue).toBeLessThanOrEqual(1);
    expect(seasonal.lines.map((l: { name: string }) => l.name)).toEqual(["S1", "S2", "S3"]);
    expect(seasonal.pValue).toBe(Math.min(...seasonal.lines.map((l: { pValue: number }) => l.pValue)));
    expect(text(t, 200)).toMatch(/p (= 0\.\d+|< 0\.0001)/);
    expect(JSON.parse(JSON.stringify(sound)).places.mast.seasonal).toMatchObject({ changes: null, pValue: null, lines: [] });
  });
});
