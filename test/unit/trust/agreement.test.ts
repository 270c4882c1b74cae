import { describe, expect, it } from "vitest";
import { random } from "../../../lib/ground/random.js";
import type { AirRecord, PlaceRecord } from "../../../lib/record/airRecord.js";
import { flagBit } from "../../../lib/record/flag.js";
import { series } from "../../../lib/record/series.js";
import { agreement, agreementOf } from "../../../lib/trust/agreement.js";
import { expectClose } from "../../close.js";
import { redNoise } from "../../simulation/inventedHouse.js";

const start = Date.UTC(2024, 0, 1);
const hour = 3600000;

/** Two places whose sensors differ by a bias and a wander of 0.1 (memory 4 h); pressure may drift and jump. */
function twoPlaces(seed: number, days: number, { together = 48, step = 600, driftPerYear = 0, jumpAt = Number.POSITIVE_INFINITY } = {}): AirRecord {
  const dice = random(seed);
  const n = Math.round((days * 86400) / step);
  const times = Array.from({ length: n }, (_, i) => start + 1000 * step * i);
  const air = redNoise(dice, n, step / 3600, 30, 3);
  const wander = redNoise(dice, n, step / 3600, 4, 0.1);
  const isTogether = (i: number): boolean => times[i] < start + together * hour;
  const place = (name: string, sign: number): PlaceRecord => {
    const t = series({ times, values: times.map((_, i) => 15 + air[i] + (sign > 0 ? (isTogether(i) ? 0.4 : 3) + wander[i] : 0) + 0.05 * dice.normal()), quantity: "air_temperature", place: name });
    const shift = (i: number): number => (sign > 0 ? -0.6 + (driftPerYear * i * step) / 86400 / 365.25 + (times[i] >= jumpAt ? 1.4 : 0) : 0);
    const p = series({ times, values: times.map((_, i) => 860 + 3 * air[i] + shift(i) + 0.3 * wander[i] * Math.max(0, sign) + 0.04 * dice.normal()), quantity: "surface_air_pressure", place: name, flags: times.map((at) => (sign > 0 && at >= jumpAt ? flagBit.step : 0)) });
    return { name, title: name, exposure: null, elevation: null, readings: n, repeated: 0, conflicting: 0, start, seconds: t.seconds, series: { air_temperature: t, surface_air_pressure: p } };
  };
  const to = times[n - 1];
  return {
    name: "x", title: "x", site: null, zone: "Z", places: { a: place("a", 1), b: place("b", -1) },
    events: [{ at: start, to: start + together * hour, kind: "co-location", title: "one table" }],
    files: [], jumps: [], zoneChanges: [], corrections: 0, averagedOver: 0, from: start, to, notes: [],
  };
}

describe("agreementOf", () => {
  it("two barometers that wander for ten days on end: the bias holds as it says (40 seeds, 200 d), and a span of few days is looked at by hours", () => {
    const days = 200;
    const times = Array.from({ length: 24 * days }, (_, h) => start + h * hour);
    const pair = (seed: number, isThere: (h: number) => boolean) => {
      const dice = random(9000 + seed);
      let slow = 0;
      const differences = times.map((_, h) => {
        if (h % 24 === 0) slow = 0.905 * slow + 0.425 * 0.2 * dice.normal();
        return isThere(h) ? 0.7 + slow + 0.05 * dice.normal() : Number.NaN;
      });
      const of = (place: string, values: ArrayLike<number>) => series({ times, values, quantity: "surface_air_pressure", place });
      return agreement(of("a", differences.map((d) => 1000 + d)), of("b", times.map(() => 1000)), "pressure");
    };
    const held = Array.from({ length: 40 }, (_, seed) => pair(seed, () => true)?.bias).filter((b) => b !== undefined && b.low <= 0.7 && b.high >= 0.7).length;
    expect(held).toBeGreaterThanOrEqual(34);
    expect(pair(1, (h) => h < 10 || h > 24 * 190)?.hours).toBe(10 + 24 * 10 - 1);
    expect(pair(1, (h) => h < 10 || h > 24 * 198)?.bias.unit).toBe("hPa");
  });

  it("gives the bias of each quantity side by side, in K for temperature, and pressure over the whole record", () => {
    const found = agreementOf(twoPlaces(1, 20));
    expect(found.map(({ quantity, basis, bias }) => `${quantity} ${basis} ${bias.unit}`)).toEqual([
      "air_temperature co-location K",
      "surface_air_pressure co-location hPa",
      "surface_air_pressure pressure hPa",
    ]);
    expectClose(found[0].bias.value, 0.4, { absolute: 0.1 }, "three standard errors of 48 h with a wander of 0.1 K and 4 h");
    expectClose(found[2].bias.value, -0.6, { absolute: 0.03 }, "pressure");
    expect(found[0].hours).toBe(48);
    expect(found[0].drift).toBeNull();
  });

  it("covers the truth and later readings as it says (60 seeds, 48 h, memory 4 h)", () => {
    let held = 0;
    let later = 0;
    let all = 0;
    for (let seed = 1; seed <= 60; seed++) {
      const record = twoPlaces(700 + seed, 4);
      const [t] = agreementOf(record);
      if (t.bias.low <= 0.4 && 0.4 <= t.bias.high) held++;
      const p = agreementOf(record)[1];
      const [a, b] = ["a", "b"].map((name) => record.places[name].series.surface_air_pressure);
      for (let i = 288; i < (a?.values.length ?? 0); i++) {
        const d = (a?.values[i] ?? 0) - (b?.values[i] ?? 0);
        all++;
        if (d >= p.limits.low && d <= p.limits.high) later++;
      }
    }
    // 95 % of 60 with a two-sigma error of 5.6 %, both sides.
    expect(held).toBeGreaterThanOrEqual(52);
    expectClose(later / all, 0.95, { absolute: 0.03 }, "share of later single differences within the limits");
  });

  it("leaves a shifted level out of the bias", () => {
    const found = agreementOf(twoPlaces(2, 40, { jumpAt: start + 20 * 24 * hour }));
    expectClose(found[2].bias.value, -0.6, { absolute: 0.03 }, "the jump of 1.4 hPa is no bias");
  });

  it("tells a drift from 90 days on", () => {
    const [, , pressure] = agreementOf(twoPlaces(3, 120, { step: 3600, driftPerYear: 1.5 }));
    expect(pressure.drift?.unit).toBe("hPa year-1");
    expect((pressure.drift?.low ?? 9) <= 1.5 && 1.5 <= (pressure.drift?.high ?? -9)).toBe(true);
    expect(pressure.drift?.low ?? -1).toBeGreaterThan(0);
    expect(agreementOf(twoPlaces(3, 80, { step: 3600 }))[2].drift).toBeNull();
  });

  it("warns under 24 hours, says nothing under 6, nor where the event lies in a gap", () => {
    expect(agreementOf(twoPlaces(4, 10, { together: 12 }))[0].warnings[0]).toBe("only 12 h with both sensors: leave them together for at least 24 h, better 48 h");
    expect(agreementOf(twoPlaces(4, 10, { together: 5 })).map(({ basis }) => basis)).toEqual(["pressure"]);
    const away = twoPlaces(5, 10);
    expect(agreementOf({ ...away, events: [{ at: start - 90 * hour, to: start - 40 * hour, kind: "co-location", title: "before" }] }).length).toBe(1);
  });
});
