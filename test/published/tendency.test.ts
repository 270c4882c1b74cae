import { describe, expect, it } from "vitest";
import { pressureTendency } from "../../lib/cycles/swings/pressureTendency.js";
import { characteristicWords, tendencyCharacteristic } from "../../lib/cycles/swings/tendencyCharacteristic.js";
import { tendencyTerm } from "../../lib/cycles/swings/tendencyTerm.js";
import { checkRows } from "./publishedRow.js";

/** WMO code table 0200, one row for each thing the table lists: first half, second half, code. */
const shapes: readonly { given: string; first: number; second: number; code: number }[] = [
  { given: "up then down, higher now", first: 1, second: -0.4, code: 0 },
  { given: "up then down, same now", first: 0.8, second: -0.8, code: 0 },
  { given: "up then steady", first: 1, second: 0, code: 1 },
  { given: "up, then up more slowly", first: 1, second: 0.3, code: 1 },
  { given: "up steadily", first: 0.6, second: 0.6, code: 2 },
  { given: "up in two halves each too small to tell", first: 0.08, second: 0.08, code: 2 },
  { given: "down then up, higher now", first: -0.4, second: 1, code: 3 },
  { given: "steady then up", first: 0, second: 1, code: 3 },
  { given: "up, then up more quickly", first: 0.3, second: 1, code: 3 },
  { given: "steady", first: 0, second: 0, code: 4 },
  { given: "down then up, lower now", first: -1, second: 0.4, code: 5 },
  { given: "down then up, same now", first: -0.8, second: 0.8, code: 5 },
  { given: "down then steady", first: -1, second: 0, code: 6 },
  { given: "down, then down more slowly", first: -1, second: -0.3, code: 6 },
  { given: "down steadily", first: -0.6, second: -0.6, code: 7 },
  { given: "down in two halves each too small to tell", first: -0.08, second: -0.08, code: 7 },
  { given: "steady then down", first: 0, second: -1, code: 8 },
  { given: "up then down, lower now", first: 0.4, second: -1, code: 8 },
  { given: "down, then down more quickly", first: -0.3, second: -1, code: 8 },
];
const table = "read in two public copies of WMO code table 0200";

describe("characteristic of the tendency, WMO code table 0200", () => {
  const exact = (value: number): { value: number; standardError: number } => ({ value, standardError: 0 });
  checkRows(
    shapes.map(({ given, first, second, code }) => ({
      given,
      got: () => tendencyCharacteristic(exact(first), exact(second), exact(second - first), exact(first + second)),
      expected: code,
      tolerance: { absolute: 0 },
      why: "a code",
      source: table,
    })),
  );

  it("has words for each code, which tell where the pressure is now", () => {
    expect(characteristicWords.length).toBe(9);
    for (const code of [1, 2, 3]) expect(characteristicWords[code]).toMatch(/higher now$/);
    for (const code of [6, 7, 8]) expect(characteristicWords[code]).toMatch(/lower now$/);
  });

  it("what lies within its error makes no story", () => {
    const within = (value: number, standardError: number): { value: number; standardError: number } => ({ value, standardError });
    const code = (first: number, second: number, error: number): number =>
      tendencyCharacteristic(within(first, error), within(second, error), within(second - first, 1.7 * error), within(first + second, error));
    expect(code(1.5, -1.5, 0.7)).toBe(0);
    expect(code(1.5, -1.5, 0.8)).toBe(4);
    expect(code(1.2, 0.4, 0.1)).toBe(1);
    expect(code(1.2, 0.9, 0.1)).toBe(2);
    expect(code(0.15, -0.09, 0)).toBe(0);
    expect(code(-0.15, 0.09, 0)).toBe(5);
  });
});

describe("terms for a 3-hour change", () => {
  const rows: readonly (readonly [change: number, term: string])[] = [
    [0, "steady"],
    [0.04, "steady"],
    [0.05, "rising slowly"],
    [-0.1, "falling slowly"],
    [1.5, "rising slowly"],
    [1.54, "rising slowly"],
    [1.55, "rising"],
    [-1.6, "falling"],
    [3.5, "rising"],
    [3.55, "rising quickly"],
    [-3.6, "falling quickly"],
    [6, "rising quickly"],
    [-6.04, "falling quickly"],
    [6.05, "rising very rapidly"],
    [-9, "falling very rapidly"],
  ];
  // Bounds: read in two public copies of a marine forecast glossary; 'steady' below 0.1: read in one page of a weather society.
  for (const [change, term] of rows) it(`${change} hPa is ${term}`, () => expect(tendencyTerm(change)).toBe(term));

  it("an interval that holds 0 tells no direction", () => {
    expect(tendencyTerm(2, { low: -0.1, high: 4.1 })).toBe("no clear change");
    expect(tendencyTerm(-2, { low: -4, high: 0 })).toBe("no clear change");
    expect(tendencyTerm(2, { low: 0.1, high: 3.9 })).toBe("rising");
  });
});

describe("tide in the raw tendency", () => {
  const largest = (waves: readonly (readonly [size: number, perDay: number, hour: number])[]): { raw: number; tideFree: number } => {
    const valueAt = (at: number): number => waves.reduce((sum, [size, perDay, hour]) => sum + size * Math.cos((2 * Math.PI * perDay * (at / 3_600_000 - hour)) / 24), 0);
    const found = { raw: 0, tideFree: 0 };
    // The last reading moves through three hours, so that the largest change is met.
    for (let minutes = 0; minutes < 180; minutes += 5) {
      const seconds = Float64Array.from({ length: 24 * 5 }, (_, h) => 3600 * h + 60 * minutes);
      const values = seconds.map((s) => 1010 + valueAt(1000 * s));
      const { series } = pressureTendency({ start: 0, seconds, values }, { valueAt, changeVariance: () => 0, isDetected: true }, { reading: 0, dayToDay: 0 });
      found.raw = Math.max(found.raw, ...series.raw.map(Math.abs));
      found.tideFree = Math.max(found.tideFree, ...series.tideFree.map(Math.abs));
    }
    return found;
  };
  const why = "sampled every 5 minutes: the largest is missed by at most 0.001 of it";
  checkRows([
    { given: "largest 3-hour change of S2 of 1.16 hPa", got: () => largest([[1.16, 2, 10]]).raw, expected: 1.6405, tolerance: { relative: 1e-3 }, why, source: "computed: 1.16·|1 − e^(−2πi·6/24)| = 1.16·√2" },
    { given: "largest 3-hour change of S1 of 0.7 hPa", got: () => largest([[0.7, 1, 6]]).raw, expected: 0.53576, tolerance: { relative: 1e-3 }, why, source: "computed: 0.7·|1 − e^(−2πi·3/24)| = 0.7·0.76537" },
    { given: "tide-free change of both", got: () => largest([[1.16, 2, 10], [0.7, 1, 6]]).tideFree, expected: 0, tolerance: { absolute: 1e-9 }, why: "rounding of 1 010 hPa", source: "computed: a pure tide leaves nothing" },
  ]);
});
