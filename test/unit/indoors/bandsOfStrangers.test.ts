import { describe, expect, it } from "vitest";
import { random } from "../../../lib/ground/random.js";
import { bandResponse } from "../../../lib/indoors/bandResponse.js";

const turn = (2 * Math.PI) / 24;

/** Air of first order (2.5 d) by steps of five minutes, and a room of 4 h in it, read once an hour. */
function readHourly(seed: number, days: number, noise: number): { readonly inside: Float64Array; readonly outside: Float64Array } {
  const chance = random(seed);
  const [keep, room] = [Math.exp(-1 / (288 * 2.5)), Math.exp(-1 / (12 * 4))];
  let [x, y] = [0, 0];
  const [inside, outside] = [new Float64Array(24 * days), new Float64Array(24 * days)];
  for (let i = -2000; i < 288 * days; i++) {
    const before = x;
    x = keep * x + 3 * Math.sqrt(1 - keep * keep) * chance.normal();
    y = room * y + ((1 - room) * (x + before)) / 2;
    if (i >= 0 && i % 12 === 0) {
      inside[i / 12] = y + noise * chance.normal();
      outside[i / 12] = x + noise * chance.normal();
    }
  }
  return { inside, outside };
}

describe("bands of records as strangers make them", () => {
  it("readings an hour apart fold quick air into the fast bands, and a noisy thermometer fills them: the gain's interval reaches up as far", () => {
    for (const noise of [0.02, 0.3]) {
      let [held, low] = [0, 0];
      for (let seed = 0; seed < 10; seed++) {
        const { inside, outside } = readHourly(40 + seed, 70, noise);
        for (const { cyclesPerDay, gain } of bandResponse(inside, outside).slice(4)) {
          const truth = 1 / Math.hypot(1, turn * cyclesPerDay * 4);
          if (gain !== null && gain.low <= truth && truth <= gain.high) held++;
          if (gain !== null && gain.value < truth) low++;
        }
      }
      // 20 gains; without the floor 4 of the first 20 held.
      expect(low, `noise ${noise}`).toBeGreaterThanOrEqual(15);
      expect(held, `noise ${noise}`).toBeGreaterThanOrEqual(18);
    }
  });

  it("two places that share nothing but the sun do not answer each other at hours: their skew days have a fifth and sixth harmonic", () => {
    const day = (seed: number): Float64Array => {
      const chance = random(seed);
      let slow = 0;
      return Float64Array.from({ length: 24 * 70 }, (_, h) => {
        slow = 0.99 * slow + 0.3 * chance.normal();
        const since = ((h + 9) % 24) / 24;
        return 10 + slow + 4 * Math.exp(-4 * since);
      });
    };
    const fast = Array.from({ length: 10 }, (_, k) => bandResponse(day(100 + k), day(200 + k))[5]);
    expect(fast.filter((b) => b.lagHours !== null).length).toBeLessThanOrEqual(2);
  });

  it("nor where clouds make their days larger and smaller: the frequencies above the day's mirror those below", () => {
    const cloudy = (seed: number): Float64Array => {
      const chance = random(seed);
      let [slow, cloud] = [0, 0];
      return Float64Array.from({ length: 24 * 100 }, (_, h) => {
        slow = 0.99 * slow + 0.25 * chance.normal();
        cloud = 0.98 * cloud + 0.2 * chance.normal();
        return slow + (4 + 1.5 * cloud) * Math.exp(-4 * (((h + 9) % 24) / 24));
      });
    };
    const seen = Array.from({ length: 40 }, (_, k) => bandResponse(cloudy(1000 + k), cloudy(2000 + k)).slice(3).filter((b) => b.lagHours !== null).length).reduce((a, b) => a + b, 0);
    // Of 120 bands by the interval's level 6; here, where little but the days moves quickly, 13, and 29 where all bins count.
    expect(seen).toBeLessThanOrEqual(18);
  });
});
