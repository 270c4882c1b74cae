import { describe, expect, it } from "vitest";
import { checkRecord } from "../../../lib/answers/checkRecord.js";
import { openRecord } from "../../../lib/door/disk/openRecord.js";
import { displaySymbol } from "../../../lib/ground/display.js";
import type { AirRecord } from "../../../lib/record/airRecord.js";
import { inventedHouse, recordOf } from "../../simulation/inventedHouse.js";

const textOf = (record: AirRecord, columns = 100): string => checkRecord(record)[displaySymbol](columns)["text/plain"];
const house = inventedHouse(951, { days: 42, step: 600, climate: "tropics", room: "free", digits: [0.1, 0.1, 0.01] });
const sound = recordOf(house.site, { outside: { exposure: "outdoor", readings: house.outside }, inside: { exposure: "indoor", readings: house.inside } });
const heads = ["What is fine", "What is not, and what to do", "What it means for the other commands", "The details"];

/** The lines between two heads. */
function section(text: string, head: string): string {
  const from = text.indexOf(`\n${head}`);
  const next = heads[heads.indexOf(head) + 1];
  return text.slice(from + 1, next === undefined ? undefined : text.indexOf(`\n${next}`)).replace(/\n +/g, " ");
}

/** One reading a day. */
function daysOnly(readings: typeof house.outside): typeof house.outside {
  const each = (values: Float64Array): Float64Array => values.filter((_, i) => i % 144 === 72);
  return { times: each(readings.times), air_temperature: each(readings.air_temperature), relative_humidity: each(readings.relative_humidity), surface_air_pressure: each(readings.surface_air_pressure) };
}

describe("check as text", () => {
  it("hill-school: what is fine, then each problem with date, size and remedy, then what it means, then details", async () => {
    const text = textOf(await openRecord("datasets/hill-school"));
    const at = heads.map((head) => text.indexOf(`\n${head}\n`));
    expect(at.every((k, i) => k > 0 && (i === 0 || k > at[i - 1]))).toBe(true);
    const problems = section(text, heads[1]);
    expect(problems).toMatch(/The barometer of Library jumps to another level, first on 1 Jul 2024 \(by \+1\.4 hPa on 1 Jul 2024\).*→ If it was moved or changed on that day, add an event with "kind": "station moved"/);
    expect(problems).toMatch(/The readings of Veranda and Library were exchanged, 9 May 2024 12:0\d to 16:\d\d: left out\. → Find out which marker/);
    expect(problems).toMatch(/The sensor of Veranda is warmed at times, first on 19 Jun 2024 \(on \d+ days, by up to \+\d\.\d K/);
    expect(problems).toMatch(/stood still 2 times \(air temperature 17 May 2024 2\d:\d\d to 18 May 2024 0\d:\d\d.*for 1\d\.\d h at most/);
    const meaning = section(text, heads[2]);
    expect(meaning).toMatch(/tides +safe; the jump of Library is fitted with the tide/);
    expect(meaning).toMatch(/indoors +not safe from 17 Jun 2024 1\d:\d\d to 1\d:\d\d: hours of Library are wrong by 60 min otherwise safe;/);
    expect(meaning).toMatch(/climate +not safe on \d+ days from 19 Jun 2024: the highest temperatures of Veranda are too high/);
  });

  it("every line fits the screen at 60 and 80 columns, for all three records, and none holds a slip", async () => {
    for (const name of ["hill-school", "harbor-loft", "puget-normals"]) {
      const record = await openRecord(`datasets/${name}`);
      for (const columns of [60, 80]) {
        const text = textOf(record, columns);
        const wide = text.split("\n").filter((line) => [...line].length > columns && line.trim().includes(" "));
        expect(wide, `${name} at ${columns}`).toEqual([]);
        expect(text).not.toMatch(/NaN|undefined|null|\[object|\.\.(?!\.)/);
        expect(text.endsWith("\n")).toBe(true);
      }
    }
  });

  it("a sound record has nothing to mend and is safe for everything", () => {
    const text = textOf(sound);
    expect(text).toContain("This record is GOOD.");
    expect(text).toContain("Nothing was found that must be mended.");
    const meaning = section(text, heads[2]);
    for (const command of ["tides", "swings", "indoors", "climate"]) expect(meaning).toMatch(new RegExp(`${command} +safe(\\s|$)`));
  });

  it("a wrong unit and a wrong clock make the tide unsafe, and say so first", () => {
    const pressure = sound.places.outside.series.surface_air_pressure;
    if (pressure === undefined) throw new Error("no pressure");
    const { outside } = sound.places;
    const withPressure = (change: (v: number) => number): AirRecord => ({ ...sound, places: { ...sound.places, outside: { ...outside, series: { ...outside.series, surface_air_pressure: { ...pressure, values: pressure.values.map(change) } } } } });
    const wrong = textOf(withPressure((v) => v / 1.33322387415));
    expect(section(wrong, heads[1])).toMatch(/^What is not, and what to do 1 ! /);
    expect(section(wrong, heads[1])).toMatch(/read as mmHg it would be 8[56]\d\.\d hPa: check the unit in the description\. → Correct the unit of that field/);
    expect(section(wrong, heads[2])).toMatch(/tides +not safe: a whole column is read in the wrong unit/);

    const moved: AirRecord = { ...sound, site: { latitude: -7.1, longitude: 105, elevation: 1380 } };
    const turned = textOf(moved);
    expect(section(turned, heads[1])).toMatch(/the clock or the zone seems to be [67]\.\d h ahead .*→ Check the zone in the description/);
    expect(section(turned, heads[2])).toMatch(/tides +not safe: every hour of the day may be wrong, see the clock/);
  });

  it("says what a record cannot be asked: no pressure, one place, no site, few days", () => {
    const { outside } = sound.places;
    const { surface_air_pressure: _, ...rest } = outside.series;
    const dry = section(textOf({ ...sound, places: { outside: { ...outside, series: rest } } }), heads[2]);
    expect(dry).toMatch(/tides +cannot be told: no air pressure was logged swings +cannot be told: no air pressure was logged indoors +cannot be told: no indoor place has an air temperature climate +safe/);
    const daily = recordOf(house.site, { outside: { exposure: "outdoor", readings: daysOnly(house.outside) } });
    expect(section(textOf(daily), heads[2])).toMatch(/tides +cannot be told: the pressure was read every 24 h, and every 3 h is needed swings +safe/);
    expect(section(textOf({ ...sound, site: null }), heads[2])).toMatch(/tides +cannot be told: the description does not say where the site is/);
    const short = inventedHouse(952, { days: 5, step: 600, climate: "tropics", room: "free", digits: [0.1, 0.1, 0.01] });
    const few = section(textOf(recordOf(short.site, { outside: { exposure: "outdoor", readings: short.outside }, inside: { exposure: "indoor", readings: short.inside } })), heads[2]);
    expect(few).toMatch(/tides +safe; 5 days are few: its intervals are wide and may be too narrow before 20/);
    expect(few).toMatch(/indoors +cannot be told: the record is 5\.0 days long and 6 are needed/);
  });

  it("a short time side by side is told as a problem, with what to do", () => {
    const from = house.outside.times[0];
    const beside: AirRecord = { ...sound, events: [{ at: from, to: from + 10 * 3600000, kind: "co-location", title: "on one table" }] };
    const text = textOf(beside);
    expect(section(text, heads[1])).toMatch(/The air temperature of outside and inside was compared side by side for a short time: only 10 h with both sensors.*→ Put both on one table for two days/);
    expect(section(text, heads[2])).toMatch(/what the sensors differ by in air temperature is known from a few hours only/);
    expect(text.replace(/\n +/g, " ")).toContain("air temperature, side by side: only 10 h with both sensors");
  });
});
