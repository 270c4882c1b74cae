import { describe, expect, it } from "vitest";
import { indoorsOf } from "../../../lib/answers/indoorsOf.js";
import type { Estimate } from "../../../lib/ground/estimate.js";
import { plainRoom, plainTruth } from "../../plainRoom.js";

const holds = (e: Estimate | null, truth: number): boolean => e !== null && e.low <= truth && truth <= e.high;

describe("indoors with a clock some minutes off, told by the barometers", () => {
  for (const step of [300, 600, 1800, 3600]) {
    it(`tells the one constant, the decrement factor and the lag of a plain room, readings every ${step / 60} min`, () => {
      const tau = 12;
      const truth = plainTruth(tau);
      const pairs = [1, 2, 3, 4, 5, 6].map((seed) => indoorsOf(plainRoom({ tau, kind: seed % 2 === 0 ? "rough" : "smooth", days: step === 300 ? 20 : 40, step }, 300 + seed).record).pairs[0]);
      // 95 % each: five of six or more by far in most draws; fixed seeds.
      expect(pairs.filter((p) => holds(p.timeConstant, tau)).length, "time constant").toBeGreaterThanOrEqual(5);
      expect(pairs.filter((p) => holds(p.decrementFactor, truth.decrement)).length, "decrement factor").toBeGreaterThanOrEqual(5);
      expect(pairs.filter((p) => holds(p.timeLag, truth.lagHours)).length, "lag").toBeGreaterThanOrEqual(5);
    });
  }

  it("a lag is as unsure as the clocks: hourly readings leave it minutes, and the sentence says so", () => {
    const { record } = plainRoom({ tau: 12, kind: "rough", days: 40, step: 3600 }, 307);
    const told = indoorsOf(record).pairs[0];
    const known = indoorsOf(record, { clockOffsetSeconds: { yard: 0, room: 0 } }).pairs[0];
    const half = (e: Estimate | null): number => (e === null ? Number.NaN : (e.high - e.low) / 2);
    expect(half(told.timeLag)).toBeGreaterThan(0.08);
    expect(half(known.timeLag)).toBeLessThan(0.075);
    expect(half(told.decrementFactor)).toBe(half(known.decrementFactor));
    expect(told.warnings.join(" ")).toMatch(/The clocks are known to ± \d+ min only, and every lag with them: its interval has that in it\./);
  });
});
