import { describe, expect, it } from "vitest";
import { enhancementFactor } from "../../lib/air/enhancementFactor.js";
import { type IceForm, iceForms, type WaterForm, waterForms } from "../../lib/air/saturationForms.js";
import { saturationVaporPressure, saturationVaporPressureOverIce } from "../../lib/air/saturationVaporPressure.js";
import { csvTable } from "./csvTable.js";
import { checkRows, type PublishedRow } from "./publishedRow.js";

const water = (t: number, form: WaterForm) => () => saturationVaporPressure(t, { form });
const ice = (t: number, form: IceForm) => () => saturationVaporPressureOverIce(t, { form });
const K = 273.15;

const iapwsTests = "read: test.py of the public library iapws";
const triple = "read: mc-computing.com, Water Vapor – JPL paper, quoting Guildner et al. 1976 through Murphy & Koop";
const ashrae = "read: psychrometrics/psychrolib, tests/js/test_psychrolib_si.js, quoting ASHRAE Handbook Fundamentals 2017, ch. 1, table 3";
const ppm300 = "ASHRAE claims 300 ppm";

const rows: PublishedRow[] = [
  { given: "sublimation at 230 K, hPa", got: ice(230 - K, "iapws"), expected: 0.0894735, tolerance: { absolute: 5e-7 }, why: "5 in the release's last digit", source: `${iapwsTests}, R14-08 table 3` },
  { given: "IAPWS-95 saturation at 275 K, hPa", got: water(275 - K, "iapws"), expected: 6.98451167, tolerance: { relative: 3e-5 }, why: "the auxiliary equation differs from IAPWS-95 by 2·10⁻⁵", source: iapwsTests },
  { given: "IAPWS-95 saturation at 450 K, hPa", got: water(450 - K, "iapws"), expected: 9322.03564, tolerance: { relative: 3e-5 }, why: "the auxiliary equation differs from IAPWS-95", source: iapwsTests },
  { given: "the auxiliary equation itself at 275 K, hPa", got: water(275 - K, "iapws"), expected: 6.98436, tolerance: { absolute: 5e-6 }, why: "printed digits", source: "computed in Python from the same coefficients" },
  { given: "the auxiliary equation itself at 450 K, hPa", got: water(450 - K, "iapws"), expected: 9322.032, tolerance: { absolute: 5e-4 }, why: "printed digits", source: "computed in Python from the same coefficients" },
  { given: "IAPWS-IF97 saturation at 300 K, hPa", got: water(300 - K, "iapws"), expected: 35.3658941, tolerance: { relative: 1e-4 }, why: "another formulation", source: "read: state points in the tests of the public library WatpropPy" },
  { given: "IF97 at 300 K from Hyland–Wexler, hPa", got: water(300 - K, "hyland-wexler"), expected: 35.3658941, tolerance: { relative: 3e-4 }, why: "another formula: 2·10⁻⁴ apart at 25 °C", source: "read: state points in the tests of the public library WatpropPy" },
  { given: "triple point over water, hPa", got: water(0.01, "iapws"), expected: 6.11657, tolerance: { relative: 2e-5 }, why: "its uncertainty, 0.01 Pa", source: triple },
  { given: "triple point over ice, hPa", got: ice(0.01, "iapws"), expected: 6.11657, tolerance: { relative: 2e-5 }, why: "its uncertainty, 0.01 Pa", source: triple },
  { given: "triple point, Sonntag over water, hPa", got: water(0.01, "sonntag"), expected: 6.11657, tolerance: { relative: 3e-5 }, why: "printed to a few 10⁻⁵", source: triple },
  { given: "triple point, Murphy–Koop over ice, hPa", got: ice(0.01, "murphy-koop"), expected: 6.11657, tolerance: { relative: 2e-5 }, why: "its uncertainty, 0.01 Pa", source: triple },
  { given: "ASHRAE ice −60 °C, hPa", got: ice(-60, "hyland-wexler"), expected: 0.0108, tolerance: { absolute: 1e-4 }, why: "printed digits, 0.01 Pa", source: ashrae },
  { given: "ASHRAE ice −20 °C, hPa", got: ice(-20, "hyland-wexler"), expected: 1.0324, tolerance: { relative: 3e-4 }, why: ppm300, source: ashrae },
  { given: "ASHRAE ice −5 °C, hPa", got: ice(-5, "hyland-wexler"), expected: 4.0174, tolerance: { relative: 3e-4 }, why: ppm300, source: ashrae },
  { given: "ASHRAE water 5 °C, hPa", got: water(5, "hyland-wexler"), expected: 8.726, tolerance: { relative: 3e-4 }, why: ppm300, source: ashrae },
  { given: "ASHRAE water 25 °C, hPa", got: water(25, "hyland-wexler"), expected: 31.697, tolerance: { relative: 3e-4 }, why: ppm300, source: ashrae },
  { given: "ASHRAE water 50 °C, hPa", got: water(50, "hyland-wexler"), expected: 123.513, tolerance: { relative: 3e-4 }, why: ppm300, source: ashrae },
  { given: "ASHRAE water 100 °C, hPa", got: water(100, "hyland-wexler"), expected: 1014.18, tolerance: { relative: 3e-4 }, why: ppm300, source: ashrae },
  { given: "Goff at 100 °C, hPa (a port with the wrong sign of 4.76955 is far off)", got: water(100, "goff"), expected: 1013.251, tolerance: { absolute: 5e-4 }, why: "printed digits; one atmosphere is 1013.25", source: "computed in Python from the same coefficients" },
  { given: "enhancement factor at 1013.25 hPa", got: () => enhancementFactor(1013.25), expected: 1.0047, tolerance: { absolute: 5e-5 }, why: "printed digits", source: "computed by hand from 1.0016 + 3.15·10⁻⁶ p − 0.074/p (formula read in a public port)" },
  { given: "Buck's enhancement factor at 1000 hPa", got: () => enhancementFactor(1000, { form: "buck-1981-water" }), expected: 1.00416, tolerance: { absolute: 5e-6 }, why: "printed digits", source: "computed by hand from 1.0007 + 3.46·10⁻⁶ p (formula read in a public port)" },
  { given: "Buck's enhancement factor over ice at 1000 hPa", got: () => enhancementFactor(1000, { form: "buck-1981-ice" }), expected: 1.00448, tolerance: { absolute: 5e-6 }, why: "printed digits", source: "computed by hand from 1.0003 + 4.18·10⁻⁶ p (formula read in a public port)" },
];

const temperatures = [0, 10, 15, 20, 30, 40];
const printed: Partial<Record<WaterForm, number[]>> = {
  "hyland-wexler": [6.11213, 12.27995, 17.05448, 23.38804, 42.4603, 73.8346],
  "wmo-magnus": [6.112, 12.2603, 17.01672, 23.32596, 42.33724, 73.67458],
  "buck-1981": [6.1121, 12.27598, 17.04571, 23.37282, 42.43509, 73.84175],
  "buck-1996": [6.1121, 12.2786, 17.05173, 23.3834, 42.45126, 73.8236],
  goff: [6.10695, 12.27089, 17.04204, 23.3708, 42.42726, 73.77329],
};
for (const [form, values] of Object.entries(printed)) {
  values.forEach((expected, i) => {
    rows.push({
      given: `${form} at ${temperatures[i]} °C, hPa`,
      got: water(temperatures[i] as number, form as WaterForm),
      expected,
      tolerance: { absolute: 5.1e-6 },
      why: "every printed digit",
      source: "read: mc-computing.com, Water Vapor – JPL paper, table of formulas",
    });
  });
}

const columns: Record<"water" | "ice", Record<string, string>> = {
  water: {
    iapws: "IAPWS/Wagner-Pruss 2002",
    "hyland-wexler": "Hyland-Wexler 1983",
    sonntag: "Sonntag 1990",
    goff: "Goff 1957 / WMO-49",
    "murphy-koop": "Murphy-Koop 2005",
    "wmo-magnus": "WMO-No. 8 (2008) Magnus",
    "alduchov-eskridge": "Alduchov-Eskridge 1996",
    "buck-1981": "Buck 1981 ew1",
    "buck-1996": "Buck 1996",
  },
  ice: {
    iapws: "IAPWS R14-08",
    "hyland-wexler": "Hyland-Wexler 1983",
    sonntag: "Sonntag 1990",
    "murphy-koop": "Murphy-Koop 2005",
    "wmo-magnus": "WMO-No. 8 (2008) Magnus",
    "alduchov-eskridge": "Alduchov-Eskridge 1996",
    "buck-1981": "Buck 1981 ei2",
  },
};

describe("saturation vapor pressure, published values", () => checkRows(rows));

describe("saturation vapor pressure, tables computed apart", () => {
  for (const [phase, file] of [["water", "saturation-vapor-pressure.csv"], ["ice", "saturation-vapor-pressure-ice.csv"]] as const) {
    const table = csvTable(file);
    for (const [form, column] of Object.entries(columns[phase])) {
      it(`${form} over ${phase} agrees in every printed digit`, () => {
        let compared = 0;
        for (const row of table) {
          const cell = row[column];
          expect(cell, column).toBeDefined();
          if (cell === "" || cell === undefined) continue;
          const t = Number(row.t_degC);
          const got = phase === "water" ? water(t, form as WaterForm)() : ice(t, form as IceForm)();
          // Seven digits printed, trailing zeros dropped: half a unit of the seventh is at most 5·10⁻⁷ relative.
          expect(Math.abs(got / Number(cell) - 1), `${t} °C: got ${got}, table ${cell}`).toBeLessThan(6e-7);
          compared++;
        }
        expect(compared).toBeGreaterThan(10);
      });
    }
    it(`the table of ${phase} has a column for every form`, () => {
      expect(Object.keys(columns[phase]).sort()).toEqual(Object.keys(phase === "water" ? waterForms : iceForms).sort());
    });
  }
});

describe("spread between forms: the honest limit when formulas are mixed", () => {
  // Computed from the forms themselves: holds the figures that the documentation of this room tells.
  const worst = (from: number, to: number, names: readonly string[], value: (t: number, form: string) => number, reference: (t: number) => number): number => {
    let most = 0;
    for (let t = from; t <= to; t++) for (const form of names) most = Math.max(most, Math.abs(value(t, form) / reference(t) - 1));
    return most;
  };
  const overWater = (t: number, form: string): number => water(t, form as WaterForm)();
  const overIce = (t: number, form: string): number => ice(t, form as IceForm)();

  it("over water from 0 to 40 °C: within 0.35 % of IAPWS", () => {
    const most = worst(0, 40, Object.keys(waterForms), overWater, (t) => water(t, "iapws")());
    expect(most).toBeLessThan(0.0035);
    expect(most).toBeGreaterThan(0.001);
  });
  it("over water at −40 °C: within 1.5 % of each other", () => {
    const values = Object.keys(waterForms).map((form) => overWater(-40, form));
    const spread = Math.max(...values) / Math.min(...values) - 1;
    expect(spread).toBeLessThan(0.0155);
    expect(spread).toBeGreaterThan(0.01);
  });
  it("over ice from −40 to 0 °C: within 0.15 % of IAPWS", () => {
    const most = worst(-40, 0, Object.keys(iceForms), overIce, (t) => ice(t, "iapws")());
    expect(most).toBeLessThan(0.0015);
    expect(most).toBeGreaterThan(0.0005);
  });
});
