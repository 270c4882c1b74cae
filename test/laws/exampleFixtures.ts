import { readFileSync } from "node:fs";
import { join } from "node:path";
import { placeSwings } from "../../lib/answers/placeSwings.js";
import { tideOfFit } from "../../lib/answers/placeTide.js";
import { sixHourMeans } from "../../lib/cycles/swings/sixHourMeans.js";
import { openRecord } from "../../lib/door/disk/openRecord.js";
import * as airtides from "../../lib/index.js";
import { hourlyPair } from "../../lib/indoors/hourlyPair.js";
import type { Quantity } from "../../lib/record/quantity.js";
import { root } from "./sources.js";

const folder = join(root, "datasets", "hill-school");
const bytesOf = (path: string): Uint8Array => readFileSync(join(folder, path));

const meanOf = (values: Float64Array): number => values.reduce((sum, v) => sum + v, 0) / values.length;

/**
 * What the examples of the documentation speak of when they say `record`, `pressure`, `inside`, …: the invented record hill-school
 * with its faults marked, parts of it, or a wave made here by a formula. The numbers in those examples are those of these data.
 */
export async function exampleFixtures(): Promise<Readonly<Record<string, unknown>>> {
  const record = airtides.flagRecord(await openRecord(folder));
  const { veranda, library } = record.places;
  const [pressure, temperature] = [veranda.series.surface_air_pressure!, veranda.series.air_temperature!];
  const fit = airtides.fitTides(pressure, { longitude: 110.2 });
  const month = (from: number): airtides.Series => airtides.narrowRecord(record, { since: Date.UTC(2024, from, 1), until: Date.UTC(2024, from + 1, 1) }).places.veranda.series.surface_air_pressure!;

  // Hours of both places, from a midnight of the record's standard time, without the days on one table.
  const leftOut = record.events.flatMap((e) => (e.kind === "co-location" && e.to !== null ? [{ from: e.at, to: e.to }] : []));
  const hoursOf = (quantity: Quantity): ReturnType<typeof hourlyPair> => hourlyPair(library.series[quantity]!, veranda.series[quantity]!, { offsetHours: 7, leftOut });
  const [air, damp] = [hoursOf("air_temperature"), hoursOf("relative_humidity")];
  if (air.start !== damp.start || air.hours !== damp.hours) throw new Error("temperature and humidity of hill-school must share their hours");

  // Hours of pressure without the tide, as the swings are found in them.
  const readings = { start: pressure.start, seconds: pressure.seconds, values: pressure.values.map((v, i) => ((pressure.flags[i] & airtides.leftOut) === 0 ? v : Number.NaN)) };
  const { hours, swings } = placeSwings(record, pressure);
  const tideOf = tideOfFit(fit);
  const tideOfBand = airtides.tideAt(fit, Float64Array.from({ length: swings.parts!.hours }, (_, h) => hours.firstAt + 3_600_000 * (swings.parts!.first + h)));
  const days = airtides.dailySummaries(temperature, 7);

  const daily = (hourly: Float64Array): Float64Array => Float64Array.from({ length: hourly.length / 24 }, (_, d) => meanOf(hourly.subarray(24 * d, 24 * d + 24)));

  return {
    openRecord: (path: string) => openRecord(join(root, path)),
    description: JSON.parse(readFileSync(join(folder, "datapackage.json"), "utf8")),
    bytesOf,
    bytes: bytesOf("card-05.txt").subarray(0, 65536),
    record,
    pressure,
    temperature,
    insidePressure: library.series.surface_air_pressure,
    insideTemperature: library.series.air_temperature,
    fit,
    may: month(4),
    june: month(5),
    inside: air.inside,
    outside: air.outside,
    indoorAir: { temperature: air.inside, humidity: damp.inside },
    outdoorAir: { temperature: air.outside, humidity: damp.outside },
    hours: hours.values,
    firstAt: hours.firstAt,
    sixHourly: sixHourMeans(hours.values),
    swingsInput: { hours, readings, tide: tideOf, tideVariance: 0.6, noise: 0.05 },
    readings,
    tide: tideOf,
    tideOfBand,
    days,
    months: airtides.monthlySummaries(days, "degC"),
    text: airtides.exportTides({ record: { name: "hill-school" }, fits: { veranda: fit } }, "json"),
    dailyDifference: daily(air.inside.map((v, h) => v - air.outside[h])),
    dailyOutside: daily(air.outside),
    answers: { check: airtides.checkRecord(record), tides: airtides.tidesOf(record), swings: null, climate: null, indoors: null },
    parts: { name: "rise", data: [], layout: {}, alt: "A rising line.", message: "It rises.", table: { columns: [], rows: [] } },
    // A line of 1.16 hPa at 2 cpd, ten days by hours.
    tenDaysHourly: Float64Array.from({ length: 240 }, (_, h) => 1.16 * Math.cos((2 * Math.PI * (h - 9.8)) / 12)),
    // Six years of monthly means that rise by 0.5 K per decade under a yearly round, and two years of daily means.
    sixYearsMonthly: Float64Array.from({ length: 72 }, (_, m) => 20 + 3 * Math.cos((2 * Math.PI * m) / 12) + (0.5 * m) / 120 + 0.3 * Math.sin(1.7 * m * m)),
    twoYearsDaily: Float64Array.from({ length: 731 }, (_, d) => 10 + 8 * Math.cos((2 * Math.PI * (d - 200)) / 365.2422) + Math.sin(1.3 * d * d)),
  };
}
