import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { series } from "../../lib/record/series.js";
import { clockOffset } from "../../lib/trust/clock/clockOffset.js";
import { expectClose } from "../close.js";

interface ClockVector {
  readonly stepSeconds: number;
  readonly inside: readonly (number | null)[];
  readonly outside: readonly (number | null)[];
  readonly truth: { readonly offsetInsideMinusOutsideSeconds: number };
  readonly expected: {
    readonly offsetInsideMinusOutsideSeconds: number;
    readonly standardError: number;
    readonly low: number;
    readonly high: number;
    readonly segmentsUsed: number;
    readonly lastFrequencyCpd: number;
  };
}

const midnight = Date.UTC(2024, 0, 1);

describe("clock offset against vectors made apart from this library", () => {
  for (const name of ["behind", "ahead"]) {
    const vector = JSON.parse(readFileSync(new URL(`vectors/indoors-clock-${name}.json`, import.meta.url), "utf8")) as ClockVector;
    const made = (values: readonly (number | null)[], place: string): ReturnType<typeof series> =>
      series({ times: values.map((_, i) => midnight + 1000 * vector.stepSeconds * i), values, quantity: "surface_air_pressure", place });
    const [inside, outside] = [made(vector.inside, "inside"), made(vector.outside, "outside")];

    it(`indoors-clock-${name}: value, error and ends to 0.01 s, segments and last frequency equal`, () => {
      const found = clockOffset(inside, outside);
      if (found === null) throw new Error("no offset");
      const { expected } = vector;
      const rule = { absolute: 0.01 };
      expectClose(found.offset.value, expected.offsetInsideMinusOutsideSeconds, rule, "offset");
      expectClose(found.offset.standardError, expected.standardError, rule, "standard error");
      expectClose(found.offset.low, expected.low, rule, "low");
      expectClose(found.offset.high, expected.high, rule, "high");
      expect(found.stretches).toBe(expected.segmentsUsed);
      expect(found.lastFrequency).toBe(expected.lastFrequencyCpd);
      expect(found.offset.low <= vector.truth.offsetInsideMinusOutsideSeconds && vector.truth.offsetInsideMinusOutsideSeconds <= found.offset.high).toBe(true);
    });

    it(`indoors-clock-${name}: exchanged places change the sign alone`, () => {
      const there = clockOffset(inside, outside);
      const back = clockOffset(outside, inside);
      expectClose(back?.offset.value ?? Number.NaN, -(there?.offset.value ?? Number.NaN), { absolute: 0.5 }, "offset of b minus a: the last steps of Newton differ by nothing else");
    });
  }
});
