import { readFileSync } from "node:fs";
import { describe, it } from "vitest";
import { type LombScargleConstant, type LombScargleNormalization, lombScargle } from "../../lib/cycles/spectrum/lombScargle.js";
import { expectClose } from "../close.js";

const file = JSON.parse(readFileSync(new URL("vectors/lombScargle.json", import.meta.url), "utf8")) as {
  tool: string;
  version: string;
  cases: {
    days: number[];
    values: number[];
    cyclesPerDay: number[];
    astropy: { constant: LombScargleConstant; normalization: LombScargleNormalization; power: number[] }[];
    scipyNormalized: number[];
    scipyPlain: number[];
  }[];
};

/** Both sides lose a few digits where a power is a small difference of sums of squares. */
const near = { relative: 1e-9, absolute: 1e-12 };

describe(`Lomb–Scargle against ${file.tool} ${file.version}`, () => {
  for (const { days, values, cyclesPerDay, astropy, scipyNormalized, scipyPlain } of file.cases) {
    for (const { constant, normalization, power } of astropy) {
      it(`${days.length} readings, constant ${constant}, ${normalization}`, () => {
        const got = lombScargle(days, values, cyclesPerDay, { constant, normalization });
        power.forEach((p, i) => void expectClose(got.power[i], p, near, `${cyclesPerDay[i]} cpd`));
      });
    }
    it(`${days.length} readings, the second library, scaled and not`, () => {
      const standard = lombScargle(days, values, cyclesPerDay, { constant: "removed" });
      const psd = lombScargle(days, values, cyclesPerDay, { constant: "removed", normalization: "psd" });
      scipyNormalized.forEach((p, i) => void expectClose(standard.power[i], p, near, `${cyclesPerDay[i]} cpd`));
      scipyPlain.forEach((p, i) => void expectClose(psd.power[i], p, near, `${cyclesPerDay[i]} cpd`));
    });
  }
});
