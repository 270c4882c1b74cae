import { describe, expect, it } from "vitest";
import { tideSteps, type TideSteps } from "../../../../lib/cycles/tide/tideSteps.js";
import { expectClose } from "../../../close.js";

const _ = Number.NaN;
const of = (seconds: readonly number[], spacing: number, values: readonly number[] = seconds.map((_s, i) => i + 1)): TideSteps =>
  tideSteps({ midnight: 0, seconds: Float64Array.from(seconds), values: Float64Array.from(values), leftOut: 0, spacing });
const every = (step: number, count: number, from = 0): number[] => Array.from({ length: count }, (_v, i) => from + step * i);

describe("tideSteps by hand", () => {
  it("the shortest divisor of an hour not shorter than the spacing, 2 % allowed", () => {
    const perHour = (spacing: number): number => of(every(spacing, 3), spacing).perHour;
    expect([30, 61.2, 61.3, 122.4, 122.5, 200, 250, 310, 400, 700, 800, 1000, 1300, 1836, 1837, 3672, 9000].map(perHour)).toEqual([60, 60, 30, 30, 20, 15, 12, 10, 6, 5, 4, 3, 2, 2, 1, 1, 1]);
  });

  it("regular readings: exact phase, whole hours, NaN where there is none, each at its instant", () => {
    const got = of([4500, 5700, 6900, 9300], 1200);
    expect(got).toMatchObject({ midnight: 0, perHour: 3, firstHour: 1, hours: 2, phase: 900, regular: true });
    expect([...got.values]).toEqual([1, 2, 3, _, 4, _]);
    expect([...got.instants]).toEqual([4500, 5700, 6900, _, 9300, _]);
    expect(of([-1200, 0], 1200)).toMatchObject({ phase: 0, firstHour: -1, hours: 2 });
    expect(of([-1500, -300], 1200)).toMatchObject({ phase: 900, firstHour: -1, hours: 1, regular: true });
    // A hair before the step's end is its beginning, a tenth of a second is not.
    expect(of([1199.9995, 2399.9995], 1200).phase).toBe(0);
    expectClose(of([1199.9, 2399.9], 1200).phase, 1199.9, { absolute: 1e-9 });
    expect(of([0, 1200.0005, 2400], 1200).regular).toBe(true);
    expect(of([0, 1200.002, 2400], 1200).regular).toBe(false);
    expect(of([0, 1200, 2400.002], 1200).regular).toBe(false);
  });

  it("jitter: the phase is the direction of the readings' mean, a little before the hour is before it", () => {
    const about = (phase: number): number => of([-3, 3, -3, 3].map((j, i) => phase + j + 600 * i), 600).phase;
    for (const phase of [10, 150, 300, 450, 580]) expectClose(about(phase), phase, { absolute: 1e-9 }, `phase ${phase}`);
    expectClose(about(590), -10, { absolute: 1e-9 });
    const early = of([-13, 590 - 3, 1190 + 3, 1790 - 3, 2393, 2987], 600);
    expect([early.firstHour, early.hours, ...early.values]).toEqual([0, 1, 1, 2, 3, 4, 5, 6]);
  });

  it("readings anywhere: half a step", () => {
    // Two directions against each other, and a third of the rest: no place is usual.
    expect(of([0, 900, 1800, 2700], 1200)).toMatchObject({ phase: 600, regular: false });
    // Half of the readings together and the other half spread: the mean direction is just under and just over one half.
    const spread = (together: number): number => of([...every(1200, together, 300), ...every(1200 + 1200 / 4, 4, 48_000)], 1200).phase;
    expectClose(spread(5), 300, { absolute: 1e-6 });
    expect(spread(3)).toBe(600);
  });

  it("two readings in a step: their mean at their mean instant, and no longer regular", () => {
    const got = of([0, 1200, 1200, 2400, 3600], 1200, [1, 2, 5, 3, 4]);
    expect([...got.values]).toEqual([1, 3.5, 3, 4, _, _]);
    expect([...got.instants]).toEqual([0, 1200, 2400, 3600, _, _]);
    expect(got.regular).toBe(false);
    const apart = of([0, 1300, 1100, 2400], 1200, [1, 2, 5, 3]);
    expect([...apart.instants]).toEqual([0, 1200, 2400]);
  });

  it("the steps of the same readings are laid once", () => {
    const readings = { midnight: 0, seconds: Float64Array.of(0, 3600), values: Float64Array.of(1, 2), leftOut: 0, spacing: 3600 };
    expect(tideSteps(readings)).toBe(tideSteps(readings));
  });
});
