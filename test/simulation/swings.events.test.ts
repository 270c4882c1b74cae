import { describe, expect, it } from "vitest";
import { dayToDayTide } from "../../lib/cycles/swings/dayToDayTide.js";
import { type SwingBand, swingBand } from "../../lib/cycles/swings/swingBand.js";
import { type SwingEvent, swingEvents } from "../../lib/cycles/swings/swingEvents.js";
import { judge, middleLatitude, percent, printed, runs, slack, tropics, weatherHours, withGaps } from "./inventedWeather.js";

const records = runs(300);
const days = 90;
const margin = 24 * 20;
const hour = 3_600_000;
/** Found means the same kind within so many hours. */
const near = 12;

/** The true band: that of an endless clean record, cut to the days of the log. */
function truth(long: Float64Array): SwingBand {
  const whole = swingBand(long);
  const cut = (a: Float64Array): Float64Array => a.slice(margin, margin + 24 * days);
  const none: Float64Array = new Float64Array(24 * days);
  return { ...whole, first: 0, hours: 24 * days, band: cut(whole.band), slow: cut(whole.slow), rest: none, standardError: none, dailyError: 0, isReal: new Uint8Array(24 * days).fill(1) };
}

describe("lows and highs over seeded weather: 90 d, four gaps of 18 h, a wobbling S1 and a wrong S2 left in", () => {
  it("found, missed, invented, and the intervals", () => {
    const counts: (string | number)[][] = [["weather", "true", "found %", "of the missed: in a gap, within 15 % of the threshold", "found of the rest %", "invented %", "time rms h", "95 % h", "depth rms", "depth rms / σ"]];
    const covers: (string | number)[][] = [["weather", "where", "events", "depth %", "time %", "duration %", "time rms h", "duration rms h"]];
    const shares: [what: string, share: number, low: number, high: number][] = [];
    for (const weather of [middleLatitude, tropics]) {
      const { normal, integer, uniform } = judge(7_530_000 + (weather === tropics ? 1 : 0));
      const at = { inside: [] as [SwingEvent, SwingEvent][], end: [] as [SwingEvent, SwingEvent][] };
      let [all, found, told, invented, sigma, inGap, slight] = [0, 0, 0, 0, 0, 0, 0];
      for (let i = 0; i < records; i++) {
        const long = weatherHours(weather, 24 * days + 2 * margin, normal);
        const real = truth(long);
        const expected = swingEvents(real, 0);
        const phase = 2 * Math.PI * uniform();
        let [a, b] = [0, 0];
        const logged = long.slice(margin, margin + 24 * days).map((v, h) => {
          if (h % 24 === 0) [a, b] = [0.15 * normal(), 0.15 * normal()];
          const angle = (2 * Math.PI * h) / 24;
          return v + 0.05 * normal() + (a * Math.cos(angle) + b * Math.sin(angle)) / Math.SQRT2 + 0.05 * Math.cos(2 * angle + phase);
        });
        const hours = withGaps(logged, 4, 18, integer);
        const got = swingEvents(swingBand(hours, { noise: 0.05, dayToDay: dayToDayTide(hours) ?? 0 }), 0);
        sigma += real.sigma / records;
        all += expected.length;
        told += got.length;
        const match = (e: SwingEvent, list: readonly SwingEvent[]): SwingEvent | undefined =>
          list.filter((o) => o.kind === e.kind && Math.abs(o.at - e.at) <= near * hour).sort((p, q) => Math.abs(p.at - e.at) - Math.abs(q.at - e.at))[0];
        for (const e of expected) {
          if (match(e, got) !== undefined) found++;
          else if ([-1, 0, 1].some((k) => Number.isNaN(hours[Math.round(e.at / hour) + k]))) inGap++;
          else if (e.prominence < 1.15 * real.sigma) slight++;
        }
        for (const e of got) {
          const partner = match(e, expected);
          if (partner === undefined) invented++;
          else at[Math.min(e.at / hour, 24 * days - e.at / hour) < 72 ? "end" : "inside"].push([e, partner]);
        }
      }
      const rms = (list: readonly number[]): number => Math.sqrt(list.reduce((s, v) => s + v * v, 0) / list.length);
      const times = at.inside.map(([e, p]) => (e.at - p.at) / hour);
      const sorted = times.map(Math.abs).sort((p, q) => p - q);
      const depths = at.inside.map(([e, p]) => e.depth.value - p.depth.value);
      counts.push([weather.name, all, percent(found, all), `${all - found}: ${inGap}, ${slight}`, percent(found, all - inGap - slight), percent(invented, told), rms(times).toFixed(2), sorted[Math.floor(0.95 * sorted.length)].toFixed(1), rms(depths).toFixed(3), (rms(depths) / sigma).toFixed(3)]);
      for (const [place, pairs] of [["inside", at.inside], ["within 3 d of an end", at.end]] as const) {
        const depth = pairs.filter(([e, p]) => e.depth.low <= p.depth.value && p.depth.value <= e.depth.high).length;
        const time = pairs.filter(([e, p]) => Math.abs(e.at - p.at) / hour <= 1.96 * e.atStandardError).length;
        const both = pairs.filter(([e, p]) => e.durationHours !== null && p.durationHours !== null);
        const duration = both.filter(([e, p]) => (e.durationHours?.low ?? 0) <= (p.durationHours?.value ?? 0) && (p.durationHours?.value ?? 0) <= (e.durationHours?.high ?? 0)).length;
        covers.push([
          weather.name, place, pairs.length, percent(depth, pairs.length), percent(time, pairs.length), percent(duration, both.length),
          rms(pairs.map(([e, p]) => (e.at - p.at) / hour)).toFixed(2), rms(both.map(([e, p]) => (e.durationHours?.value ?? 0) - (p.durationHours?.value ?? 0))).toFixed(1),
        ]);
        if (place === "inside") shares.push([`${weather.name}: depth`, depth / pairs.length, 0.93 - slack(pairs.length), 1]);
      }
      shares.push([`${weather.name}: found`, found / all, 0.92 - slack(all), 1], [`${weather.name}: found of what is clear`, found / (all - inGap - slight), 0.97 - slack(all), 1], [`${weather.name}: invented`, invented / told, 0, 0.05 + slack(told)]);
    }
    printed(`${records} records a weather, seeds from 7530000`, counts);
    printed("95 % intervals of matched events", covers);
    for (const [what, share, low, high] of shares) expect(share >= low && share <= high, `${what} ${share}`).toBe(true);
  });
});
