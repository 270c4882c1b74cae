import type { AirRecord } from "../../../lib/record/airRecord.js";
import { RecordReader } from "../../../lib/record/recordReader.js";

/** Loosely typed, because the tests break it on purpose. */
export type Loose = any;

/** A small sound description: one long log of two places; `change` may spoil it. */
export function card(change: (d: Loose) => void = () => undefined): Loose {
  const d = {
    name: "card",
    site: { latitude: -7.1, longitude: 110.2, elevation: 1380 },
    places: { veranda: { title: "Veranda", exposure: "outdoor" }, library: { exposure: "indoor" } },
    resources: [
      {
        name: "card",
        type: "table",
        path: "card.txt",
        dialect: { header: false },
        schema: {
          missingValues: ["", "NA"],
          fields: [
            { name: "date", type: "date" },
            { name: "time", type: "time", zone: "+07:00" },
            { name: "who", type: "string", role: "place", values: { V: "veranda", L: "library" } },
            { name: "t", type: "number", quantity: "air_temperature", unit: "degC" },
            { name: "p", type: "number", quantity: "surface_air_pressure", unit: "hPa" },
          ],
        },
      },
    ],
  };
  change(d);
  return d;
}

/** A small sound description: one column of temperature at one place, datetime in a zone. */
export function column(zone = "Z", change: (r: Loose, d: Loose) => void = () => undefined): Loose {
  const d = {
    name: "column",
    resources: [
      {
        name: "log",
        path: "log.csv",
        schema: {
          fields: [
            { name: "when", type: "datetime", zone },
            { name: "t", type: "number", quantity: "air_temperature", unit: "degC" },
          ],
        },
      },
    ],
  };
  change(d.resources[0], d);
  return d;
}

/** Reads texts or bytes as the record's files, in order; `chunk` bytes at a time. */
export function readCard(description: unknown, files: string | Uint8Array | readonly (string | Uint8Array)[], chunk = 1 << 16): AirRecord {
  const reader = new RecordReader(description);
  const list = typeof files === "string" || files instanceof Uint8Array ? [files] : files;
  for (const [k, path] of reader.paths.entries()) {
    const bytes = typeof list[k] === "string" ? new TextEncoder().encode(list[k]) : list[k];
    reader.begin(path);
    for (let i = 0; i < bytes.length; i += chunk) reader.push(bytes.subarray(i, i + chunk));
    reader.end();
  }
  return reader.finish();
}

/** Instants of a place as ISO texts without seconds of 00. */
export function instants(record: AirRecord, place: string): string[] {
  const p = record.places[place];
  return Array.from(p.seconds, (s) => new Date(p.start + 1000 * s).toISOString().replace(/(:00)?\.000Z$/, "Z"));
}

/** Message of what a function throws. */
export function complaint(act: () => unknown): string {
  try {
    act();
  } catch (error) {
    return (error as Error).message;
  }
  return "nothing was thrown";
}
