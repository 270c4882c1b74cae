import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ByteLines } from "../../lib/record/line/byteLines.js";
import { LineCutter, longestLine } from "../../lib/record/line/lineCutter.js";
import { RecordReader } from "../../lib/record/recordReader.js";
import { card, type Loose } from "../unit/record/card.js";

const seed = 20261126;
const encoder = new TextEncoder();

/** The record, or what was thrown. */
function outcome(description: unknown, files: readonly Uint8Array[], chunk: number, plain: boolean): unknown {
  try {
    const reader = new RecordReader(description, { plain });
    for (const [k, path] of reader.paths.entries()) {
      reader.begin(path);
      for (let i = 0; i < files[k].length; i += chunk) reader.push(files[k].subarray(i, i + chunk));
      reader.end();
    }
    return reader.finish();
  } catch (error) {
    return `${(error as Error).name}: ${(error as Error).message}`;
  }
}

/** Ways to write a log: description, and its rows from numbers. */
interface Dialect {
  readonly delimiter: string;
  readonly decimal: string;
  readonly quoteChar: string;
  readonly header: boolean;
  readonly comment: string;
  readonly stamp: number;
  readonly layout: "long" | "lone" | "wide";
  readonly extra: boolean;
  readonly missing: readonly string[];
  readonly integer: boolean;
}

const two = (n: number): string => String(n).padStart(2, "0");
const civil = (minute: number): Date => new Date(Date.UTC(2024, 1, 27) + 60_000 * minute);
/** Descriptions of stamps with their writers; second by second where the minute has a fraction. */
const stamps: readonly { readonly fields: Loose[]; readonly write: (d: Date) => string[] }[] = [
  { fields: [{ name: "date", type: "date" }, { name: "time", type: "time", zone: "+07:00" }], write: (d) => [d.toISOString().slice(0, 10), d.toISOString().slice(11, 19)] },
  { fields: [{ name: "date", type: "date" }, { name: "time", type: "time", zone: "Europe/London" }], write: (d) => [d.toISOString().slice(0, 10), d.toISOString().slice(11, 16)] },
  { fields: [{ name: "at", type: "datetime" }], write: (d) => [`${d.toISOString().slice(0, 19)}Z`] },
  { fields: [{ name: "at", type: "datetime" }], write: (d) => [`${d.toISOString().slice(0, 16)}${d.getUTCHours() < 12 ? "+02:00" : "-0330"}`] },
  { fields: [{ name: "at", type: "datetime" }], write: (d) => [`${d.toISOString().slice(0, 19)}${d.getUTCMinutes() % 5 === 0 ? "" : "Z"}`] },
  { fields: [{ name: "at", type: "datetime", zone: "Z" }], write: (d) => [d.toISOString().replace("T", " ").replace(".000Z", d.getUTCHours() % 3 === 0 ? ".250" : "")] },
  { fields: [{ name: "at", type: "datetime", zone: "Z", format: "%d.%m.%Y %H:%M" }], write: (d) => [`${two(d.getUTCDate())}.${two(d.getUTCMonth() + 1)}.2024 ${two(d.getUTCHours())}:${two(d.getUTCMinutes())}`] },
  { fields: [{ name: "at", type: "datetime", zone: "Z", format: "%m/%d/%y %H:%M:%S" }], write: (d) => [`${d.getUTCMonth() + 1}/${d.getUTCDate()}/24 ${d.getUTCHours()}:${two(d.getUTCMinutes())}:${two(d.getUTCSeconds())}`] },
  { fields: [{ name: "at", type: "datetime", zone: "Z", format: "%I:%M %p %b %d %Y" }], write: (d) => [`${two(d.getUTCHours() % 12 || 12)}:${two(d.getUTCMinutes())} ${d.getUTCHours() < 12 ? "AM" : "pm"} Feb ${two(d.getUTCDate() % 29 || 29)} 2024`] },
  { fields: [{ name: "at", type: "datetime", zone: "Z", format: "%H%M%S %j %Y" }], write: (d) => [`${two(d.getUTCHours())}${two(d.getUTCMinutes())}${two(d.getUTCSeconds())} ${d.getUTCDate() + 31} 2024`] },
  { fields: [{ name: "at", type: "datetime", format: "%s" }], write: (d) => [d.getUTCHours() % 5 === 0 ? String(d.getTime() / 1000) : (d.getTime() / 1000).toFixed(0)] },
  { fields: [{ name: "at", type: "datetime", format: "%s", zone: "Europe/London" }], write: (d) => [(d.getTime() / 1000).toFixed(3)] },
  { fields: [{ name: "at", type: "datetime", format: "%Q", zone: "+07:00" }], write: (d) => [String(d.getTime())] },
  { fields: [{ name: "day", type: "date", zone: "Europe/London" }], write: (d) => [d.toISOString().slice(0, 10)] },
  { fields: [{ name: "day", type: "date", format: "%d.%m.%Y", zone: "+07:00" }], write: (d) => [`${two(d.getUTCDate())}.${two(d.getUTCMonth() + 1)}.2024`] },
  { fields: [{ name: "time", type: "time", format: "%H.%M%z" }, { name: "date", type: "date", format: "%Y/%m/%d" }], write: (d) => [`${two(d.getUTCHours())}.${two(d.getUTCMinutes())}+0100`, d.toISOString().slice(0, 10).replaceAll("-", "/")] },
];

const dialect: fc.Arbitrary<Dialect> = fc.record({
  delimiter: fc.constantFrom(",", ",", ";", "\t", "|"),
  decimal: fc.constantFrom(".", ".", ","),
  quoteChar: fc.constantFrom('"', '"', "'"),
  header: fc.boolean(),
  comment: fc.constantFrom("", "#", "2"),
  stamp: fc.nat({ max: stamps.length - 1 }),
  layout: fc.constantFrom("long", "lone", "wide"),
  extra: fc.boolean(),
  missing: fc.constantFrom([""], ["", "NA"], ["NA", "-99.9", "0"]),
  integer: fc.boolean(),
});

function description(d: Dialect): unknown {
  return card((c) => {
    const number = (name: string, quantity: string, unit: string, more: Loose = {}): Loose => ({ name, type: "number", quantity, unit, ...(d.decimal === "." ? {} : { decimalChar: d.decimal }), ...more });
    const [r] = c.resources;
    r.path = ["one.txt", "two.txt"];
    r.dialect = { header: d.header, delimiter: d.delimiter, quoteChar: d.quoteChar, ...(d.comment === "" ? {} : { commentChar: d.comment }) };
    const who = { name: "who", type: "string", role: "place", values: { V: "veranda", "L 2": "library", Küche: "library" } };
    const t = number("t", "air_temperature", "degF");
    const wide = [number("tv", "air_temperature", "degC", { place: "veranda" }), number("tl", "air_temperature", "degC", { place: "library" }), number("p", "surface_air_pressure", "inHg", { place: "library" })];
    const whole = { name: "h", type: "integer", quantity: "relative_humidity", unit: "%" };
    r.schema = {
      missingValues: d.missing,
      fields: [...stamps[d.stamp].fields, ...(d.layout === "long" ? [who] : []), ...(d.extra ? [{ name: "note", type: "string" }] : []), ...(d.layout === "wide" ? wide : [t, d.integer ? whole : number("p", "surface_air_pressure", "hPa")])],
    };
    if (d.layout === "lone") c.places = { here: { title: "Here" } };
  });
}

const cell = fc.oneof(
  { weight: 30, arbitrary: fc.double({ min: -60, max: 1100, noNaN: true }).map((v) => v.toFixed(2)) },
  { weight: 6, arbitrary: fc.integer({ min: -40, max: 100 }).map(String) },
  { weight: 2, arbitrary: fc.constantFrom("", "NA", "0", "-99.9") },
  { weight: 1, arbitrary: fc.constantFrom("9007199254740993", "12345678901234567", "0.12345678901234567", "90071992547409.93", "123456789012345", "0.000000000000001", "123.456789012345", "-1234567890.12345") },
  { weight: 2, arbitrary: fc.constantFrom("nan", "-0", "-0.0", "+5", "5.", ".5", "-.5", "1e1", "1.2.3", "--4", "+-4", "-", "inf", " 7", "7 ", "9\u00a0", "1,5", "1.5") },
);
const row = fc.record({
  minute: fc.oneof({ weight: 6, arbitrary: fc.integer({ min: 0, max: 4 * 1440 }) }, { weight: 1, arbitrary: fc.integer({ min: 0, max: 86_400 * 4 }).map((s) => s / 60) }),
  who: fc.oneof({ weight: 8, arbitrary: fc.constantFrom("V", "L 2", "Küche") }, { weight: 1, arbitrary: fc.constantFrom(" V", "V ", "v", "", "VV", '"V"') }),
  note: fc.constantFrom("", "ok", "ok", "ok", 'a "quoted" word', '"x;y,z"', '"open', '"shut" more', "'open", "Grüße", "a\u0001b", "a\u0000b", "tab\there", "'single'", "#"),
  cells: fc.array(cell, { minLength: 3, maxLength: 3 }),
  odd: fc.oneof({ weight: 12, arbitrary: fc.constant("") }, { weight: 6, arbitrary: fc.constantFrom("more", "fewer", "trailing", "blank", "comment", "quoted", "header", "year", "late", "long", "space") }),
});
type Row = typeof row extends fc.Arbitrary<infer T> ? T : never;

function written(d: Dialect, rows: readonly Row[], end: string): string {
  const names = (description(d) as Loose).resources[0].schema.fields.map((f: Loose) => f.name);
  const numbers = d.layout === "wide" ? 3 : 2;
  const lines = rows.map((r) => {
    let cells = [...stamps[d.stamp].write(civil(r.minute)), ...(d.layout === "long" ? [r.who] : []), ...(d.extra ? [r.note] : []), ...r.cells.slice(0, numbers).map((c) => (d.decimal === "," ? c.replace(".", ",") : c))];
    if (r.odd === "more") cells.push("1");
    if (r.odd === "fewer") cells.pop();
    if (r.odd === "trailing") cells.push("");
    // A clock that was not set, an hour that is none, a day that is none.
    if (r.odd === "year") cells[0] = cells[0].replace("2024", "1989");
    if (r.odd === "late") cells = cells.map((c) => c.replace(/\d?\d([:.])/, (_, sign) => `${24 + (Math.floor(r.minute) % 5)}${sign}`));
    if (r.odd === "long") cells[0] = cells[0].replace("-02-", "-13-");
    if (r.odd === "space") cells = cells.map((c) => ` ${c}`);
    if (r.odd === "quoted") cells = cells.map((c) => `${d.quoteChar}${c}${d.quoteChar}`);
    if (r.odd === "blank") return "   ";
    if (r.odd === "comment") return `${d.comment}${cells.join(d.delimiter)}`;
    if (r.odd === "header") return names.join(d.delimiter);
    return cells.join(d.delimiter);
  });
  return [...(d.header ? [names.join(d.delimiter)] : []), ...lines].map((l) => l + end).join("");
}

const accident = fc.record({ kind: fc.constantFrom("cut", "double", "nul", "junk", "end", "digit"), at: fc.nat(), length: fc.integer({ min: 1, max: 30 }), byte: fc.integer({ min: 0, max: 255 }) });

function spoil(bytes: Uint8Array, { kind, at, length, byte }: { kind: string; at: number; length: number; byte: number }): Uint8Array {
  const list = Array.from(bytes);
  const i = list.length === 0 ? 0 : at % list.length;
  if (kind === "cut") list.splice(i, length);
  else if (kind === "double") list.splice(i, 0, ...list.slice(i, i + length));
  else if (kind === "nul") list.splice(i, 0, ...new Array(length).fill(0));
  else if (kind === "junk") list.splice(i, 0, byte, 255 - byte);
  else if (kind === "digit") list[i] = 48 + (byte % 10);
  else list.splice(i, 0, ...(byte % 2 === 0 ? [13, 10] : [10]));
  return Uint8Array.from(list);
}

describe("rows read from bytes and the same rows read from text", () => {
  it("agree on every log of every dialect, damaged or not, in chunks of any size", () => {
    let answered = 0;
    let readings = 0;
    fc.assert(
      fc.property(dialect, fc.array(row, { minLength: 1, maxLength: 30 }), fc.array(row, { maxLength: 12 }), fc.array(accident, { maxLength: 3 }), fc.constantFrom("\n", "\n", "\r\n", "\r"), fc.constantFrom(1, 7, 64, 1 << 16), (d, first, second, accidents, end, chunk) => {
        // A delimiter that is the decimal sign too is refused by the description.
        fc.pre(!(d.delimiter === "," && d.decimal === ","));
        const bytes = [encoder.encode(written(d, first, end)), accidents.reduce(spoil, encoder.encode(written(d, second, end)))];
        const quick = outcome(description(d), bytes, chunk, false);
        expect(quick).toEqual(outcome(description(d), bytes, chunk, true));
        if (typeof quick === "string") return;
        answered++;
        readings += Object.values((quick as ReturnType<RecordReader["finish"]>).places).reduce((n, p) => n + p.readings, 0);
      }),
      { seed, numRuns: 1200 },
    );
    expect(answered).toBeGreaterThan(600);
    expect(readings).toBeGreaterThan(5000);
  });
});

describe("lines cut from bytes and the same lines cut from text", () => {
  type Line = [string | null, number];
  const cutBy = (make: (take: (text: string | null, line: number) => void) => { push(chunk: Uint8Array): void; end(): void; lines: number }, bytes: Uint8Array, chunk: number): { lines: Line[]; count: number } => {
    const lines: Line[] = [];
    const cutter = make((text, line) => lines.push([text, line]));
    for (let i = 0; i < bytes.length; i += chunk) cutter.push(bytes.slice(i, i + chunk));
    cutter.end();
    return { lines, count: cutter.lines };
  };
  const both = (bytes: Uint8Array, chunk: number, encoding: string | null = null): void => {
    const text = cutBy((take) => new LineCutter(encoding, take), bytes, chunk);
    const quick = cutBy((take) => new ByteLines(encoding, { lines: 0, read: (_, from) => from }, take), bytes, chunk);
    const at = quick.lines.findIndex((l, k) => l[0] !== text.lines[k]?.[0] || l[1] !== text.lines[k][1]);
    const told = (line: Line | undefined): unknown => [line?.[0]?.slice(0, 60), line?.[0]?.length, line?.[1]];
    // Lines of a megabyte are not for a message.
    expect(at < 0 ? "all agree" : [told(quick.lines[at]), told(text.lines[at])]).toBe("all agree");
    expect([quick.lines.length, quick.count]).toEqual([text.lines.length, text.count]);
  };
  const piece = fc.oneof(
    { weight: 6, arbitrary: fc.string({ unit: fc.constantFrom(..."ab,1é€😀 "), maxLength: 12 }).map((s) => encoder.encode(s)) },
    { weight: 3, arbitrary: fc.constantFrom([10], [13, 10], [13], [13, 13, 10], [10, 10]).map((l) => Uint8Array.from(l)) },
    { weight: 1, arbitrary: fc.constantFrom([0xef, 0xbb, 0xbf], [0xe2, 0x82], [0xff], [0xc3], [0x80, 0x80], [0], [0xf0, 0x9f, 0x98], [0xed, 0xa0, 0x80]).map((l) => Uint8Array.from(l)) },
  );
  const join = (pieces: readonly Uint8Array[]): Uint8Array => Uint8Array.from(pieces.flatMap((p) => Array.from(p)));

  it("agree on any bytes in chunks of any size", () => {
    fc.assert(fc.property(fc.array(piece, { maxLength: 40 }), fc.integer({ min: 1, max: 30 }), fc.constantFrom(null, "utf-8", "windows-1252"), (pieces, chunk, encoding) => both(join(pieces), chunk, encoding)), { seed, numRuns: 3000 });
  });

  it("agree where lines are turned into text by blocks", () => {
    const line = fc.array(piece, { maxLength: 3 });
    fc.assert(fc.property(fc.array(line, { minLength: 300, maxLength: 700 }), fc.integer({ min: 50, max: 5000 }), (lines, chunk) => both(join([encoder.encode("x\n"), ...lines.flatMap((l) => [...l, Uint8Array.of(10)])]), chunk)), { seed, numRuns: 60 });
    both(encoder.encode(`x\n${"a,b,c\r\n".repeat(90_000)}tail`), 1 << 20);
  });

  it("agree on lines about as long as the longest", () => {
    const around = [longestLine - 1, longestLine, longestLine + 1, 3 * longestLine + 5];
    for (const length of around) {
      for (const [unit, bytes] of [["a", 1], ["é", 2], ["€", 3]] as const) {
        const long = unit.repeat(length > 2 * longestLine ? Math.ceil(length / bytes) : length);
        both(encoder.encode(`x\n${long}\ny\n`), 700_001);
        both(encoder.encode(`x\n${long}`), 1 << 18);
      }
    }
    both(encoder.encode(`${"a".repeat((1 << 22) + 10)}\nx\n`), 1 << 20);
  });
});
