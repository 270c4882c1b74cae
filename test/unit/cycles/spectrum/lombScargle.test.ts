import { describe, expect, it } from "vitest";
import { type LombScargleNormalization, lombScargle } from "../../../../lib/cycles/spectrum/lombScargle.js";
import { powerSpectrum } from "../../../../lib/cycles/spectrum/periodogramDensity.js";
import { expectClose } from "../../../close.js";
import { parkMillerNoise } from "../../../naiveTransform.js";

const days = Float64Array.from(parkMillerNoise(50, 3), (v) => (v + 0.5) * 12).sort();
const values = Float64Array.from(days, (t, i) => 860 + 1.2 * Math.cos(4 * Math.PI * t - 1) + 0.3 * parkMillerNoise(50, 9)[i]);

describe("lombScargle", () => {
  it("gives a lone line all of its power", () => {
    const pure = days.map((t) => 860 + 1.2 * Math.cos(4 * Math.PI * t - 1));
    expectClose(lombScargle(days, pure, [2]).power[0], 1, { absolute: 1e-10 });
    expect(lombScargle(days, pure, [2.3]).power[0]).toBeLessThan(0.9);
  });

  it("leaves missing readings out, and says so", () => {
    const gappy = values.slice();
    gappy[4] = gappy[20] = Number.NaN;
    const kept = [...values.keys()].filter((i) => i !== 4 && i !== 20);
    const a = lombScargle(days, gappy, [0.7, 2]);
    const b = lombScargle(kept.map((i) => days[i]), kept.map((i) => values[i]), [0.7, 2]);
    expect([a.used, a.missing, b.missing]).toEqual([48, 2, 0]);
    expect(a.power).toEqual(b.power);
  });

  it("scalings are one number written four ways", () => {
    const [p, m, l, d] = (["standard", "model", "log", "psd"] as LombScargleNormalization[]).map((normalization) => lombScargle(days, values, [2], { normalization, unit: "hPa" }));
    const mean = values.reduce((s, v) => s + v, 0) / 50;
    const squares = values.reduce((s, v) => s + (v - mean) ** 2, 0);
    const near = { relative: 1e-9 };
    expectClose(m.power[0], p.power[0] / (1 - p.power[0]), near);
    expectClose(l.power[0], -Math.log(1 - p.power[0]), near);
    expectClose(d.power[0], (p.power[0] * squares) / 2, near);
    expect([p.unit, m.unit, l.unit, d.unit]).toEqual(["1", "1", "1", "hPa2"]);
  });

  it("on even steps is the power spectrum over the variance, up to half a cycle a step", () => {
    const n = 40;
    const x = parkMillerNoise(n, 6);
    const { power, cyclesPerDay } = powerSpectrum(x, { stepSeconds: 3600, window: "rectangular" });
    const mean = x.reduce((s, v) => s + v, 0) / n;
    const variance = x.reduce((s, v) => s + (v - mean) ** 2, 0) / n;
    for (const constant of ["fitted", "removed"] as const) {
      const got = lombScargle(Array.from({ length: n }, (_, j) => j / 24), x, cyclesPerDay.subarray(1), { constant });
      got.power.forEach((p, k) => void expectClose(p, power[k + 1] / variance, { relative: 1e-9, absolute: 1e-12 }, `bin ${k + 1}, ${constant}`));
    }
  });

  it("a hair away from half a cycle a step the unseen wave does not blow up", () => {
    const x = parkMillerNoise(41, 6);
    const t = Array.from({ length: 41 }, (_, j) => j / 24);
    for (const constant of ["fitted", "removed", "none"] as const) {
      const { power } = lombScargle(t, x, [12, 12 * (1 + 1e-10), 12 * (1 - 3e-10)], { constant });
      expectClose(power[1], power[0], { absolute: 1e-6 }, constant);
      expectClose(power[2], power[0], { absolute: 1e-6 }, constant);
    }
  });

  it("a wave seen only at its crests explains nothing beside a constant", () => {
    expect(lombScargle([0, 1, 2, 3, 5], [1, 2, 1, 3, 2], [1]).power[0]).toBe(0);
  });

  it("refuses what it cannot answer", () => {
    expect(() => lombScargle([0, 1], [1], [1])).toThrow(new RangeError("lombScargle: days must have the length of values, 1 (got 2)"));
    expect(() => lombScargle([0, 1, 2, 3], [1, Number.NaN, 2, 3], [1])).toThrow(new RangeError("lombScargle: values must hold at least 4 readings (got 3); log longer"));
    expect(() => lombScargle([0, 1, 2, 3], [7, 7, 7, 7], [1])).toThrow(new RangeError("lombScargle: values must vary (got 7 throughout)"));
    expect(() => lombScargle([0, 1, 2, Number.NaN], [1, 2, 3, 4], [1])).toThrow("lombScargle: days must be finite (got NaN d at index 3)");
    expect(() => lombScargle([0, 1, 2, 3], [1, 2, Infinity, 4], [1])).toThrow("lombScargle: values must be finite or NaN (got Infinity at index 2)");
    for (const f of [0, -1, Number.NaN, Infinity]) expect(() => lombScargle(days, values, [1, f])).toThrow(`lombScargle: cyclesPerDay must be above 0 and finite (got ${f} cpd at index 1)`);
    expect(() => lombScargle(days, values, [1], { normalization: "power" as "psd" })).toThrow(TypeError);
    expect(() => lombScargle(days, values, [1], { constant: "mean" as "none" })).toThrow(TypeError);
  });

  it("is frozen, and leaves its arguments alone", () => {
    const before = [days.slice(), values.slice()];
    const got = lombScargle(days, values, Object.freeze([1, 2]));
    expect(Object.isFrozen(got)).toBe(true);
    expect([days, values]).toEqual(before);
  });
});
