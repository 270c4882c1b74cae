import { describe, expect, it } from "vitest";
import { swingBand } from "../../lib/cycles/swings/swingBand.js";
import { varianceShares } from "../../lib/cycles/swings/varianceShares.js";
import { lanczosLowPass, lowPassResponse } from "../../lib/grid/lanczosLowPass.js";
import { judge, middleLatitude, percent, printed, runs, slack, tropics, varianceBehind, weatherHours, withGaps } from "./inventedWeather.js";

const quick = lanczosLowPass(2, 3);
const slow = lanczosLowPass(15, 15);
const names = ["tide", "swings", "background", "quick"] as const;

describe("shares of the variance: 95 % intervals hold the shares of endless weather of this kind", () => {
  it("tide, swings, background and what is quicker", () => {
    const records = runs(600);
    const rows: string[][] = [["weather", "days", ...names.map((n) => `${n}: true; mean; cover %`)]];
    const bounds: [what: string, share: number, low: number][] = [];
    for (const weather of [middleLatitude, tropics]) {
      const [s1, s2] = weather === tropics ? [0.7, 1.2] : [0.18, 0.3];
      const parts = [
        (s1 ** 2 + s2 ** 2) / 2,
        varianceBehind(weather, (p) => lowPassResponse(quick, p) - lowPassResponse(slow, p)),
        varianceBehind(weather, (p) => lowPassResponse(slow, p)),
        varianceBehind(weather, (p) => 1 - lowPassResponse(quick, p)) + 0.05 ** 2,
      ];
      const truth = parts.map((v) => v / parts.reduce((a, b) => a + b));
      for (const days of [60, 120, 360]) {
        const { normal, integer, uniform } = judge(7_547_000 + days + (weather === tropics ? 1000 : 0));
        const held = [0, 0, 0, 0];
        const mean = [0, 0, 0, 0];
        for (let i = 0; i < records; i++) {
          const [p1, p2] = [2 * Math.PI * uniform(), 2 * Math.PI * uniform()];
          const hours = withGaps(weatherHours(weather, 24 * days, normal).map((v) => 1010 + v + 0.05 * normal()), Math.round(days / 22), 18, integer);
          const tide = Float64Array.from(hours, (_, h) => s1 * Math.cos((2 * Math.PI * h) / 24 - p1) + s2 * Math.cos((2 * Math.PI * h) / 12 - p2));
          const swings = swingBand(hours, { noise: 0.05 });
          const shares = varianceShares(swings, tide.subarray(swings.first, swings.first + swings.hours));
          for (const [k, name] of names.entries()) {
            const e = shares?.[name];
            if (e === undefined) throw new Error("a record of weather has shares");
            mean[k] += e.value / records;
            if (e.low <= truth[k] && truth[k] <= e.high) held[k]++;
          }
        }
        rows.push([weather.name, `${days}`, ...names.map((_, k) => `${truth[k].toFixed(3)}; ${mean[k].toFixed(3)}; ${percent(held[k], records)}`)]);
        for (const [k, name] of names.entries()) bounds.push([`${weather.name}, ${days} d, ${name}`, held[k] / records, 0.88 - slack(records)]);
      }
    }
    printed(`${records} records a row, gaps of 18 h, seeds from 7547000`, rows);
    for (const [what, share, low] of bounds) expect(share, what).toBeGreaterThan(low);
  });
});
