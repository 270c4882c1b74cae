import { describe, expect, it } from "vitest";
import type { AirRecord } from "../../../lib/record/airRecord.js";
import { estimate } from "../../../lib/ground/estimate.js";
import { altitudeOf } from "../../../lib/trust/altitude.js";
import type { ClockOffset } from "../../../lib/trust/clock/clockOffset.js";
import { flagCounts } from "../../../lib/trust/faults/faultsOf.js";
import { flagRecord } from "../../../lib/trust/faults/flagRecord.js";
import { placeCoverage } from "../../../lib/trust/placeCoverage.js";
import type { SolarCheck } from "../../../lib/trust/solarCheck.js";
import { type Verdict, verdictOf } from "../../../lib/trust/verdict.js";
import { inventedHouse, type Readings, recordOf } from "../../simulation/inventedHouse.js";

const plan = { days: 8, step: 600, climate: "tropics", room: "free", digits: [0.1, 0.1, 0.01] } as const;

/** Every number as far as the page asks for it: the verdict on an invented house after something was done to it. */
function judged(change: (house: { outside: Readings; inside: Readings }) => void, more: Partial<AirRecord> = {}, extra: { offsets?: readonly ClockOffset[]; solar?: SolarCheck } = {}): Verdict {
  const house = inventedHouse(77, plan);
  change(house);
  const record = flagRecord({ ...recordOf(house.site, { outside: { exposure: "outdoor", readings: house.outside }, inside: { exposure: "indoor", readings: house.inside } }), ...more });
  const places = Object.values(record.places);
  const each = <T>(of: (p: (typeof places)[number]) => T): Record<string, T> => Object.fromEntries(places.map((p) => [p.name, of(p)]));
  const altitude = Object.fromEntries(places.flatMap((p) => { const a = altitudeOf(p, house.site); return a === null ? [] : [[p.name, a]]; }));
  return verdictOf({ record, coverage: each(placeCoverage), flags: each(flagCounts), altitude, agreement: [], solar: extra.solar ?? null, offsets: extra.offsets });
}

const offsetOf = (value: number, half: number): ClockOffset => ({
  a: "inside", b: "outside", offset: estimate({ value, standardError: half / 2, low: value - half, high: value + half, unit: "s" }), drift: null, windows: [], stretches: 20, lastFrequency: 40, stepSeconds: 300,
});
const solarOf = (hourOfMaximum: number, amplitude: number, plausible: boolean, suspect: "clock" | "barometer" | "size" = hourOfMaximum > 9.3 ? "size" : "clock"): SolarCheck => ({
  maximumAt: estimate({ value: hourOfMaximum, standardError: 0.05, low: hourOfMaximum - 0.1, high: hourOfMaximum + 0.1, unit: "h" }),
  amplitude: estimate({ value: amplitude, standardError: 0.02, low: amplitude - 0.05, high: amplitude + 0.05, unit: "hPa" }),
  expected: { low: 0.7, high: 1.6 }, plausible, ...(plausible ? {} : { suspect }), says: "the tide says so",
});

describe("verdictOf", () => {
  it("a sound record is good, and every reason is a sentence without a full stop", () => {
    const v = judged(() => {}, {}, { offsets: [offsetOf(3, 30)], solar: solarOf(9.9, 1, true) });
    expect(v.level).toBe("good");
    expect(v.reasons).toContain("the clocks of inside and outside agree by their barometers (3 ± 30 s)");
    for (const reason of v.reasons) expect(reason).not.toMatch(/\.$|NaN|undefined/);
  });

  it("two barometers that tell no offset are said to tell none; silence is no agreement", () => {
    const silent = judged(() => {}, {}, { offsets: [], solar: solarOf(9.9, 1, true) });
    expect(silent.level).toBe("good");
    expect(silent.reasons.filter((r) => /cannot tell whether their clocks agree/.test(r))).toEqual([
      "the barometers of outside and inside cannot tell whether their clocks agree: that takes a week logged by both without long gaps, a reading an hour or more, pressure written finely, and air that changes within hours or a twice-daily tide that both see",
    ]);
    // One barometer has nobody to agree with, and one without readings says nothing.
    const alone = judged(({ inside }) => void inside.surface_air_pressure.fill(Number.NaN), {}, { offsets: [] });
    expect(alone.reasons.join(" ")).not.toContain("whether their clocks agree");
  });

  it("what the description asks and nobody answered keeps a record from being good where it changes what numbers mean", () => {
    const field = "resources[0].schema.fields";
    const told = (...paths: string[]): Verdict => judged(() => {}, { questions: paths.map((path) => ({ path, ask: "?" })) });
    const level = (path: string): string => told(path).level;
    expect([`${field}[0].zone`, `${field}[0].format`, `${field}[2].unit`, `${field}[2].quantity`, "places.inside.exposure"].map(level)).toEqual(Array(5).fill("usable"));
    expect(["title", "site", "resources[0].sampling"].map(level)).toEqual(Array(3).fill("good"));
    expect(told(`${field}[2].unit`, `${field}[0].zone`, `${field}[3].unit`, "site").reasons.filter((r) => /guess/.test(r))).toEqual([
      `the zone of the times is a guess: the description asks for it and has no answer yet (${field}[0].zone)`,
      `the unit of a column is a guess: the description asks for it and has no answer yet (${field}[2].unit, ${field}[3].unit)`,
    ]);
  });

  it("a barometer that goes on in another unit is poor, and told with day, ratio and remedy", () => {
    const half = Math.floor((8 * 144) / 2);
    const inUnit = (factor: number): Verdict => judged(({ outside }) => { outside.surface_air_pressure = outside.surface_air_pressure.map((v, i) => (i < half ? v : v / factor)); });
    // Conversion factors: NIST SP 811, mmHg and inHg at 0 °C.
    for (const [factor, unit, ratio] of [[1.33322387, "mmHg", "0.7[45]\\d*"], [33.8638864, "inHg", "0.029\\d*"], [10, "kPa", "0.(1|0999)"]] as const) {
      const v = inUnit(factor);
      expect(v.level).toBe("poor");
      expect(v.reasons.join("\n")).toMatch(new RegExp(`the pressure of outside is ${ratio} times what it was from 2024-03-05 on, as when a logger changes from hPa to ${unit}`));
    }
    for (const factor of [1.02, 1.2]) expect(inUnit(factor).reasons.join("\n")).not.toMatch(/as when a logger changes/);
  });

  it("faults make it usable, with their number", () => {
    const v = judged(({ outside }) => { outside.air_temperature[300] += 15; });
    expect(v.level).toBe("usable");
    expect(v.reasons.some((r) => /^1 of \d+ values at outside \(under 0.1 %\) are faulty and left out/.test(r))).toBe(true);
  });

  it("a missing half tells the gap with hours and date", () => {
    const v = judged((house) => {
      const kept = (x: Float64Array): Float64Array => x.filter((_, i) => i < 200 || i > 900);
      house.outside = { times: kept(house.outside.times), air_temperature: kept(house.outside.air_temperature), relative_humidity: kept(house.outside.relative_humidity), surface_air_pressure: kept(house.outside.surface_air_pressure) };
    });
    expect(v.level).toBe("poor");
    expect(v.reasons.some((r) => /^outside is covered for 39\.\d % of its time only; its longest gap is 117\.0 h from 2024-03-02$/.test(r)), v.reasons.join("\n")).toBe(true);
  });

  it("an interval that was changed is told as one, not as gaps", () => {
    /** Every sixth reading of the outside's from one on, up to another. */
    const sparse = (from: number, to: number): Verdict =>
      judged((house) => {
        const kept = (x: Float64Array): Float64Array => x.filter((_, i) => i < from || i >= to || (i - from) % 6 === 0);
        house.outside = { times: kept(house.outside.times), air_temperature: kept(house.outside.air_temperature), relative_humidity: kept(house.outside.relative_humidity), surface_air_pressure: kept(house.outside.surface_air_pressure) };
      });
    const changed = sparse(600, 1152);
    expect(changed.level).toBe("usable");
    const told = /^outside was logged every 60 min from 2024-03-05 to 2024-03-08 and every 10 min otherwise: against the shorter interval it is covered for 6\d\.\d % of its time/;
    expect(changed.reasons.some((r) => told.test(r)), changed.reasons.join("\n")).toBe(true);
    // 24 such steps are a change, fewer are gaps; the reading before the stretch stands a usual step away.
    expect(sparse(600, 600 + 6 * 24).reasons.join("\n")).toMatch(/was logged every 60 min/);
    expect(sparse(600, 600 + 6 * 23).reasons.join("\n")).not.toMatch(/was logged every/);
  });

  it("says that nothing is faulty only where nothing is marked", () => {
    expect(judged(() => {}).reasons).toContain("no faulty reading was found at inside");
    const wet = judged(({ inside }) => inside.relative_humidity.fill(101, 100, 130)).reasons;
    expect(wet).toContain("no reading at inside is so faulty that it is left out");
    expect(wet).not.toContain("no faulty reading was found at inside");
  });

  it("trap: a column in another unit makes it poor and names the unit", () => {
    const v = judged(({ outside }) => { outside.surface_air_pressure = outside.surface_air_pressure.map((p) => p * 100); });
    expect(v.level).toBe("poor");
    expect(v.reasons.some((r) => /station pressure of outside has a median of \d+ hPa, which cannot be; read as Pa/.test(r))).toBe(true);
  });

  it("jumps are told with size, day and place; offsets of minutes are worth telling", () => {
    const v = judged(() => {}, { jumps: [{ place: "inside", at: Date.UTC(2024, 2, 4, 7), seconds: -3600 }] }, { offsets: [offsetOf(-600, 60)] });
    expect(v.level).toBe("usable");
    expect(v.reasons).toContain("the clock jumps back by 60 min on 2024-03-04 (inside): times between a jump and its repair are wrong by that much");
    expect(v.reasons).toContain("the clock of inside is 600 ± 60 s behind that of outside, by their barometers");
    expect(judged(() => {}, {}, { offsets: [offsetOf(140, 25)] }).level).toBe("good");
  });

  it("a clock against the sun is poor; a tide of odd size alone is context", () => {
    expect(judged(() => {}, {}, { solar: solarOf(2.6, 1, false) }).level).toBe("poor");
    expect(judged(() => {}, {}, { solar: solarOf(9.9, 2, false) }).level).toBe("usable");
    expect(judged(() => {}, {}, { solar: solarOf(9.9, 1, true) }).level).toBe("good");
    // The barometer's own tide spoils tide and swings, and an odd size does not hide a clock that is twelve hours off.
    expect(judged(() => {}, {}, { solar: solarOf(9.9, 2, false, "barometer") }).level).toBe("poor");
    expect(judged(() => {}, {}, { solar: solarOf(9.9, 2, false, "clock") }).level).toBe("poor");
    expect(judged(() => {}, {}, { solar: solarOf(0.3, 2, false, "size") }).level).toBe("usable");
  });
});
