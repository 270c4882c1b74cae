import { describe, expect, it } from "vitest";
import { random } from "../../../lib/ground/random.js";
import { changeOfMean } from "../../../lib/indoors/changeOfRoom.js";
import { expectClose } from "../../close.js";

/** Daily means of a few slow waves outside, and of a room that follows them with a memory of so many days. */
function slowAir(seed: number, days: number, memory: number): { readonly outside: Float64Array; readonly inside: Float64Array } {
  const chance = random(seed);
  const waves = Array.from({ length: 6 }, () => ({ turn: (2 * Math.PI) / (3 + 12 * chance.uniform()), phase: 6 * chance.uniform(), size: 2 * chance.normal() }));
  const at = (k: number): number => 10 + 0.05 * k + waves.reduce((sum, { turn, phase, size }) => sum + size * Math.cos(turn * k + phase), 0);
  const outside = Float64Array.from({ length: days }, (_v, k) => at(k));
  let x = at(-60);
  for (let k = -60; k < 0; k++) x += (at(k) - x) * (1 - Math.exp(-1 / memory));
  const inside = outside.map((v) => {
    x += (v - x) * (1 - Math.exp(-1 / memory));
    return x;
  });
  return { outside, inside };
}

const calls = (days: number, memory: number, options: (outside: Float64Array) => Parameters<typeof changeOfMean>[3], quiet = 0.05): number =>
  Array.from({ length: 20 }, (_v, seed) => {
    const { outside, inside } = slowAir(seed, days, memory);
    const chance = random(1000 + seed);
    const daily = inside.map((v, k) => (Math.abs(k - days / 2) <= 2 ? Number.NaN : v - outside[k] + quiet * chance.normal()));
    const change = changeOfMean(daily, outside, days / 2, options(outside)).change;
    return change !== null && (change.low > 0 || change.high < 0) ? 1 : 0;
  }).reduce<number>((a, b) => a + b, 0);

describe("changeOfMean in a room that remembers", () => {
  it("a heavy room in which nothing was done is not called changed by the weather it remembers", () => {
    // Two days before alone call many: what the fading means are there for.
    expect(calls(160, 1.7, () => ({ daysBefore: 2 }))).toBeGreaterThan(6);
    expect(calls(160, 1.7, () => ({}))).toBeLessThanOrEqual(3);
    expect(calls(80, 1.7, () => ({}))).toBeLessThanOrEqual(3);
  });

  it("from 50 days on that know their past the default is the day before and two fading means, under that two days before", () => {
    const { outside, inside } = slowAir(3, 60, 1.7);
    const daily = inside.map((v, k) => v - outside[k] + (k >= 26 ? 0.5 : 0));
    const first = (days: number): readonly [Float64Array, Float64Array, number] => [daily.slice(0, days), outside.slice(0, days), 25];
    expect(changeOfMean(...first(52))).toEqual(changeOfMean(...first(52), { daysBefore: 2 }));
    expect(changeOfMean(...first(53))).not.toEqual(changeOfMean(...first(53), { daysBefore: 2 }));
    // The first three days do not know their past: whatever they say is not heard. A gap of a day is bridged, one of a week is not.
    const spoiled = (at: number, by: number): Float64Array => daily.map((v, k) => (k === at ? v + by : v));
    const told = (values: Float64Array, air: Float64Array = outside): unknown => changeOfMean(values, air, 26);
    expect(told(spoiled(2, 9))).toEqual(told(daily));
    expect(told(spoiled(3, 9))).not.toEqual(told(daily));
    const gap = (days: number): Float64Array => outside.map((v, k) => (k >= 40 - days && k < 40 ? Number.NaN : v));
    expect(told(spoiled(40, 9), gap(1))).not.toEqual(told(daily, gap(1)));
    expect(told(spoiled(40, 9), gap(4))).toEqual(told(daily, gap(4)));
  });

  it("air outside that turns evenly is told by fewer days, and nothing breaks", () => {
    const outside = Float64Array.from({ length: 48 }, (_v, k) => 10 + 4 * Math.cos((2 * Math.PI * k) / 8));
    const daily = outside.map((_v, k) => (k < 4 ? Number.NaN : 3 * Math.sin((2 * Math.PI * k) / 8) + 0.01 * Math.cos(k * k) + (k >= 24 ? 1 : 0)));
    expectClose(changeOfMean(daily, outside, 24).change?.value ?? Number.NaN, 1, { absolute: 0.02 }, "planted");
  });

  it("walls that hold water: moisture is told by the moisture outside, several times finer than by temperature", () => {
    let held = 0;
    const half = (own: boolean): number[] =>
      Array.from({ length: 10 }, (_v, seed) => {
        const vapor = slowAir(50 + seed, 80, 1.7);
        const air = slowAir(seed, 80, 0.2);
        const chance = random(seed);
        const daily = vapor.inside.map((v, k) => v - vapor.outside[k] + 0.1 * chance.normal() + (k >= 40 ? 1 : 0));
        const change = changeOfMean(daily, air.outside, 40, own ? { own: vapor.outside } : {}).change;
        if (change !== null && change.low <= 1 && change.high >= 1) held++;
        return change === null ? Number.NaN : (change.high - change.low) / 2;
      });
    const sum = (widths: number[]): number => widths.reduce((a, b) => a + b, 0);
    const plain = sum(half(false));
    held = 0;
    expect(plain / sum(half(true))).toBeGreaterThan(3);
    expect(held).toBeGreaterThanOrEqual(9);
    // Outside moisture that never changes tells nothing, and breaks nothing.
    const { outside, inside } = slowAir(1, 80, 0.5);
    const daily = inside.map((v, k) => v - outside[k]);
    expect(changeOfMean(daily, outside, 40, { own: new Array(80).fill(7) }).change).not.toBeNull();
    expect(() => changeOfMean(daily, outside, 40, { own: [1] })).toThrow("own must have the length of daily, 80 d (got 1 d)");
  });
});
