import { describe, expect, it } from "vitest";
import type { NoiseTheta } from "../../../../lib/cycles/tide/bandedNoise.js";
import { pairsOf } from "../../../../lib/cycles/tide/fittedLines.js";
import { fittedNoise } from "../../../../lib/cycles/tide/fittedNoise.js";
import { fusedPass } from "../../../../lib/cycles/tide/fusedPass.js";
import { tideLines } from "../../../../lib/cycles/tide/lineTable.js";
import { noiseSearch } from "../../../../lib/cycles/tide/noiseSearch.js";
import { tideRows } from "../../../../lib/cycles/tide/tideRows.js";
import type { TideSteps } from "../../../../lib/cycles/tide/tideSteps.js";
import { random } from "../../../../lib/ground/random.js";

const start = Date.UTC(2024, 2, 1);

describe("the noise of a long record", () => {
  it("over 180 days the coarse points come from the first sixty days that hold forty and no jump", () => {
    // Sixty days each: of white noise, of slow weather, of both, and a rest.
    const chance = random(8);
    let slow = 0;
    const drawn = Float64Array.from({ length: 4344 }, (_v, h) => {
      slow = 0.99 * slow + chance.normal();
      return 1000 + (h < 1440 ? 9 * chance.normal() : h < 2880 ? slow : h < 4320 ? slow / 5 + chance.normal() : slow);
    });
    const stepsOf = (hours: number, lost: (h: number) => boolean): TideSteps => ({
      midnight: start, perHour: 1, firstHour: 7, hours, phase: 0, regular: true, values: drawn.slice(0, hours).map((v, h) => (lost(h) ? Number.NaN : v)), instants: Float64Array.from({ length: hours }, (_v, h) => (lost(h) ? Number.NaN : 3600 * (7 + h))),
    });
    const pairs = pairsOf(tideLines.slice(1, 2), start, 0);
    const searched = (steps: TideSteps, breaks: readonly number[], part: number | null): NoiseTheta => {
      const of = (hours: TideSteps, at: readonly number[]) => fusedPass(tideRows(hours, pairs, "bridged", at)).evaluate;
      const whole = of(steps, breaks);
      if (part === null) return noiseSearch(whole).theta;
      const [a, b] = [1440 * part, 1440 * (part + 1)];
      return noiseSearch(whole, of({ ...steps, firstHour: 7 + a, hours: 1440, values: steps.values.slice(a, b), instants: steps.instants.slice(a, b) }, [])).theta;
    };
    const none = (): boolean => false;
    const all = stepsOf(4344, none);
    const thetas = [0, 1, 2, null].map((part) => searched(all, [], part).join());
    expect(new Set(thetas).size).toBe(4);
    expect(fittedNoise(all, pairs, []).theta.join()).toBe(thetas[0]);
    // Forty days of the first sixty are enough, an hour fewer is not.
    const [enough, few] = [480, 481].map((count) => stepsOf(4344, (h) => h >= 300 && h < 300 + count));
    expect(fittedNoise(enough, pairs, []).theta).toEqual(searched(enough, [], 0));
    expect(fittedNoise(few, pairs, []).theta).toEqual(searched(few, [], 1));
    // A jump in the first sixty days, and between the first and the second.
    const jump = (hour: number): number[] => [3600 * (7 + hour)];
    expect(fittedNoise(all, pairs, jump(700)).theta).toEqual(searched(all, jump(700), 1));
    expect(fittedNoise(all, pairs, jump(1440)).theta).toEqual(searched(all, jump(1440), 2));
    // The end of the first sixty days belongs to them; a minute later does not.
    expect(fittedNoise(all, pairs, [3600 * (7 + 1440) + 60]).theta).toEqual(searched(all, [3600 * (7 + 1440) + 60], 0));
    const short = stepsOf(4320, none);
    expect(fittedNoise(short, pairs, []).theta).toEqual(searched(short, [], null));
  });
});
