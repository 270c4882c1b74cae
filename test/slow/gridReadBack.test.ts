import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { columnNames, writtenValue } from "../../lib/answers/cleanedGrid.js";
import { derivations } from "../../lib/answers/derivedSeries.js";
import { gridOf } from "../../lib/answers/gridOf.js";
import { openRecord } from "../../lib/door/disk/openRecord.js";
import { writeGrid } from "../../lib/door/disk/writeGrid.js";
import { root } from "../laws/sources.js";

const folder = mkdtempSync(join(tmpdir(), "airtides-grid-"));
afterAll(() => rmSync(folder, { recursive: true }));

type Numbers = (number | null)[];
interface Found {
  csv: { columns: string[]; zone: string; freq: string; first: string; length: number; dtypes: string[]; values: Record<string, Numbers> };
  scipy: { version: number; dimensions: Record<string, number>; attributes: Record<string, string>; variables: Record<string, { dimensions: string[]; type: string; attributes: Record<string, unknown> }>; rawPressure: number[]; names: string[] };
  xarray: { names: string[]; titles: string[]; coordinates: string[]; latitude: number[]; altitude: number[]; first: string; stepSeconds: number; bounds: string[]; values: Record<string, Numbers[]>; dailyMean: Numbers; spikes: number };
}

let found: Found;
const csv = join(folder, "grid.csv");
const nc = join(folder, "grid.nc");
const record = await openRecord(join(root, "datasets", "hill-school"));
const { grid } = gridOf(record, { derived: derivations });

beforeAll(async () => {
  await writeGrid(csv, grid);
  await writeGrid(nc, grid, { history: "2026-01-02T03:04:05Z: a test" });
  const run = spawnSync("/usr/bin/python3", [join(root, "test", "slow", "gridReadBack.py"), csv, nc], { encoding: "utf8", maxBuffer: 1 << 28 });
  expect(run.stderr, "Debian's python3-pandas, python3-scipy and python3-xarray are needed").toBe("");
  found = JSON.parse(run.stdout) as Found;
});

/** Every value of a column against what was read: within `absolute`, missing where it is missing. */
function same(read: Numbers, column: Float64Array, absolute: number): void {
  expect(read.length).toBe(column.length);
  let worst = 0;
  let missing = 0;
  read.forEach((v, k) => {
    if (v === null || Number.isNaN(column[k])) {
      expect(v === null && Number.isNaN(column[k]), `step ${k}: read ${v}, wrote ${column[k]}`).toBe(true);
      missing++;
    } else worst = Math.max(worst, Math.abs(v - column[k]));
  });
  expect(worst).toBeLessThanOrEqual(absolute);
  // The record has gaps over an hour: a comparison of nothing but missing values would pass without this.
  expect(missing).toBeGreaterThan(0);
  expect(missing).toBeLessThan(read.length / 2);
}

describe("CSV read by pandas", () => {
  it("has a UTC time index and number columns, three a quantity", () => {
    expect(found.csv.columns).toEqual(grid.columns.flatMap((c) => Object.values(columnNames(c))));
    expect(found.csv.columns).toContain("veranda.air_temperature_degC");
    expect(found.csv).toMatchObject({ zone: "UTC", freq: "5T", length: grid.length, dtypes: ["float64", "int64"] });
    expect(Date.parse(found.csv.first)).toBe(grid.start);
  });

  it("has every value to half a millionth, flags and coverage", () => {
    for (const c of grid.columns) {
      const names = columnNames(c);
      same(found.csv.values[names.value], c.values, 0.5e-6 + 1e-12);
      expect(found.csv.values[names.flag]).toEqual(Array.from(c.flags));
      expect(found.csv.values[names.coverage]).toEqual(Array.from(c.stepCoverage, (v) => Math.round(v * 1e4) / 1e4));
    }
  });
});

describe("NetCDF read by scipy", () => {
  it("is the 64-bit-offset form, with the names of the CF conventions", () => {
    const { scipy } = found;
    expect(scipy.version).toBe(2);
    expect(scipy.dimensions).toEqual({ station: 2, time: grid.length, bounds: 2, name_length: 7, title_length: 7 });
    expect(scipy.attributes).toMatchObject({ Conventions: "CF-1.11", featureType: "timeSeries", title: record.title, history: "2026-01-02T03:04:05Z: a test" });
    expect(scipy.names).toEqual(["veranda", "library"]);
    const { air_temperature: t, air_temperature_flag: flag, time, surface_air_pressure_tide_free: free } = scipy.variables;
    expect(t).toMatchObject({ dimensions: ["station", "time"], type: "float64" });
    expect(t.attributes).toMatchObject({ standard_name: "air_temperature", units: "degC", cell_methods: "time: mean", ancillary_variables: "air_temperature_flag air_temperature_coverage", coordinates: "latitude longitude altitude station_name station_title" });
    expect(flag).toMatchObject({ type: "int16", attributes: { standard_name: "status_flag", flag_masks: [1, 2, 4, 8, 16, 32, 64, 128], flag_meanings: "range spike stuck step saturated swapped warmed filled" } });
    expect(time.attributes).toMatchObject({ standard_name: "time", units: "seconds since 2024-04-11 17:00:00", calendar: "standard", bounds: "time_bounds" });
    expect(free.attributes).not.toHaveProperty("standard_name");
    expect(Object.entries(scipy.variables).flatMap(([name, v]) => (typeof v.attributes.standard_name === "string" && v.attributes.units ? [`${name} ${v.attributes.units}`] : []))).toEqual([
      "latitude degrees_north",
      "longitude degrees_east",
      "altitude m",
      "time seconds since 2024-04-11 17:00:00",
      "air_temperature degC",
      "relative_humidity %",
      "surface_air_pressure hPa",
      "dew_point_temperature degC",
      "mass_concentration_of_water_vapor_in_air g m-3",
      "air_pressure_at_mean_sea_level hPa",
    ]);
  });

  it("has the doubles bit by bit, the fill value where nothing is", () => {
    const p = grid.columns.find((c) => c.place === "veranda" && c.quantity === "surface_air_pressure")!;
    expect(found.scipy.rawPressure).toEqual(Array.from(p.values, (v) => (Number.isNaN(v) ? 9.969209968386869e36 : v)));
  });
});

describe("NetCDF read by xarray", () => {
  it("decodes time, bounds, places and coordinates", () => {
    const { xarray } = found;
    expect(xarray.names).toEqual(["veranda", "library"]);
    expect(xarray.titles).toEqual(["Veranda", "Library"]);
    expect(xarray.coordinates).toEqual(["altitude", "latitude", "longitude", "station_name", "station_title", "time"]);
    expect([xarray.latitude, xarray.altitude]).toEqual([[-7.1, -7.1], [1380, 1380]]);
    expect(Date.parse(`${xarray.first.slice(0, 19)}Z`)).toBe(grid.start);
    expect(xarray.stepSeconds).toBe(300);
    expect(xarray.bounds.map((b) => Date.parse(`${b.slice(0, 19)}Z`) - grid.start)).toEqual([300_000, 600_000]);
  });

  it("has every value, flag and coverage of both places", () => {
    for (const [s, place] of ["veranda", "library"].entries()) {
      for (const c of grid.columns.filter((k) => k.place === place)) {
        same(found.xarray.values[c.quantity][s], c.values, 0);
        expect(found.xarray.values[`${c.quantity}_flag`][s]).toEqual(Array.from(c.flags));
        expect(found.xarray.values[`${c.quantity}_coverage`][s]).toEqual(Array.from(c.stepCoverage));
      }
    }
    expect(found.xarray.spikes).toBe(grid.columns.filter((c) => c.quantity === "air_temperature").reduce((n, c) => n + c.flags.reduce((m, f) => m + ((f & 2) >> 1), 0), 0));
  });

  it("daily means are those of the library's own values", () => {
    const t = grid.columns.find((c) => c.place === "veranda" && c.quantity === "air_temperature")!;
    const day = (k: number): number => Math.floor((grid.start + 1000 * grid.stepSeconds * k) / 86_400_000);
    const wanted = Array.from({ length: day(grid.length - 1) - day(0) + 1 }, (_, d) => {
      const own = Array.from(t.values).filter((v, k) => day(k) - day(0) === d && !Number.isNaN(v));
      return own.length === 0 ? null : own.reduce((a, b) => a + b, 0) / own.length;
    });
    expect(found.xarray.dailyMean.length).toBe(wanted.length);
    wanted.forEach((w, d) => {
      const v = found.xarray.dailyMean[d];
      // Sums of 288 numbers near 20 in another order.
      expect(w === null ? v === null : v !== null && Math.abs(v - w) < 1e-11, `day ${d}: ${v} and ${w}`).toBe(true);
    });
  });
});

describe("JSON read by JSON.parse", () => {
  it("has every value to a millionth, null where nothing is", async () => {
    const path = join(folder, "grid.json");
    await writeGrid(path, grid);
    const read = JSON.parse(readFileSync(path, "utf8"));
    expect([read.rows, read.time.length, Date.parse(read.time[7])]).toEqual([grid.length, grid.length, grid.start + 7 * 300_000]);
    grid.columns.forEach((c, i) => {
      expect([read.columns[i].place, read.columns[i].quantity, read.columns[i].unit]).toEqual([c.place, c.quantity, c.unit]);
      expect(read.columns[i].values).toEqual(Array.from(c.values, (v) => (Number.isNaN(v) ? null : writtenValue(v))));
      expect(read.columns[i].flags).toEqual(Array.from(c.flags));
    });
  });
});
