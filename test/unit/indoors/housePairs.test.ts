import { describe, expect, it } from "vitest";
import { RecordError } from "../../../lib/ground/complaint.js";
import type { Estimate } from "../../../lib/ground/estimate.js";
import type { HousePair } from "../../../lib/indoors/housePair.js";
import { housePairs } from "../../../lib/indoors/housePairs.js";
import { expectClose } from "../../close.js";
import { type MadePlace, madeInside, madeOutside, madeRecord, madeStart } from "./madeRecord.js";

const days = 60;
const outside = madeOutside(24 * days, 1);
const inside = madeInside(outside, 12, 2);
const damp = (values: Float64Array, level: number): Float64Array => values.map((v, h) => level - 0.8 * (v - 10) + 3 * Math.sin(h / 70));
const outdoor: MadePlace = { exposure: "outdoor", values: { air_temperature: outside, relative_humidity: damp(outside, 75) } };
const indoor: MadePlace = { exposure: "indoor", values: { air_temperature: inside, relative_humidity: damp(inside, 70) } };
const dayMs = 86_400_000;

/** The contract's keys of a pair. */
const keys = [
  "inside", "outside", "days", "spread", "meanDifference", "varianceRatio", "decrementFactor", "timeLag", "timeConstant", "maxCorrelation",
  "moistureExcess", "vaporPressureExcess", "sensorOffset", "humidityClass", "condensation", "mould", "comfort", "response", "periods", "changes", "warnings",
];

function everyEstimate(value: unknown, found: Estimate[] = []): Estimate[] {
  if (typeof value !== "object" || value === null) return found;
  if ("low" in value && "standardError" in value) found.push(value as Estimate);
  else for (const part of Object.values(value)) everyEstimate(part, found);
  return found;
}

const soundEstimates = (pair: HousePair): void => {
  const all = everyEstimate(pair);
  expect(all.length).toBeGreaterThan(3);
  for (const e of all) expect(e.low <= e.value && e.value <= e.high && e.standardError >= 0 && Number.isFinite(e.low + e.high), JSON.stringify(e)).toBe(true);
};

describe("housePairs", () => {
  it("has the keys of the contract and orderly estimates, frozen, and plain JSON", () => {
    const [pair] = housePairs(madeRecord({ veranda: outdoor, library: indoor }), { offsetHours: 0 });
    expect(Object.keys(pair).sort()).toEqual([...keys].sort());
    soundEstimates(pair);
    expect(Object.isFrozen(pair) && Object.isFrozen(pair.warnings) && Object.isFrozen(pair.response)).toBe(true);
    expect(JSON.parse(JSON.stringify(pair)).timeLag.value).toBe(pair.timeLag?.value);
    expect([pair.inside, pair.outside, pair.days]).toEqual(["library", "veranda", 60]);
    expectClose(pair.meanDifference?.value ?? 0, 2, { absolute: 0.1 });
    expectClose(pair.decrementFactor?.value ?? 0, 0.3033, { relative: 0.03 }, "room of 12 h");
    expectClose(pair.timeLag?.value ?? 0, 4.823, { absolute: 0.15 }, "room of 12 h");
    expectClose(pair.timeConstant?.value ?? 0, 12, { relative: 0.1 }, "room of 12 h");
    expect(pair.sensorOffset.basis).toBe("class");
    expect(pair.warnings.join(" ")).toMatch(/0\.3–0\.6 K, 2–3 % RH/);
    expect(pair.warnings.join(" ")).toMatch(/local codes and licensed practice/);
    expect(pair.condensation?.factor).toBe(0.7);
    expect(pair.mould?.atOtherFactors.map((f) => f.factor)).toEqual([0.65, 0.75]);
    expect(pair.periods).toEqual([]);
  });

  it("does not change its record", () => {
    const record = madeRecord({ veranda: outdoor, library: indoor });
    const before = JSON.stringify(record);
    housePairs(record, { offsetHours: 7 });
    expect(JSON.stringify(record)).toBe(before);
  });

  it("one place only, both outdoor, exposure not told, no temperature: each is said", () => {
    const call = (places: Record<string, MadePlace>) => () => housePairs(madeRecord(places), { offsetHours: 0 });
    expect(call({ library: indoor })).toThrow('places must hold at least one with exposure "outdoor" (got library indoor)');
    expect(call({ a: outdoor, b: outdoor })).toThrow('at least one with exposure "indoor" (got a outdoor, b outdoor)');
    expect(call({ a: outdoor, b: { ...indoor, exposure: null } })).toThrow('(got a outdoor, b not told)');
    expect(call({ a: outdoor, b: { exposure: "indoor", values: { relative_humidity: [50, 50] } } })).toThrow("an indoor place must hold air temperature (got none in b)");
    expect(call({})).toThrow("(got no place)");
    try {
      call({ library: indoor })();
    } catch (error) {
      expect(error).toBeInstanceOf(RecordError);
      expect((error as RecordError).kind).toBe("data");
    }
  });

  it("two inside and one outside: two pairs, in order; one of them too short is kept and says so", () => {
    const attic: MadePlace = { exposure: "indoor", values: { air_temperature: inside.subarray(0, 96) } };
    const pairs = housePairs(madeRecord({ library: indoor, attic, veranda: outdoor }), { offsetHours: 0 });
    expect(pairs.map((p) => p.inside)).toEqual(["library", "attic"]);
    expect(pairs[1].meanDifference).toBeNull();
    expect(pairs[1].response).toEqual([]);
    expect(pairs[1].warnings[0]).toBe("Too little to infer anything: attic and veranda share 4.0 days, 6 are needed; log about 2 more days.");
    expect(() => housePairs(madeRecord({ attic, veranda: outdoor }), { offsetHours: 0 })).toThrow("attic and veranda share 4.0 days, 6 are needed");
  });

  it("a week is answered, with wide intervals and a warning", () => {
    const [pair] = housePairs(madeRecord({ veranda: { exposure: "outdoor", values: { air_temperature: outside.subarray(0, 192) } }, library: { exposure: "indoor", values: { air_temperature: inside.subarray(0, 192) } } }), { offsetHours: 0 });
    expect(pair.warnings[0]).toMatch(/^Only 8 days: .* log about 12 more days\.$/);
    expect(pair.meanDifference).not.toBeNull();
    expect(pair.response[0].gain).toBeNull();
    expect(pair.response[0].says).toMatch(/log about \d+ more days/);
    soundEstimates(pair);
  });

  it("inside equals outside: gain 1, lag 0, ratio 1, difference 0", () => {
    const [pair] = housePairs(madeRecord({ a: outdoor, b: { ...outdoor, exposure: "indoor" } }), { offsetHours: 0 });
    expectClose(pair.decrementFactor?.value ?? 0, 1, { absolute: 1e-9 }, "the same numbers");
    expectClose(pair.timeLag?.value ?? 9, 0, { absolute: 1e-9 }, "the same numbers");
    expectClose(pair.varianceRatio?.value ?? 0, 1, { absolute: 1e-9 }, "the same numbers");
    expectClose(pair.meanDifference?.value ?? 9, 0, { absolute: 1e-12 }, "the same numbers");
    expectClose(pair.maxCorrelation.value?.value ?? 0, 1, { absolute: 1e-9 }, "the same numbers");
    expect(pair.timeConstant).toBeNull();
    expect(pair.warnings.join(" ")).toMatch(/none between 0\.7 h and 300 h/);
    soundEstimates(pair);
  });

  it("constant inside: held, no lag, no constant, decrement at most near 0", () => {
    const [pair] = housePairs(madeRecord({ a: outdoor, b: { exposure: "indoor", values: { air_temperature: new Float64Array(outside.length).fill(20.5) } } }), { offsetHours: 0 });
    expect([pair.timeLag, pair.timeConstant, pair.varianceRatio, pair.maxCorrelation.value]).toEqual([null, null, null, null]);
    expect(pair.decrementFactor?.low).toBe(0);
    expect(pair.decrementFactor?.high).toBeLessThan(1e-6);
    expect(pair.warnings.join(" ")).toMatch(/held by something/);
    soundEstimates(pair);
  });

  it("held by a thermostat but with a small daily cycle: the decrement factor is an upper bound only", () => {
    const held = Float64Array.from(outside, (_, h) => 20.5 + 0.3 * Math.cos((2 * Math.PI * (h - 9)) / 24) + 0.02 * Math.sin(h * h));
    const [pair] = housePairs(madeRecord({ a: outdoor, b: { exposure: "indoor", values: { air_temperature: held } } }), { offsetHours: 0 });
    expect(pair.decrementFactor?.value).toBeGreaterThan(0.05);
    expect([pair.decrementFactor?.low, pair.timeLag, pair.timeConstant]).toEqual([0, null, null]);
    expect(pair.warnings.join(" ")).toMatch(/upper bound/);
    // The constant of a held room means nothing: no length of record is made of it.
    expect(pair.warnings.join(" ")).not.toMatch(/times as long as it/);
  });

  it("humidity missing in one place: temperature is answered, moisture is null and said", () => {
    const [pair] = housePairs(madeRecord({ a: outdoor, b: { exposure: "indoor", values: { air_temperature: inside } } }), { offsetHours: 0 });
    expect([pair.moistureExcess, pair.vaporPressureExcess, pair.humidityClass, pair.condensation, pair.mould]).toEqual([null, null, null, null, null]);
    expect(pair.timeLag).not.toBeNull();
    expect(pair.warnings.join(" ")).toMatch(/nothing is said about moisture, condensation or mould/);
  });

  it("a clock that is ahead shifts every lag by as much, and is taken off", () => {
    const five = Float64Array.from({ length: 12 * outside.length }, (_, i) => outside[Math.floor(i / 12)]);
    const room = Float64Array.from(five, (_, i) => inside[Math.floor(i / 12)]);
    const record = (delay: number) => madeRecord({ a: { exposure: "outdoor", values: { air_temperature: five }, step: 300 }, b: { exposure: "indoor", values: { air_temperature: room }, step: 300, delay } });
    const lagOf = (delay: number, clock?: number | Record<string, number>): number => housePairs(record(delay), { offsetHours: 0, clockOffsetSeconds: clock })[0].timeLag?.value ?? Number.NaN;
    const right = lagOf(0);
    // Hours cut a stairs signal at its own edges only without a shift; 0.01 h is what the other cuts cost.
    expectClose(lagOf(900) - right, 0.25, { absolute: 0.01 }, "shift");
    expectClose(lagOf(900, 900) - right, 0, { absolute: 1e-9 }, "taken off");
    expectClose(lagOf(900, { b: 1000, a: 100 }) - right, 0, { absolute: 1e-9 }, "by places");
    expectClose(lagOf(900, { a: -900 }) - right, 0, { absolute: 1e-9 }, "the other's clock");
  });

  it("hourly readings at other minutes: the lag knows when they were read", () => {
    const at = (minutes: number): Float64Array => Float64Array.from({ length: outside.length }, (_, h) => 10 + 5 * Math.cos((2 * Math.PI * (h + minutes / 60 - 15)) / 24) + 0.3 * Math.sin(h / 50));
    const record = madeRecord({ a: { exposure: "outdoor", values: { air_temperature: at(0) } }, b: { exposure: "indoor", values: { air_temperature: at(40) }, delay: 2400 } });
    expectClose(housePairs(record, { offsetHours: 0 })[0].timeLag?.value ?? 9, 0, { absolute: 0.01 }, "the same air, read 40 minutes apart");
  });

  it("co-location gives the sensors' difference, takes it off and leaves those days out", () => {
    const off = Float64Array.from(inside, (v, h) => (h < 72 ? outside[h] : v) + 0.5);
    const events = [{ at: madeStart, to: madeStart + 3 * dayMs, kind: "co-location", title: "together" }];
    const [pair] = housePairs(madeRecord({ a: outdoor, b: { exposure: "indoor", values: { air_temperature: off } } }, events), { offsetHours: 0 });
    expect(pair.sensorOffset.basis).toBe("co-location");
    expectClose(pair.sensorOffset.temperature?.value ?? 0, 0.5, { absolute: 1e-9 }, "planted");
    expect(pair.days).toBe(57);
    expectClose(pair.meanDifference?.value ?? 0, 2, { absolute: 0.1 });
    expect(pair.periods).toEqual([]);
  });

  it("an event: two periods without the days about it, and what changed", () => {
    const hour = 720;
    const quick = madeInside(outside, 4, 3, 3);
    const changed = Float64Array.from(inside, (v, h) => (h < hour ? v : quick[h]));
    const events = [{ at: madeStart + hour * 3_600_000, to: null, kind: null, title: "windows opened" }];
    const [pair] = housePairs(madeRecord({ a: outdoor, b: { exposure: "indoor", values: { air_temperature: changed } } }, events), { offsetHours: 0 });
    expect(pair.periods.map((p) => [p.title, p.from, p.to])).toEqual([
      ["before: windows opened", "2024-01-01T00:00:00Z", "2024-01-29T00:00:00Z"],
      ["after: windows opened", "2024-02-02T00:00:00Z", "2024-03-01T00:00:00Z"],
    ]);
    const change = (quantity: string) => pair.changes.find((c) => c.quantity === quantity);
    expect(change("meanDifference")?.change?.low).toBeGreaterThan(0);
    expectClose(change("decrementFactor")?.change?.value ?? 0, 0.6906 - 0.3033, { absolute: 0.02 }, "rooms of 4 and 12 h");
    expectClose(change("decrementFactor")?.ratio?.value ?? 0, 0.6906 / 0.3033, { relative: 0.05 }, "rooms of 4 and 12 h");
    expectClose(change("timeLag")?.change?.value ?? 0, 3.0886 - 4.8229, { absolute: 0.2 }, "rooms of 4 and 12 h");
    expect(change("timeConstant")?.change?.high).toBeLessThan(0);
    // Welch's t for two sides of 3 degrees of freedom each lies between those of 3 and 6.
    const lag = change("timeLag")?.change as Estimate;
    const t = (lag.high - lag.value) / lag.standardError;
    expect(t > 2.447 - 1e-3 && t < 3.183).toBe(true);
    expect(change("moistureExcess")).toMatchObject({ change: null, says: 'No change told for "windows opened": a side has no such number.' });
    expect(pair.changes.every((c) => c.event === "windows opened")).toBe(true);
    soundEstimates(pair);
  });

  it("options out of range are told", () => {
    const record = madeRecord({ veranda: outdoor, library: indoor });
    expect(() => housePairs(record, { offsetHours: 0, factor: 1.2 })).toThrow("housePairs: factor must be from 0 to 1 (got 1.2)");
    expect(() => housePairs(record, { offsetHours: 20 })).toThrow("housePairs: offsetHours must be from -14 to 14 h (got 20 h)");
    expect(() => housePairs(record, { offsetHours: 0, clockOffsetSeconds: Number.NaN })).toThrow("clockOffsetSeconds must be from -86400 to 86400 s");
  });
});
