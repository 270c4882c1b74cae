import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { openRecord } from "../../lib/door/disk/openRecord.js";
import { fitTides } from "../../lib/cycles/tide/fitTides.js";
import { leastSquares } from "../../lib/ground/leastSquares.js";
import { expectClose } from "../close.js";
import { root } from "../laws/sources.js";

// NOAA hourly normals 1981–2010 of Seattle–Tacoma, carried by the npm package vega-datasets 3.2.1
// (data/seattle-weather-hourly-normals.csv). The expected numbers were computed from that file by plain least squares with
// numpy: constant and S1…S4 on days since 2010-01-01T00:00 Pacific Standard Time. It is arithmetic on given data; its 00 h rows
// lie 0.12 hPa below their neighbors, and the third digit says whether they are in.
const expected = [
  { name: "S1", amplitude: 0.4312, maximum: 8.076 },
  { name: "S2", amplitude: 0.2887, maximum: 10.551 },
  { name: "S3", amplitude: 0.0372, maximum: 2.938 },
  { name: "S4", amplitude: 0.0404, maximum: 3.765 },
];

const record = await openRecord(join(root, "datasets", "puget-normals"));
const pressure = record.places.airport.series.air_pressure_at_mean_sea_level!;

describe("puget-normals", () => {
  it("has all its 8759 rows", () => {
    expect(record.files[0].accepted).toBe(8759);
    expect(pressure.values.some((v) => Number.isNaN(v))).toBe(false);
  });

  it("plain least squares gives the four lines to 0.001 hPa and 0.01 h (Pacific Standard Time)", () => {
    const midnight = Date.UTC(2010, 0, 1, 8);
    const days = [...pressure.seconds].map((s) => (pressure.start + 1000 * s - midnight) / 86400000);
    const columns = [days.map(() => 1)];
    for (const n of [1, 2, 3, 4]) columns.push(days.map((t) => Math.cos(2 * Math.PI * n * t)), days.map((t) => Math.sin(2 * Math.PI * n * t)));
    const { coefficients } = leastSquares(columns, pressure.values);
    for (const [k, line] of expected.entries()) {
      const [a, b] = [coefficients[1 + 2 * k], coefficients[2 + 2 * k]];
      const period = 24 / (k + 1);
      expectClose(Math.hypot(a, b), line.amplitude, { absolute: 1e-3 }, `${line.name} amplitude`);
      expectClose(((((Math.atan2(b, a) / (2 * Math.PI)) * period) % period) + period) % period, line.maximum, { absolute: 0.01 }, `${line.name} hour`);
    }
  });

  it("the fit agrees, 0.153 h earlier by local mean solar time, and lies between the tropics and Copenhagen", () => {
    const fit = fitTides(pressure, { longitude: -122.3 });
    for (const line of expected.slice(0, 3)) {
      const found = fit.constituents.find((c) => c.name === line.name)!;
      expectClose(found.amplitude.value, line.amplitude, { absolute: 1e-3 }, `${line.name} amplitude`);
      expectClose(found.maximumAt!.value, line.maximum - 0.153, { absolute: 0.02 }, `${line.name} hour`);
    }
    // S2 at Copenhagen 0.225 hPa: abstract of Chapman 1969, QJRMS; in the tropics 1 hPa and more: AMS Glossary, Solar atmospheric tide.
    const s2 = fit.constituents.find((c) => c.name === "S2")!.amplitude.value;
    expect(s2).toBeGreaterThan(0.225);
    expect(s2).toBeLessThan(1);
  });

  // The Seattle table by month: S2's amplitude and hour (Pacific Standard Time), S1's and S3's amplitude, S3's hour where it stands out.
  // Computed from the same file with numpy: constant, S1…S4 and no slope, civil months of Pacific Standard Time. Ours: months of solar
  // time (0.15 h later), a slope and the noise of the record beside them; so 0.01 hPa and 0.1 h are allowed.
  const months = [
    { month: 1, s2: [0.263, 10.77], s1: 0.214, s3: [0.187, 2.73] },
    { month: 4, s2: [0.327, 10.52], s1: 0.463, s3: [0.025, null] },
    { month: 7, s2: [0.262, 10.77], s1: 0.74, s3: [0.096, 6.64] },
    { month: 10, s2: [0.312, 10.32], s1: 0.315, s3: [0.089, null] },
  ] as const;
  const monthly = fitTides(pressure, { longitude: -122.3 }).climatology;

  it.each(months)("month $month: S1, S2 and S3 as in the table", ({ month, s2, s1, s3 }) => {
    const found = monthly.find((m) => m.month === month)!;
    const line = (name: string): { size: number; hour: number } => {
      const c = found.constituents.find((l) => l.name === name)!;
      return { size: c.amplitude.value, hour: (c.maximumAt?.value ?? Number.NaN) + 0.153 };
    };
    expectClose(line("S2").size, s2[0], { absolute: 0.01 }, "S2 amplitude");
    expectClose(line("S2").hour, s2[1], { absolute: 0.1 }, "S2 hour");
    expectClose(line("S1").size, s1, { absolute: 0.02 }, "S1 amplitude");
    expectClose(line("S3").size, s3[0], { absolute: 0.012 }, "S3 amplitude");
    if (s3[1] !== null) expectClose(line("S3").hour, s3[1], { absolute: 0.15 }, "S3 hour");
  });

  it("plain least squares of a month gives the table's third digit", () => {
    const midnight = Date.UTC(2010, 0, 1, 8);
    const days = [...pressure.seconds].map((s) => (pressure.start + 1000 * s - midnight) / 86400000);
    for (const { month, s2, s1, s3 } of months) {
      const keep = days.flatMap((t, i) => (new Date(Date.UTC(2010, 0, 1) + 86400000 * t).getUTCMonth() + 1 === month ? [i] : []));
      const columns = [keep.map(() => 1), ...[1, 2, 3, 4].flatMap((n) => [keep.map((i) => Math.cos(2 * Math.PI * n * days[i])), keep.map((i) => Math.sin(2 * Math.PI * n * days[i]))])];
      const { coefficients } = leastSquares(columns, keep.map((i) => pressure.values[i]));
      const size = (n: number): number => Math.hypot(coefficients[2 * n - 1], coefficients[2 * n]);
      const hour = (n: number): number => ((((Math.atan2(coefficients[2 * n], coefficients[2 * n - 1]) * 12) / Math.PI / n) % (24 / n)) + 24 / n) % (24 / n);
      expectClose(size(2), s2[0], { absolute: 1e-3 }, `S2, month ${month}`);
      expectClose(hour(2), s2[1], { absolute: 0.01 }, `S2 hour, month ${month}`);
      expectClose(size(1), s1, { absolute: 1e-3 }, `S1, month ${month}`);
      expectClose(size(3), s3[0], { absolute: 1e-3 }, `S3, month ${month}`);
      if (s3[1] !== null) expectClose(hour(3), s3[1], { absolute: 0.01 }, `S3 hour, month ${month}`);
    }
  });

  it("S3 turns by half a period from winter to summer, as the literature has it (from memory)", () => {
    const hour = (month: number): number => monthly[month - 1].constituents[2].maximumAt!.value;
    expect(Math.abs(Math.abs(hour(7) - hour(1)) - 4)).toBeLessThan(0.5);
  });
});
