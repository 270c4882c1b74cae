import { describe, expect, it } from "vitest";
import { passed, passFilter, passResponse } from "../../../lib/grid/passFilter.js";
import { expectClose } from "../../close.js";

const wave = (days: number, periodDays: number, stepHours = 1): Float64Array => Float64Array.from({ length: Math.round((days * 24) / stepHours) }, (_, h) => 861 + 2 * Math.cos((2 * Math.PI * h * stepHours) / 24 / periodDays + 0.4));

describe("passFilter", () => {
  it("half of a wave passes at a cut; well inside all, well outside nothing", () => {
    const low = passFilter({ longerThan: 2 });
    const high = passFilter({ shorterThan: 2 });
    const band = passFilter({ longerThan: 2, shorterThan: 15 });
    // The Lanczos filter passes 0.50 at its cut, to the third digit by its length.
    expectClose(passResponse(low, 2), 0.5, { absolute: 0.003 });
    expectClose(passResponse(low, 1e6), 1, { absolute: 1e-9 });
    expect(Math.abs(passResponse(low, 0.5))).toBeLessThan(0.002);
    for (const period of [0.3, 1, 2, 7, 100]) expectClose(passResponse(high, period), 1 - passResponse(low, period), { absolute: 1e-12 });
    expectClose(passResponse(band, 5), 1, { absolute: 0.02 });
    expect(Math.abs(passResponse(band, 0.5))).toBeLessThan(0.002);
    expect(Math.abs(passResponse(band, 200))).toBeLessThan(0.01);
    // A longer reach parts more sharply.
    expect(passResponse(passFilter({ longerThan: 2, reach: 6 }), 1.5)).toBeLessThan(passResponse(low, 1.5));
  });

  it("a wave comes out as its response says, and nothing is moved in time, at any step", () => {
    for (const stepHours of [1, 0.5, 3]) {
      for (const band of [{ longerThan: 2, shorterThan: 15, stepHours }, { longerThan: 3, stepHours }, { shorterThan: 4, stepHours }]) {
        const filter = passFilter(band);
        for (const period of [2.5, 5]) {
          const values = wave(120, period, stepHours);
          const out = passed(filter, values).values;
          const level = band.shorterThan === undefined ? 861 : 0;
          const middle = Math.round(values.length / 2);
          for (let k = middle; k < middle + 40; k++) expectClose(out[k] - level, passResponse(filter, period) * (values[k] - 861), { absolute: 1e-9 }, `step ${k}`);
        }
      }
    }
  });

  it("bridges for the filter only: marks bridges and ends, leaves long gaps and missing ends open", () => {
    const values = wave(30, 5);
    values.fill(Number.NaN, 0, 10);
    values.fill(Number.NaN, 300, 312);
    values.fill(Number.NaN, 500, 540);
    const frozen = Object.freeze(Array.from(values));
    const { values: out, isUnsure, unsureSteps } = passed(passFilter({ longerThan: 2 }), frozen);
    expect(unsureSteps).toBe(24);
    expect([out[9], out[510], out[539]]).toEqual([Number.NaN, Number.NaN, Number.NaN]);
    expect([out[10], out[305], out[540]].every(Number.isFinite)).toBe(true);
    expect([isUnsure[9], isUnsure[10], isUnsure[33], isUnsure[34], isUnsure[299], isUnsure[300], isUnsure[311], isUnsure[312], isUnsure[695], isUnsure[696]]).toEqual([0, 1, 1, 0, 0, 1, 1, 0, 0, 1]);
  });

  it("refuses what cannot be", () => {
    expect(() => passFilter({})).toThrow("passFilter: band must have longerThan or shorterThan (got neither)");
    expect(() => passFilter({ longerThan: 5, shorterThan: 5 })).toThrow("passFilter: longerThan must be below shorterThan, 5 d (got 5 d)");
    expect(() => passFilter({ longerThan: 0.1 })).toThrow("passFilter: longerThan must be from 0.16666666666666666 to 36600 d (got 0.1 d)");
    expect(() => passFilter({ longerThan: 2, reach: 0 })).toThrow("passFilter: reach must be from 0.5 to 10 (got 0)");
    expect(() => passResponse(passFilter({ longerThan: 2 }), 0)).toThrow("lowPassResponse: periodDays must be");
    expect(() => passed(passFilter({ longerThan: 2 }), [Number.NaN])).toThrow("bridgedHours: values must hold at least one reading (got none)");
  });
});
