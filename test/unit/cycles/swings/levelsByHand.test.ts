import { describe, expect, it } from "vitest";
import { type LevelReader, levelReader } from "../../../../lib/cycles/swings/meanReading.js";
import { expectClose } from "../../../close.js";

const _ = Number.NaN;
/** Value 2 at the first reading, one more at each; the tide at an instant is a thousandth of its seconds. */
const of = (seconds: readonly number[], values: readonly number[] = seconds.map((_s, i) => i + 2), start = 0): LevelReader => levelReader({ start, seconds, values }, (at) => at / 1e6)!;
const every = (step: number, count: number): number[] => Array.from({ length: count }, (_v, i) => step * i);

describe("levelReader by hand", () => {
  it("fine readings: mean of all from 902 s before to 902 s after, the tide of each taken off", () => {
    const reader = of(every(300, 41), undefined, 50_000);
    expect([reader.step, reader.first, reader.last]).toEqual([300, 900, 11_100]);
    const got = reader.level(3000)!;
    // Readings 7 to 13: values 9 to 15.
    expectClose(got.raw, 12, { absolute: 1e-12 });
    expectClose(got.seconds, 3000, { absolute: 1e-9 });
    expectClose(got.noiseFactor, 1 / 7, { absolute: 1e-12 });
    expectClose(got.tideFree, 12 - (3000 + 50) / 1000, { absolute: 1e-12 });
    expectClose(reader.level(3002)!.seconds, 3000, { absolute: 1e-9 });
    expectClose(reader.level(3003)!.seconds, 3150, { absolute: 1e-9 });
    expectClose(reader.level(2998.5)!.seconds, 3000, { absolute: 1e-9 });
    expectClose(reader.level(2997)!.seconds, 2850, { absolute: 1e-9 });
    expect(reader.between(3000)).toEqual(got);
    expect([reader.level(-1000), reader.level(14_000)]).toEqual([null, null]);
    expectClose(reader.level(0)!.seconds, 450, { absolute: 1e-9 });
  });

  it("a gap over two and a half steps and ten minutes hides the half hour on both sides of it", () => {
    const seconds = every(300, 41).filter((s) => s !== 4200 && s !== 4500);
    const reader = of(seconds);
    expect([2100, 2101, 6599, 6600, 6601].map((t) => reader.level(t) === null)).toEqual([false, true, true, true, false]);
    // Two and a half steps of 300 s; ten minutes at least.
    const lost = (step: number, gap: number): boolean => of([...every(step, 20), 19 * step + gap, ...every(step, 20).map((s) => 20 * step + gap + s)]).level(19 * step) === null;
    expect([lost(300, 750), lost(300, 751), lost(60, 600), lost(60, 601)]).toEqual([false, true, false, true]);
    // A gap that begins with the second reading.
    expect(of([0, 1000, ...every(300, 20).map((s) => 1300 + s)]).level(900)).toBe(null);
  });

  it("is fine to a step of 15 minutes, two seconds allowed", () => {
    expectClose(of(every(901, 9)).level(3604)!.noiseFactor, 1 / 3, { absolute: 1e-12 });
    expect([of(every(902, 9)).first, of(every(903, 9)).first, of(every(903, 9)).last]).toEqual([900, 0, 8 * 903]);
    // A mean of what stands within 15 minutes, of two where it is midway; the nearest alone at longer steps.
    expect(of(every(902, 9)).level(3608 + 451)!.noiseFactor).toBe(0.5);
    expect(of(every(903, 9)).level(3612 + 451)!.noiseFactor).toBe(1);
  });

  it("hourly readings: the nearest, the earlier of two, within half an hour", () => {
    const reader = of([0, 3600, 7200, 14_400, 18_000]);
    const at = (t: number): number | null => reader.level(t)?.seconds ?? null;
    expect([0, 1800, 1801, 3600, 9002, 9003, 12_597, 12_598, 18_000, 19_802, 19_803, -1802, -1803].map(at)).toEqual([0, 0, 3600, 3600, 7200, null, null, 14_400, 18_000, 18_000, null, 0, null]);
    expect(reader.level(3600)).toEqual({ raw: 3, tideFree: 3 - 3.6, seconds: 3600, noiseFactor: 1 });
    expect(Object.isFrozen(reader)).toBe(true);
  });

  it("between hourly readings a straight line, but not over one and a half steps; on a reading that alone", () => {
    const reader = of([0, 3600, 7200, 12_600, 16_200, 21_601]);
    const got = reader.between(900)!;
    expectClose(got.raw, 2.25, { absolute: 1e-12 });
    expectClose(got.seconds, 900, { absolute: 1e-9 });
    expectClose(got.noiseFactor, 0.75 ** 2 + 0.25 ** 2, { absolute: 1e-12 });
    expectClose(got.tideFree, 2.25 - 0.9, { absolute: 1e-12 });
    expect([3598, 3597.9, 3600.1].map((t) => reader.between(t)!.noiseFactor === 1)).toEqual([true, false, false]);
    expect([-3, -2, 0, 7201, 16_201, 21_598, 21_599, 21_602].map((t) => reader.between(t)?.raw ?? null)).toEqual([null, 2, 2, 4 + 1 / 5400, null, null, 7, null]);
  });

  it("missing readings do not count, one or none reads no level", () => {
    const reader = of([0, 3600, 5400, 7200, 10_800], [1, 2, _, 4, 5]);
    expect([reader.step, reader.level(5400)!.seconds, reader.last]).toEqual([3600, 3600, 10_800]);
    const last = of([0, 3600, 7200, 10_800], [_, 2, 3, _]);
    expect([last.first, last.last, last.level(10_800)]).toEqual([3600, 7200, null]);
    for (const values of [[], [1], [1, _]]) expect(levelReader({ start: 0, seconds: [0, 60].slice(0, values.length), values }, () => 0)).toBe(null);
  });
});
