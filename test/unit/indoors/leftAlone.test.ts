import { describe, expect, it } from "vitest";
import { leftAlone } from "../../../lib/indoors/leftAlone.js";
import { type InventedRoom, inventedRoom, roomPlans } from "../../simulation/indoorsRoom.js";

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

  it("refuses lengths that differ and values without end", () => {
    expect(() => leftAlone([1, 2], [1])).toThrow(/^leftAlone: outside must have the length of inside, 2 h \(got 1 h\)/);
    expect(() => leftAlone([1, Infinity], [1, 2])).toThrow(RangeError);
  });
});
