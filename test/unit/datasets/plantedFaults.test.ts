import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { expectClose } from "../../close.js";

const folder = new URL("../../../datasets/hill-school/", import.meta.url);
const read = (name: string): string => readFileSync(new URL(name, folder), "utf8");
const truth = JSON.parse(read("truth.json"));
const description = JSON.parse(read("datapackage.json"));
const order = ["air_temperature", "relative_humidity", "surface_air_pressure"];

interface Row { readonly instant: number; readonly values: number[] }
interface Fault { flag: string; place: string; quantity: string; from: string; to: string; readings: number; size: number }

/** A plain reader of its own: sound rows of each place, told clock corrections applied, first of each written time kept. */
function rowsOf(letter: string): Row[] {
  const points = description.clock.corrections.map(({ at, ahead }: { at: string; ahead: number }) => [Date.parse(`${at}Z`), ahead]);
  const ahead = (w: number): number => {
    if (w <= points[0][0]) return points[0][1];
    for (let k = 1; k < points.length; k++) {
      const [[a, x], [b, y]] = [points[k - 1], points[k]];
      if (w <= b) return x + ((y - x) * (w - a)) / (b - a);
    }
    return points[points.length - 1][1];
  };
  const kept = new Map<number, number[]>();
  for (const line of description.resources[0].path.flatMap((path: string) => read(path).split(/\r?\n/))) {
    if (!/^2024-\d\d-\d\d,\d\d:\d\d:\d\d,[VL],[^,?]*,[^,?]*,[^,?]*$/.test(line)) continue;
    const [date, time, who, ...fields] = line.split(",");
    const written = Date.parse(`${date}T${time}Z`);
    if (who === letter && !kept.has(written)) kept.set(written, fields.map((f: string) => (f === "" || f === "NA" ? Number.NaN : Number(f))));
  }
  return [...kept].map(([w, values]) => ({ instant: w - 7 * 3600000 - ahead(w) * 1000, values })).sort((a, b) => a.instant - b.instant);
}

const rows: Record<string, Row[]> = { veranda: rowsOf("V"), library: rowsOf("L") };
const of = (flag: string): Fault[] => truth.faults.filter((fault: Fault) => fault.flag === flag);
/** truth.json gives whole seconds. */
const within = (fault: Fault, row: Row): boolean => row.instant >= Date.parse(fault.from) - 600 && row.instant <= Date.parse(fault.to) + 600;
const mean = (x: number[]): number => x.filter((v) => !Number.isNaN(v)).reduce((a, b) => a + b, 0) / x.filter((v) => !Number.isNaN(v)).length;

describe("hill-school: the faults are where truth.json says", () => {
  it("every fault spans as many readings as told", () => {
    for (const fault of truth.faults as Fault[]) {
      expect(rows[fault.place].filter((row) => within(fault, row)).length, `${fault.flag} ${fault.from}`).toBe(fault.readings);
    }
  });

  it("spikes depart from their neighbors by their size", () => {
    // Five minutes of weather and the sensor's noise: 1 K, 6 %, 0.3 hPa are far beyond both.
    const loose: Record<string, number> = { air_temperature: 1, relative_humidity: 6, surface_air_pressure: 0.3 };
    for (const fault of of("spike")) {
      const k = order.indexOf(fault.quantity);
      const own = rows[fault.place];
      const i = own.findIndex((row) => within(fault, row));
      const around = mean([own[i - 2], own[i - 1], own[i + 1], own[i + 2]].map((row) => row.values[k]));
      expectClose(own[i].values[k] - around, fault.size, { absolute: loose[fault.quantity] }, `${fault.place} ${fault.quantity} ${fault.from}`);
    }
  });

  it("stuck readings are all the same, saturated ones at or above 100 %", () => {
    for (const fault of of("stuck")) {
      const k = order.indexOf(fault.quantity);
      expect(new Set(rows[fault.place].filter((row) => within(fault, row)).map((row) => row.values[k])).size, fault.from).toBe(1);
    }
    for (const fault of of("saturated")) {
      for (const row of rows[fault.place].filter((r) => within(fault, r))) expect(row.values[1]).toBeGreaterThanOrEqual(100);
    }
  });

  it("the library's barometer shifts by the told step against the veranda's, which read the same air", () => {
    const [fault] = of("step");
    const at = Date.parse(fault.from);
    const day = (place: string, from: number): number => mean(rows[place].filter(({ instant }) => instant >= from && instant < from + 86400000).map((row) => row.values[2]));
    const shift = day("library", at) - day("veranda", at) - (day("library", at - 86400000) - day("veranda", at - 86400000));
    // 288 readings a day with 0.04 hPa of white noise: about 0.005 hPa; the gap of the day before is in both places.
    expectClose(shift, fault.size, { absolute: 0.03 }, "step, hPa");
  });

  it("while places are exchanged the veranda's barometer reads the library's offset", () => {
    const [fault] = of("swapped");
    const during = (place: string): number => mean(rows[place].filter((row) => within(fault, row)).map((row) => row.values[2]));
    // 54 readings each with 0.04 hPa, and 140 s of the tide's steepest change (about 0.02 hPa).
    expectClose(during("library") - during("veranda"), -truth.sensorOffset.surface_air_pressure, { absolute: 0.08 }, "difference, hPa");
  });

  it("side by side the sensors differ by their offsets", () => {
    const [{ to }] = description.events;
    const until = Date.parse(`${to}+07:00`);
    const early = (place: string, k: number): number => mean(rows[place].filter(({ instant }) => instant < until).map((row) => row.values[k]));
    // Wander of 0.05 K and 0.3 % with 6 and 12 h of memory over 81 h, and the share of hours at the scale's end.
    const loose = [0.12, 0.6, 0.03];
    order.forEach((quantity, k) => { expectClose(early("library", k) - early("veranda", k), truth.sensorOffset[quantity], { absolute: loose[k] }, quantity); });
  });
});
