import { describe, expect, it } from "vitest";
import { random } from "../../../lib/ground/random.js";
import { flagBit } from "../../../lib/record/flag.js";
import { type Series, series } from "../../../lib/record/series.js";
import { evenReadings, isUneven } from "../../../lib/indoors/evenReadings.js";
import { expectClose } from "../../close.js";
import { hourlyMeans } from "../../../lib/indoors/hourlyPair.js";

const start = Date.UTC(2024, 3, 1);
const made = (seconds: readonly number[], values: readonly number[], flags?: readonly number[]): Series =>
  series({ quantity: "air_temperature", times: seconds.map((s) => start + 1000 * s), values, ...(flags === undefined ? {} : { flags }) });

describe("evenReadings", () => {
  it("lays lines every five minutes between readings at steps of all lengths, never over what is too far or left out", () => {
    // Worked by hand: from 0 at 0 s to 2 at 600 s, to 5 at 700 s (left out), to 3 at 1300 s; 4 h later 9, then 10 at a whole step.
    const s = made([0, 600, 700, 1300, 15700, 15900], [0, 2, 5, 3, 9, 10], [0, 0, flagBit.spike, 0, 0, 0]);
    const even = evenReadings(s, 3 * 3600);
    expect([...even.seconds]).toEqual([0, 300, 600, 900, 1200, 15900]);
    [0, 1, 2, 2 + 3 / 7, 2 + 6 / 7, 10].forEach((v, i) => void expectClose(even.values[i], v, { absolute: 1e-12 }));
    expect([even.place, even.unit, even.start]).toEqual([s.place, s.unit, s.start]);
  });

  it("leaves what comes at one step as it is: with gaps, a wandering clock, bursts", () => {
    const dice = random(5);
    const regular = Array.from({ length: 300 }, (_, i) => 600 * i).filter(() => dice.uniform() > 0.25);
    const jittered = Array.from({ length: 300 }, (_, i) => 600 * i + Math.round(20 * dice.normal()));
    const bursts = Array.from({ length: 300 }, (_, i) => 3600 * Math.floor(i / 10) + 6 * (i % 10));
    for (const seconds of [regular, jittered, bursts, [0, 5], []]) {
      const s = made(seconds, seconds.map(() => 20));
      expect(evenReadings(s, 3600)).toBe(s);
    }
    expect(isUneven(Float64Array.from({ length: 200 }, (_, i) => 60 * i + 40 * (i % 7) * (i % 5)))).toBe(true);
  });

  it("a sensor that reports changes of 0.2 K has the hours of one that reads every five minutes, to 0.05 K", () => {
    const air = (t: number): number => 20 + 4 * Math.cos((2 * Math.PI * t) / 86_400) + 0.8 * Math.cos((2 * Math.PI * t) / 50_000);
    const [at, values]: number[][] = [[], []];
    for (let t = 0, last = Number.NaN, then = -1e9; t < 6 * 86_400; t += 60) {
      if (Math.abs(air(t) - last) < 0.2 && t - then < 3600) continue;
      [last, then] = [air(t), t];
      at.push(t);
      values.push(last);
    }
    const axis = { start, hours: 140 };
    const every = Array.from({ length: 1700 }, (_, i) => 300 * i);
    const hours = hourlyMeans(made(at, values), axis);
    const plain = hourlyMeans(made(every, every.map(air)), axis);
    const off = hours.map((v, h) => Math.abs(v - plain[h])).slice(1, 139);
    expect(Math.max(...off)).toBeLessThan(0.05);
  });
});
