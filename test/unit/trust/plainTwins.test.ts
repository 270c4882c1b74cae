import { describe, expect, it } from "vitest";
import { openRecord } from "../../../lib/door/disk/openRecord.js";
import { random } from "../../../lib/ground/random.js";
import type { AirRecord } from "../../../lib/record/airRecord.js";
import { flagBit } from "../../../lib/record/flag.js";
import { type Series, series } from "../../../lib/record/series.js";
import { barometerPair } from "../../../lib/trust/clock/barometerPair.js";
import { pressureStretches } from "../../../lib/trust/clock/pressureStretches.js";
import { stretchOffset } from "../../../lib/trust/clock/stretchOffset.js";
import { flagRecord, twinOf } from "../../../lib/trust/faults/flagRecord.js";
import { flagSpikes } from "../../../lib/trust/faults/flagSpikes.js";
import { flagStuck } from "../../../lib/trust/faults/flagStuck.js";
import { flagWarmed } from "../../../lib/trust/faults/flagWarmed.js";
import { type LevelShift, levelShifts } from "../../../lib/trust/faults/levelShifts.js";
import { loneShifts } from "../../../lib/trust/faults/loneShifts.js";
import { deviationOf, medianOf } from "../../../lib/trust/faults/orderStatistics.js";
import { pairedReadings } from "../../../lib/trust/faults/pairedReadings.js";
import { readingStep } from "../../../lib/trust/faults/readingStep.js";
import { swappedSpans } from "../../../lib/trust/faults/swappedSpans.js";
import { median, medianAbsoluteDeviation } from "../../../lib/ground/summary.js";
import { expectClose } from "../../close.js";
import { type HousePlan, inventedHouse, recordOf, rewritten } from "../../simulation/inventedHouse.js";
import { plantSpikes, plantStep, plantStuck, plantSun, plantSwap } from "../../simulation/plantedFaults.js";
import { plainBarometerPair } from "../../twins/plainBarometerPair.js";
import { plainLoneShifts } from "../../twins/plainLoneShifts.js";
import { plainPairs } from "../../twins/plainPairs.js";
import { plainReadingStep } from "../../twins/plainReadings.js";
import { plainShifts } from "../../twins/plainShifts.js";
import { plainSpikes } from "../../twins/plainSpikes.js";
import { plainStretchOffset } from "../../twins/plainStretchOffset.js";
import { plainStuck } from "../../twins/plainStuck.js";
import { plainSwaps } from "../../twins/plainSwaps.js";
import { plainWarmed } from "../../twins/plainWarmed.js";

/** A house with every fault in it and a tenth of its readings taken out. */
function faultyHouse(seed: number, plan: HousePlan, shift = 0): AirRecord {
  const house = inventedHouse(seed, plan);
  const dice = random(seed + 1);
  plantStuck(dice, house, plan.step);
  plantSpikes(dice, house, plan.step);
  plantSwap(dice, house, plan.step);
  plantStep(dice, house, seed % 2 === 0 ? 1.4 : -7);
  if (plan.days >= 40) plantSun(dice, house, plan.step, { minutes: 100, peak: 4.5, count: 8 });
  for (const readings of [house.outside, house.inside]) {
    const all = [readings.air_temperature, readings.relative_humidity, readings.surface_air_pressure];
    for (let i = 0; i < readings.times.length; i++) if (dice.uniform() < 0.05) all[dice.integer(3)][i] = Number.NaN;
    const hole = dice.integer(readings.times.length - 100);
    for (const values of all) values.fill(Number.NaN, hole, hole + 100);
  }
  house.inside.times = house.inside.times.map((t) => t + 1000 * shift);
  return recordOf(house.site, {
    outside: { exposure: "outdoor", readings: rewritten(house.outside, plan.digits) },
    inside: { exposure: "indoor", readings: rewritten(house.inside, plan.digits) },
  });
}

const houses: Readonly<Record<string, () => Promise<AirRecord> | AirRecord>> = {
  "hill-school": () => openRecord("datasets/hill-school"),
  "harbor-loft": () => openRecord("datasets/harbor-loft"),
  "puget-normals": () => openRecord("datasets/puget-normals"),
  "tropics, 5 min, seed 901": () => faultyHouse(901, { days: 50, step: 300, climate: "tropics", room: "free", digits: [0.1, 0.1, 0.01] }),
  "thermostat, 10 min, 1 hPa, seed 902": () => faultyHouse(902, { days: 40, step: 600, climate: "middle", room: "thermostat", digits: [0.5, 1, 1] }),
  "hourly, odd instants, seed 903": () => faultyHouse(903, { days: 90, step: 3600, climate: "middle", room: "free", digits: [0.1, 1, 0.1] }, 700),
  "minutes, all digits, seed 904": () => faultyHouse(904, { days: 12, step: 60, climate: "middle", room: "free", digits: [0, 0, 0] }, 17),
};

const seriesOf = (record: AirRecord): Series[] => Object.values(record.places).flatMap((p) => Object.values(p.series) as Series[]);
/** Index of the first entry that differs; −1 where two arrays are the same (toEqual takes seconds on arrays of this size). */
const differs = (a: ArrayLike<number>, b: ArrayLike<number>): number => {
  if (a.length !== b.length) return Math.min(a.length, b.length);
  for (let i = 0; i < a.length; i++) if (!Object.is(a[i], b[i])) return i;
  return -1;
};
const sameShifts = (fast: readonly LevelShift[], plain: readonly LevelShift[], what: string): void => {
  expect(fast.map(({ place, index }) => ({ place, index })), what).toEqual(plain.map(({ place, index }) => ({ place, index })));
  for (const [k, { size }] of fast.entries()) expectClose(size, plain[k].size, { absolute: 1e-9 }, "the same sum in another order");
};

describe("fast detectors against their plain twins: the same readings, to the last one", () => {
  for (const [name, make] of Object.entries(houses)) {
    it(name, async () => {
      const record = await make();
      // Once with no flag set, once with those that the detectors see of each other.
      for (const seen of [record, flagRecord(record)]) {
        const all = seriesOf(seen);
        for (const s of all) {
          expect(readingStep(s.values), `${s.quantity} step`).toBe(plainReadingStep(s.values));
          expect(differs(flagSpikes(s), plainSpikes(s)), `${s.quantity} spikes`).toBe(-1);
          for (const twin of [null, twinOf(s, seen.places)]) expect(differs(flagStuck(s, twin), plainStuck(s, twin)), `${s.quantity} stuck`).toBe(-1);
          if (/pressure/.test(s.quantity)) sameShifts(loneShifts(s), plainLoneShifts(s), "alone");
        }
        for (const place of Object.values(seen.places)) {
          const { air_temperature: t, relative_humidity: rh } = place.series;
          const longitude = record.site?.longitude ?? null;
          if (t !== undefined) expect(differs(flagWarmed(t, rh ?? null, longitude), plainWarmed(t, rh ?? null, longitude))).toBe(-1);
        }
        const [a, b] = Object.values(seen.places);
        if (b === undefined) continue;
        expect(swappedSpans(a, b)).toEqual(plainSwaps(a, b));
        const [x, y] = [a.series.surface_air_pressure, b.series.surface_air_pressure];
        if (x === undefined || y === undefined) continue;
        for (const [p, q] of [[x, y], [y, x]]) {
          const [fast, plain] = [pairedReadings(p, q), plainPairs(p, q)];
          for (const key of ["at", "a", "b", "indexA", "indexB"] as const) expect(differs(fast[key], plain[key]), key).toBe(-1);
          expect(fast.step).toBe(plain.step);
          sameShifts(levelShifts(p, q), plainShifts(p, q), "against the twin");
        }
        const pair = barometerPair(y, x);
        const plainPair = plainBarometerPair(y, x);
        expect(pair === null).toBe(plainPair === null);
        if (pair === null || plainPair === null) continue;
        for (const key of ["x", "y", "phases"] as const) {
          expect(pair[key].length).toBe(plainPair[key].length);
          const off = pair[key].map((v, i) => (Number.isNaN(v) && Number.isNaN(plainPair[key][i]) ? 0 : Math.abs(v - plainPair[key][i])));
          // hPa and s; the same sums in another order.
          expect(off.findIndex((v) => !(v <= 1e-8)), key).toBe(-1);
        }
        const stretches = pressureStretches(pair);
        const fast = stretchOffset(stretches);
        const plain = plainStretchOffset(stretches);
        expect(fast === null).toBe(plain === null);
        if (fast === null || plain === null) continue;
        expect([fast.terms, fast.used, fast.lastFrequency]).toEqual([plain.terms, plain.used, plain.lastFrequency]);
        expectClose(fast.delay, plain.delay, { absolute: 1e-6 }, "seconds; turns by recurrence instead of sines");
        expectClose(fast.standardError, plain.standardError, { relative: 1e-8 }, "the same");
      }
    }, 120_000);
  }

  it("sees the faults that were planted, so that agreement means something", async () => {
    let seen = 0;
    for (const name of ["tropics, 5 min, seed 901", "minutes, all digits, seed 904"]) {
      for (const { flags } of seriesOf(flagRecord(await houses[name]()))) seen = flags.reduce((bits, b) => bits | b, seen);
    }
    for (const flag of ["spike", "stuck", "step", "swapped", "warmed"] as const) expect(seen & flagBit[flag], flag).not.toBe(0);
  });
});

describe("series that no weather makes, seeds 910…929", () => {
  it("noise of every size, in every reading step, with jumps, holes and equal instants", () => {
    let [spikes, stuck, shifts] = [0, 0, 0];
    for (let seed = 910; seed < 930; seed++) {
      const dice = random(seed);
      const quantity = (["air_temperature", "relative_humidity", "surface_air_pressure"] as const)[seed % 3];
      const [noise, digit] = [0.01 * 10 ** dice.integer(4), [0, 0.01, 0.5, 2][dice.integer(4)]];
      const values = Array.from({ length: 3000 }, (_, i) => {
        const v = (quantity === "surface_air_pressure" ? 900 : 40) + noise * dice.normal() + (i > 2000 ? 40 : 0) + (i % 97 === 0 ? 6 + 12 * noise : 0);
        return digit === 0 ? v : digit * Math.round(v / digit);
      });
      values.fill(values[700], 700, 740);
      for (let i = 0; i < 100; i++) values[dice.integer(3000)] = Number.NaN;
      let at = 0;
      const times = values.map(() => (at += 1000 * (dice.uniform() < 0.02 ? 10000 * dice.integer(2) : 600)));
      const s = series({ times, values, quantity });
      const found = [flagSpikes(s), flagStuck(s)];
      expect(differs(found[0], plainSpikes(s)), `spikes, seed ${seed}`).toBe(-1);
      expect(differs(found[1], plainStuck(s)), `stuck, seed ${seed}`).toBe(-1);
      expect(readingStep(s.values)).toBe(plainReadingStep(s.values));
      spikes += found[0].filter((b) => b > 0).length;
      stuck += found[1].filter((b) => b > 0).length;
      if (quantity === "surface_air_pressure") {
        const lone = loneShifts(s);
        sameShifts(lone, plainLoneShifts(s), `alone, seed ${seed}`);
        shifts += lone.length;
      }
    }
    expect([spikes > 100, stuck > 100, shifts > 0]).toEqual([true, true, true]);
  });
});

describe("orderStatistics", () => {
  it("has the median and deviation of the sorting ones, for even, odd, equal, tiny and empty arrays", () => {
    const dice = random(905);
    for (let n = 0; n < 60; n++) {
      for (const of of [() => dice.normal(), () => dice.integer(3), () => 7]) {
        const values = Float64Array.from({ length: n }, of);
        expect(medianOf(values.slice())).toBe(median(values));
        expect(deviationOf(values.slice())).toBe(medianAbsoluteDeviation(values));
      }
    }
  });
});
