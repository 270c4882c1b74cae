import { describe, expect, it } from "vitest";
import { fitTides } from "../../lib/cycles/tide/fitTides.js";
import { joinFits, tideSums } from "../../lib/cycles/tide/joinFits.js";
import { lineInterval } from "../../lib/cycles/tide/lineInterval.js";
import { random } from "../../lib/ground/random.js";
import { series, type Series } from "../../lib/record/series.js";
import { drawNoise, type PlantedLine, tideRecord } from "../tideRecord.js";
import { exactTide } from "./exactTide.js";
import { noises } from "./tideScenarios.js";

const long = process.env.SIMULATE === "long";
const firstSeed = 8_470_000;
const start = Date.UTC(2023, 0, 1);
const error = (asked: number): number => 100 * Math.sqrt((0.95 * 0.05) / asked);
const share = (held: number, asked: number): number => (100 * held) / asked;

const hourly = (values: Float64Array, from: number, to: number): Series =>
  series({ times: Array.from({ length: to - from }, (_, i) => start + (from + i) * 3_600_000), values: values.subarray(from, to).map((v) => v + 1000), quantity: "surface_air_pressure" });

describe("the whole way with a tide in the readings: strong, weak and none", () => {
  const planted: Record<string, readonly PlantedLine[]> = {
    strong: [{ cyclesPerDay: 1, amplitude: 0.6, crest: 1 }, { cyclesPerDay: 2, amplitude: 1.1, crest: 2.5 }, { cyclesPerDay: 3, amplitude: 0.15, crest: 4 }],
    weak: [{ cyclesPerDay: 1, amplitude: 0.2, crest: 9 }, { cyclesPerDay: 2, amplitude: 0.1, crest: 3.5 }, { cyclesPerDay: 3, amplitude: 0.03, crest: 1 }],
    none: [1, 2, 3].map((cyclesPerDay) => ({ cyclesPerDay, amplitude: 0, crest: 0 })),
  };
  for (const [k, [name, lines]] of Object.entries(planted).entries()) {
    it(name, () => {
      const records = long ? 500 : 60;
      let held = 0;
      let times = 0;
      let timed = 0;
      let found = 0;
      for (let r = 0; r < records; r++) {
        const noise = Object.values(noises)[r % 4];
        const s = tideRecord({ days: 25, stepMinutes: r % 3 === 0 ? 60 : 20, noise, lines, seed: firstSeed + 1000 * k + r, start, missing: 0.1 });
        const fit = fitTides(s, { longitude: 0 });
        for (const [j, c] of fit.constituents.entries()) {
          held += c.amplitude.low <= lines[j].amplitude && lines[j].amplitude <= c.amplitude.high ? 1 : 0;
          found += c.detected ? 1 : 0;
          if (c.maximumAt === null) {
            times++; // the whole circle
            timed++;
            continue;
          }
          const period = 24 / (j + 1);
          const turn = period * Math.round((c.maximumAt.value - lines[j].crest) / period);
          timed += c.maximumAt.low - turn <= lines[j].crest && lines[j].crest <= c.maximumAt.high - turn ? 1 : 0;
          times++;
        }
      }
      console.log(`${name}: amplitude held ${share(held, 3 * records).toFixed(1)} %, time ${share(timed, times).toFixed(1)} %, detected ${share(found, 3 * records).toFixed(1)} %, ${records} records`);
      const room = 1.5 + 4 * error(3 * records);
      expect(Math.abs(share(held, 3 * records) - 95)).toBeLessThan(room);
      if (name === "none") expect(Math.abs(share(found, 3 * records) - 5)).toBeLessThan(room);
      else expect(share(timed, times)).toBeGreaterThan(95 - room);
      if (name === "strong") expect(share(found, 3 * records)).toBeGreaterThan(75);
    });
  }
});

describe("months that add up", () => {
  for (const [k, key] of ["ar1", "matern"].entries()) {
    it(`${key}, six months at the noise of the first two: within 1 % of the exact bound over the whole`, () => {
      const records = long ? 100 : 24;
      const squares = [0, 0, 0];
      const bounds = [0, 0, 0];
      let held = 0;
      for (let r = 0; r < records; r++) {
        const { normal } = random(firstSeed + 10_000 + 1000 * k + r);
        const values = drawNoise(noises[key], 180 * 24, 1 / 24, normal);
        const exact = exactTide(noises[key], values, 1 / 24);
        const first = fitTides(hourly(values, 0, 60 * 24), { longitude: 0, climatology: false });
        const joined = joinFits([0, 1, 2, 3, 4, 5].map((m) => JSON.parse(JSON.stringify(tideSums(hourly(values, 720 * m, 720 * (m + 1)), first)))));
        for (let j = 0; j < 3; j++) {
          const c = joined.coefficients[j];
          squares[j] += c.cosine ** 2 + c.sine ** 2;
          bounds[j] += exact.beta[2 * j] ** 2 + exact.beta[2 * j + 1] ** 2;
          const truth = 4 * exact.errors[2 * j];
          const got = lineInterval({ ...c, cosine: c.cosine + truth });
          held += got.low <= truth && truth <= got.high ? 1 : 0;
        }
      }
      const ratios = squares.map((s, j) => Math.sqrt(s / bounds[j]));
      console.log(`months joined, ${key}: RMS over exact bound ${ratios.map((v) => v.toFixed(3)).join(" ")}, amplitude held ${share(held, 3 * records).toFixed(1)} %, ${records} records`);
      for (const ratio of ratios) {
        // Paired on the same records, it errs by about 3 % over √records.
        expect(ratio).toBeLessThan(1.01 + 0.1 / Math.sqrt(records));
        expect(ratio).toBeGreaterThan(0.99 - 0.1 / Math.sqrt(records));
      }
      expect(Math.abs(share(held, 3 * records) - 95)).toBeLessThan(1.5 + 4 * error(3 * records));
    });
  }
});

describe("a steady tide over a year", () => {
  it("is called seasonal in about 3 % of records (three lines at 1 %), and each month's intervals hold", () => {
    const records = long ? 120 : 12;
    let flagged = 0;
    let lines = 0;
    let held = 0;
    let asked = 0;
    for (let r = 0; r < records; r++) {
      const noise = Object.values(noises)[r % 4];
      const { normal } = random(firstSeed + 20_000 + r);
      const fit = fitTides(hourly(drawNoise(noise, 365 * 24, 1 / 24, normal), 0, 365 * 24), { longitude: 0 });
      flagged += fit.seasonal.changes === true ? 1 : 0;
      lines += fit.seasonal.lines.filter((l) => l.pValue < 0.05).length;
      for (const c of fit.climatology.flatMap((m) => m.constituents)) {
        held += c.amplitude.low === 0 ? 1 : 0;
        asked++;
      }
      expect(fit.jumps).toEqual([]);
    }
    console.log(`steady year: called seasonal ${flagged} of ${records}; p below 0.05 for ${lines} of ${3 * records} lines; months' amplitudes of no tide held ${share(held, asked).toFixed(1)} % of ${asked}`);
    expect(flagged).toBeLessThanOrEqual(Math.ceil(0.03 * records + 4 * Math.sqrt(0.03 * records)));
    expect(Math.abs(share(lines, 3 * records) - 5)).toBeLessThan(4 * error(3 * records));
    // The whole year's noise shape is used in each month: slack for that, and four errors.
    expect(Math.abs(share(held, asked) - 95)).toBeLessThan(1.5 + 4 * error(asked));
  });
});

describe("the moon's line beside the sun's", () => {
  it("L2 of 60 days: intervals hold no tide, and one of four standard errors", () => {
    const records = long ? 400 : 40;
    const held = [0, 0];
    let apart = 0;
    for (let r = 0; r < records; r++) {
      const noise = Object.values(noises)[r % 4];
      const s = tideRecord({ days: 60, stepMinutes: 60, noise, lines: [{ cyclesPerDay: 2, amplitude: 1.1, crest: 3 }], seed: firstSeed + 30_000 + r, start });
      const fit = fitTides(s, { longitude: 0, lines: ["L2"], climatology: false });
      const line = fit.coefficients[4];
      // A truth that does not look at the record: four times the mean error of such records, about 0.16, 0.03, … hPa.
      const truth = { white: 0.075, ar1: 0.24, matern: 0.12, mixed: 0.09 }[noise.name] as number;
      for (const [j, size] of [0, truth].entries()) {
        const got = lineInterval({ ...line, cosine: line.cosine + size });
        held[j] += got.low <= size && size <= got.high ? 1 : 0;
      }
      apart += Math.abs(fit.constituents[1].amplitude.value - 1.1) < 5 * fit.constituents[1].amplitude.standardError ? 1 : 0;
    }
    console.log(`L2, 60 d: held ${held.map((h) => share(h, records).toFixed(1)).join(" and ")} % of ${records} records`);
    for (const h of held) expect(Math.abs(share(h, records) - 95)).toBeLessThan(1.5 + 4 * error(records));
    expect(apart).toBe(records);
  });
});
