import { describe, expect, it } from "vitest";
import { expectClose } from "../../close.js";

const folder = new URL("../../../datasets/", import.meta.url);

/** The scripts are plain JavaScript without declarations, so they are loaded by address. */
async function load<T>(name: string): Promise<T> {
  return (await import(/* @vite-ignore */ new URL(name, folder).href)) as T;
}

interface Chance { uniform(): number; normal(): number }
type Chances = { chance(seed: number, name: string): Chance };
type Noise = (random: Chance, n: number, stepHours: number, memoryHours: number, sd: number) => Float64Array;

const spread = (x: ArrayLike<number>): number => {
  const values = Array.from(x);
  const mean = values.reduce((a, b) => a + b, 0) / values.length;
  return Math.sqrt(values.reduce((a, b) => a + (b - mean) ** 2, 0) / values.length);
};

describe("the pieces that invent records do what truth.json says of them", () => {
  it("a stream depends on seed and name alone, and its normal numbers are normal", async () => {
    const { chance } = await load<Chances>("invent/chance.mjs");
    expect(chance(5, "a").uniform()).toBe(chance(5, "a").uniform());
    expect(chance(5, "a").uniform()).not.toBe(chance(5, "b").uniform());
    const random = chance(5, "normal");
    const x = Array.from({ length: 20000 }, () => random.normal());
    // Four standard errors of a spread and of a share from 20 000 draws.
    expectClose(spread(x), 1, { absolute: 0.02 }, "spread");
    expectClose(x.filter((v) => Math.abs(v) < 1.959964).length / x.length, 0.95, { absolute: 0.0062 }, "share within 1.96");
  });

  it("both red noises have the spread and the memory asked for", async () => {
    const { chance } = await load<Chances>("invent/chance.mjs");
    const { redNoise, smoothRedNoise } = await load<{ redNoise: Noise; smoothRedNoise: Noise }>("invent/redNoise.mjs");
    const correlation = (x: Float64Array, lag: number): number => {
      let sum = 0;
      for (let i = lag; i < x.length; i++) sum += x[i] * x[i - lag];
      return sum / (x.length - lag) / spread(x) ** 2;
    };
    const red = redNoise(chance(1, "red"), 60000, 1, 10, 3);
    const smooth = smoothRedNoise(chance(1, "smooth"), 60000, 1, 10, 3);
    // 60 000 h are 3 000 and 1 200 independent stretches: four standard errors are near 6 %.
    expectClose(spread(red), 3, { relative: 0.06 }, "spread, red");
    expectClose(spread(smooth), 3, { relative: 0.08 }, "spread, smooth");
    expectClose(correlation(red, 10), Math.exp(-1), { absolute: 0.08 }, "e-folding");
    // Short memories show a wrong sum of the filter's weights; four standard errors are near 3 % here.
    expectClose(spread(smoothRedNoise(chance(1, "short"), 60000, 1, 2, 3)), 3, { relative: 0.03 }, "spread, short memory");
    // Matérn 3/2: (1 + x) e^(−x) at one memory time.
    expectClose(correlation(smooth, 10), 2 * Math.exp(-1), { absolute: 0.08 }, "smooth at one memory time");
  });

  it("a room driven by a pure daily cycle answers with the decrement and lag of its time constant", async () => {
    type Room = (outdoor: Float64Array, stepHours: number, at: () => { timeConstant: number; warmer: number; heater: null }) => Float64Array;
    const { room, dailyResponse } = await load<{ room: Room; dailyResponse(tau: number): { decrementFactor: number; timeLagHours: number } }>("invent/room.mjs");
    // Published row of the same formula: one time constant of 12 h, gain 0.30331, lag 4.823 h (arithmetic of 1/√(1+ω²τ²), atan(ωτ)/ω).
    expectClose(dailyResponse(12).decrementFactor, 0.30331, { absolute: 5e-6 }, "gain at 12 h");
    expectClose(dailyResponse(12).timeLagHours, 4.823, { absolute: 5e-4 }, "lag at 12 h");
    const step = 1 / 6;
    const omega = (2 * Math.PI) / 24;
    const outdoor = Float64Array.from({ length: 144 * 20 }, (_, i) => 10 + 4 * Math.cos(omega * i * step));
    const inside = room(outdoor, step, () => ({ timeConstant: 9, warmer: 2, heater: null }));
    const { decrementFactor, timeLagHours } = dailyResponse(9);
    for (let i = 144 * 15; i < outdoor.length; i += 37) {
      // Straight lines between 10-minute values lose (1/12)(ω·step)² of the cycle, below 2·10⁻⁴ of 4 K.
      expectClose(inside[i], 12 + 4 * decrementFactor * Math.cos(omega * (i * step - timeLagHours)), { absolute: 1e-3 }, `step ${i}`);
    }
  });

  it("the tide stands at its crest at the hour it names", async () => {
    type Tide = (lines: { timesPerDay: number; amplitude: number; maximumAt: number }[], ms: number, longitude: number) => number;
    const { tide } = await load<{ tide: Tide }>("invent/tide.mjs");
    // 9.7333 h local mean solar time at 110.2° E is 2.3867 h UTC (9.7333 − 110.2/15).
    const crest = Date.UTC(2024, 4, 1) + 2.386667 * 3600000;
    const s2 = [{ timesPerDay: 2, amplitude: 1.1, maximumAt: 9.733333 }];
    expectClose(tide(s2, crest, 110.2), 1.1, { absolute: 1e-9 }, "crest");
    expectClose(tide(s2, crest + 6 * 3600000, 110.2), -1.1, { absolute: 1e-9 }, "trough six hours later");
  });
});
