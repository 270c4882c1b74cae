import { describe, expect, it } from "vitest";
import { housePairs } from "../../../lib/indoors/housePairs.js";
import { stoodTogether } from "../../../lib/record/eventPlaces.js";
import { agreementOf } from "../../../lib/trust/agreement.js";
import { expectClose } from "../../close.js";
import { madeInside, madeOutside, madeRecord, madeStart } from "./madeRecord.js";

const days = 60;
const dayMs = 86_400_000;
const outside = madeOutside(24 * days, 1);
const on = (values: Float64Array, bias: number): Float64Array => values.map((v, h) => (h < 72 ? outside[h] : v) + bias);
const bed = madeInside(outside, 20, 3, 6);
/** The kitchen's logger and the yard's stood together for three days; the bedroom's stayed where it was. */
const places = {
  yard: { exposure: "outdoor" as const, values: { air_temperature: outside } },
  kitchen: { exposure: "indoor" as const, values: { air_temperature: on(madeInside(outside, 12, 2), 0.4) } },
  bed: { exposure: "indoor" as const, values: { air_temperature: bed } },
};
const table = { at: madeStart, to: madeStart + 3 * dayMs, kind: "co-location", title: "one table" };

describe("events that are about some places", () => {
  it("a co-location of two of three loggers takes nothing off the third, whether it names them or not", () => {
    for (const event of [table, { ...table, places: ["kitchen", "yard"] }]) {
      const record = madeRecord(places, [event]);
      const [kitchen, second] = housePairs(record, { offsetHours: 0 });
      expect(kitchen.sensorOffset.basis).toBe("co-location");
      expectClose(kitchen.sensorOffset.temperature?.value ?? Number.NaN, 0.4, { absolute: 0.01 }, "planted");
      expect(second.sensorOffset.basis).toBe("class");
      expectClose(second.meanDifference?.value ?? Number.NaN, 6, { absolute: 0.3 }, "planted");
      expect(second.warnings.some((w) => w.startsWith("The co-location names no places, and bed and yard then differed by more than sensors"))).toBe(event === table);
      expect(agreementOf(record).map((a) => [a.a, a.b])).toEqual([["yard", "kitchen"]]);
    }
  });

  it("what changed in one room is asked of that room alone", () => {
    const moved = { at: madeStart + 30 * dayMs, to: null, kind: null, title: "logger moved" };
    const events = (names?: string[]) => housePairs(madeRecord(places, [names === undefined ? moved : { ...moved, places: names }]), { offsetHours: 0 }).map((p) => p.changes.length);
    expect([events(), events(["bed"]), events(["yard"]), events(["bed", "kitchen"])]).toEqual([[6, 6], [0, 6], [6, 6], [6, 6]]);
  });

  it("of two places nobody asks what they looked like; of more, only temperatures as like as sensors", () => {
    const [three, two] = [madeRecord(places), madeRecord({ yard: places.yard, bed: places.bed })];
    const together = (record: typeof three, differences: number[], names?: string[]): boolean => stoodTogether(record, names === undefined ? table : { ...table, places: names }, "bed", "yard", () => differences);
    expect(together(two, [6, 6, 6])).toBe(true);
    expect([[1, 1, Number.NaN], [-1, -1], [1.01, 1.01], [0.49, -0.49], [0.51, -0.51], []].map((d) => together(three, d))).toEqual([true, true, false, true, false, true]);
    expect([["bed", "yard"], ["bed"], ["bed", "yard", "kitchen"]].map((names) => together(three, [6], names))).toEqual([true, false, true]);
  });

  it("a co-location told by a day alone is not used, and that is said", () => {
    const [pair] = housePairs(madeRecord(places, [{ ...table, to: null }]), { offsetHours: 0 });
    expect(pair.warnings).toContain("A co-location that is told by `at` alone is not used: give it `from` and `to`.");
  });
});
