import { describe, expect, it } from "vitest";
import { leftAlone } from "../../../lib/indoors/leftAlone.js";
import { roomFilter } from "../../../lib/indoors/roomFilter.js";
import { type InventedRoom, inventedRoom, roomPlans } from "../../simulation/indoorsRoom.js";
import { madeOutside } from "./madeRecord.js";

/** An invented room, held at 20 °C from one day to another. */
function room(days: number, held: readonly [number, number] | null, plan = roomPlans.middle): InventedRoom {
  const { inside, outside } = inventedRoom(plan, days, 31_007);
  if (held === null) return { inside, outside };
  return { inside: inside.map((v, h) => (h >= 24 * held[0] && h < 24 * held[1] && !Number.isNaN(v) ? 20 + 0.1 * Math.sin(h * h) : v)), outside };
}

describe("leftAlone", () => {
  it("finds the summer of a house that is heated for the first half, a week inside it", () => {
    const { inside, outside } = room(120, [0, 60]);
    const found = leftAlone(Object.freeze(Array.from(inside)), Object.freeze(Array.from(outside)));
    expect(found?.spans).toHaveLength(1);
    const [{ from, to }] = found?.spans ?? [{ from: 0, to: 0 }];
    expect(from / 24).toBeGreaterThanOrEqual(60);
    expect(from / 24).toBeLessThanOrEqual(74);
    expect(to).toBe(inside.length);
    expect(found?.hours).toHaveLength(inside.length);
    for (let h = 0; h < inside.length; h++) expect(found?.hours[h], `hour ${h}`).toBe(h >= from && !Number.isNaN(inside[h]) && !Number.isNaN(outside[h]) ? 1 : 0);
    expect(found?.days).toBe((found?.hours.reduce((a, b) => a + b, 0) ?? 0) / 24);
  });

  it("finds both ends of a winter in the middle", () => {
    const { inside, outside } = room(150, [50, 100]);
    const spans = (leftAlone(inside, outside)?.spans ?? []).map(({ from, to }) => [from / 24, to / 24]);
    expect(spans).toHaveLength(2);
    expect(spans[0][0]).toBe(0);
    expect(spans[0][1]).toBeLessThanOrEqual(50);
    expect(spans[1][0]).toBeGreaterThanOrEqual(100);
    expect(spans[1][1]).toBe(150);
  });

  it.each([
    ["left alone all the time", room(120, null)],
    ["held all the time", room(120, [0, 120])],
    ["held for two weeks", room(120, [40, 54])],
    ["left alone for two weeks", room(90, [0, 76])],
    ["of 30 h, left alone all the time", room(120, null, roomPlans.slow)],
    ["of two nodes, left alone all the time", room(240, null, roomPlans.twoNodes)],
    ["seen for five days", room(5, null)],
    ["without a reading", { inside: new Float64Array(2400).fill(Number.NaN), outside: new Float64Array(2400) }],
    ["that never changes, in air that does", { inside: new Float64Array(2400).fill(20), outside: room(100, null).outside }],
    ["that never changes, nor the air", { inside: new Float64Array(2400), outside: new Float64Array(2400) }],
    ["of no hours", { inside: new Float64Array(0), outside: new Float64Array(0) }],
  ])("does not divide a room %s", (_, { inside, outside }) => {
    expect(leftAlone(inside, outside)).toBeNull();
  });

  it("needs 21 days held and 20 left alone, a week beside each held stretch taken off", () => {
    /** Days held from the first on, of a room seen for so many days without a gap. */
    const days = (all: number, held: number): number | undefined => {
      const { inside, outside } = inventedRoom(roomPlans.middle, all, 31_008, { isGappy: false });
      return leftAlone(inside.map((v, h) => (h < 24 * held ? 20 + 0.1 * Math.sin(h * h) : v)), outside)?.days;
    };
    // Looks begin every 7 days: of 28 days held the last look in them ends on day 28, the rest begins on day 35.
    expect(days(70, 28)).toBe(35);
    expect(days(70, 29)).toBe(35);
    expect(days(69, 28)).toBe(34);
    expect(days(55, 28)).toBe(20);
    expect(days(54, 28)).toBeUndefined();
    expect(days(70, 21)).toBe(42);
    expect(days(70, 20)).toBeUndefined();
  });

  it("takes off a week on both sides, and no stretch under two weeks", () => {
    const { inside, outside } = inventedRoom(roomPlans.middle, 168, 31_009, { isGappy: false });
    const held = (stretches: readonly (readonly [number, number])[]): unknown =>
      leftAlone(inside.map((v, h) => (stretches.some(([a, b]) => h >= 24 * a && h < 24 * b) ? 20 + 0.1 * Math.sin(h * h) : v)), outside)?.spans.map(({ from, to }) => [from / 24, to / 24]);
    expect(held([[0, 28], [56, 84]])).toEqual([[35, 49], [91, 168]]);
    expect(held([[0, 28], [49, 84]])).toEqual([[91, 168]]);
    expect(held([[140, 168]])).toEqual([[0, 133]]);
  });

  describe("each condition by itself, in made air", () => {
    const days = 120;
    const [outside, other] = [madeOutside(24 * days, 71), madeOutside(24 * days, 72)];
    const spansOf = (inside: Float64Array, air = outside): number[][] | undefined => leftAlone(inside, air)?.spans.map(({ from, to }) => [from / 24, to / 24]);
    /** From within two weeks of day 60 to the end: looks begin every week, and a week is taken off. */
    const expectSecondHalf = (spans: number[][] | undefined): void => {
      expect(spans).toHaveLength(1);
      expect(spans?.[0][0]).toBeGreaterThanOrEqual(60);
      expect(spans?.[0][0]).toBeLessThanOrEqual(74);
      expect(spans?.[0][1]).toBe(120);
    };
    /** The first sixty days of one, the rest of another. */
    const joined = (first: Float64Array, rest: Float64Array): Float64Array => rest.map((v, h) => (h < 24 * 60 ? first[h] : v));
    const about = (values: Float64Array, share: number): Float64Array => values.map((v) => 20 + share * (v - 10));
    const quick = roomFilter(outside, 12);

    it("divides a house that moves with strangers, a third as much, from days on which it follows; not one that moves two thirds as much", () => {
      expectSecondHalf(spansOf(joined(about(roomFilter(other, 12), 0.25), quick)));
      expect(spansOf(joined(about(roomFilter(other, 12), 0.75), quick))).toBe(undefined);
    });

    it("does not divide a house that follows slowly first and quickly later: both are answers", () => {
      expect(spansOf(joined(roomFilter(outside, 120), roomFilter(outside, 3)))).toBe(undefined);
    });

    it("does not divide where the rest follows something else than the air outside", () => {
      expect(spansOf(joined(about(other, 0.02), roomFilter(other, 12)))).toBe(undefined);
    });

    it("judges by the air outside: a held house in rough weather may move as much as one left alone in calm", () => {
      const calm = outside.map((v, h) => (h < 24 * 60 ? v : 10 + 0.2 * (v - 10)));
      expectSecondHalf(spansOf(joined(about(roomFilter(other, 12), 0.2), roomFilter(calm, 12)), calm));
    });

    it("divides a slow house, and keeps the hours of a last day that is not whole", () => {
      const slow = roomFilter(outside, 60);
      expectSecondHalf(spansOf(joined(about(other, 0.004), slow)));
      const part = (values: Float64Array): Float64Array => values.subarray(0, 24 * 119 + 5);
      const found = leftAlone(part(joined(about(other, 0.01), quick)), part(outside));
      expect(found?.spans.at(-1)?.to).toBe(24 * 119 + 5);
      expect(found?.hours.at(-1)).toBe(1);
    });
  });

  it("refuses lengths that differ and values without end", () => {
    expect(() => leftAlone([1, 2], [1])).toThrow(/^leftAlone: outside must have the length of inside, 2 h \(got 1 h\)/);
    expect(() => leftAlone([1, Infinity], [1, 2])).toThrow(RangeError);
  });
});
