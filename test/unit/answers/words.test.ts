import { describe, expect, it } from "vitest";
import {
  alignedColumns,
  counted,
  decimalsFor,
  estimateInWords,
  grouped,
  shareInWords,
  signed,
  spanInWords,
  sparkline,
  unitInWords,
  wrapped,
} from "../../../lib/answers/words.js";
import { clockTime } from "../../../lib/ground/clockTime.js";
import { estimate } from "../../../lib/ground/estimate.js";

const e = (value: number, low: number, high: number, unit = "hPa") => estimate({ value, standardError: (high - low) / 3.92, low, high, unit });

describe("estimates in words", () => {
  it("show the uncertainty to one digit, two where it begins with 1", () => {
    expect(estimateInWords(e(1.0213, 0.9973, 1.0453))).toBe("1.02 ± 0.02 hPa");
    expect(estimateInWords(e(1.0213, 1.0093, 1.0333))).toBe("1.021 ± 0.012 hPa");
    expect(estimateInWords(e(-12, -32, 8, "s"))).toBe("−12 ± 20 s");
    expect(estimateInWords(e(1371.4, 1331, 1411, "m"))).toBe("1371 ± 40 m");
  });
  it("say both ends when lopsided, and 0 as 0", () => {
    expect(estimateInWords(e(0.21, 0, 0.35))).toBe("0.21 hPa (0 to 0.35)");
    expect(estimateInWords(e(0.08, 0, 0.16))).toBe("0.08 hPa (0 to 0.16)");
  });
  it("have no unit where there is none, and °C where there is", () => {
    expect(estimateInWords(e(0.42, 0.38, 0.46, "1"))).toBe("0.42 ± 0.04");
    expect(unitInWords("degC")).toBe("°C");
    expect(unitInWords("hPa")).toBe("hPa");
  });
  it("decimals hold at odd widths", () => {
    expect([0, -1, Number.NaN, Infinity].map(decimalsFor)).toEqual([2, 2, 2, 2]);
    expect(decimalsFor(1e-9)).toBe(6);
    expect(decimalsFor(250)).toBe(0);
  });
});

describe("numbers in words", () => {
  it("no minus zero", () => {
    expect(signed(-0.001, 2)).toBe("0.00");
    expect(signed(-1.5, 1)).toBe("−1.5");
  });
  it("clock times turn over midnight", () => {
    expect([9.87, 23.999, -0.5, 24].map(clockTime)).toEqual(["09:52", "00:00", "23:30", "00:00"]);
  });
  it("spans, counts, shares", () => {
    expect([59, -95, 5400, 129600, 200000].map(spanInWords)).toEqual(["59 s", "2 min", "1.5 h", "1.5 d", "2.3 d"]);
    expect(counted(1, "reading")).toBe("1 reading");
    expect(counted(12345, "reading")).toBe("12\u202f345 readings");
    expect(counted(2, "entry", "entries")).toBe("2 entries");
    expect(grouped(9999)).toBe("9999");
    expect([1, 0, 0.99999, 0.00001, 0.987].map(shareInWords)).toEqual(["100 %", "0 %", "99.9 %", "under 0.1 %", "98.7 %"]);
  });
});

describe("tables", () => {
  it("line up, numbers to the right, no trailing blanks", () => {
    expect(alignedColumns([["a", "1"], ["bbb", "22"]], [1])).toEqual(["a     1", "bbb  22"]);
    expect(alignedColumns([])).toEqual([]);
  });
  it("a sparkline goes from lowest to highest, blank where missing, flat when flat", () => {
    expect(sparkline([0, 1, Number.NaN, 7])).toBe("▁▂ █");
    expect(sparkline([5, 5])).toBe("▁▁");
  });
  it("long text is broken at blanks", () => {
    expect(wrapped("aa bb cc dd", 5, "  ")).toEqual(["aa bb", "  cc", "  dd"]);
    expect(wrapped("  aa bb", 4, "   ")).toEqual(["  aa", "   bb"]);
  });
});
