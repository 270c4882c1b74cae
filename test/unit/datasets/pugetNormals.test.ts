import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { expectClose } from "../../close.js";

const folder = new URL("../../../datasets/puget-normals/", import.meta.url);
const bytes = readFileSync(new URL("hourly.csv", folder));

describe("puget-normals", () => {
  const lines = bytes.toString("utf8").trimEnd().split("\n");
  const rows = lines.slice(1).map((line) => line.split(","));

  it("has 8 759 rows, every hour of the year but the first", () => {
    expect(lines[0]).toBe("date,pressure,temperature,wind");
    expect(rows.length).toBe(8759);
    const first = Date.parse("2010-01-01T01:00:00Z");
    rows.forEach((row, i) => { expect(Date.parse(`${row[0]}Z`)).toBe(first + i * 3600000); });
  });

  it("is the file whose fingerprint the copying script holds", async () => {
    const { fingerprint } = (await import(/* @vite-ignore */ new URL("copy.mjs", folder).href)) as { fingerprint: string };
    expect(createHash("sha256").update(bytes).digest("hex")).toBe(fingerprint);
  });

  it("has its mean pressure, and the 00 h rows stand out of line as the README tells", () => {
    const p = rows.map((row) => Number(row[1]));
    expectClose(p.reduce((a, b) => a + b, 0) / p.length, 1017.2208, { absolute: 5e-5 }, "mean, hPa");
    const odd = rows.flatMap((row, i) => (row[0].slice(11, 13) === "00" && i > 0 && i < p.length - 1 ? [p[i] - (p[i - 1] + p[i + 1]) / 2] : []));
    expectClose(odd.reduce((a, b) => a + b, 0) / odd.length, -0.12, { absolute: 0.005 }, "00 h, hPa");
  });

  it("its description is well-formed and says standard time all year and sea level", () => {
    const description = JSON.parse(readFileSync(new URL("datapackage.json", folder), "utf8"));
    const { fields } = description.resources[0].schema;
    expect(fields.map((field: { name: string }) => field.name)).toEqual(lines[0].split(","));
    expect(fields[0].zone).toBe("-08:00");
    expect(fields[1].quantity).toBe("air_pressure_at_mean_sea_level");
  });
});
