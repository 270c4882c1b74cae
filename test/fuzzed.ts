import fc from "fast-check";
import { checkRecord } from "../lib/answers/checkRecord.js";
import { displaySymbol } from "../lib/ground/display.js";
import { RecordError } from "../lib/ground/complaint.js";
import type { AirRecord } from "../lib/record/airRecord.js";
import { readRecord } from "../lib/record/readRecord.js";

/** A description and its logs, valid before anything is done to them. */
export interface Card {
  readonly description: unknown;
  readonly files: Readonly<Record<string, Uint8Array>>;
}

const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);
const two = (n: number): string => String(n).padStart(2, "0");
const number = (name: string, quantity: string, unit: string, more: object = {}): object => ({ name, type: "number", quantity, unit, ...more });
const common = { $schema: "https://datapackage.org/profiles/2.0/datapackage.json", name: "trial", site: { latitude: -7.1, longitude: 110.2, elevation: 1380 } };
const air = (h: number): readonly [number, number, number] => [22 + 4 * Math.cos((h - 14) / 3.82) + 0.05 * Math.sin(31 * h), 70 - 9 * Math.cos((h - 14) / 3.82), 861 + 1.1 * Math.cos((h - 10) / 1.91) + Math.sin(h / 29) + 0.02 * Math.sin(97 * h)];

/** Two places by a marker, two files that overlap, five days of hours. */
function longCard(): Card {
  const row = (i: number, who: string, warmer: number): string => {
    const [t, rh, p] = air(i);
    return `2024-05-${two(1 + Math.floor(i / 24))},${two(i % 24)}:05:00,${who},${(t + warmer).toFixed(1)},${rh.toFixed(1)},${p.toFixed(2)}`;
  };
  const part = (from: number, to: number): Uint8Array => bytesOf(`# card\n${Array.from({ length: to - from }, (_, k) => `${row(from + k, "V", 0)}\n${row(from + k, "L", 1.5)}\n`).join("")}`);
  return {
    description: {
      ...common,
      places: { veranda: { title: "Veranda", exposure: "outdoor" }, library: { exposure: "indoor" } },
      events: [{ from: "2024-05-01T00:00", to: "2024-05-02T00:00", kind: "co-location", title: "on one table" }],
      clock: { corrections: [{ at: "2024-05-01T09:00:00", ahead: 0 }, { at: "2024-05-05T09:00:00", ahead: 95 }] },
      resources: [{ name: "card", type: "table", path: ["card-1.txt", "card-2.txt"], dialect: { delimiter: ",", header: false, commentChar: "#" }, schema: { missingValues: ["", "NA"], fields: [{ name: "date", type: "date", format: "%Y-%m-%d" }, { name: "time", type: "time", format: "%H:%M:%S", zone: "+07:00" }, { name: "who", type: "string", role: "place", values: { V: "veranda", L: "library" } }, number("t", "air_temperature", "degC"), number("rh", "relative_humidity", "%"), number("p", "surface_air_pressure", "hPa")] } }],
    },
    files: { "card-1.txt": part(0, 70), "card-2.txt": part(60, 120) },
  };
}

/** Wide, semicolons, decimal comma, quotes, a civil zone, Fahrenheit and inches. */
function wideCard(): Card {
  const row = (i: number): string => {
    const [t, , p] = air(i);
    const comma = (v: number, digits: number): string => v.toFixed(digits).replace(".", ",");
    return `"${two(1 + Math.floor(i / 24))}.03.2024 ${two(i % 24)}:00";${comma(1.8 * t + 32, 1)};${comma(1.8 * (t + 1) + 32, 1)};${comma(p / 33.8638864, 3)}\r\n`;
  };
  return {
    description: {
      ...common,
      places: { yard: { exposure: "outdoor" }, loft: { exposure: "indoor" } },
      resources: [{ name: "log", type: "table", path: "log.csv", dialect: { delimiter: ";" }, schema: { fields: [{ name: "when", type: "datetime", format: "%d.%m.%Y %H:%M", zone: "Europe/London" }, number("out", "air_temperature", "degF", { place: "yard", decimalChar: "," }), number("in", "air_temperature", "degF", { place: "loft", decimalChar: "," }), number("p", "surface_air_pressure", "inHg", { place: "yard", decimalChar: "," })] } }],
    },
    files: { "log.csv": bytesOf(`when;out;in;p\r\n${Array.from({ length: 120 }, (_, i) => row(i)).join("")}`) },
  };
}

const cards: readonly Card[] = [longCard(), wideCard()];

const accident = fc.record({ kind: fc.constantFrom("cut", "double", "swap", "nul", "junk", "huge", "end", "line twice", "lines turned", "truncate", "utf-16", "latin", "bom", "minus"), file: fc.nat(), at: fc.nat(), length: fc.integer({ min: 1, max: 60 }), byte: fc.integer({ min: 0, max: 255 }) });
type Accident = { readonly kind: string; readonly file: number; readonly at: number; readonly length: number; readonly byte: number };

/** What one accident makes of a file's bytes. */
function spoiled(bytes: Uint8Array, { kind, at, length, byte }: Accident): Uint8Array {
  const i = bytes.length === 0 ? 0 : at % bytes.length;
  const put = (from: number, drop: number, piece: ArrayLike<number>): Uint8Array => {
    const out = new Uint8Array(Math.min(from, bytes.length) + piece.length + Math.max(0, bytes.length - from - drop));
    out.set(bytes.subarray(0, from));
    out.set(Array.from(piece), from);
    out.set(bytes.subarray(Math.min(bytes.length, from + drop)), from + piece.length);
    return out;
  };
  const piece = bytes.slice(i, i + length);
  const lineFrom = bytes.lastIndexOf(10, i) + 1;
  const lineEnd = bytes.indexOf(10, i) < 0 ? bytes.length : bytes.indexOf(10, i) + 1;
  const line = bytes.slice(lineFrom, lineEnd);
  if (kind === "cut") return put(i, length, []);
  if (kind === "double") return put(i, 0, piece);
  if (kind === "swap") return put(i, piece.length, piece.toReversed());
  if (kind === "nul") return put(i, 0, new Uint8Array(length));
  if (kind === "junk") return put(i, 0, piece.map((b) => (b * 31 + byte) % 256));
  if (kind === "huge") return put(i, 0, bytesOf("9".repeat(8 * length)));
  if (kind === "end") return put(i, 0, byte % 2 === 0 ? [13, 10] : [13]);
  if (kind === "minus") return put(i, 0, bytesOf(["-", "1e999", "NaN", "INF", "-999.9", "0x1F", "١٢"][byte % 7]));
  if (kind === "line twice") return put(lineFrom, 0, line);
  if (kind === "lines turned") return put(0, lineFrom, bytes.slice(0, lineFrom).toReversed());
  if (kind === "truncate") return bytes.slice(0, i);
  if (kind === "utf-16") return Uint8Array.from([...(byte % 2 === 0 ? [0xff, 0xfe] : []), ...Array.from(bytes, (b) => [b, 0]).flat()]);
  if (kind === "latin") return put(i, 1, [0xe9, 0xb0]);
  return Uint8Array.from([0xef, 0xbb, 0xbf, ...bytes]);
}

/** Valid cards with one to six accidents to their bytes. */
export const spoiledCard: fc.Arbitrary<Card> = fc.tuple(fc.constantFrom(...cards), fc.array(accident, { minLength: 1, maxLength: 6 })).map(([card, accidents]) => {
  const files = { ...card.files };
  const names = Object.keys(files);
  for (const a of accidents) files[names[a.file % names.length]] = spoiled(files[names[a.file % names.length]], a);
  return { description: card.description, files };
});

const oddValue: fc.Arbitrary<unknown> = fc.oneof(
  fc.constantFrom<unknown>(null, true, 0, -1, 1e308, -1e308, 1e21, Number.MAX_SAFE_INTEGER, "", " ", "\u0000", "degC", "hPa", "__proto__", "constructor", "../x", "/etc/x", "http://x/y", "9".repeat(400), "2024-02-30", "%Y%Y", "%", "Z", "+99:00", "Mars/Base", [], {}, [[]], [null], { a: { b: [] } }, "\ud800", "á".repeat(50)),
  fc.string({ maxLength: 20, unit: "binary" }),
  fc.double(),
  fc.jsonValue({ maxDepth: 2 }),
);

/** Every place in a document that can be changed, as the keys that lead to it. */
function pathsOf(value: unknown, path: readonly (string | number)[] = []): (readonly (string | number)[])[] {
  if (value === null || typeof value !== "object") return [path];
  const inside = Array.isArray(value) ? value.flatMap((v, k) => pathsOf(v, [...path, k])) : Object.entries(value).flatMap(([k, v]) => pathsOf(v, [...path, k]));
  return [path, ...inside];
}

type Change = { readonly kind: "replace" | "delete" | "double" | "swap" | "add"; readonly at: number; readonly other: number; readonly value: unknown };
const change: fc.Arbitrary<Change> = fc.record({ kind: fc.constantFrom("replace" as const, "delete" as const, "double" as const, "swap" as const, "add" as const), at: fc.nat(), other: fc.nat(), value: oddValue });

/** What one change makes of a document, which is changed in place. */
function changed(document: unknown, { kind, at, other, value }: Change): unknown {
  const paths = pathsOf(document).slice(1);
  if (paths.length === 0) return value;
  const holder = (path: readonly (string | number)[]): any => path.slice(0, -1).reduce((v: any, k) => v[k], document);
  const path = paths[at % paths.length];
  const key = path[path.length - 1];
  const own: unknown = holder(path);
  const spare = ["role", "place", "quantity", "zone", "extra", "units", "sampling"][other % 7];
  if (Array.isArray(own)) {
    const k = Number(key);
    if (kind === "replace") own[k] = value;
    else if (kind === "delete") own.splice(k, 1);
    else if (kind === "double") own.splice(k, 0, structuredClone(own[k]));
    else if (kind === "add") own.push(value);
  } else {
    const fields = own as Record<string, unknown>;
    if (kind === "replace") fields[key] = value;
    else if (kind === "delete") delete fields[key];
    else if (kind === "double") fields[`${key}2`] = structuredClone(fields[key]);
    else if (kind === "add") fields[spare] = value;
  }
  if (kind === "swap") {
    const far = paths[other % paths.length];
    const [here, there] = [own as Record<string, unknown>, holder(far) as Record<string, unknown>];
    const last = far[far.length - 1];
    const kept = structuredClone(here[key]);
    here[key] = structuredClone(there[last]);
    there[last] = kept;
  }
  return document;
}

/** Valid cards whose description had one to four things changed, taken away, doubled or exchanged. */
export const spoiledDescription: fc.Arbitrary<Card> = fc.tuple(fc.constantFrom(...cards), fc.array(change, { minLength: 1, maxLength: 4 })).map(([card, changes]) => ({
  description: changes.reduce(changed, structuredClone(card.description)),
  files: card.files,
}));

/**
 * Reads a card and checks it: an answer that keeps the line law, or a refusal in one sentence; never anything else.
 *
 * @returns what happened: `answered` or `refused`
 * @throws Error with what broke the law
 */
export async function readAndCheck({ description, files }: Card): Promise<"answered" | "refused"> {
  let record: AirRecord;
  try {
    record = await readRecord(description, (path) => {
      const bytes = Object.hasOwn(files, path) ? files[path] : undefined;
      if (bytes === undefined) throw new RecordError(`${path} could not be read: there is no such file`, "description", { file: path });
      return [bytes];
    });
  } catch (error) {
    if (!(error instanceof RecordError)) throw error;
    if (error.message.length < 10 || /undefined|\[object/.test(error.message.replaceAll(JSON.stringify(description), ""))) throw new Error(`no sentence: ${error.message}`);
    return "refused";
  }
  for (const f of record.files) {
    if (f.lines !== f.accepted + f.skipped + f.rejected.length) throw new Error(`${f.path}: ${f.lines} lines, ${f.accepted} + ${f.skipped} + ${f.rejected.length}`);
    if (f.rejected.some(({ line, reason }, k) => line < 1 || line > f.lines || reason.length < 5 || (k > 0 && line <= f.rejected[k - 1].line))) throw new Error(`${f.path}: rejected lines`);
  }
  const accepted = record.files.reduce((n, f) => n + f.accepted, 0);
  const rows = Object.values(record.places).reduce((n, p) => n + p.readings + p.repeated + p.conflicting, 0);
  const isLong = record.places.veranda !== undefined;
  if (isLong && Object.values(record.places).every((p) => (p.merged ?? 0) === 0) && rows !== accepted) throw new Error(`${accepted} accepted lines, ${rows} rows`);
  const answer = checkRecord(record);
  const text = answer[displaySymbol](80)["text/plain"];
  const told = record.files.flatMap((f) => f.rejected.map((r) => r.reason)).join();
  // A log's own words, quoted in a reason, are no slip.
  if (!/NaN|undefined|Infinity/.test(told) && /NaN|undefined|\[object|Infinity/.test(text)) throw new Error(`a slip in the text: ${/.*(NaN|undefined|\[object|Infinity).*/.exec(text)?.[0]}`);
  for (const p of Object.values(record.places)) {
    for (const s of Object.values(p.series)) if (s.values.some((v) => v === Infinity || v === -Infinity)) throw new Error("an infinite value");
  }
  JSON.stringify(answer);
  return "answered";
}

/** Fuzzes with a seed and tells how many were answered; every card ends within 20 s of itself, or the run fails. */
export async function fuzz(cardsOf: fc.Arbitrary<Card>, seed: number, numRuns: number): Promise<{ answered: number; refused: number; slowest: number }> {
  const tally = { answered: 0, refused: 0, slowest: 0 };
  await fc.assert(
    fc.asyncProperty(cardsOf, async (card) => {
      const from = performance.now();
      tally[await readAndCheck(card)]++;
      const took = performance.now() - from;
      tally.slowest = Math.max(tally.slowest, took);
      if (took > 20_000) throw new Error(`${Math.round(took)} ms for one small card`);
    }),
    {
      seed,
      numRuns,
      // The counterexample is some kilobytes of bytes: the path draws it again.
      reporter: (out) => {
        if (out.failed) throw new Error(`seed ${out.seed}, path "${out.counterexamplePath}", after ${out.numRuns}: ${out.errorInstance instanceof Error ? out.errorInstance.stack : String(out.errorInstance)}`);
      },
    },
  );
  return tally;
}
