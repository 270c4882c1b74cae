import { describe, expect, it } from "vitest";
import { tideOfFit } from "../../lib/answers/placeTide.js";
import { dayToDayTide } from "../../lib/cycles/swings/dayToDayTide.js";
import { pressureTendency } from "../../lib/cycles/swings/pressureTendency.js";
import { fitTides } from "../../lib/cycles/tide/fitTides.js";
import { tideAt } from "../../lib/cycles/tide/tideAt.js";
import { series } from "../../lib/record/series.js";
import { judge, middleLatitude, percent, printed, runs, slack, tropics, weatherHours } from "./inventedWeather.js";

const start = Date.UTC(2024, 0, 1);
const hour = 3_600_000;

describe("tide-free tendency of the newest three hours: 95 % intervals", () => {
  it("hold the weather's own change", () => {
    const rows: string[][] = [["weather", "tide S1, S2 hPa", "wobble of S1", "days", "cover %", "rms error", "mean s", "tide fit", "day to day", "reading"]];
    const bounds: [what: string, share: number, low: number][] = [];
    for (const [weather, s1, s2, wobble] of [[tropics, 0.7, 1.2, 0.105], [middleLatitude, 0.18, 0.3, 0.027]] as const) {
      for (const memory of [0, 0.7]) {
        for (const days of [20, 60]) {
          const records = runs(300);
          const { normal, integer, uniform } = judge(7_600_000 + days + (weather === tropics ? 1000 : 0) + 100 * memory);
          let held = 0;
          const sums = { squares: 0, s: 0, tideFit: 0, dayToDay: 0, readings: 0 };
          for (let i = 0; i < records; i++) {
            const n = 24 * days - integer(24);
            const free = weatherHours(weather, n, normal);
            const [p1, p2] = [2 * Math.PI * uniform(), 2 * Math.PI * uniform()];
            let [a, b] = [0, 0];
            // The wave of a day changes at local midnight, whichever hour of UTC that is.
            const midnight = integer(24);
            const values = free.map((v, h) => {
              if (h === 0 || (h + midnight) % 24 === 0) [a, b] = [memory * a, memory * b].map((x) => x + wobble * Math.sqrt((1 - memory * memory) / 2) * normal());
              const w = (2 * Math.PI * h) / 24;
              return 1010 + v + 0.05 * normal() + s1 * Math.cos(w - p1) + s2 * Math.cos(2 * w - p2) + a * Math.cos(w) + b * Math.sin(w);
            });
            const times = Array.from(values, (_, h) => start + hour * h);
            const fit = fitTides(series({ times, values, quantity: "surface_air_pressure" }), { longitude: 0, climatology: false });
            const removed = tideAt(fit, times);
            const tide = tideOfFit(fit);
            const seconds = Float64Array.from(values, (_, h) => 3600 * h);
            const { last } = pressureTendency({ start, seconds, values }, tide, { reading: 0.05, dayToDay: dayToDayTide(values.map((v, h) => v - removed[h])) });
            const truth = free[n - 1] - free[n - 4];
            if (last === null) throw new Error("a record without gaps has a newest tendency");
            if (last.tideFree.low <= truth && truth <= last.tideFree.high) held++;
            sums.squares += (last.tideFree.value - truth) ** 2;
            sums.s += last.tideFree.standardError / records;
            for (const part of ["tideFit", "dayToDay", "readings"] as const) sums[part] += last.errors[part] / records;
          }
          rows.push([
            weather.name, `${s1}, ${s2}`, memory === 0 ? "independent days" : "0.7 a day", `${days}`, percent(held, records),
            Math.sqrt(sums.squares / records).toFixed(3), sums.s.toFixed(3), sums.tideFit.toFixed(3), sums.dayToDay.toFixed(3), sums.readings.toFixed(3),
          ]);
          bounds.push([`${weather.name}, ${days} d, memory ${memory}`, held / records, (memory === 0 && weather === tropics ? 0.82 : 0.9) - slack(records)]);
        }
      }
    }
    printed(`${runs(300)} records a row, hourly readings with 0.05 hPa of noise, tide by fitTides, seeds from 7600000`, rows);
    for (const [what, share, low] of bounds) expect(share, what).toBeGreaterThan(low);
  });
});
