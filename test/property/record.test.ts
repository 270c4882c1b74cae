import fc from "fast-check";
import { Temporal } from "temporal-polyfill";
import { describe, expect, it } from "vitest";
import type { AirRecord } from "../../lib/record/airRecord.js";
import { RecordError } from "../../lib/ground/complaint.js";
import { instantsOf, offsetAt, zoneNamed } from "../../lib/ground/zone.js";
import { readNumber } from "../../lib/record/line/numberText.js";
import { timeOrder } from "../../lib/record/rows/timeOrder.js";
import { card, column, readCard } from "../unit/record/card.js";

const seed = 20240301;
const runs = { seed, numRuns: 150 };
const encoder = new TextEncoder();

const rowText = fc
  .record({ minute: fc.integer({ min: 0, max: 1439 }), who: fc.constantFrom("V", "L"), t: fc.integer({ min: -400, max: 600 }), p: fc.constantFrom("860.12", "861", "NA", "") })
  .map(({ minute, who, t, p }) => `2024-03-01,${String(Math.floor(minute / 60)).padStart(2, "0")}:${String(minute % 60).padStart(2, "0")}:00,${who},${t / 10},${p}`);

/** A valid card of some rows, spoiled by a chain of accidents to its bytes. */
const accident = fc.record({ kind: fc.constantFrom("cut", "double", "swap", "nul", "junk", "huge", "end"), at: fc.nat(), length: fc.integer({ min: 1, max: 40 }), byte: fc.integer({ min: 0, max: 255 }) });
type Accident = { kind: string; at: number; length: number; byte: number };

function spoil(bytes: Uint8Array, { kind, at, length, byte }: Accident): Uint8Array {
  const list = Array.from(bytes);
  const i = list.length === 0 ? 0 : at % list.length;
  const piece = list.slice(i, i + length);
  if (kind === "cut") list.splice(i, length);
  else if (kind === "double") list.splice(i, 0, ...piece);
  else if (kind === "swap") list.splice(i, piece.length, ...piece.reverse());
  else if (kind === "nul") list.splice(i, 0, ...new Array(length).fill(0));
  else if (kind === "junk") list.splice(i, 0, ...piece.map((b) => (b * 31 + byte) % 256), byte);
  else if (kind === "huge") list.splice(i, 0, ...encoder.encode("9".repeat(8 * length)));
  else list.splice(i, 0, 13, 10);
  return Uint8Array.from(list);
}

const spoiledCard = fc
  .tuple(fc.array(rowText, { minLength: 1, maxLength: 40 }), fc.array(accident, { maxLength: 6 }), fc.constantFrom("\n", "\r\n", "\r"))
  .map(([rows, accidents, end]) => accidents.reduce(spoil, encoder.encode(rows.join(end) + end)));

/** Reads a card; a first sound file keeps the record from being empty. */
function read(bytes: Uint8Array, chunk: number): AirRecord {
  const d = card((c) => { c.resources[0].path = ["sound.txt", "card.txt"]; });
  return readCard(d, ["2024-01-01,00:00,V,1,860\n", bytes], chunk);
}

/** Lines of a text, counted the slow way: by the rule in LineCutter's words. */
function lineCount(bytes: Uint8Array): number {
  const [a, b, c, e] = bytes;
  const encoding = (a === 0xff && b === 0xfe) || (a !== 0 && b === 0 && c !== 0 && e === 0) ? "utf-16le" : (a === 0xfe && b === 0xff) || (a === 0 && b !== 0 && c === 0 && e !== 0) ? "utf-16be" : "utf-8";
  const text = new TextDecoder(bytes.length < 4 ? "utf-8" : encoding).decode(bytes);
  const first = /\r*\n|\r/.exec(text);
  if (first === null) return text === "" ? 0 : 1;
  const parts = first[0].endsWith("\n") ? text.split("\n") : text.split(/\r\n|\r|\n/);
  return parts[parts.length - 1] === "" ? parts.length - 1 : parts.length;
}

describe("the reader, on cards damaged at random", () => {
  it("every line lands in exactly one of accepted, skipped, rejected, and readings add up", () => {
    fc.assert(
      fc.property(spoiledCard, (bytes) => {
        const record = read(bytes, 1 << 16);
        const [, file] = record.files;
        const numbers = file.rejected.map((r) => r.line);
        expect(file.accepted + file.skipped + numbers.length).toBe(file.lines);
        expect(file.lines).toBe(lineCount(bytes));
        expect(numbers.every((n, i) => n >= 1 && n <= file.lines && (i === 0 || n > numbers[i - 1]))).toBe(true);
        expect(file.rejected.every((r) => r.reason.length > 5 && r.reason.length < 200 && !/[\u0000-\u001f]/.test(r.reason))).toBe(true);
        const sum = Object.values(record.places).reduce((n, p) => n + p.readings + p.repeated + p.conflicting, 0);
        expect(sum).toBe(record.files.reduce((n, f) => n + f.accepted, 0));
        for (const p of Object.values(record.places)) {
          for (let i = 1; i < p.readings; i++) expect(p.seconds[i]).toBeGreaterThan(p.seconds[i - 1]);
          for (const s of Object.values(p.series)) for (const v of s.values) expect(v === Infinity || v === -Infinity).toBe(false);
        }
      }),
      runs,
    );
  });

  it("is the same whatever the size of the chunks", () => {
    fc.assert(
      fc.property(spoiledCard, fc.integer({ min: 1, max: 23 }), (bytes, chunk) => {
        expect(read(bytes, chunk)).toEqual(read(bytes, 1 << 16));
      }),
      runs,
    );
  });

  it("rows of one card in any order of its files give the same readings, when none contradicts another", () => {
    fc.assert(
      fc.property(fc.uniqueArray(fc.integer({ min: 0, max: 1439 }), { minLength: 1, maxLength: 60 }), fc.integer({ min: 0, max: 60 }), (minutes, cut) => {
        const rows = minutes.map((m) => `2024-03-01 ${String(Math.floor(m / 60)).padStart(2, "0")}:${String(m % 60).padStart(2, "0")},${m}`);
        const d = column("Z", (r) => { r.path = ["a", "b"]; r.dialect = { header: false }; });
        const places = (files: string[][]): unknown => readCard(d, files.map((f) => f.join("\n"))).places.here;
        expect(places([rows.slice(cut), rows.slice(0, cut)])).toEqual(places([[...rows].sort(), []]));
      }),
      runs,
    );
  });

  it("answers or refuses with a RecordError, never otherwise, any bytes at all", () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), fc.boolean(), (bytes, hasHeader) => {
        try {
          const record = readCard(card((c) => { c.resources[0].dialect.header = hasHeader; }), bytes, 5);
          expect(record.files[0].accepted).toBeGreaterThan(0);
        } catch (error) {
          expect(error).toBeInstanceOf(RecordError);
        }
      }),
      runs,
    );
  });
});

describe("zones against temporal-polyfill, civil time by civil time", () => {
  const zones = ["Europe/London", "America/Los_Angeles", "Australia/Lord_Howe", "Pacific/Apia", "Asia/Kolkata", "Africa/Casablanca", "America/Sao_Paulo"];
  const changes = zones.flatMap((name) => Array.from(zoneNamed(name)!.changes, (at) => ({ name, at })));
  // Half of the times lie within three hours of a change, where the meanings differ.
  const near = fc.tuple(fc.constantFrom(...changes), fc.integer({ min: -180, max: 180 })).map(([c, minutes]) => ({ name: c.name, civil: c.at + offsetAt(zoneNamed(c.name)!, c.at) + minutes * 60_000 }));
  const anywhere = fc.tuple(fc.constantFrom(...zones), fc.integer({ min: Date.UTC(1990, 0, 2) / 60_000, max: Date.UTC(2100, 11, 30) / 60_000 })).map(([name, m]) => ({ name, civil: m * 60_000 }));

  it("earlier, later and skipped agree", () => {
    fc.assert(
      fc.property(fc.oneof(near, anywhere), ({ name, civil }) => {
        const plain = Temporal.PlainDateTime.from(new Date(civil).toISOString().slice(0, 19));
        const slow = (disambiguation: "earlier" | "later" | "compatible"): number => plain.toZonedDateTime(name, { disambiguation }).epochMilliseconds;
        const got = instantsOf(zoneNamed(name)!, civil);
        const isOne = slow("earlier") === slow("later");
        // In a skipped hour "later" and "compatible" read with the offset before the change; in a repeated one "compatible" is the first.
        const isSkipped = !isOne && slow("compatible") === slow("later");
        if (isSkipped) expect(got).toEqual({ earlier: slow("later"), later: slow("later"), skipped: true });
        else expect(got).toEqual({ earlier: slow("earlier"), later: slow("later"), skipped: false });
      }),
      { seed, numRuns: 400 },
    );
  });

  it("a log through a change comes out as it was written, every 7 minutes", () => {
    fc.assert(
      fc.property(fc.constantFrom(...changes.filter((c) => c.at > Date.UTC(1990, 1, 1) && c.name !== "Pacific/Apia")), fc.integer({ min: 0, max: 6 }), ({ name, at }, shift) => {
        const zone = zoneNamed(name)!;
        const truth = Array.from({ length: 80 }, (_, k) => at + (7 * (k - 40) + shift) * 60_000);
        const stamps = truth.map((t) => new Date(t + offsetAt(zone, t)).toISOString().slice(0, 16));
        const p = readCard(column(name, (r) => { r.dialect = { header: false }; }), stamps.map((s, k) => `${s},${k}`).join("\n")).places.here;
        expect(Array.from(p.seconds, (s) => p.start + 1000 * s)).toEqual(truth);
      }),
      runs,
    );
  });
});

describe("small parts against slow twins", () => {
  it("readNumber gives what Number gives, and nothing for what has other signs in it", () => {
    const style = { decimalChar: ".", groupChar: "", bareNumber: true, isInteger: false };
    const of = (text: string): number => readNumber(text, 0, text.length, style);
    fc.assert(fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (x) => Object.is(of(String(x)), x) || (x === 0 && of(String(x)) === 0)), { seed, numRuns: 1000 });
    fc.assert(fc.property(fc.integer({ min: -1e9, max: 1e9 }), fc.integer({ min: 0, max: 6 }), (n, digits) => of((n / 10 ** digits).toFixed(digits)) === Number((n / 10 ** digits).toFixed(digits))), { seed, numRuns: 1000 });
    const pattern = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/;
    fc.assert(fc.property(fc.string({ unit: fc.constantFrom(..."0123456789.+-eE, x"), minLength: 0, maxLength: 8 }), (text) => Number.isNaN(of(text)) !== pattern.test(text)), { seed, numRuns: 3000 });
  });

  it("timeOrder is a stable sort", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 30 }), { maxLength: 80 }), (list) => {
        const times = Float64Array.from(list);
        const slow = list.map((_, i) => i).sort((a, b) => list[a] - list[b] || a - b);
        expect(Array.from(timeOrder(times) ?? list.map((_, i) => i))).toEqual(slow);
      }),
      { seed, numRuns: 500 },
    );
  });
});
