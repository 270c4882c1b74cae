import { describe, expect, it } from "vitest";
import { random } from "../../../lib/ground/random.js";
import type { AirRecord } from "../../../lib/record/airRecord.js";
import { flagBit } from "../../../lib/record/flag.js";
import { faultsOf, flagCounts } from "../../../lib/trust/faults/faultsOf.js";
import { flagRecord } from "../../../lib/trust/faults/flagRecord.js";
import { expectClose } from "../../close.js";
import { type HousePlan, inventedHouse, recordOf, rewritten } from "../../simulation/inventedHouse.js";
import { plantSpikes, plantStep, plantStuck, plantSun, plantSwap } from "../../simulation/plantedFaults.js";

const plan: HousePlan = { days: 40, step: 300, climate: "tropics", room: "free", digits: [0.1, 0.1, 0.01] };
type House = ReturnType<typeof inventedHouse>;
const recordFrom = ({ site, outside, inside }: House): AirRecord =>
  recordOf(site, {
    outside: { exposure: "outdoor", readings: rewritten(outside, plan.digits) },
    inside: { exposure: "indoor", readings: rewritten(inside, plan.digits) },
  });
const at = (house: House, i: number): number => house.outside.times[i];

describe("flagRecord on invented houses (seeds 801…806, not used while building)", () => {
  it("says nothing about clean ones: tropics at 5 min, a thermostat's house at 1 hPa and 0.5 °C", () => {
    for (const house of [inventedHouse(801, plan), inventedHouse(802, { ...plan, step: 600, climate: "middle", room: "thermostat", digits: [0.5, 1, 1] })]) {
      const flagged = flagRecord(recordFrom(house));
      const faults = Object.keys(flagged.places).flatMap((p) => faultsOf(flagged, p)).filter(({ flag }) => flag !== "saturated");
      expect(faults).toEqual([]);
    }
  });

  it("finds spikes and stuck hours where they were put", () => {
    for (const plant of [plantStuck, plantSpikes]) {
      const house = inventedHouse(803, plan);
      const planted = plant(random(803), house, 300);
      const flagged = flagRecord(recordFrom(house));
      const found = planted.filter(({ flag, place, quantity, first, last }) =>
        flagged.places[place].series[quantity]?.flags.subarray(first, last + 1).every((bits) => (bits & flagBit[flag]) !== 0),
      );
      expect(planted.length).toBeGreaterThan(15);
      expect(found.length, planted[0].flag).toBeGreaterThanOrEqual(Math.floor(0.93 * planted.length));
    }
  });

  it("finds a level shift, an exchange of places and the sun, each with its size and hours", () => {
    const house = inventedHouse(805, plan);
    const [step] = plantStep(random(1), house, -1.4);
    const swapped = inventedHouse(806, plan);
    const [swap] = plantSwap(random(2), swapped, 300);
    const sun = plantSun(random(3), house, 300, { minutes: 100, peak: 4.5, count: 10 });
    const flagged = flagRecord(recordFrom(house));
    const shift = faultsOf(flagged, "inside").filter(({ flag }) => flag === "step");
    expect(shift.length).toBe(1);
    expect([shift[0].from, shift[0].readings]).toEqual([at(house, step.first), step.last - step.first + 1]);
    expectClose(shift[0].size ?? 0, -1.4, { absolute: 0.1 }, "size of the shift: two medians of 24 h with 0.06 hPa of noise");
    const warm = faultsOf(flagged, "outside").filter(({ flag }) => flag === "warmed");
    expect(warm.length).toBeGreaterThanOrEqual(8);
    for (const { from, to } of warm) expect(sun.some((s) => from <= at(house, s.last) && to >= at(house, s.first))).toBe(true);

    const exchanged = flagRecord(recordFrom(swapped));
    for (const place of ["outside", "inside"]) {
      const runs = faultsOf(exchanged, place).filter(({ flag }) => flag === "swapped");
      expect(runs.map(({ quantity }) => quantity)).toEqual(["air_temperature", "relative_humidity", "surface_air_pressure"]);
      for (const run of runs) expect([run.from, run.to]).toEqual([at(swapped, swap.first), at(swapped, swap.last)]);
    }
    expect(flagCounts(exchanged.places.inside).swapped).toBe(3 * (swap.last - swap.first + 1));
  });

  it("changes nothing it was given, and flags already there stay", () => {
    const record = recordFrom(inventedHouse(801, { ...plan, days: 5 }));
    const series = record.places.outside.series.air_temperature;
    if (series === undefined) throw new Error("no temperature");
    const before = { ...series, flags: series.flags.map((_, i) => (i === 7 ? flagBit.warmed : 0)) };
    const given: AirRecord = { ...record, places: { ...record.places, outside: { ...record.places.outside, series: { ...record.places.outside.series, air_temperature: before } } } };
    const copy = before.flags.slice();
    const flagged = flagRecord(given);
    expect(before.flags).toEqual(copy);
    expect((flagged.places.outside.series.air_temperature?.flags[7] ?? 0) & flagBit.warmed).toBe(flagBit.warmed);
  });

  it("refuses a place that is not there", () => {
    const record = recordFrom(inventedHouse(801, { ...plan, days: 2 }));
    expect(() => faultsOf(record, "attic")).toThrow('faultsOf: place must be one of outside, inside (got "attic")');
  });
});
