import { describe, expect, it } from "vitest";
import { flagBit } from "../../../lib/record/flag.js";
import { recordFromSeries } from "../../../lib/record/recordFromSeries.js";
import { series } from "../../../lib/record/series.js";
import { complaint } from "./card.js";

const temperature = (times: number[], values: (number | null)[], place = "here", flags?: number[]) => series({ times, values, quantity: "air_temperature", place, ...(flags === undefined ? {} : { flags }) });

describe("recordFromSeries", () => {
  it("lays the series of a place on one time axis and keeps their flags", () => {
    const p = series({ times: [1000, 3000], values: [860, 861], quantity: "surface_air_pressure", flags: [0, flagBit.spike] });
    const record = recordFromSeries([temperature([3000, 2000], [3, 2], "here", [flagBit.stuck, 0]), p], { site: { latitude: 1, longitude: 2, elevation: 3 }, places: { here: { title: "Here", exposure: "outdoor" } } });
    const { here } = record.places;
    expect([here.title, here.exposure, here.readings, here.start, Array.from(here.seconds)]).toEqual(["Here", "outdoor", 3, 1000, [0, 1, 2]]);
    const { air_temperature: t, surface_air_pressure: q } = here.series;
    expect([Array.from(t!.values), Array.from(t!.flags)]).toEqual([[Number.NaN, 2, 3], [0, 0, flagBit.stuck]]);
    expect([Array.from(q!.values), Array.from(q!.flags)]).toEqual([[860, Number.NaN, 861], [0, 0, flagBit.spike]]);
    expect([record.zone, record.from, record.to, record.site?.elevation, record.files]).toEqual(["Z", 1000, 3000, 3, []]);
    expect(Object.isFrozen(record)).toBe(true);
  });

  it("counts what stands twice and keeps the first with its flags", () => {
    const record = recordFromSeries([temperature([0, 0, 1000], [1, 2, 3], "here", [1, 2, 4]), temperature([1000, 2000], [3, 4], "here", [8, 16])]);
    const { here } = record.places;
    expect([here.readings, here.repeated, here.conflicting]).toEqual([3, 1, 1]);
    expect([Array.from(here.series.air_temperature!.values), Array.from(here.series.air_temperature!.flags)]).toEqual([[1, 3, 4], [1, 4, 16]]);
  });

  it("several places, an IANA zone, and nothing changed", () => {
    const a = temperature([Date.UTC(2024, 2, 30)], [1], "a");
    const b = temperature([Date.UTC(2024, 3, 1)], [2], "b");
    const record = recordFromSeries(Object.freeze([a, b]), { zone: "Europe/London", name: "two" });
    expect([Object.keys(record.places), record.zoneChanges, record.title]).toEqual([["a", "b"], [{ at: Date.UTC(2024, 2, 31, 1), seconds: 3600 }], "two"]);
  });

  it("refuses nothing, an unknown zone, and places that no series has", () => {
    expect(complaint(() => recordFromSeries([]))).toBe("recordFromSeries: list must hold a series with a reading (got no series)");
    expect(complaint(() => recordFromSeries([temperature([], [])]))).toBe("recordFromSeries: list must hold a series with a reading (got 1 empty series)");
    expect(complaint(() => recordFromSeries([temperature([0], [1])], { zone: "X/Y" }))).toBe('recordFromSeries: zone must be Z, a fixed offset such as +07:00, or an IANA name such as Europe/London (got "X/Y")');
    expect(complaint(() => recordFromSeries([temperature([0], [1])], { places: { attic: {} } }))).toBe('recordFromSeries: places must be places of the series (got "attic")');
  });
});
