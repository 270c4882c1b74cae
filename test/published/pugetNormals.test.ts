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
});
