import { describe, expect, it } from "vitest";
import { sixHourMeans } from "../../lib/cycles/swings/sixHourMeans.js";
import { swingSpectrum } from "../../lib/cycles/swings/swingSpectrum.js";
import { judge, middleLatitude, percent, printed, runs, slack, type Weather, weatherHours } from "./inventedWeather.js";

/** Backgrounds without any cycle; sizes do not matter. */
const backgrounds: readonly Weather[] = [
  { name: "one memory, 2 d", parts: [{ hours: 48, poles: 1, size: 5 }] },
  { name: "one memory, 5 d", parts: [{ hours: 120, poles: 1, size: 5 }] },
  { name: "smoother, 1 d", parts: [{ hours: 24, poles: 2, size: 5 }] },
  { name: "smoother, 2 d", parts: [{ hours: 48, poles: 2, size: 5 }] },
  { name: "smooth 0.8 d + one memory 8 d", parts: [{ hours: 19.2, poles: 2, size: 4 }, { hours: 192, poles: 1, size: 3 }] },
];
const draws = 199;

function sixHourly(weather: Weather, days: number, normal: () => number, integer: (below: number) => number): Float64Array {
  const hours = weatherHours(weather, 24 * days, normal);
  const from = 48 + integer(24 * days - 144);
  hours.fill(Number.NaN, from, from + 48);
  return sixHourMeans(hours);
}

describe("beat test over records without a beat: one gap of 2 d, 199 draws", () => {
  const rows: string[][] = [["true background", "days", "records", "p < 0.05, %", "called significant, %"]];
  for (const [days, records] of [[40, runs(400)], [90, runs(400)], [365, runs(120)]]) {
    for (const [k, weather] of backgrounds.entries()) {
      it(`${weather.name}, ${days} d`, () => {
        const { normal, integer } = judge(7_540_000 + 10 * days + k);
        let below = 0;
        let called = 0;
        for (let i = 0; i < records; i++) {
          const [first] = swingSpectrum(sixHourly(weather, days, normal, integer), normal, { draws }).peaks;
          if (first.pValue < 0.05) below++;
          if (first.significant) called++;
        }
        rows.push([weather.name, `${days}`, `${records}`, percent(below, records), percent(called, records)]);
        // Four sigma above 7 %.
        expect(called / records).toBeLessThan(0.07 + 4 * Math.sqrt((0.07 * 0.93) / records));
      });
    }
  }
  it("three years of storms that are twice as strong in winter", () => {
    const [days, records] = [1096, runs(60)];
    const { normal, integer } = judge(7_548_000);
    let [below, called] = [0, 0];
    for (let i = 0; i < records; i++) {
      const values = sixHourly(middleLatitude, days, normal, integer).map((v, k) => v * (1 + 0.4 * Math.cos((2 * Math.PI * 0.25 * k) / 365.25)));
      const [first] = swingSpectrum(values, normal, { draws }).peaks;
      if (first.pValue < 0.05) below++;
      if (first.significant) called++;
    }
    rows.push(["strong in winter", `${days}`, `${records}`, percent(below, records), percent(called, records)]);
    expect(called / records).toBeLessThan(0.07 + 4 * Math.sqrt((0.07 * 0.93) / records));
  });
  it("table", () => printed("seeds from 7540000", rows));
});

describe("beat test over records with a beat of 5 d", () => {
  it("finds it by its size", () => {
    const rows: string[][] = [["days", "amplitude / σ", "found %", "period rms d", "interval holds, %"]];
    const weather = backgrounds[4];
    for (const [days, records, size] of [[90, runs(150), 0.5], [90, runs(150), 1], [365, runs(40), 0.5]]) {
      const { normal, integer, uniform } = judge(7_550_000 + days + 10 * size);
      let [found, squares, held] = [0, 0, 0];
      for (let i = 0; i < records; i++) {
        const phase = 2 * Math.PI * uniform();
        const values = sixHourly(weather, days, normal, integer).map((v, j) => v + 5 * size * Math.cos((2 * Math.PI * 0.25 * j) / 5 + phase));
        const [first] = swingSpectrum(values, normal, { draws }).peaks;
        if (!first.significant || Math.abs(first.periodDays - 5) > 1.5) continue;
        found++;
        squares += (first.periodDays - 5) ** 2;
        if (first.periodLow <= 5 && 5 <= first.periodHigh) held++;
      }
      rows.push([`${days}`, `${size}`, percent(found, records), Math.sqrt(squares / found).toFixed(2), percent(held, found)]);
      expect(found / records).toBeGreaterThan(size >= 1 || days >= 365 ? 0.95 - slack(records) : 0.35 - 2 * slack(records));
      expect(held / found).toBeGreaterThan(0.9);
    }
    printed("seeds from 7550000", rows);
  });
});
