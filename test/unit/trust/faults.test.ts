import { describe, expect, it } from "vitest";
import { random } from "../../../lib/ground/random.js";
import { flagBit, type FlagName } from "../../../lib/record/flag.js";
import type { Quantity } from "../../../lib/record/quantity.js";
import { type Series, series } from "../../../lib/record/series.js";
import { flagRange } from "../../../lib/trust/faults/flagRange.js";
import { flagSaturated } from "../../../lib/trust/faults/flagSaturated.js";
import { flagSpikes } from "../../../lib/trust/faults/flagSpikes.js";
import { flagSteps } from "../../../lib/trust/faults/flagSteps.js";
import { flagStuck } from "../../../lib/trust/faults/flagStuck.js";
import { readingStep } from "../../../lib/trust/faults/readingStep.js";
import { expectClose } from "../../close.js";

const made = (values: readonly number[], quantity: Quantity, step = 300, place = "here"): Series =>
  series({ times: values.map((_, i) => 1000 * step * i), values: [...values], quantity, place });
const marked = (bits: Uint16Array, flag: FlagName): number[] => [...bits.keys()].filter((i) => (bits[i] & flagBit[flag]) !== 0);
const t: Quantity = "air_temperature";
const rh: Quantity = "relative_humidity";
const p: Quantity = "surface_air_pressure";

/** A quiet trace: slow wave plus a little noise, in steps of 0.1. */
const quiet = (n: number, level: number, seed = 5): number[] => {
  const dice = random(seed);
  return Array.from({ length: n }, (_, i) => Math.round(10 * (level + 3 * Math.sin(i / 40) + 0.08 * dice.normal())) / 10);
};

describe("flagRange", () => {
  it("marks outside, keeps the limits themselves, skips missing", () => {
    expect([...flagRange(made([-80, -80.1, 60, 60.1, Number.NaN], t))]).toEqual([0, 1, 0, 1, 0]);
    expect([...flagRange(made([0, -0.1, 105, 105.1], rh))]).toEqual([0, 1, 0, 1]);
    expect([...flagRange(made([500, 1100, 1100.1, 0], p), { elevation: 0 })]).toEqual([0, 0, 1, 1]);
  });
  it("allows a high site and refuses what is too low even there", () => {
    expect([...flagRange(made([470, 430], p), { elevation: 5300 })]).toEqual([0, 1]);
    expect([...flagRange(made([470, 299], p))]).toEqual([0, 1]);
  });
  it("marks a whole column in another unit and leaves it to no other detector", () => {
    const wrong = made(quiet(400, 101325), p);
    const bits = flagRange(wrong);
    expect(marked(bits, "range").length).toBe(400);
    expect(flagSpikes({ ...wrong, flags: bits }).some((b) => b > 0)).toBe(false);
    expect(flagStuck({ ...wrong, flags: bits }).some((b) => b > 0)).toBe(false);
  });
});

describe("flagSaturated", () => {
  it("marks 100 to 105 % with both ends, of humidity alone", () => {
    expect(marked(flagSaturated(made([99.9, 100, 105, 105.1, Number.NaN], rh)), "saturated")).toEqual([1, 2]);
    expect(marked(flagSaturated(made([100, 101], t)), "saturated")).toEqual([]);
  });
});

describe("readingStep", () => {
  it("sees the printed step through the noise of conversion", () => {
    expectClose(readingStep(Float64Array.from(quiet(2000, 20))), 0.1, { relative: 1e-9 }, "0.1");
    const inches = Array.from({ length: 500 }, (_, i) => Math.round(2992 + 20 * Math.sin(i / 30)) * 0.3386388640341);
    expectClose(readingStep(Float64Array.from(inches)), 0.338639, { relative: 1e-6 }, "0.01 inHg");
    expect(readingStep(Float64Array.of(7, 7, Number.NaN))).toBe(0);
  });
});

describe("flagSpikes", () => {
  const put = (values: number[], at: number, ...excess: number[]): number[] => values.map((v, i) => v + (excess[i - at] ?? 0));
  it("finds one, two and three readings, up and down, and nothing else", () => {
    expect(marked(flagSpikes(made(put(quiet(600, 20), 300, 8), t)), "spike")).toEqual([300]);
    expect(marked(flagSpikes(made(put(quiet(600, 20), 300, -9, -8), t)), "spike")).toEqual([300, 301]);
    expect(marked(flagSpikes(made(put(quiet(600, 20), 300, 9, 8, 9.5), t)), "spike")).toEqual([300, 301, 302]);
  });
  it("leaves four readings, a front, an opened window and a small departure alone", () => {
    const base = quiet(600, 20);
    expect(marked(flagSpikes(made(put(base, 300, 8, 8, 8, 8), t)), "spike")).toEqual([]);
    expect(marked(flagSpikes(made(base.map((v, i) => v - (i >= 300 ? 8 : 0)), t)), "spike")).toEqual([]);
    expect(marked(flagSpikes(made(put(base, 300, -5, -4, -2.5, -1.6, -1, -0.6, -0.4, -0.2), t)), "spike")).toEqual([]);
    expect(marked(flagSpikes(made(put(base, 300, 3.5), t)), "spike")).toEqual([]);
    expect(marked(flagSpikes(made(put(base, 300, 10, 5, 2.5, 1.2, 0.6), t)), "spike")).toEqual([]);
  });
  it("asks more of hourly data: a shower's outflow between two readings is weather", () => {
    expect(marked(flagSpikes(made(put(quiet(600, 20), 300, -8), t, 3600)), "spike")).toEqual([]);
    expect(marked(flagSpikes(made(put(quiet(600, 20), 300, -14), t, 3600)), "spike")).toEqual([300]);
  });
  it("does not judge beside a gap, and skips missing readings", () => {
    const gap = put(quiet(600, 20), 300, 9).map((v, i) => (i > 300 && i < 310 ? Number.NaN : v));
    expect(marked(flagSpikes(made(gap, t)), "spike")).toEqual([]);
    const one = put(quiet(600, 20), 300, 9).map((v, i) => (i === 301 ? Number.NaN : v));
    expect(marked(flagSpikes(made(one, t)), "spike")).toEqual([300]);
  });
  it("answers for nothing and for one reading", () => {
    expect(flagSpikes(made([], t)).length).toBe(0);
    expect([...flagSpikes(made([20], t))]).toEqual([0]);
  });
});

describe("flagStuck", () => {
  it("finds six hours of one value in a trace that never holds still", () => {
    const values = quiet(4000, 20).map((v, i, all) => (i >= 2000 && i <= 2072 ? all[2000] : v));
    const found = marked(flagStuck(made(values, t)), "stuck");
    expect(found.length).toBeGreaterThanOrEqual(73);
    expect(found.length).toBeLessThanOrEqual(75);
    expect(found[0]).toBeGreaterThanOrEqual(1999);
  });
  it("leaves a thermostat's room alone, and a barometer written to 1 hPa, and a wet hygrometer", () => {
    const dice = random(8);
    const room = Array.from({ length: 4000 }, () => 20.5 + (dice.uniform() < 0.004 ? 0.5 : 0));
    expect(marked(flagStuck(made(room, t)), "stuck")).toEqual([]);
    const coarse = Array.from({ length: 6000 }, (_, i) => Math.round(1010 + 4 * Math.sin(i / 400) + 3 * Math.sin(i / 171)));
    expect(marked(flagStuck(made(coarse, p, 600)), "stuck")).toEqual([]);
    const wet = quiet(4000, 90).map((v, i) => (i >= 1000 && i < 1100 ? 99.9 : v));
    expect(marked(flagStuck(made(wet, rh)), "stuck")).toEqual([]);
  });
  it("leaves a room alone that flickers by one reading step all day and holds still for a night", () => {
    const dice = random(12);
    const values = Array.from({ length: 6000 }, (_, i) => 20 + (i > 3000 && i < 3060 ? 0 : 0.1 * dice.integer(2)));
    expect(marked(flagStuck(made(values, t)), "stuck")).toEqual([]);
  });
  it("believes the twin: a coarse barometer that stood still while the other fell by 8 hPa", () => {
    const air = (i: number): number => 1000 + 12 * Math.sin(i / 300) + 3 * Math.sin(i / 40);
    const a = Array.from({ length: 4000 }, (_, i) => Math.round(air(i)));
    const b = a.map((v, i) => (i >= 1500 && i <= 1620 ? a[1500] : v));
    const twin = made(a, p, 600, "there");
    expect(marked(flagStuck(made(b, p, 600), twin), "stuck").filter((i) => i >= 1500 && i <= 1620).length).toBe(121);
    expect(marked(flagStuck(twin, made(b, p, 600)), "stuck")).toEqual([]);
  });
});

describe("flagSteps", () => {
  const dice = random(3);
  const air = Array.from({ length: 4320 }, (_, i) => 860 + 2 * Math.sin(i / 200) + 1.1 * Math.sin(i / 23));
  const own = (shift: (i: number) => number, place: string): Series => made(air.map((v, i) => v + 0.04 * dice.normal() + shift(i)), p, 600, place);
  it("marks the one that jumped, from there to the end, and not its twin", () => {
    const a = own((i) => (i >= 2000 ? 1.4 : 0), "a");
    const b = own(() => -0.6, "b");
    expect(marked(flagSteps(a, b), "step")).toEqual(Array.from({ length: 2320 }, (_, k) => 2000 + k));
    expect(marked(flagSteps(b, a), "step")).toEqual([]);
  });
  it("ends where the level comes back", () => {
    const a = own((i) => (i >= 1500 && i < 3000 ? -1 : 0), "a");
    const found = marked(flagSteps(a, own(() => 0, "b")), "step");
    expect([found[0], found.at(-1), found.length]).toEqual([1500, 2999, 1500]);
  });
  it("does not call a slow drift a jump, nor small ones", () => {
    const b = own(() => 0, "b");
    expect(marked(flagSteps(own((i) => (2 * i) / 4320, "a"), b), "step")).toEqual([]);
    const ramp = own((i) => 2 * Math.min(1, Math.max(0, (i - 2000) / 216)), "a");
    expect([...marked(flagSteps(ramp, b), "step"), ...marked(flagSteps(b, ramp), "step")]).toEqual([]);
    expect(marked(flagSteps(own((i) => (i > 2000 ? 0.25 : 0), "a"), b), "step")).toEqual([]);
  });
  it("alone sees only what no weather does", () => {
    expect(marked(flagSteps(own((i) => (i >= 2000 ? 8 : 0), "a"), null), "step")[0]).toBe(2000);
    expect(marked(flagSteps(own((i) => (i >= 2000 ? 1.4 : 0), "a"), null), "step")).toEqual([]);
    expect(marked(flagSteps(made(quiet(500, 20), t), null), "step")).toEqual([]);
  });
  it("alone, where the days are quiet, sees a jump of 2 hPa that lasts, and no squall that is gone next day", () => {
    const tropics = (shift: (i: number) => number): Series => made(Array.from({ length: 4320 }, (_, i) => 845 + 0.5 * Math.sin(i / 700) + 1.1 * Math.sin((i * Math.PI) / 36 + 1) + 0.04 * dice.normal() + shift(i)), p, 600);
    expect(marked(flagSteps(tropics((i) => (i >= 2000 ? -2 : 0)), null), "step")).toEqual(Array.from({ length: 2320 }, (_, k) => 2000 + k));
    expect(marked(flagSteps(tropics((i) => (i >= 2000 && i < 2036 ? 2 : 0)), null), "step")).toEqual([]);
    expect(marked(flagSteps(tropics((i) => (i >= 100 ? -2 : 0)), null), "step")).toEqual([]);
    expect(marked(flagSteps(tropics(() => 0), null), "step")).toEqual([]);
  });
  it("alone, in days that move more, sees a jump that no other step of the record comes near", () => {
    const restless = (shift: (i: number) => number): Series => made(Array.from({ length: 4320 }, (_, i) => 845 + 1.5 * Math.sin(i / 250) + 0.04 * dice.normal() + shift(i)), p, 600);
    expect(marked(flagSteps(restless((i) => (i >= 2000 ? 2 : 0)), null), "step")[0]).toBe(2000);
    expect(marked(flagSteps(restless((i) => (i >= 2000 && i < 2036 ? 2 : 0)), null), "step")).toEqual([]);
    expect(marked(flagSteps(restless(() => 0), null), "step")).toEqual([]);
  });
});
