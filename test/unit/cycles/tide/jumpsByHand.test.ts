import { describe, expect, it } from "vitest";
import { levelJumps } from "../../../../lib/cycles/tide/levelJumps.js";
import { straightReadings } from "../../../../lib/cycles/tide/straightReadings.js";
import { tideSteps } from "../../../../lib/cycles/tide/tideSteps.js";
import { observedDays, type UsableReadings, usableReadings } from "../../../../lib/cycles/tide/usableReadings.js";
import { series } from "../../../../lib/record/series.js";
import { expectClose } from "../../../close.js";

const start = Date.UTC(2024, 4, 6);
const readingsOf = (values: readonly number[], minutes = 60, from = 0): UsableReadings =>
  usableReadings(series({ times: values.map((_, i) => start + from * 60_000 + i * minutes * 60_000), values, quantity: "surface_air_pressure" }));
const jumpsOf = (values: readonly number[], events: number[] = [], minutes = 60, from = 0): ReturnType<typeof levelJumps> => levelJumps(tideSteps(readingsOf(values, minutes, from)), events);
const hours = (n: number, at: (h: number) => number): number[] => Array.from({ length: n }, (_, h) => at(h));
const halfPast = (h: number): number => (h + 0.5) * 3600;

describe("levelJumps in a record without any weather: what is found, to the digit", () => {
  const levelsOf = (values: readonly number[], rest: number, from = 240) => (h: number): number => (h < from ? 0 : (values[h - from] ?? rest));

  it("a jump lies between two readings, with the medians of six hours before and after as its size", () => {
    expect(jumpsOf(hours(480, levelsOf([], 5)))).toEqual([{ at: halfPast(239), size: 5 }]);
    expect(jumpsOf(hours(480, levelsOf([], -5)))).toEqual([{ at: halfPast(239), size: -5 }]);
    // Readings every 20 minutes, from 05:00: the jump lies between 10:20 and 10:40 of the eighth day.
    const k = 3 * (7 * 24 + 5) + 2;
    expect(jumpsOf(hours(3 * 400, (i) => (i < k ? 0 : 4)), [], 20, 300)).toEqual([{ at: 7 * 86_400 + 10.5 * 3600, size: 4 }]);
    // 6 6 6 5 5 5 afterwards, 0 0 0 −1 −1 −1 before: a median in the middle; the sixth hour counts, the seventh does not.
    expect(jumpsOf(hours(480, levelsOf([6, 6, 6, 5, 5, 5], 4)))).toEqual([{ at: halfPast(239), size: 5.5 }]);
    expect(jumpsOf(hours(480, (h) => (h >= 240 ? 5 : h < 234 ? 1 : h < 237 ? 0 : -1)))).toEqual([{ at: halfPast(239), size: 5.5 }]);
  });

  it("lasts: from half to twice the change", () => {
    expect(jumpsOf(hours(480, levelsOf([5, 5], 2.5)))).toEqual([{ at: halfPast(239), size: 2.5 }]);
    expect(jumpsOf(hours(480, levelsOf([5, 5], 2.4)))).toEqual([]);
    // Twice 5 is too much at the first step from there on: then only the second one counts.
    expect(jumpsOf(hours(480, levelsOf([5, 5], 10)))[0].at).toBe(halfPast(239));
    expect(jumpsOf(hours(480, levelsOf([5, 5], 10.1)))[0].at).toBe(halfPast(241));
  });

  it("is sudden: one step holds four fifths of the change over two hours", () => {
    expect(jumpsOf(hours(480, levelsOf([4, 5], 9)))).toEqual([{ at: halfPast(239), size: 9 }]);
    expect(jumpsOf(hours(480, levelsOf([3.9, 5], 9)))).toEqual([]);
    expect(jumpsOf(hours(480, levelsOf([-4, -5], -9)))).toEqual([{ at: halfPast(239), size: -9 }]);
  });

  it("over a gap of up to five days the ends are compared, and the jump lies in its middle", () => {
    const gap = (from: number, to: number, level = 5) => (h: number): number => (h >= from && h < to ? Number.NaN : h < from ? 0 : level);
    expect(jumpsOf(hours(480, gap(236, 244)))).toEqual([{ at: 240 * 3600, size: 5 }]);
    expect(jumpsOf(hours(480, gap(236, 237)))).toEqual([{ at: halfPast(236), size: 5 }]);
    expect(jumpsOf(hours(600, gap(240, 240 + 119)))).toEqual([{ at: (240 + 59.5) * 3600, size: 5 }]);
    expect(jumpsOf(hours(600, gap(240, 240 + 120)))).toEqual([]);
    // Counted from the midnight though the record begins at 05:00.
    expect(jumpsOf(hours(480, gap(236, 244)), [], 60, 300)).toEqual([{ at: 245 * 3600, size: 5 }]);
    const missing = hours(480, gap(0, 10)).concat(hours(200, () => 5));
    expect(jumpsOf(missing)).toEqual([]); // what comes before the first reading is no jump
  });

  it("a gap's change must be more than twice what the record does just before or after it", () => {
    // Four hours missing: changes over five hours are compared.
    const drift = (before: number, later: number) => (h: number): number =>
      h >= 240 && h < 244 ? Number.NaN : h < 240 ? (before * Math.max(0, h - 234)) / 5 : before + 5 + (later * Math.min(5, h - 244)) / 5;
    expect(jumpsOf(hours(480, drift(2.4, 0))).length).toBe(1);
    expect(jumpsOf(hours(480, drift(2.5, 0)))).toEqual([]);
    expect(jumpsOf(hours(480, drift(0, 2.4))).length).toBe(1);
    expect(jumpsOf(hours(480, drift(0, 2.5)))).toEqual([]);
    expect(jumpsOf(hours(480, drift(-2.5, 0)))).toEqual([]);
    expect(jumpsOf(hours(480, drift(0, -2.5)))).toEqual([]);
  });

  it("each part keeps three days", () => {
    const jump = (h: number, n = 480): number => jumpsOf(hours(n, (i) => (i < h ? 0 : 5))).length;
    expect([jump(72), jump(73), jump(408), jump(409)]).toEqual([0, 1, 1, 0]); // 71.5 and 72.5 hours, before and after
    const event = (at: number): number => jumpsOf(hours(480, () => 0), [at]).length;
    const day = 86_400;
    // A record that begins at 05:00 keeps its days from there.
    const later = (at: number): number => jumpsOf(hours(480, () => 0), [at + 5 * 3600], 60, 300).length;
    expect([later(3 * day - 1), later(3 * day), later(17 * day), later(17 * day + 1)]).toEqual([0, 1, 1, 0]);
    expect(levelJumps(tideSteps(readingsOf(hours(480, (h) => (h < 240 ? 0 : 5))))).length).toBe(1);
    expect([event(3 * day - 1), event(3 * day), event(17 * day), event(17 * day + 1), event(-day), event(25 * day)]).toEqual([0, 1, 1, 0, 0, 0]);
  });

  it("and 24 observed hours: a part of 24 hours between gaps is enough, one of 23 is not", () => {
    // Observed: hours 0…95, then the part, then from hour 240 on; a jump on either side of the part, in its gaps.
    const levels = (count: number) => (h: number): number => (h < 96 ? 0 : h >= 240 ? 30 : h >= 150 && h < 150 + count ? 10 : Number.NaN);
    expect(jumpsOf(hours(480, levels(24))).map((j) => j.size)).toEqual([10, 20]);
    expect(jumpsOf(hours(480, levels(24)), [], 60, 300).map((j) => j.size)).toEqual([10, 20]);
    expect(jumpsOf(hours(480, levels(23))).map((j) => j.size)).toEqual([20]);
  });

  it("told events come first, then the largest, and they come out in the order of time", () => {
    const two = (h: number): number => (h < 200 ? 0 : h < 260 ? 5 : 13);
    expect(jumpsOf(hours(480, two))).toEqual([{ at: halfPast(259), size: 8 }]); // 60 hours apart: only the larger
    expect(jumpsOf(hours(480, two), [150 * 3600]).map((j) => j.at)).toEqual([150 * 3600, halfPast(259)]);
    for (const told of [[240, 288], [288, 240]]) expect(jumpsOf(hours(480, () => 0), told.map((h) => 3600 * h)).map((j) => j.at)).toEqual([240 * 3600]);
    const three = (h: number): number => (h < 100 ? 0 : h < 200 ? 5 : h < 300 ? 13 : 7);
    expect(jumpsOf(hours(480, three)).map((j) => j.size)).toEqual([5, 8, -6]);
  });

  it("an event is moved to the greatest change within twelve hours, and stays where nothing changes", () => {
    const at = (event: number, change = 240): number => jumpsOf(hours(480, (h) => (h < change ? 0 : h === change ? 2 : 5)), [event * 3600])[0].at;
    expect([at(229), at(240), at(253)]).toEqual([halfPast(240), halfPast(240), halfPast(240)]);
    expect([at(228), at(228.99)]).toEqual([halfPast(239), halfPast(239)]); // the smaller change alone is within reach
    expect([at(227), at(254)]).toEqual([227 * 3600, 254 * 3600]);
    const later = (event: number): number => jumpsOf(hours(480, (h) => (h < 240 ? 0 : 5)), [event * 3600], 60, 300)[0].at;
    expect([later(232), later(233), later(257), later(258)]).toEqual([232 * 3600, halfPast(244), halfPast(244), 258 * 3600]);
    expect(jumpsOf(hours(480, () => 1000), [240 * 3600])).toEqual([{ at: 240 * 3600, size: Number.NaN }]);
  });

  it("hours are means of what was observed, and hours that are never observed hide no jump", () => {
    // Every 20 minutes, one in three missing; then a logger that is off at night, moved at noon of the tenth day.
    expect(jumpsOf(hours(3 * 400, (i) => (i % 3 === 1 ? Number.NaN : i < 600 ? 0 : 4)), [], 20)).toEqual([{ at: 600 * 1200 - 600, size: 4 }]);
    const byDay = hours(480, (h) => (h % 24 < 6 || h % 24 > 20 ? Number.NaN : h < 228 ? 0 : 30));
    expect(jumpsOf(byDay)).toEqual([{ at: halfPast(227), size: 30 }]);
  });

  it("a record that rises by 0.1 an hour: seven hours lie between the middles of the two sides", () => {
    const found = jumpsOf(hours(480, (h) => 0.1 * h + (h < 240 ? 0 : 5)));
    expect(found.map((j) => j.at)).toEqual([halfPast(239)]);
    expectClose(found[0].size, 5.7, { absolute: 1e-9 });
  });

  it("the mean day is taken off first: a tide of 20 hides no jump of 2", () => {
    const tide = (h: number): number => 20 * Math.cos((4 * Math.PI * (h - 9.7)) / 24) + 8 * Math.cos((2 * Math.PI * h) / 24);
    for (const from of [0, 300]) {
      const found = jumpsOf(hours(480, (h) => tide(h) + (h < 245 ? 0 : 40)), [], 60, from);
      expect(found.length).toBe(1);
      expect(found[0].at).toBe(halfPast(244 + from / 60));
      expect(Math.abs(found[0].size - 40)).toBeLessThan(1e-9);
      const gap = jumpsOf(hours(480, (h) => (h > 240 && h < 250 ? Number.NaN : tide(h) + (h < 245 ? 0 : 2))), [], 60, from);
      expect(gap.length).toBe(1);
      expect(Math.abs(gap[0].size - 2)).toBeLessThan(1e-9);
    }
    expect(jumpsOf(hours(480, tide))).toEqual([]);
  });
});

describe("levelJumps among changes of known size", () => {
  /** Days of 1 1 −1 −1 …, every other day turned over: no mean day, and changes over two hours are ±2 but at midnight. */
  const pattern = (scale: (day: number) => number, jump: number, slope = 0) => (h: number): number => {
    const day = Math.floor(h / 24);
    const quiet = day === 85 || day === 86;
    return (quiet ? 0 : scale(day) * (day % 2 === 0 ? 1 : -1) * (h % 4 < 2 ? 1 : -1)) + (h >= 86 * 24 ? jump : 0) + slope * h;
  };
  const found = (scale: (day: number) => number, jump: number, slope = 0): number => jumpsOf(hours(180 * 24, pattern(scale, jump, slope))).filter((j) => j.at === halfPast(86 * 24 - 1)).length;
  // 1.4826 times a median of 2, six times.
  const bound = 6 * 1.4826 * 2;

  it("six robust standard deviations of the changes over the same two hours", () => {
    expect([found(() => 1, bound - 0.001), found(() => 1, bound + 0.001)]).toEqual([0, 1]);
    expect([found(() => 1, -bound + 0.001), found(() => 1, -bound - 0.001)]).toEqual([0, 1]);
    // About their median: a rise of 0.1 an hour adds 0.2 to every change over two hours, to the jump's too.
    expect([found(() => 1, bound - 0.2 - 0.001, 0.1), found(() => 1, bound - 0.2 + 0.001, 0.1)]).toEqual([0, 1]);
  });

  it("within 25 days on either side of its ten days, from day 55 to day 115, and not of the rest", () => {
    const rough = (from: number, to: number) => (day: number): number => (day >= from && day < to ? 10 : 1);
    expect(found((day) => 11 - rough(55, 115)(day), bound + 0.01)).toBe(1);
    // Rough on most of its days on one side or the other: no jump of that size stands out.
    for (const [from, to] of [[55, 88], [84, 115]]) expect([found(rough(from, to), bound + 0.01), found(rough(from, to), 10 * bound + 1)]).toEqual([0, 1]);
  });

  it("a told event stays where the changes beside it are those of every day: under four deviations", () => {
    for (const at of [30, 60.5]) expect(jumpsOf(hours(180 * 24, pattern(() => 1, 0)), [at * 86_400]).map((j) => j.at)).toEqual([at * 86_400]);
  });

  it("never below half the plain standard deviation: two days in five are rough, the others still", () => {
    const scale = (day: number): number => (day % 10 < 4 ? 1 : 0);
    // 24 of 60 days with changes over two hours of ±2, of ±1 from and to still days, and the jump itself.
    const values = hours(180 * 24, pattern(scale, 0));
    const changes = (jump: number): number[] => Array.from({ length: 60 * 24 }, (_, i) => 55 * 24 + i).map((i) => values[i] - values[i - 2] + (i === 86 * 24 || i === 86 * 24 + 1 ? jump : 0));
    const spread = (jump: number): number => {
      const all = changes(jump);
      return 0.5 * Math.sqrt(all.reduce((sum, d) => sum + d * d, 0) / all.length);
    };
    let jump = 1;
    while (jump < 6 * spread(jump)) jump += 0.001;
    expect([found(scale, jump - 0.01), found(scale, jump + 0.01)]).toEqual([0, 1]);
    expect([found(scale, jump - 0.2 - 0.01, 0.1), found(scale, jump - 0.2 + 0.01, 0.1)]).toEqual([0, 1]);
  });
});

describe("straightReadings, to the reading", () => {
  /**
   * Hourly readings on lines between every other one. Of the hours 2, 4 … 200 so many bend; so many of the hours between, 1, 3 … 199,
   * lie off their line. The readings end with hour 201.
   */
  const lined = (bends: number, off: number, last = 201): number[] => {
    const values: number[] = [];
    let [level, slope] = [0, 1];
    for (let h = 0; h <= last; h++) {
      values.push(level);
      if (h % 2 === 0 && h > 0 && h / 2 <= bends) slope = -slope;
      level += slope;
    }
    for (let k = 0; k < off; k++) values[2 * k + 1] += 5;
    return values;
  };
  const spacingOf = (values: readonly number[]): number | undefined => straightReadings(readingsOf(values))?.spacing;

  it("95 in 100 of the inner readings lie on their lines, 80 in 100 of the ends at most", () => {
    expect([spacingOf(lined(100, 5)), spacingOf(lined(100, 6))]).toEqual([7200, undefined]);
    expect([spacingOf(lined(20, 0)), spacingOf(lined(19, 0))]).toEqual([7200, undefined]);
    expect(spacingOf(lined(0, 0))).toBe(undefined);
  });

  it("needs 60 readings", () => {
    expect([spacingOf(lined(100, 0, 59)), spacingOf(lined(100, 0, 58))]).toEqual([7200, undefined]);
  });

  it("sees twelve readings of every place: six days for lines of twelve hours, else those of three hours tell it", () => {
    const truth = [3, 9, 1, 8, 2, 7, 4, 6, 0, 9, 5, 8, 1, 7];
    const twelve = (n: number): number[] => hours(n, (h) => truth[Math.floor(h / 12)] + ((truth[Math.floor(h / 12) + 1] - truth[Math.floor(h / 12)]) * (h % 12)) / 12);
    expect([spacingOf(twelve(146)), spacingOf(twelve(145))]).toEqual([43_200, 10_800]); // of ends every six hours every other one is straight, more than 40 in 100
  });

  it("hands on the ends alone, wherever the record begins", () => {
    for (const from of [0, 60, 17 * 60 + 30]) {
      const all = readingsOf(lined(100, 0), 60, from);
      const { readings, spacing } = straightReadings({ ...all, leftOut: 7 })!;
      expect(spacing).toBe(7200);
      expect(Array.from(readings.seconds)).toEqual(hours(101, (k) => 60 * from + 7200 * k));
      expect(Array.from(readings.values)).toEqual(hours(101, (k) => all.values[2 * k]));
      expect(readings).toMatchObject({ leftOut: 7 + 101, spacing: 7200, midnight: start });
    }
  });

  it("counts places from the midnight, and what is missing is neither straight nor bent", () => {
    // Every 10 minutes on lines between readings every 3 hours, from 05:00 on; one in nine missing.
    const truth = hours(40, (k) => Math.round(1000 * Math.sin(k * k)) / 100);
    const all = hours(38 * 18, (i) => truth[Math.floor(i / 18)] + ((truth[Math.floor(i / 18) + 1] - truth[Math.floor(i / 18)]) * (i % 18)) / 18);
    for (const holes of [false, true]) {
      const found = straightReadings(readingsOf(all.map((v, i) => (holes && i % 90 === 7 ? Number.NaN : v)), 10, 300));
      expect(found?.spacing).toBe(10_800);
      expect(Array.from(found!.readings.seconds)).toEqual(hours(38, (k) => 5 * 3600 + 10_800 * k));
    }
    expect(spacingOf(lined(100, 0).map((v, h) => (h % 30 === 11 ? Number.NaN : v)))).toBe(7200);
  });

  it("readings all at one instant lie on no lines", () => {
    expect(straightReadings({ midnight: start, seconds: new Float64Array(100), values: Float64Array.from({ length: 100 }, (_, i) => i), leftOut: 0, spacing: 0 })).toBe(null);
  });
});

describe("usableReadings, to the reading", () => {
  it("keeps its instants from a midnight before the first usable one, and the usual spacing", () => {
    const found = usableReadings(series({ times: [23, 25, 26, 27, 30].map((h) => start + 3_600_000 * h), values: [Number.NaN, 1, 2, 3, 4], quantity: "surface_air_pressure" }));
    expect(found).toEqual({ midnight: start + 86_400_000, seconds: Float64Array.of(3600, 7200, 10_800, 21_600), values: Float64Array.of(1, 2, 3, 4), leftOut: 1, spacing: 3600 });
    expectClose(observedDays(found), 4 / 24, { absolute: 1e-12 });
    // Two readings a minute apart cover two minutes; three in a minute no more than their span and one step.
    expectClose(observedDays({ ...found, seconds: Float64Array.of(0, 10, 60), spacing: 50 }), 110 / 86_400, { absolute: 1e-12 });
    expectClose(observedDays({ ...found, seconds: Float64Array.of(30, 35, 40), spacing: 10 }), 20 / 86_400, { absolute: 1e-12 });
    expect(usableReadings(series({ times: [start + 5], values: [Number.NaN], quantity: "surface_air_pressure" }))).toMatchObject({ midnight: start + 5, leftOut: 1, spacing: 0 });
  });
});
