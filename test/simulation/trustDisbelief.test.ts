import { describe, expect, it } from "vitest";
import type { AirRecord } from "../../lib/record/airRecord.js";
import { clockDoubts } from "../../lib/trust/clock/clockDoubts.js";
import { isDrift, sunDrift, unseenDrift } from "../../lib/trust/clock/sunDrift.js";
import { foldOfPlace } from "../../lib/trust/faults/unfoldedWarmth.js";
import { flagRecord } from "../../lib/trust/faults/flagRecord.js";
import { feltTemperature } from "../../lib/trust/feltTemperature.js";
import { lineFindings } from "../../lib/trust/findings/lineFindings.js";
import { plainWords } from "../../lib/trust/findings/finding.js";
import { civilLog, readLog } from "./civilLog.js";
import { disorderedLog, disorders, resets } from "./disorderedLog.js";
import { type HousePlan, inventedHouse, type Readings, recordOf } from "./inventedHouse.js";
import { printed, runs, slack } from "./inventedWeather.js";
import { type SeasonPlan, seasonHouse } from "./seasonHouse.js";

/** What a disbelieving reader plants: the tables of lib/trust/README.md. Building used seeds below 1000; these judge on others. */
const summerSeed = 31001;
const driftSeed = 33001;
const foldSeed = 35001;
const orderSeed = 37001;
const feltSeed = 39001;
const dayMs = 86_400_000;

const stations = [
  { title: "50° N", lat: 50, lon: 10, rule: "Europe/Berlin", off: "+01:00" },
  { title: "40° N", lat: 40, lon: -75, rule: "America/New_York", off: "-05:00" },
  { title: "34° S", lat: -34, lon: 150, rule: "Australia/Sydney", off: "+10:00" },
] as const;
const spans = [
  { title: "a year", days: 365, month: 0 },
  { title: "200 d from February", days: 200, month: 1 },
  { title: "100 d from September", days: 100, month: 8 },
] as const;

const alone = (readings: Readings, { latitude, longitude }: Pick<SeasonPlan, "latitude" | "longitude">): AirRecord => recordOf({ latitude, longitude, elevation: 30 }, { outside: { exposure: "outdoor", readings } });

describe("a civil clock read as a fixed offset", () => {
  it(`is told, and standard time is not accused (seeds ${summerSeed}…)`, async () => {
    const count = runs(40);
    const modes = ["clean", "gappy", "iana", "keeps", "drops", "standard"] as const;
    const rows: (string | number)[][] = [["place, span, step", "records", "accused: clean", "with gaps", "zone right", "told: overlap kept", "overlap dropped", "zone given, clock on standard time"]];
    const all = new Map<string, number>();
    let seed = summerSeed;
    let lines = 0;
    for (const { title, ...station } of stations) {
      for (const span of spans) {
        for (const step of [600, 3600]) {
          const told = await Promise.all(
            modes.map(async (mode) => {
              let n = 0;
              for (let k = 0; k < count; k++) {
                const record = flagRecord(await civilLog(seed + k, { ...station, step, days: span.days, start: Date.UTC(2022 + (k % 3), span.month, 2 + (k % 9)), mode }));
                const isWrong = mode === "keeps" || mode === "drops" || mode === "standard";
                if (clockDoubts(record, []).some(({ kind }) => !isWrong || kind !== "drift")) n++;
              }
              all.set(mode, (all.get(mode) ?? 0) + n);
              return n;
            }),
          );
          seed += count;
          lines++;
          rows.push([`${title}, ${span.title}, ${step / 60} min`, count, ...told]);
        }
      }
    }
    const total = lines * count;
    rows.push(["all", total, ...modes.map((mode) => all.get(mode) ?? 0)]);
    printed("a civil clock read as a fixed offset, and the other way round", rows);
    for (const mode of ["clean", "gappy", "iana"] as const) expect((all.get(mode) ?? 0) / total, mode).toBeLessThan(0.02 + slack(total));
    expect((all.get("keeps") ?? 0) / total).toBeGreaterThan(0.95 - slack(total));
    expect((all.get("drops") ?? 0) / total).toBeGreaterThan(0.8 - slack(total));
  });
});

describe("a lone clock that drifts", () => {
  it(`is told, or the limit that is told instead holds (seeds ${driftSeed}…)`, () => {
    const count = runs(40);
    const rows: (string | number)[][] = [["latitude, days", "gains, s a day", "records", "told", "not told, and beyond the limit that is told", "usual limit, s a day", "min over the record"]];
    let seed = driftSeed;
    let [clean, accused, untold, beyond] = [0, 0, 0, 0];
    for (const latitude of [8, 35, 52]) {
      for (const days of [100, 200, 400]) {
        for (const gain of [0, 10, 30]) {
          let [told, over, limit, minutes, without] = [0, 0, 0, 0, 0];
          for (let k = 0; k < count; k++) {
            const start = Date.UTC(2023, (5 * k) % 12, 4);
            const plan = { days, step: 1800, start, latitude, longitude: 20, clock: (ms: number) => ((ms - start) / dayMs) * gain };
            const drift = sunDrift(flagRecord(alone(seasonHouse(seed + k, plan), plan)));
            if (drift === null) continue;
            if (isDrift(drift)) told++;
            else {
              const unseen = unseenDrift(drift);
              without++;
              limit += unseen.secondsADay;
              minutes += unseen.minutes;
              if (gain > unseen.secondsADay) over++;
            }
          }
          seed += count;
          if (gain === 0) [clean, accused] = [clean + count, accused + told];
          [untold, beyond] = [untold + without, beyond + over];
          rows.push([`${latitude}°, ${days} d`, gain, count, told, `${over} of ${without}`, without === 0 ? "–" : (limit / without).toFixed(1), without === 0 ? "–" : Math.round(minutes / without)]);
        }
      }
    }
    rows.push(["all", "0", clean, accused, `${beyond} of ${untold}`, "", ""]);
    printed("a lone clock that drifts, by tide and warmth of the day", rows);
    expect(accused / clean).toBeLessThan(0.015 + slack(clean));
    expect(beyond / untold).toBeLessThan(0.05 + slack(untold));
  });
});

describe("lost minus signs", () => {
  it(`are told as such, and honest cold, water at zero and values cut at zero are not (seeds ${foldSeed}…)`, () => {
    const count = runs(20);
    const rows: (string | number)[][] = [["mean of the year, °C; step, digits", "frosty records", "folded: told", "honest", "honest, lowest at 0", "cut at 0", "held at 0 (melting)"]];
    let seed = foldSeed;
    let [frosty, told, honest, accused] = [0, 0, 0, 0];
    for (const mean of [-4, 2, 8, 12]) {
      for (const [step, digit] of [[300, 0.1], [900, 0.5], [3600, 1]] as const) {
        const n = [0, 0, 0, 0, 0, 0];
        for (let k = 0; k < count; k++) {
          const plan = { days: 120, step, start: Date.UTC(2023, 9, 2 + 3 * k), latitude: 55, longitude: 10, mean, digits: [digit, 1, 0.1] as const };
          const house = seasonHouse(seed + k, plan);
          const lowest = Math.min(...house.air_temperature);
          const isTold = (of: (t: number) => number): number => {
            const record = alone({ ...house, air_temperature: house.air_temperature.map(of) }, plan);
            return foldOfPlace(record, record.places.outside) === null ? 0 : 1;
          };
          if (house.air_temperature.filter((t) => t < -1).length > 0.01 * house.air_temperature.length) {
            n[0]++;
            n[1] += isTold(Math.abs);
          }
          n[2] += isTold((t) => t);
          n[3] += isTold((t) => t - lowest);
          n[4] += isTold((t) => Math.max(0, t));
          n[5] += isTold((t) => (t < 0 ? 0 : t < 1.5 ? 0.3 * t : t - 1));
        }
        seed += count;
        rows.push([`${mean}; ${step / 60} min, ${digit}`, ...n]);
        [frosty, told, honest, accused] = [frosty + n[0], told + n[1], honest + 4 * count, accused + n[2] + n[3] + n[4] + n[5]];
      }
    }
    rows.push(["all", frosty, told, `${accused} of ${honest} accused`, "", "", ""]);
    printed("temperatures below zero without their sign", rows);
    expect(told / frosty).toBeGreaterThan(0.7 - slack(frosty));
    expect(accused / honest).toBeLessThan(0.01 + slack(honest));
  });
});

describe("rows out of order", () => {
  it(`are told as such, and clocks that were set back as jumps (seeds ${orderSeed}…)`, async () => {
    const count = runs(20);
    const rows: (string | number)[][] = [["log of 40 days, 10 min and hourly", "logs", "told: out of order", "told: the clock jumps"]];
    for (const [m, kind] of (["none", ...disorders, ...resets] as const).entries()) {
      let [order, jump] = [0, 0];
      for (let k = 0; k < count; k++) {
        const step = k % 2 === 0 ? 600 : 3600;
        const seed = orderSeed + 100 * m + k;
        const house = seasonHouse(seed, { days: 40, step, start: Date.UTC(2023, 3, 3), latitude: 50, longitude: 10 });
        const lines = Array.from(house.times, (t, i) => `${new Date(t).toISOString().slice(0, 19)},${house.air_temperature[i].toFixed(1)},${house.relative_humidity[i].toFixed(0)},${house.surface_air_pressure[i].toFixed(1)}`);
        const record = await readLog(["time,t,rh,p", ...disorderedLog(lines, Math.round(86_400 / step), kind, seed)], { lat: 50, lon: 10, off: "+01:00" });
        if (lineFindings(record, plainWords).some(({ says }) => says.includes("out of order"))) order++;
        if (record.jumps.length > 0) jump++;
      }
      rows.push([kind, count, order, jump]);
      const isDisorder = (disorders as readonly string[]).includes(kind);
      expect(order / count, kind).toBe(isDisorder ? 1 : 0);
      expect(jump / count, kind).toBe(isDisorder || kind === "none" ? 0 : 1);
    }
    printed("rows out of order, and clocks that were set back", rows);
  });
});

describe("a barometer that feels its own temperature", () => {
  it(`is told with its size, and sound ones are not (seeds ${feltSeed}…)`, () => {
    const count = runs(30);
    const rows: (string | number)[][] = [["house", "hPa/K", "records", "beside another: told", "interval holds", "the other accused", "alone outdoors: told", "alone indoors: told"]];
    const plans: readonly (readonly [string, HousePlan])[] = [
      ["tropics, 60 d, 5 min, 0.01 hPa", { days: 60, step: 300, climate: "tropics", room: "free", digits: [0.1, 1, 0.01] }],
      ["middle, 60 d, 10 min, 0.1 hPa, thermostat", { days: 60, step: 600, climate: "middle", room: "thermostat", digits: [0.1, 1, 0.1] }],
      ["middle, 120 d, 15 min, 0.1 hPa", { days: 120, step: 900, climate: "middle", room: "free", digits: [0.1, 1, 0.1] }],
      ["tropics, 60 d, hourly, 0.01 inHg", { days: 60, step: 3600, climate: "tropics", room: "free", digits: [0.1, 1, 0.338639] }],
    ];
    let seed = feltSeed;
    let [clean, accused, found, fine] = [0, 0, 0, 0];
    for (const [title, plan] of plans) {
      for (const felt of [0, 0.03, 0.05, 0.1, -0.05]) {
        const n = [0, 0, 0, 0, 0];
        for (let k = 0; k < count; k++) {
          const { site, outside, inside } = inventedHouse(seed + k, plan);
          const warm = (r: Readings): Readings => {
            const mean = r.air_temperature.reduce((a, b) => a + b, 0) / r.air_temperature.length;
            const digit = plan.digits[2];
            return { ...r, surface_air_pressure: r.surface_air_pressure.map((p, i) => Math.round((p + felt * (r.air_temperature[i] - mean)) / digit) * digit) };
          };
          const of = (places: Parameters<typeof recordOf>[1]) => feltTemperature(flagRecord(recordOf(site, places)));
          const pair = of({ outside: { exposure: "outdoor", readings: warm(outside) }, inside: { exposure: "indoor", readings: inside } });
          const own = pair.find(({ place }) => place === "outside");
          if (own !== undefined) n[0]++;
          if (own !== undefined && own.coefficient.low <= felt && felt <= own.coefficient.high) n[1]++;
          if (pair.some(({ place }) => place === "inside")) n[2]++;
          if (of({ outside: { exposure: "outdoor", readings: warm(outside) } }).length > 0) n[3]++;
          if (of({ inside: { exposure: "indoor", readings: warm(inside) } }).length > 0) n[4]++;
        }
        seed += count;
        rows.push([title, felt, count, ...n]);
        if (felt === 0) [clean, accused] = [clean + 3 * count, accused + n[0] + n[2] + n[3] + n[4]];
        else if (plan.digits[2] < 0.2) [fine, found] = [fine + count, found + n[0]];
      }
    }
    printed("barometers that feel temperature", rows);
    expect(accused / clean).toBeLessThan(0.01 + slack(clean));
    expect(found / fine).toBeGreaterThan(0.95 - slack(fine));
  });
});
