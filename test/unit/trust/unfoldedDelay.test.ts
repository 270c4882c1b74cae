import { describe, expect, it } from "vitest";
import { clockOffset } from "../../../lib/trust/clock/clockOffset.js";
import { type SharedPressure, unfoldedDelay } from "../../../lib/trust/clock/unfoldedDelay.js";
import { expectClose } from "../../close.js";
import { pressureRecord, recordStart } from "../../simulation/pressureRecord.js";

const step = 600;
/** A spectrum that falls with a power of frequency, half a cycle a day apart up to the highest a step of ten minutes has. */
function falling(power: number, phases: readonly number[] = [0, 0, 0]): SharedPressure {
  const omega = Float64Array.from({ length: 140 }, (_, k) => (2 * Math.PI * (k + 3) * 0.5) / 86400);
  const size = omega.map((w) => w ** -power);
  return { omega, size, weighted: size.map(() => 1), phases };
}

/**
 * The turn that folding gives a Brownian trace, whose spectrum falls with the square: over a step it runs along a line but for what is new,
 * so a trace read a share q of a step later has (1 − q) of one reading and q of the next in common with it. Turn over frequency, weighted as above.
 */
function brownianShift({ omega }: SharedPressure, q: number): number {
  let [along, square] = [0, 0];
  for (const w of omega) {
    const own = Math.atan2(q * Math.sin(w * step), 1 - q + q * Math.cos(w * step));
    along += w * (own - w * q * step);
    square += w * w;
  }
  return along / square;
}

describe("unfoldedDelay", () => {
  it("undoes what folding does to a Brownian trace, whose turn is known in closed form", () => {
    for (const q of [-0.4, -0.25, 0.1, 0.25, 0.4]) {
      const shared = falling(2);
      const folded = q * step + Math.sign(q) * brownianShift(shared, Math.abs(q));
      const found = unfoldedDelay(shared, folded, step, 1);
      expect(Math.abs(folded - q * step), `share ${q}: folding of ${folded - q * step} s`).toBeGreaterThan(5);
      expectClose(found?.delay ?? Number.NaN, q * step, { absolute: 0.005 * step }, `share ${q}: three orders on either side of the sum`);
    }
  });

  it("leaves no delay and half a step as they are, and turns with the sign", () => {
    const shared = falling(2);
    for (const delay of [0, step / 2]) expectClose(unfoldedDelay(shared, delay, step, 1)?.delay ?? Number.NaN, delay, { absolute: 1e-3 }, "a line of symmetry, to a millionth of the step");
    const [there, back] = [100, -100].map((d) => unfoldedDelay(shared, d, step, 1)?.delay ?? Number.NaN);
    expectClose(there, -back, { absolute: 2e-3 }, "exchanged places");
    expect(there).toBeGreaterThan(101);
  });

  it("counts by its share, less for smooth air, not at all for readings that wander through the step", () => {
    expect(unfoldedDelay(falling(2), 123, step, 0)).toEqual({ delay: 123, slope: 1, most: 0, mostUsually: 0 });
    const [rough, smooth] = [2, 4].map((power) => unfoldedDelay(falling(power), 150, step, 1));
    expect((smooth?.most ?? 9) < 0.8 * (rough?.most ?? 0)).toBe(true);
    expectClose(smooth?.mostUsually ?? 0, rough?.mostUsually ?? 1, { absolute: 1e-9 }, "the usual fall");
    const everywhere = unfoldedDelay(falling(2, Array.from({ length: 60 }, (_, k) => 10 * k - 295)), 150, step, 1);
    expectClose(everywhere?.delay ?? 0, 150, { absolute: 1e-3 }, "the mean of the turns is none");
  });

  it("near no delay an error grows by the slope, near half a step it shrinks", () => {
    const slope = (d: number): number => ((unfoldedDelay(falling(2), d + 1, step, 1)?.delay ?? 0) - (unfoldedDelay(falling(2), d - 1, step, 1)?.delay ?? 0)) / 2;
    for (const d of [0, 60, 300]) expectClose(unfoldedDelay(falling(2), d, step, 1)?.slope ?? 0, slope(d), { relative: 0.05 }, `at ${d} s`);
    expect([slope(0) > 1, slope(300) < 1]).toEqual([true, true]);
  });
});

describe("clockOffset of two loggers that read at other instants", () => {
  const offsets = (days: number, each: number, truth: number): { error: number; half: number }[] =>
    [3301, 3302, 3303, 3304, 3305, 3306].map((seed) => {
      const [a, b] = pressureRecord(seed, { days, step: each, noise: 0.05 }, [() => truth, () => 0]);
      const found = clockOffset(a, b);
      if (found === null) throw new Error("no offset");
      return { error: found.offset.value - truth, half: (found.offset.high - found.offset.low) / 2 };
    });
  const mean = (x: number[]): number => x.reduce((s, v) => s + v, 0) / x.length;

  it("is off by no part of the step, where the folding was a twenty-fifth of it, and knows its error to half of what it was", () => {
    for (const [each, least] of [[300, 13], [900, 36]] as const) {
      const found = offsets(30, each, each / 4);
      expect(Math.abs(mean(found.map((f) => f.error))), `${each} s, was −${least} s`).toBeLessThan(0.015 * each);
      expect(mean(found.map((f) => f.half))).toBeLessThan(0.065 * each);
      for (const f of found) expect(Math.abs(f.error)).toBeLessThan(f.half);
    }
  });

  it("keeps to the wide interval where one logger is quicker, or where the clock wanders through the step", () => {
    const [a] = pressureRecord(3301, { days: 30, step: 300, noise: 0.05 }, [() => 60]);
    const [, b] = pressureRecord(3301, { days: 30, step: 60, noise: 0.05 }, [() => 60, () => 0]);
    const unlike = clockOffset(a, b);
    expect((unlike?.offset.high ?? 0) - (unlike?.offset.low ?? 0)).toBeGreaterThan(40);
    const [c, d] = pressureRecord(3301, { days: 30, step: 300, noise: 0.05 }, [(ms) => (10 * (ms - recordStart)) / 86400000, () => 0]);
    const wandering = clockOffset(c, d);
    expect((wandering?.offset.low ?? 0) < 150 && (wandering?.offset.high ?? 0) > 150).toBe(true);
    expect((wandering?.offset.high ?? 0) - (wandering?.offset.low ?? 0)).toBeGreaterThan(100);
  });
});
