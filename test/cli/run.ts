import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect } from "vitest";
import { root } from "../laws/sources.js";

/** What a run of the command line said. */
export interface Run {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs the built command line; a run that hangs ends after 20 s with code null. */
export function airtides(...words: string[]): Run {
  const run = spawnSync(process.execPath, [join(root, "dist", "door", "cli", "airtides.js"), ...words], { encoding: "utf8", timeout: 20000, maxBuffer: 1 << 28 });
  return { code: run.status, out: run.stdout, err: run.stderr };
}

/** Folder of a record that comes with the package. */
export const dataset = (name: string): string => join(root, "datasets", name);

/** The document of a run that must succeed without a word on standard error. */
export function document(...words: string[]): any {
  const run = airtides(...words);
  expect(run.err).toBe("");
  expect(run.code).toBe(0);
  return JSON.parse(run.out);
}

export const keys = (value: unknown): string[] => Object.keys(value as object).sort();
export const inside = (truth: number, e: { low: number; high: number }): boolean => truth >= e.low && truth <= e.high;

/** A description that is right, for tests to spoil. */
export function goodDescription(): Record<string, any> {
  return {
    $schema: "https://datapackage.org/profiles/2.0/datapackage.json",
    name: "trial",
    title: "Trial",
    site: { latitude: -7.1, longitude: 110.2, elevation: 1380 },
    places: { porch: { title: "Porch", exposure: "outdoor" } },
    resources: [
      {
        name: "card",
        type: "table",
        path: "card.txt",
        dialect: { header: false },
        schema: {
          fields: [
            { name: "at", type: "datetime", zone: "+07:00" },
            { name: "t", type: "number", quantity: "air_temperature", unit: "degC" },
            { name: "rh", type: "number", quantity: "relative_humidity", unit: "%" },
            { name: "p", type: "number", quantity: "surface_air_pressure", unit: "hPa" },
          ],
        },
      },
    ],
  };
}

/** Rows every ten minutes with a tide of 1.2 hPa in slow weather; nothing random. */
export function goodRows(days: number): string {
  const rows: string[] = [];
  for (let i = 0; i < days * 144; i++) {
    const t = i / 144;
    const at = new Date(Date.UTC(2024, 4, 1) + i * 600000).toISOString().slice(0, 19).replace("T", " ");
    const p = 861 + Math.cos(t) + 0.4 * Math.sin(2.3 * t) + 1.2 * Math.cos(4 * Math.PI * (t - 0.41)) + 0.5 * Math.cos(2 * Math.PI * (t - 0.25)) + 0.02 * Math.sin(977 * i);
    rows.push(`${at},${(22 + 4 * Math.cos(2 * Math.PI * (t - 0.6))).toFixed(1)},${(70 - 10 * Math.cos(2 * Math.PI * (t - 0.6))).toFixed(1)},${p.toFixed(2)}`);
  }
  return `${rows.join("\n")}\n`;
}

/** Makes a record folder; `files` are written beside the description. */
export function recordFolder(description: unknown, files: Record<string, string | Uint8Array> = { "card.txt": goodRows(12) }): string {
  const folder = mkdtempSync(join(tmpdir(), "airtides-record-"));
  if (description !== undefined) {
    writeFileSync(join(folder, "datapackage.json"), typeof description === "string" ? description : JSON.stringify(description));
  }
  for (const [name, text] of Object.entries(files)) {
    mkdirSync(join(folder, name, ".."), { recursive: true });
    writeFileSync(join(folder, name), text);
  }
  return folder;
}
