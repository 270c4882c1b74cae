import { describe, expect, it } from "vitest";
import { unitHint, unitsOf, unitsRead } from "../../../lib/ground/units.js";

describe("units by their spelling", () => {
  it("UDUNITS' longer spellings are the same unit", () => {
    for (const [short, longer] of [
      ["degC", ["celsius", "degree_C", "degreeC", "deg_C", "°C", "degree_Celsius", "degrees_Celsius"]],
      ["degF", ["fahrenheit", "degreeF", "degree_F", "°F"]],
      ["K", ["kelvin", "degree_kelvin", "degK"]],
      ["mmHg", ["mm_Hg", "mmhg", "millimeter_Hg", "torr"]],
      ["inHg", ["in_Hg", "inch_Hg"]],
      ["mbar", ["millibar"]],
      ["hPa", ["hectopascal"]],
      ["%", ["percent"]],
    ] as const) {
      for (const name of longer) expect(unitsRead[name], name).toBe(unitsRead[short]);
    }
  });

  it("everything else is absent, letters' case counts, and nothing is inherited", () => {
    for (const name of ["C", "F", "c", "degc", "HPA", "Hpa", "mb", "bar", "atm", "psi", "inch", "", "constructor", "toString"]) expect(unitsRead[name], name).toBeUndefined();
  });

  it("hints name the likely unit, or all of them", () => {
    for (const [name, wanted] of [["C", "degC"], ["F", "degF"], ["deg C", "degC"], ["º C", "degC"], ["hpa", "hPa"], ["mb", "mbar"], ["inches", "inHg"], ["%RH", "%"], ["% ", "%"]]) expect(unitHint(name), name).toBe(`write ${wanted}`);
    for (const name of ["furlong", "", "toString"]) expect(unitHint(name)).toBe("units read are degC, degF, K, hPa, mbar, Pa, kPa, mmHg, inHg, %, 1");
    expect([unitsOf("temperature"), unitsOf("pressure"), unitsOf("ratio")]).toEqual(["degC, degF or K", "hPa, mbar, Pa, kPa, mmHg or inHg", "% or 1"]);
  });
});
