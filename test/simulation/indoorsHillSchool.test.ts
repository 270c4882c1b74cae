import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { openRecord } from "../../lib/door/disk/openRecord.js";
import { housePairs } from "../../lib/indoors/housePairs.js";
import type { AirRecord } from "../../lib/record/airRecord.js";
import { type FlagName, flagBit } from "../../lib/record/flag.js";
import type { Quantity } from "../../lib/record/quantity.js";
import type { Series } from "../../lib/record/series.js";

const folder = new URL("../../datasets/hill-school", import.meta.url).pathname;
const truth = JSON.parse(readFileSync(`${folder}/truth.json`, "utf8")) as {
  faults: { flag: FlagName; place: string; quantity: Quantity; from: string; to: string }[];
  clock: { betweenPlaces: { offsetSeconds: number } };
  sensorOffset: Record<"air_temperature" | "relative_humidity", number>;
  response: { periods: { timeConstantHours: number; throughSunnySensor: { decrementFactor: number; timeLagHours: number }; ofTheAirDrawn: { meanDifference: number; moistureExcess: number } }[] };
};

/** The record with its planted faults flagged, as a perfect judge would. */
function flagged(record: AirRecord): AirRecord {
  const places = Object.fromEntries(
    Object.entries(record.places).map(([name, place]) => {
      const all = Object.entries(place.series).map(([quantity, s]) => {
        const flags = Uint16Array.from((s as Series).flags);
        for (const f of truth.faults.filter((fault) => fault.place === name && fault.quantity === quantity)) {
          const [from, to] = [Date.parse(f.from) - 2000, Date.parse(f.to) + 2000];
          flags.forEach((_, i) => {
            const at = (s as Series).start + 1000 * (s as Series).seconds[i];
            if (at >= from && at <= to) flags[i] |= flagBit[f.flag];
          });
        }
        return [quantity, { ...s, flags }];
      });
      return [name, { ...place, series: Object.fromEntries(all) }];
    }),
  );
  return { ...record, places };
}

describe("hill-school, its planted faults flagged", () => {
  it("each period's intervals hold what was planted", async () => {
    const record = flagged(await openRecord(folder));
    const [pair] = housePairs(record, { offsetHours: 7, clockOffsetSeconds: { library: truth.clock.betweenPlaces.offsetSeconds } });
    const holds = (what: string, e: { low: number; high: number } | null | undefined, planted: number): void => {
      expect(e !== null && e !== undefined && e.low <= planted && planted <= e.high, `${what}: ${e?.low} to ${e?.high}, planted ${planted}`).toBe(true);
    };
    expect(pair.sensorOffset.basis).toBe("co-location");
    holds("temperature offset", pair.sensorOffset.temperature, truth.sensorOffset.air_temperature);
    holds("humidity offset", pair.sensorOffset.humidity, truth.sensorOffset.relative_humidity);
    expect(pair.periods.length).toBe(2);
    pair.periods.forEach((period, i) => {
      const planted = truth.response.periods[i];
      holds(`decrement ${i}`, period.decrementFactor, planted.throughSunnySensor.decrementFactor);
      holds(`lag ${i}`, period.timeLag, planted.throughSunnySensor.timeLagHours);
      holds(`time constant ${i}`, period.timeConstant, planted.timeConstantHours);
      holds(`mean ${i}`, period.meanDifference, planted.ofTheAirDrawn.meanDifference);
      holds(`moisture ${i}`, period.moistureExcess, planted.ofTheAirDrawn.moistureExcess);
    });
    const change = (quantity: string) => pair.changes.find((c) => c.quantity === quantity)?.change;
    const [a, b] = truth.response.periods;
    holds("change of the decrement factor", change("decrementFactor"), b.throughSunnySensor.decrementFactor - a.throughSunnySensor.decrementFactor);
    holds("change of the lag", change("timeLag"), b.throughSunnySensor.timeLagHours - a.throughSunnySensor.timeLagHours);
    holds("change of the mean", change("meanDifference"), b.ofTheAirDrawn.meanDifference - a.ofTheAirDrawn.meanDifference);
    holds("change of the moisture", change("moistureExcess"), b.ofTheAirDrawn.moistureExcess - a.ofTheAirDrawn.moistureExcess);
  }, 120_000);
});
