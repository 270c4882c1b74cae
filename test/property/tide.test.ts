import { describe, expect, it } from "vitest";
import { fitTides } from "../../lib/cycles/tide/fitTides.js";
import { lineInterval } from "../../lib/cycles/tide/lineInterval.js";
import { riceCdf, riceInterval } from "../../lib/cycles/tide/riceLaw.js";
import type { TideFit } from "../../lib/cycles/tide/tideFit.js";
import { random } from "../../lib/ground/random.js";
import { series, type Series } from "../../lib/record/series.js";
import { expectClose } from "../close.js";
import { changed, tideRecord } from "../tideRecord.js";

const lines = [
  { cyclesPerDay: 1, amplitude: 0.5, crest: 3 },
  { cyclesPerDay: 2, amplitude: 1, crest: 1.7 },
  { cyclesPerDay: 3, amplitude: 0.1, crest: 4 },
];
const noises = [
  { name: "white", white: 0.4 },
  { name: "red", white: 0.1, ar1: { sd: 3, efolding: 2 } },
  { name: "smooth", white: 0.1, matern: { sd: 4, rate: 1 } },
];
const hour = 3_600_000;
const records: readonly Series[] = [1, 2, 3, 4, 5, 6].map((seed) =>
  tideRecord({ days: 22 + seed, stepMinutes: [60, 20, 10][seed % 3], noise: noises[(seed + 1) % 3], lines, seed, missing: 0.15, start: Date.UTC(2021, seed, 3, 2 * seed) }),
);
const tideOf = (s: Series, longitude = 40): TideFit => fitTides(s, { longitude, lines: ["S4", "L2"] });
const turned = (hours: number, period: number): number => hours - period * Math.round(hours / period);

/** Same amplitudes, intervals and noise; phases turned by so many hours of UTC (L2 has its own clock and is left out then). */
function expectSame(a: TideFit, b: TideFit, later: number, tolerance: number): void {
  for (const [k, c] of a.constituents.entries()) {
    const d = b.constituents[k];
    if (later !== 0 && c.name === "L2") continue;
    const s = d.amplitude.standardError;
    expectClose(c.amplitude.value, d.amplitude.value, { absolute: tolerance * s }, `${c.name} amplitude`);
    expectClose(c.amplitude.high, d.amplitude.high, { absolute: tolerance * s }, `${c.name} high`);
    expectClose(c.noiseDensity, d.noiseDensity, { relative: tolerance }, `${c.name} density`);
    if (c.maximumAt !== null && d.maximumAt !== null) {
      expectClose(turned(c.maximumAt.value - d.maximumAt.value - later, 24 / Math.round(c.cyclesPerDay)), 0, { absolute: tolerance }, `${c.name} maximum`);
    }
  }
}

describe("laws of the tide fit", () => {
  it("whole days later: the same tide, the same hour", () => {
    for (const s of records) {
      // Solar lines count from any midnight; what is left is the rounding of the search's path.
      expectSame(fitTides(changed(s, { times: (t) => t + 3000 * 24 * hour }), { longitude: 40 }), fitTides(s, { longitude: 40 }), 0, 1e-6);
    }
  });

  it("a shift in time turns the phase, and only it", () => {
    // Three hours later the hours of the bins are the same readings again.
    for (const s of records) expectSame(fitTides(changed(s, { times: (t) => t + 3 * hour }), { longitude: 40 }), fitTides(s, { longitude: 40 }), 3, 0.02);
  });

  it("the order of readings is irrelevant", () => {
    for (const s of records.slice(0, 3)) {
      const { uniform } = random(9);
      const order = Array.from(s.seconds, (_, i) => i).map((i) => ({ i, key: uniform() })).sort((a, b) => a.key - b.key).map(({ i }) => i);
      const mixed = series({ times: order.map((i) => s.start + 1000 * s.seconds[i]), values: order.map((i) => s.values[i]), quantity: s.quantity });
      expect(tideOf(mixed)).toEqual(tideOf(s));
    }
  });

  it("a constant changes only the mean", () => {
    for (const s of records) {
      const [a, b] = [tideOf(changed(s, { values: (v) => v + 37.5 })), tideOf(s)];
      expectSame(a, b, 0, 1e-6);
      expectClose(a.mean, b.mean + 37.5, { absolute: 1e-6 });
    }
  });

  it("a slope and a tide that are added come out again, and change no error", () => {
    for (const s of records) {
      const f = (2 * Math.PI * 2) / 86_400;
      const more = changed(s, { values: (v, i) => v + 0.3 * Math.cos(f * (s.seconds[i] + s.start / 1000)) + (0.8 * s.seconds[i]) / 86_400 });
      const [a, b] = [tideOf(more).coefficients[1], tideOf(s).coefficients[1]];
      expectClose(a.cosine, b.cosine + 0.3, { absolute: 1e-6 });
      expectClose(a.sine, b.sine, { absolute: 1e-6 });
      expectClose(a.varianceOfCosine, b.varianceOfCosine, { relative: 1e-4 });
    }
  });

  it("another unit scales everything", () => {
    for (const s of records.slice(0, 3)) {
      const [a, b] = [tideOf(changed(s, { values: (v) => 100 * v })), tideOf(s)];
      b.constituents.forEach((c, k) => {
        expectClose(a.constituents[k].amplitude.high, 100 * c.amplitude.high, { relative: 1e-6 });
        expectClose(a.constituents[k].noiseDensity, 1e4 * c.noiseDensity, { relative: 1e-6 });
      });
      expectClose(a.noise.slowRate, b.noise.slowRate, { relative: 1e-6 });
    }
  });

  it("longitude only turns the clock, L2's by the moon's", () => {
    const [a, b] = [tideOf(records[1], 100), tideOf(records[1], 40)];
    for (const [k, c] of a.constituents.entries()) {
      if (c.maximumAt === null) continue;
      expectClose(turned(c.maximumAt.value - (b.constituents[k].maximumAt?.value ?? 99) - 4, 24 / Math.round(c.cyclesPerDay)), 0, { absolute: 1e-9 }, c.name);
    }
  });

  it("arguments are not changed", () => {
    const s = records[0];
    const copy = { seconds: s.seconds.slice(), values: s.values.slice(), flags: s.flags.slice() };
    const options = Object.freeze({ longitude: 40, lines: Object.freeze(["L2"]), events: Object.freeze([s.start + 11 * 86_400_000]) });
    fitTides(s, options);
    expect({ seconds: s.seconds, values: s.values, flags: s.flags }).toEqual(copy);
  });
});

describe("laws of the interval", () => {
  const { uniform } = random(12);
  const cases = Array.from({ length: 300 }, () => ({
    cosine: 4 * uniform() - 2, sine: 4 * uniform() - 2, varianceOfCosine: 0.05 + uniform(), varianceOfSine: 0.05 + uniform(), covariance: 0.04 * uniform(), degreesOfFreedom: 4 + 200 * uniform(),
  }));

  it("holds the amplitude, reaches 0 exactly when undetected, widens with fewer degrees of freedom", () => {
    for (const c of cases) {
      const got = lineInterval(c);
      expect(got.low).toBeLessThanOrEqual(got.amplitude);
      expect(got.high).toBeGreaterThanOrEqual(got.amplitude);
      expect(got.low === 0).toBe(!got.detected);
      expect(Math.max(got.phaseBefore, got.phaseAfter)).toBeLessThanOrEqual(Math.PI);
      expect(lineInterval({ ...c, degreesOfFreedom: c.degreesOfFreedom / 2 }).high).toBeGreaterThanOrEqual(got.high - 1e-12);
    }
  });
  it("turning the phase turns nothing else", () => {
    for (const c of cases.slice(0, 100)) {
      const round = { ...c, varianceOfSine: c.varianceOfCosine, covariance: 0 };
      const a = lineInterval(round);
      const b = lineInterval({ ...round, cosine: -c.sine, sine: c.cosine });
      expectClose(b.high, a.high, { relative: 1e-9 });
      expectClose(turned(b.phase - a.phase - Math.PI / 2, 2 * Math.PI), 0, { absolute: 1e-9 });
    }
  });
  it("Rice's law grows with x, falls with μ, and its inversion is monotone", () => {
    for (let mu = 0; mu < 9; mu += 0.7) {
      for (let x = 0.3; x < 9; x += 0.4) {
        expect(riceCdf(x + 0.1, mu)).toBeGreaterThan(riceCdf(x, mu) - 1e-13);
        expect(riceCdf(x, mu + 0.1)).toBeLessThan(riceCdf(x, mu) + 1e-13);
      }
    }
    let last = riceInterval(0);
    expect(last).toEqual({ low: 0, high: 0 });
    for (let r = 0.1; r < 7; r += 0.1) {
      const next = riceInterval(r);
      expect(next.high).toBeGreaterThan(last.high);
      expect(next.low).toBeGreaterThanOrEqual(last.low);
      last = next;
    }
  });
});
