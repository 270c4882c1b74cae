import { describe, expect, it } from "vitest";
import { rayleighThreshold, riceCdf, riceInterval, riceReach } from "../../../../lib/cycles/tide/riceLaw.js";
import { isUneven, unevenInterval } from "../../../../lib/cycles/tide/unevenInterval.js";
import { expectClose } from "../../../close.js";

const z = 1.959963984540054;
/** A line with error axes `long`, `short`, the longer one turned by `turn`. */
const line = (amplitude: number, phase: number, long: number, short: number, turn: number): Parameters<typeof unevenInterval>[0] => ({
  cosine: amplitude * Math.cos(phase),
  sine: amplitude * Math.sin(phase),
  varianceOfCosine: (long * Math.cos(turn)) ** 2 + (short * Math.sin(turn)) ** 2,
  varianceOfSine: (long * Math.sin(turn)) ** 2 + (short * Math.cos(turn)) ** 2,
  covariance: (long * long - short * short) * Math.sin(turn) * Math.cos(turn),
});

describe("riceReach", () => {
  it("is Rice's law inverted the other way round", () => {
    expectClose(riceReach(0).above, rayleighThreshold, { absolute: 1e-9 });
    for (const mu of [0.52, 1, 2.53, 4, 8.01]) {
      const { above, below } = riceReach(mu);
      expectClose(riceInterval(mu + above).low, mu, { absolute: 1e-3 }, `above ${mu}`);
      expectClose(riceInterval(mu - below).high, mu, { absolute: 1e-3 }, `below ${mu}`);
    }
    const [a, b] = [riceReach(9.999), riceReach(10.001)];
    expectClose(a.above, b.above, { absolute: 7e-3 });
    expectClose(a.below, b.below, { absolute: 7e-3 });
    expect(riceCdf(10 + b.above, 10)).toBeGreaterThan(0.974);
  });
});

describe("unevenInterval", () => {
  it("gives the round law for round errors", () => {
    for (const amplitude of [0.3, 1.5, 2.6, 4, 5.9]) {
      const got = unevenInterval(line(0.1 * amplitude, 1, 0.1, 0.1, 0.4), z, 1);
      const wanted = riceInterval(amplitude);
      expectClose(got.low, 0.1 * wanted.low, { absolute: 1e-4 }, `low ${amplitude}`);
      expectClose(got.high, 0.1 * wanted.high, { absolute: 1e-4 }, `high ${amplitude}`);
      // With few degrees of freedom all is measured in t instead of z.
      const [c, few] = [1.3, unevenInterval(line(0.1 * amplitude, 1, 0.1, 0.1, 0.4), 1.3 * z, 1.3)];
      expectClose(few.low, 0.1 * c * riceInterval(amplitude / c).low, { absolute: 1e-4 }, `low ${amplitude}`);
      expectClose(few.high, 0.1 * c * riceInterval(amplitude / c).high, { absolute: 1e-4 }, `high ${amplitude}`);
      for (const end of [got, few]) if (end.low < 1e-6) expect(end.low).toBe(0);
      if (amplitude < z) expect([got.before, got.after]).toEqual([Math.PI, Math.PI]);
      else for (const side of [got.before, got.after]) expectClose(side, Math.asin(z / amplitude), { absolute: 1e-12 });
    }
  });

  it("agrees with a plain search over circles and rays", () => {
    for (const [phase, long, short, turn] of [[0.3, 0.2, 0.1, 1], [2, 0.3, 0.06, -0.7], [-2.8, 0.15, 0.1, 2.9], [1.2, 0.25, 0.2, 0], [3.1, 0.25, 0.1, 0], [-3.1, 0.25, 0.1, 0]]) {
      const c = 1.04;
      const l = line(0.7, phase, long, short, turn);
      const got = unevenInterval(l, c * z, c);
      const whiten = (x: number, y: number): [number, number] => [(x * Math.cos(turn) + y * Math.sin(turn)) / (c * long), (y * Math.cos(turn) - x * Math.sin(turn)) / (c * short)];
      const w = whiten(l.cosine, l.sine);
      const distance = (radius: number): number => {
        let least = Infinity;
        for (let i = 0; i < 7200; i++) {
          const v = whiten(radius * Math.cos((i * Math.PI) / 3600), radius * Math.sin((i * Math.PI) / 3600));
          least = Math.min(least, Math.hypot(w[0] - v[0], w[1] - v[1]));
        }
        return least;
      };
      // At the ends the distance is what some curvature allows: between that of a flat edge and that of a point.
      for (const end of [got.low, got.high]) {
        expect(distance(end)).toBeGreaterThan(1.6);
        expect(distance(end)).toBeLessThan(rayleighThreshold + 1e-3);
      }
      const meets = (angle: number): boolean => {
        const [x, y] = whiten(Math.cos(angle), Math.sin(angle));
        const t = Math.max(0, (w[0] * x + w[1] * y) / (x * x + y * y));
        return Math.hypot(w[0] - t * x, w[1] - t * y) <= z;
      };
      for (const [side, sign] of [[got.before, -1], [got.after, 1]]) {
        expect(meets(phase + sign * (side - 1e-6)), `inside ${side}`).toBe(true);
        expect(meets(phase + sign * (side + 1e-6)), `outside ${side}`).toBe(false);
      }
    }
  });

  it("knows round from uneven", () => {
    expect(isUneven(line(1, 0, 1.19, 1, 0.3))).toBe(false);
    expect(isUneven(line(1, 0, 1.21, 1, 0.3))).toBe(true);
  });
});
