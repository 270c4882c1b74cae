import { describe, expect, it } from "vitest";
import { crossCorrelation } from "../../lib/grid/crossCorrelation.js";
import { random } from "../../lib/ground/random.js";

const runs = process.env.SIMULATE === "long" ? 4000 : 800;

/** White noise through one-pole filters, one after the other. */
function noise(normal: () => number, n: number, poles: readonly number[]): Float64Array {
  let x = Array.from({ length: n + 300 }, () => normal());
  for (const pole of poles) {
    let v = 0;
    x = x.map((e) => (v = pole * v + e));
  }
  return Float64Array.from(x.slice(300));
}

/** Two sigma of a share p seen in `runs` cases. */
const twoSigma = (p: number): number => 2 * Math.sqrt((p * (1 - p)) / runs);

describe("correlation of series with memory", () => {
  const cases: [string, number[], number[], number][] = [
    ["white, 300", [], [], 300],
    ["one pole 0.9, 500", [0.9], [0.9], 500],
    ["one pole 0.95 and 0.5, 1000", [0.95], [0.5], 1000],
    ["smoother: two poles 0.95, 3000", [0.95, 0.95], [0.95, 0.95], 3000],
    ["short: one pole 0.9, 100", [0.9], [0.9], 100],
  ];
  for (const [k, [name, pa, pb, n]] of cases.entries()) {
    it(`unrelated series are called related in 5 %: ${name}`, () => {
      const { normal } = random(7_710_000 + k);
      let calls = 0;
      for (let m = 0; m < runs; m++) if (crossCorrelation(noise(normal, n, pa), noise(normal, n, pb), { from: 3, to: 3 })[0].pValue < 0.05) calls++;
      console.log(`${name}: ${((100 * calls) / runs).toFixed(1)} % called`);
      expect(Math.abs(calls / runs - 0.05)).toBeLessThan(0.015 + twoSigma(0.05));
    });
  }

  for (const [k, [pole, n]] of ([[0, 200], [0.9, 800]] as const).entries()) {
    it(`the interval holds a correlation of 0.6, pole ${pole}`, () => {
      const { normal } = random(7_720_000 + k);
      let held = 0;
      for (let m = 0; m < runs; m++) {
        const [s, u] = [noise(normal, n, [pole]), noise(normal, n, [pole])];
        const { correlation } = crossCorrelation(s, s.map((v, i) => 0.6 * v + 0.8 * u[i]), { from: 0, to: 0 })[0];
        if (correlation !== null && correlation.low <= 0.6 && correlation.high >= 0.6) held++;
      }
      console.log(`pole ${pole}: ${((100 * held) / runs).toFixed(1)} % held`);
      expect(held / runs).toBeGreaterThan(0.93 - twoSigma(0.05));
      expect(held / runs).toBeLessThan(0.98);
    });
  }
});
