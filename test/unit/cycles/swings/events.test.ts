import { describe, expect, it } from "vitest";
import { prominentPeaks } from "../../../../lib/cycles/swings/prominentPeak.js";
import { type SwingBand, swingBand } from "../../../../lib/cycles/swings/swingBand.js";
import { swingEvents } from "../../../../lib/cycles/swings/swingEvents.js";
import { expectClose } from "../../../close.js";
import { inventedPressure } from "./inventedPressure.js";

/** Forty days at 1010 hPa with one bell of pressure, and small waves so that σ is not the bell's alone. */
function bell(hour: number, depth: number, days = 40): Float64Array {
  return Float64Array.from({ length: 24 * days }, (_, i) => 1010 - depth * Math.exp(-(((i - hour) / 24) ** 2)) + 0.2 * Math.sin((2 * Math.PI * i) / 120));
}

describe("prominentPeaks", () => {
  it("takes the middle of a plateau and no end point", () => {
    expect(prominentPeaks(Float64Array.of(5, 1, 3, 3, 3, 1, 9))).toEqual([{ index: 3, prominence: 2, saddle: 1 }]);
    expect(prominentPeaks(Float64Array.of(1, 2, 3))).toEqual([]);
    expect(prominentPeaks(new Float64Array(0))).toEqual([]);
    expect(prominentPeaks(Float64Array.of(1, 2, 2))).toEqual([]);
  });

  it("measures to the higher saddle, past lower neighbors and to the record's end", () => {
    const got = prominentPeaks(Float64Array.of(0, 4, 2, 3, 1, 6, 5.5, 5.7, -1));
    expect(got.map(({ index, prominence }) => [index, Number(prominence.toFixed(9))])).toEqual([[1, 3], [3, 1], [5, 6], [7, 0.2]]);
  });
});

describe("swingEvents", () => {
  const start = Date.UTC(2024, 2, 1);

  it("finds a planted low at its hour", () => {
    const events = swingEvents(swingBand(bell(480, 20)), start);
    const lows = events.filter((e) => e.kind === "low");
    expect(lows.length).toBe(1);
    expectClose((lows[0].at - start) / 3_600_000, 480, { absolute: 0.5 }, "hour");
    expect(lows[0].depth.value).toBeGreaterThan(10);
    expect(lows[0].depth.low).toBeLessThan(lows[0].depth.value);
    // Half depth of the bell itself: 24·2·√ln 2 = 40 h; the slow background lifts it a little.
    expectClose(lows[0].durationHours?.value ?? Number.NaN, 38, { absolute: 6 }, "duration");
    expect(lows[0].warnings).toEqual([]);
  });

  it("a missing beginning moves no instant", () => {
    const hours = bell(480, 20, 41);
    const shifted = Float64Array.from({ length: hours.length + 30 }, (_, i) => (i < 30 ? Number.NaN : hours[i - 30]));
    const a = swingEvents(swingBand(hours), start);
    const b = swingEvents(swingBand(shifted), start - 30 * 3_600_000);
    expect(b).toEqual(a);
  });

  it("lows and highs change places when the pressure is turned over", () => {
    const hours = inventedPressure(60, 31);
    const up = swingEvents(swingBand(hours), start);
    const down = swingEvents(swingBand(hours.map((v) => 2000 - v)), start);
    expect(down.map((e) => e.kind)).toEqual(up.map((e) => (e.kind === "low" ? "high" : "low")));
    expect(up.length).toBeGreaterThan(8);
    down.forEach((e, i) => {
      expectClose(e.depth.value, up[i].depth.value, { absolute: 1e-8 });
      expect(Math.abs(e.at - up[i].at)).toBeLessThan(2);
    });
  });

  it("is silent inside a gap over 12 h, and speaks in one of 12 h", () => {
    for (const [hours, count] of [[13, 0], [12, 1]] as const) {
      const values = bell(480, 20);
      const whole = swingBand(values);
      const top = whole.band.indexOf(Math.min(...whole.band));
      // The extreme of the bridged record stays inside: the bridge is flat across the bottom.
      values.fill(Number.NaN, top - 6, top - 6 + hours);
      const found = swingEvents(swingBand(values), 0).filter((e) => e.kind === "low" && e.depth.value > 8);
      expect(found.length, `${hours} h`).toBe(count);
    }
  });

  it("warns near an end and gives no duration past it", () => {
    const near = swingEvents(swingBand(bell(30, 20)), 0).find((e) => e.kind === "low");
    expect(near?.warnings).toEqual(["near an end of the record"]);
    const cut = swingEvents(swingBand(bell(12, 20)), 0).filter((e) => e.kind === "low" && e.at < 48 * 3_600_000);
    expect(cut.length).toBe(1);
    expect(cut[0].durationHours).toBeNull();
  });

  it("near is 1.5 days, of the extreme or of its saddle", () => {
    /** A band drawn by hand: straight lines between corners of hour and height. */
    const drawn = (corners: [hour: number, height: number][]): SwingBand => {
      const band: Float64Array = new Float64Array(400);
      for (let k = 1; k < corners.length; k++) {
        const [[h0, v0], [h1, v1]] = [corners[k - 1], corners[k]];
        for (let h = h0; h <= Math.min(h1, 399); h++) band[h] = v0 + ((v1 - v0) * (h - h0)) / (h1 - h0);
      }
      const none: Float64Array = new Float64Array(400);
      return { first: 0, hours: 400, band, standardError: none, dailyError: 0, slow: none, rest: none, isReal: new Uint8Array(400).fill(1), sigma: 1, shortestDays: 2, longestDays: 15, slowBy: "15-day filter" };
    };
    const warnings = (top: number, saddle: number): readonly string[] | undefined =>
      swingEvents(drawn([[0, -9], [top, 5], [saddle, 1], [saddle + 40, 9], [400, -9]]), 0).find((e) => e.kind === "high" && Math.abs(e.at / 3_600_000 - top) < 2)?.warnings;
    expect(warnings(35, 100)).toEqual(["near an end of the record"]);
    expect(warnings(36, 100)).toEqual([]);
    // The same lying the other way round: the saddle near the end, the extreme not.
    const late = swingEvents(drawn([[0, -9], [150, 9], [300, -3], [340, 5], [365, 1], [399, 9]]), 0).find((e) => e.kind === "high" && e.at > 300 * 3_600_000);
    expect(late?.warnings).toEqual(["near an end of the record"]);
    expect(swingEvents(drawn([[0, -9], [150, 9], [300, -3], [340, 5], [363, 1], [399, 9]]), 0).find((e) => e.kind === "high" && e.at > 300 * 3_600_000)?.warnings).toEqual([]);
  });

  it("a daily tide that differs from day to day widens depth and time", () => {
    const hours = inventedPressure(60, 34);
    const plain = swingBand(hours);
    const uneven = swingBand(hours, { dayToDay: 4 });
    expectClose(uneven.dailyError, 0.45 * 2, { absolute: 1e-12 });
    uneven.standardError.forEach((v, i) => {
      expectClose(v, Math.hypot(plain.standardError[i], 0.9), { relative: 1e-12 });
    });
    const [a, b] = [plain, uneven].map((swings) => swingEvents(swings, 0).find((e) => e.at > 20 * 86_400_000 && e.at < 40 * 86_400_000 && e.prominence > 10));
    expect(b?.at).toBe(a?.at);
    expect(b?.atStandardError ?? 0).toBeGreaterThan(2 * (a?.atStandardError ?? 9));
  });

  it("asks for a prominence of one standard deviation", () => {
    const swings = swingBand(inventedPressure(90, 33));
    for (const e of swingEvents(swings, 0)) {
      expect(e.prominence).toBeGreaterThanOrEqual(swings.sigma);
      expect(e.prominence).toBeGreaterThanOrEqual(3 * e.depth.standardError * (1 - 1e-12));
      expect(e.depth.value).toBeGreaterThan(0);
      expect(e.atStandardError).toBeGreaterThanOrEqual(0.5);
    }
  });

  it("finds nothing in a constant", () => expect(swingEvents(swingBand(new Float64Array(24 * 40).fill(1000)), 0)).toEqual([]));
});
