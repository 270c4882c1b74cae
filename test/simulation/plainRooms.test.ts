import { describe, expect, it } from "vitest";
import { indoorsOf } from "../../lib/answers/indoorsOf.js";
import type { Estimate } from "../../lib/ground/estimate.js";
import { plainRoom, plainTruth } from "../plainRoom.js";
import { percent, printed, runs, slack } from "./inventedWeather.js";

/** Plain rooms of one constant from readings to answer, clocks set by the barometers: seeds 41001…, none used while building. */
const firstSeed = 41_001;

describe("plain rooms, from readings to answer", () => {
  it(`decrement factor, lag and time constant hold the truth, whatever the step of the log and the clock (seeds ${firstSeed}…)`, { timeout: 1_800_000 }, () => {
    const count = runs(12);
    const rows: (string | number)[][] = [["step", "days", "constant, h", "records", "decrement held, %", "lag held, %", "constant told", "of these held, %", "half widths"]];
    const all = { records: 0, decrement: 0, lag: 0, told: 0, tau: 0 };
    for (const [step, days] of [[300, 30], [600, 60], [1800, 60], [3600, 90]]) {
      for (const tau of [4, 12, 30]) {
        const here = { records: 0, decrement: 0, lag: 0, told: 0, tau: 0 };
        const widths: number[][] = [[], [], []];
        const truth = plainTruth(tau);
        const look = (e: Estimate | null, value: number, at: number): number => {
          if (e !== null) widths[at].push((e.high - e.low) / 2);
          return e !== null && e.low <= value && value <= e.high ? 1 : 0;
        };
        for (const kind of ["rough", "lined", "smooth"] as const) {
          for (let k = 0; k < count; k++) {
            const [pair] = indoorsOf(plainRoom({ tau, kind, days, step }, firstSeed + 100 * tau + k).record).pairs;
            here.records++;
            here.decrement += look(pair.decrementFactor, truth.decrement, 0);
            here.lag += look(pair.timeLag, truth.lagHours, 1);
            here.told += pair.timeConstant === null ? 0 : 1;
            here.tau += look(pair.timeConstant, tau, 2);
          }
        }
        const half = widths.map((w) => (w.reduce((a, b) => a + b, 0) / w.length).toPrecision(2)).join("; ");
        rows.push([`${step / 60} min`, days, tau, here.records, percent(here.decrement, here.records), percent(here.lag, here.records), here.told, percent(here.tau, here.told), half]);
        for (const key of ["records", "decrement", "lag", "told", "tau"] as const) all[key] += here[key];
      }
    }
    printed("plain rooms", rows);
    expect(all.decrement / all.records).toBeGreaterThan(0.93 - slack(all.records));
    expect(all.lag / all.records).toBeGreaterThan(0.93 - slack(all.records));
    expect(all.tau / all.told).toBeGreaterThan(0.93 - slack(all.told));
    // A room of one constant is told as one.
    expect(all.told / all.records).toBeGreaterThan(0.92 - slack(all.records));
  });
});
