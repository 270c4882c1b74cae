import { mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import type { CleanedColumn, CleanedGrid } from "../../../lib/answers/cleanedGrid.js";
import { gridOf } from "../../../lib/answers/gridOf.js";
import { gridCsv } from "../../../lib/door/disk/gridCsv.js";
import { gridJson } from "../../../lib/door/disk/gridJson.js";
import { gridNetcdf } from "../../../lib/door/disk/gridNetcdf.js";
import { gridParquet, parquetPackage } from "../../../lib/door/disk/gridParquet.js";
import { netcdfClassic } from "../../../lib/door/disk/netcdfClassic.js";
import { gridForm, requireWritable, writeGrid } from "../../../lib/door/disk/writeGrid.js";
import { writeBeside } from "../../../lib/door/disk/writeBeside.js";
import { recordFromSeries } from "../../../lib/record/recordFromSeries.js";
import { series } from "../../../lib/record/series.js";

const folder = mkdtempSync(join(tmpdir(), "airtides-gridfiles-"));
afterAll(() => rmSync(folder, { recursive: true }));

const start = Date.UTC(2024, 2, 1);
const times = [0, 1, 2, 5].map((k) => start + 1_800_000 * k);
const record = recordFromSeries(
  [
    series({ times, values: [20.5, 21.25, 22, 20.1234567], quantity: "air_temperature", place: 'yard, "north"' }),
    series({ times, values: [50, 51, 52, 53], quantity: "relative_humidity", place: "Küche" }),
  ],
  { name: "small", title: "Small" },
);
const { grid } = gridOf(record, { step: 1800, fillUpTo: 0 });

const joined = (pieces: Iterable<Uint8Array>): Buffer => Buffer.concat([...pieces]);

describe("gridCsv", () => {
  it("is one header line of quoted names, then a line a step, nothing where nothing is", () => {
    const lines = [...gridCsv(grid)].join("").split("\n");
    expect(lines[0]).toBe('time,"yard, ""north"".air_temperature_degC","yard, ""north"".air_temperature_flag","yard, ""north"".air_temperature_coverage",Küche.relative_humidity_percent,Küche.relative_humidity_flag,Küche.relative_humidity_coverage');
    expect(lines.slice(1)).toEqual([
      "2024-03-01T00:00:00Z,20.5,0,1,50,0,1",
      "2024-03-01T00:30:00Z,21.25,0,1,51,0,1",
      "2024-03-01T01:00:00Z,22,0,1,52,0,1",
      "2024-03-01T01:30:00Z,,0,0,,0,0",
      "2024-03-01T02:00:00Z,,0,0,,0,0",
      "2024-03-01T02:30:00Z,20.123457,0,1,53,0,1",
      "",
    ]);
  });

  it("comes in pieces of whole lines", () => {
    const long = gridOf(recordFromSeries([series({ times: Array.from({ length: 9000 }, (_, k) => start + 60_000 * k), values: Array.from({ length: 9000 }, (_, k) => 20 + Math.sin(k)), quantity: "air_temperature" })])).grid;
    const pieces = [...gridCsv(long)];
    expect(pieces.length).toBe(4);
    expect(pieces.every((p) => p.endsWith("\n"))).toBe(true);
    expect(pieces.join("").split("\n").length).toBe(9002);
  });
});

describe("gridJson", () => {
  it("is one document; what is missing is null", () => {
    const read = JSON.parse([...gridJson(grid)].join(""));
    expect(read.columns[0].values).toEqual([20.5, 21.25, 22, null, null, 20.123457]);
    expect(read.columns[1].coverages).toEqual([1, 1, 1, 0, 0, 1]);
    expect(read.time[5]).toBe("2024-03-01T02:30:00Z");
    expect(read.flagBits.filled).toBe(128);
    expect(read.record.site).toBe(null);
  });
});

describe("gridNetcdf", () => {
  it("without a site has no stations of the globe, and no clock of its own", () => {
    const text = joined(gridNetcdf(grid)).toString("latin1");
    expect(text).not.toMatch(/featureType|latitude|history/);
    expect(text).toMatch(/Conventions\0+\u0002\0+\u0007CF-1\.11/);
    expect(joined(gridNetcdf(grid)).equals(joined(gridNetcdf(grid)))).toBe(true);
  });

  it("says where a place did not log a quantity", () => {
    const bytes = joined(gridNetcdf(grid));
    // Temperature of the second place: six fill values in a row.
    const fill = Buffer.alloc(8);
    fill.writeDoubleBE(9.969209968386869e36);
    expect(bytes.includes(Buffer.concat(Array(6).fill(fill) as Buffer[]))).toBe(true);
    expect(bytes.includes(Buffer.concat(Array(7).fill(fill) as Buffer[]))).toBe(false);
  });
});

describe("netcdfClassic", () => {
  const file = (dimensions: Record<string, number>, size = "x") => ({ dimensions, attributes: {}, variables: [{ name: "v", type: "short" as const, dimensions: [size], attributes: {}, at: (i: number) => 256 + i }] });
  it("writes header and numbers byte by byte", () => {
    const bytes = joined(netcdfClassic(file({ x: 3 })));
    const int = (...values: number[]) => values.flatMap((v) => [0, 0, v >> 8, v & 255]);
    const text = (name: string) => [...int(name.length), ...Buffer.from(name.padEnd(4, "\0"))];
    // Magic and version, no records, one dimension, no attributes, one variable of type 3 in 8 bytes at a 64-bit offset.
    const header = [67, 68, 70, 2, ...int(0), ...int(10, 1), ...text("x"), ...int(3), ...int(0, 0), ...int(11, 1), ...text("v"), ...int(1, 0), ...int(0, 0), ...int(3), ...int(8), ...int(0, 84)];
    expect([...bytes]).toEqual([...header, 1, 0, 1, 1, 1, 2, 0, 0]);
  });
  it("refuses an unknown dimension and what is too large for the form", () => {
    expect(() => joined(netcdfClassic(file({ x: 3 }, "y")))).toThrow("netcdfClassic: v must have dimensions of the file (got y)");
    expect(() => netcdfClassic(file({ x: 2 ** 31 })).next()).toThrow("netcdfClassic: v must take at most 4294967292 bytes (got 4294967296)");
    expect(netcdfClassic(file({ x: 2 ** 31 - 2 })).next().done).toBe(false);
  });
  it("offsets beyond 4 GiB are told whole", () => {
    const large = { dimensions: { x: 2 ** 29 - 1 }, attributes: {}, variables: ["a", "b", "c"].map((name) => ({ name, type: "double" as const, dimensions: ["x"], attributes: {}, at: () => 0 })) };
    const header = Buffer.from(netcdfClassic(large).next().value as Uint8Array);
    const begins = [header.length, header.length + 2 ** 32 - 8, header.length + 2 * (2 ** 32 - 8)];
    const last = header.readBigUInt64BE(header.length - 8);
    expect(Number(last)).toBe(begins[2]);
  });
});

describe("gridParquet", () => {
  it("a missing package is one clear sentence; any other failure is none", async () => {
    const absent = Object.assign(new Error("Cannot find package"), { code: "ERR_MODULE_NOT_FOUND" });
    await expect(parquetPackage(() => Promise.reject(absent))).rejects.toThrow("Parquet must be written by the optional package hyparquet-writer (got none installed); run `npm install hyparquet-writer`, or take .nc, .csv or .json");
    await expect(parquetPackage(() => Promise.reject(new Error("broken")))).rejects.toThrow("broken");
  });

  it("values, nulls, flags and units are there again", async () => {
    // The reader comes from the makers of the writer: what both understand alike wrongly is not seen here.
    const { parquetReadObjects, parquetMetadata } = await import("hyparquet");
    const bytes = gridParquet(grid, await parquetPackage());
    const buffer = bytes.slice().buffer as ArrayBuffer;
    const rows = await parquetReadObjects({ file: buffer });
    expect(rows.map((r) => r["Küche.relative_humidity_percent"])).toEqual([50, 51, 52, null, null, 53]);
    expect(rows.map((r) => r['yard, "north".air_temperature_degC'])).toEqual([20.5, 21.25, 22, null, null, 20.1234567]);
    expect(rows.map((r) => r["Küche.relative_humidity_flag"])).toEqual([0, 0, 0, 0, 0, 0]);
    expect((rows[5].time as Date).toISOString()).toBe("2024-03-01T02:30:00.000Z");
    const told = JSON.parse(parquetMetadata(buffer).key_value_metadata!.find((k) => k.key === "airtides")!.value!);
    expect(told.columns.map((c: CleanedColumn) => c.unit)).toEqual(["degC", "%"]);
    expect(told.flagBits.spike).toBe(2);
  });

  it("several row groups hold every row once", async () => {
    const { parquetReadObjects, parquetMetadata } = await import("hyparquet");
    const n = 70_000;
    const [column] = grid.columns;
    const long: CleanedGrid = { ...grid, length: n, columns: [{ ...column, values: Float64Array.from({ length: n }, (_, k) => k / 8), flags: Uint16Array.from({ length: n }, (_, k) => k % 256), stepCoverage: new Float32Array(n).fill(1) }] };
    const buffer = gridParquet(long, await parquetPackage()).slice().buffer as ArrayBuffer;
    expect(parquetMetadata(buffer).row_groups.map((g) => Number(g.num_rows))).toEqual([32768, 32768, 4464]);
    const rows = await parquetReadObjects({ file: buffer });
    expect(rows.length).toBe(n);
    expect([0, 32767, 32768, 69999].map((k) => rows[k]['yard, "north".air_temperature_degC'])).toEqual([0, 32767 / 8, 4096, 69999 / 8]);
  });
});

describe("writeGrid", () => {
  it("takes the form from the name", () => {
    expect(["a.csv", "b.JSON", "c.nc", "d.x.parquet"].map(gridForm)).toEqual(["csv", "json", "nc", "parquet"]);
    for (const name of ["a", "a.xlsx", ".", "csv"]) expect(() => gridForm(name)).toThrow("must end in .csv, .json, .nc or .parquet");
  });
  it("writes each form, refuses a name that is taken before and after the work", async () => {
    for (const form of ["csv", "json", "nc", "parquet"]) {
      const path = join(folder, `small.${form}`);
      await requireWritable(path);
      expect(await writeGrid(path, grid)).toBeGreaterThan(100);
      await expect(requireWritable(path)).rejects.toThrow("exists already and is not written over");
      await expect(writeGrid(path, grid)).rejects.toThrow("exists already and is not written over");
    }
    expect(readdirSync(folder).sort()).toEqual(["small.csv", "small.json", "small.nc", "small.parquet"]);
  });
  it("leaves nothing behind when a piece cannot be made, and does not blame the disk", async () => {
    const broken = function* (): Generator<string> {
      yield "half a file";
      throw new TypeError("made wrongly");
    };
    await expect(writeBeside(join(folder, "broken.csv"), broken())).rejects.toThrow(TypeError);
    expect(readdirSync(folder).filter((f) => f.includes("broken"))).toEqual([]);
  });
});
