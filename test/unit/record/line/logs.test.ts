import { describe, expect, it } from "vitest";
import type { AirRecord } from "../../../../lib/record/airRecord.js";
import { LineCutter, longestLine } from "../../../../lib/record/line/lineCutter.js";
import { column, complaint, instants, type Loose, readCard } from "../card.js";

/** Values read from lines of a log with columns when, t; `change` alters the resource. */
function values(lines: readonly string[], change: (r: Loose) => void = () => undefined): number[] {
  return valuesOf(readCard(column("Z", change), `${lines.join("\n")}\n`));
}
const valuesOf = (record: AirRecord): number[] => Array.from(record.places.here.series.air_temperature?.values ?? []);
const account = (record: AirRecord): [number, number, number, [number, string][]] => {
  const { lines, accepted, skipped, rejected } = record.files[0];
  return [lines, accepted, skipped, rejected.map((r) => [r.line, r.reason])];
};
const at = (minute: number): string => `2024-03-01 00:${String(minute).padStart(2, "0")}`;
const head = "when,t";

describe("line ends and encodings", () => {
  const text = `${head}\n${at(0)},1\n${at(1)},2\n`;
  const plain = (change: (r: Loose) => void, bytes: Uint8Array | string): [number, number[]] => {
    const record = readCard(column("Z", change), bytes, 3);
    return [record.files[0].lines, valuesOf(record)];
  };
  const none = (): void => undefined;

  it("LF, CRLF, lone CR, none at the end, and both in one file", () => {
    for (const end of ["\n", "\r\n", "\r", "\r\r\n"]) expect(plain(none, text.replace(/\n/g, end)), JSON.stringify(end)).toEqual([3, [1, 2]]);
    expect(plain(none, text.trimEnd())).toEqual([3, [1, 2]]);
    expect(plain(none, `${head}\r\n${at(0)},1\n${at(1)},2\r\n`)).toEqual([3, [1, 2]]);
    expect(plain(none, `${head}\r${at(0)},1\n${at(1)},2\r\n\r`)).toEqual([4, [1, 2]]);
    expect(plain(none, `${head}\n\n\n${at(0)},1\n${at(1)},2`)).toEqual([5, [1, 2]]);
  });

  it("a stray CR inside a line of a LF file is damage in that line only", () => {
    const record = readCard(column(), `${head}\n${at(0)},1\r3\n${at(1)},2\n`);
    expect(account(record)).toEqual([3, 1, 1, [[2, 't is not a number (got "1·3")']]]);
  });

  it("byte order marks; UTF-16 of both orders, with and without", () => {
    const utf16 = (s: string, isBig: boolean): Uint8Array => Uint8Array.from([...s].flatMap((c) => (isBig ? [0, c.charCodeAt(0)] : [c.charCodeAt(0), 0])));
    const mark = (bytes: number[], rest: Uint8Array): Uint8Array => Uint8Array.from([...bytes, ...rest]);
    const utf8 = new TextEncoder().encode(text);
    expect(plain(none, mark([0xef, 0xbb, 0xbf], utf8))).toEqual([3, [1, 2]]);
    expect(plain((r) => { r.encoding = "windows-1252"; }, mark([0xef, 0xbb, 0xbf], utf8))).toEqual([3, [1, 2]]);
    for (const isBig of [true, false]) {
      expect(plain(none, utf16(text, isBig))).toEqual([3, [1, 2]]);
      expect(plain(none, mark(isBig ? [0xfe, 0xff] : [0xff, 0xfe], utf16(text, isBig)))).toEqual([3, [1, 2]]);
    }
  });

  it("another encoding is named; unnamed, its bytes spoil the name they stand in", () => {
    const latin = Uint8Array.from([...`when,t °C\n${at(0)},1\n`].map((c) => c.charCodeAt(0)));
    const named = (encoding?: string) => (r: Loose): void => {
      r.schema.fields[1].name = "t °C";
      if (encoding !== undefined) r.encoding = encoding;
    };
    expect(plain(named("iso-8859-1"), latin)).toEqual([2, [1]]);
    expect(complaint(() => plain(named(), latin))).toBe("log.csv line 1: the header must be when, t °C (got when, t \ufffdC)");
  });

  it("a line of more than a million characters is counted and not kept", () => {
    const long = "x".repeat(longestLine);
    const record = readCard(column("Z", (r) => { r.dialect = { commentChar: "x" }; }), `${head}\n${long}x\n${long}\n${at(0)},1\n${long}y`, 4099);
    expect(account(record)).toEqual([5, 1, 2, [[2, "it is longer than 1048576 characters"], [5, "it is longer than 1048576 characters"]]]);
  });
});

it("the memory of a line cutter is bounded, whatever comes without a line end", () => {
  const lines: (number | null)[] = [];
  const cutter = new LineCutter(null, (text) => lines.push(text === null ? null : text.length));
  const chunk = new Uint8Array(1 << 18).fill(120);
  for (let k = 0; k < 12; k++) {
    cutter.push(chunk);
    expect((cutter as unknown as { rest: string }).rest.length).toBeLessThanOrEqual(longestLine);
  }
  cutter.push(new TextEncoder().encode("\nabc"));
  cutter.end();
  expect(lines).toEqual([null, 3]);
});

describe("headers", () => {
  const match = (rule: string | string[]) => (r: Loose): void => {
    r.schema.fieldsMatch = rule;
    r.schema.fields.push({ name: "rh", type: "number", quantity: "relative_humidity", unit: "%" });
  };
  const cases: readonly (readonly [string, string, number[] | string])[] = [
    ["exact", "when,t,rh", [1]],
    ["exact", "when,rh,t", 'log.csv line 1: the header must be when, t, rh, or fieldsMatch be "equal" (got when, rh, t)'],
    ["exact", "when,t", 'log.csv line 1: the header must be when, t, rh, or fieldsMatch be "superset" (got when, t)'],
    ["exact", "when,t,rh,lux", 'log.csv line 1: the header must be when, t, rh, or fieldsMatch be "subset" (got when, t, rh, lux)'],
    ["equal", "rh,t,when", [1]],
    ["equal", "rh,t", "log.csv line 1: the header must hold when (got rh, t)"],
    ["equal", "rh,t,when,lux", "log.csv line 1: the header must hold nothing but when, t, rh (got rh, t, when, lux)"],
    ["subset", "lux,rh,t,when", [1]],
    ["subset", "lux,t,when", "log.csv line 1: the header must hold rh (got lux, t, when)"],
    ["superset", "t,when", [1]],
    ["superset", "t,when,lux", "log.csv line 1: the header must hold nothing but when, t, rh (got t, when, lux)"],
    ["partial", "lux,t,when", [1]],
    ["partial", "lux,t", "log.csv line 1: the header must hold when (got lux, t)"],
    ["partial", "lux,when", "log.csv line 1: the header must hold one of t, rh (got lux, when)"],
    ["subset", "when,t,rh,t", "log.csv line 1: the header must hold t once (got when, t, rh, t)"],
  ];
  it.each(cases)("%s: %s", (rule, header, wanted) => {
    const cells: Record<string, string> = { when: at(0), t: "1", rh: "50", lux: "7" };
    const text = `${header}\n${header.split(",").map((n) => cells[n]).join(",")}\n`;
    for (const told of [rule, [rule]]) {
      if (typeof wanted === "string") expect(complaint(() => readCard(column("Z", match(told)), text))).toBe(wanted);
      else expect(valuesOf(readCard(column("Z", match(told)), text))).toEqual(wanted);
    }
  });

  it("at the top of each file, in its own order, and again anywhere", () => {
    const d = column("Z", (r) => { r.path = ["a", "b"]; r.schema.fieldsMatch = "equal"; });
    const record = readCard(d, [`${head}\n${at(0)},1\n${head}\n${at(1)},2\n`, `\n"t","when"\n3,${at(2)}\n"t","when"\n${head}\n`]);
    expect(valuesOf(record)).toEqual([1, 2, 3]);
    expect(record.files.map((f) => [f.skipped, f.rejected.length])).toEqual([[2, 0], [4, 0]]);
  });

  it("a later file without one is read in the order of the file before; junk before one is rejected", () => {
    const d = column("Z", (r) => { r.path = ["a", "b", "c"]; r.schema.fieldsMatch = "equal"; });
    const record = readCard(d, [`t,when\n1,${at(0)}\n`, `2,${at(1)}\n`, `\u0000\u0000\n${head}\n${at(2)},3\n`]);
    expect(valuesOf(record)).toEqual([1, 2, 3]);
    expect(record.notes).toEqual(["b has no header; its columns were taken in the order of the file before it"]);
    expect(record.files[2].rejected).toEqual([{ line: 1, reason: "it stands before the header, and is neither header nor row" }]);
    expect(values([`${at(0)},1`])).toEqual([1]);
  });

  it("on a later row, with the rows before it and the named comment rows left out", () => {
    const lines = ["station 7", "", "made by hand", head, "yyyy,degC", `${at(0)},1`];
    const record = readCard(column("Z", (r) => { r.dialect = { headerRows: [4], commentRows: [5] }; }), lines.join("\n"));
    expect(account(record)).toEqual([6, 1, 5, []]);
  });

  it("none: a line that repeats the fields' names is skipped all the same", () => {
    const record = readCard(column("Z", (r) => { r.dialect = { header: false }; }), `${head}\n${at(0)},1\n`);
    expect(account(record)).toEqual([2, 1, 1, []]);
  });
});

describe("cells", () => {
  it("quotes hold the delimiter, doubled quotes a quote, blanks after a delimiter may be skipped", () => {
    const text = (r: Loose): void => { r.schema.fields.splice(1, 0, { name: "note", type: "string" }); };
    const lines = ["when,note,t", `"${at(0)}","a, ""b"" c","1"`, `${at(1)},5" pipe,2`];
    expect(values(lines, text)).toEqual([1, 2]);
    expect(values([head, `"${at(0)}", "1"`], (r) => { r.dialect = { skipInitialSpace: true }; })).toEqual([1]);
    expect(values(["'when';'t'", `'${at(0)}';'1,5'`], (r) => { r.dialect = { delimiter: ";", quoteChar: "'" }; r.schema.fields[1].decimalChar = ","; })).toEqual([1.5]);
    expect(values(["when   t", "2024-03-01T00:00    1"], (r) => { r.dialect = { delimiter: " ", skipInitialSpace: true }; })).toEqual([1]);
    expect(values(["when||t", `${at(0)}||1`], (r) => { r.dialect = { delimiter: "||" }; })).toEqual([1]);
    expect(values(["when\tt", `${at(0)}\t1`], (r) => { r.dialect = { delimiter: "\t" }; })).toEqual([1]);
  });

  it("damage stays in its line: open quotes, cut and glued lines, NULs, bytes that are no text", () => {
    const lines = [head, `${at(0)},"1`, `${at(1)},"1"2`, `${at(2)}`, `${at(3)},1${at(4)},1`, `${at(5)},\0\0`, `\0\0\0`, `${at(6)},\u0007`, `${at(7)},1,`, `${at(8)},1,,`, `${at(9)},1,x`];
    expect(account(readCard(column(), lines.join("\n")))).toEqual([
      11, 1, 1,
      [
        [2, "a quote is opened and not closed, or text follows it"],
        [3, "a quote is opened and not closed, or text follows it"],
        [4, "it has 1 field where 2 belong (cut short?)"],
        [5, "it has 3 fields where 2 belong (two lines in one?)"],
        [6, "it holds NUL bytes: a part of the card that was never written"],
        [7, "it holds NUL bytes: a part of the card that was never written"],
        [8, "it holds bytes that are no text"],
        [10, "it has 4 fields where 2 belong (two lines in one?)"],
        [11, "it has 3 fields where 2 belong (two lines in one?)"],
      ],
    ]);
  });

  it("a NUL in a column that is not used spoils its line too", () => {
    const record = readCard(column("Z", (r) => { r.schema.fields.push({ name: "note", type: "string" }); }), `when,t,note\n${at(0)},1,a\0\n${at(1)},2,\n`);
    expect(account(record)[3]).toEqual([[2, "it holds NUL bytes: a part of the card that was never written"]]);
  });

  it("comments begin with one character or more", () => {
    const lines = ["// first", head, `${at(0)},1`, "//", `/${at(1)},2`];
    const record = readCard(column("Z", (r) => { r.dialect = { commentChar: "//" }; }), lines.join("\n"));
    expect(account(record)).toEqual([5, 1, 3, [[5, 'when is not of the form YYYY-MM-DD HH:MM:SS (got "/2024-03-01 00:01")']]]);
  });

  it("places: unknown and missing ones reject the line", () => {
    const d = column("Z", (r, c) => {
      c.places = { a: {}, b: {} };
      r.schema.fields.push({ name: "who", type: "integer", role: "place", values: { 1: "a", 2: "b" } });
    });
    const record = readCard(d, `when,t,who\n${at(0)},1, 1 \n${at(0)},1,2\n${at(0)},1,3\n${at(0)},1,\n`);
    expect([record.places.a.readings, record.places.b.readings]).toEqual([1, 1]);
    expect(account(record)[3]).toEqual([[4, 'who names no place that is known (got "3")'], [5, "who is empty, so no place is known"]]);
  });
});

describe("numbers", () => {
  const read = (cell: string, field: Loose = {}): number | string => {
    const record = readCard(column("Z", (r) => { Object.assign(r.schema.fields[1], field); r.dialect = { delimiter: "|" }; }), `when|t\n${at(0)}|${cell}\n${at(1)}|0\n`);
    return record.files[0].rejected[0]?.reason ?? valuesOf(record)[0];
  };

  it("strictly: signs, points, exponents; nothing else", () => {
    for (const [cell, wanted] of [["1", 1], ["-0.5", -0.5], ["+.5", 0.5], ["5.", 5], ["1e2", 100], ["-1.25E-2", -0.0125], ["0.1", 0.1], ["12345678901234567890", 1.2345678901234567e19], ["  7\t", 7], ["861.14", 861.14]] as const) {
      expect(read(cell), cell).toBe(wanted);
    }
    for (const cell of ["1x", "--1", "1.2.3", "1,5", "0x10", "1 2", "e5", ".", "-", "1e", "٣", "∞", "1e5e", "Infinity"]) expect(read(cell), cell).toBe(`t is not a number (got "${cell}")`);
    expect(read("1e999")).toBe('t is infinite (got "1e999")');
  });

  it("NaN is missing in any case, INF rejects its line in any case", () => {
    expect([read("NaN"), read("nan"), read("")]).toEqual([Number.NaN, Number.NaN, Number.NaN]);
    for (const cell of ["INF", "-inf", "+Inf"]) expect(read(cell)).toBe(`t is infinite (got "${cell}")`);
  });

  it("missing values as texts, with labels, a field's own in the place of the schema's", () => {
    const own = { missingValues: ["-999.9", { value: "n/a", label: "none" }] };
    expect([read("-999.9", own), read("n/a", own), read(" n/a ", own), read("-999.90", own)]).toEqual([Number.NaN, Number.NaN, Number.NaN, -999.9]);
    expect(read("", own)).toBe("t is empty, and that is not one of the missing values");
    expect(values([head, `${at(0)},-`, `${at(1)},1`], (r) => { r.schema.missingValues = ["-"]; })).toEqual([Number.NaN, 1]);
  });

  it("decimal comma, groups, text about the number, whole numbers", () => {
    expect([read("1,5", { decimalChar: "," }), read("1.5", { decimalChar: "," })]).toEqual([1.5, 't is not a number (got "1.5")']);
    expect([read("1.013,25", { decimalChar: ",", groupChar: "." }), read("1'013.25", { groupChar: "'" })]).toEqual([1013.25, 1013.25]);
    for (const cell of ["1''013", "1'013.2'5", "'1", "1'"]) expect(read(cell, { groupChar: "'" }), cell).toBe(`t is not a number (got "${cell}")`);
    expect([read("21.5 °C", { bareNumber: false }), read("T=-3.5K", { bareNumber: false }), read("$.5", { bareNumber: false }), read("°C", { bareNumber: false })]).toEqual([21.5, -3.5, 0.5, 't is not a number (got "°C")']);
    expect([read("12", { type: "integer" }), read("12.0", { type: "integer" }), read("1e2", { type: "integer" })]).toEqual([12, 't is not a number (got "12.0")', 't is not a number (got "1e2")']);
  });

  it("a damaged number rejects the whole line, one in a column without a quantity does not", () => {
    const d = column("Z", (r) => { r.schema.fields.push({ name: "rh", type: "number", quantity: "relative_humidity", unit: "1" }, { name: "wind", type: "number" }); });
    const record = readCard(d, `when,t,rh,wind\n${at(0)},1,0.?,3\n${at(1)},2,0.5,?\n`);
    expect([valuesOf(record), Array.from(record.places.here.series.relative_humidity!.values)]).toEqual([[2], [50]]);
  });
});

describe("stamps", () => {
  const read = (text: string, format?: string, zone = "Z"): string => {
    const d = column(zone, (r, whole) => {
      r.dialect = { header: false, delimiter: "|" };
      // A second, sound log of a later day, so that the record is never empty.
      whole.resources.push({ ...structuredClone(r), name: "sound", path: "sound.csv" });
      if (format !== undefined) r.schema.fields[0].format = format;
    });
    const record = readCard(d, [`${text}|1\n`, "2100-12-31 23:59:59Z|1\n"]);
    return record.files[0].rejected[0]?.reason ?? instants(record, "here")[0];
  };

  it("ISO 8601: T or blank, seconds and fraction optional, an own offset wins", () => {
    for (const text of ["2024-03-01T09:05", "2024-03-01 09:05:00", " 2024-03-01 09:05:00.0 ", "2024-03-01T09:05:00Z", "2024-03-01T16:05+07:00", "2024-03-01T16:05+0700", "2024-03-01T16:05:00+07"]) {
      expect(read(text), text).toBe("2024-03-01T09:05Z");
    }
    expect(read("2024-03-01T09:05:00.25Z")).toBe("2024-03-01T09:05:00.250Z");
    expect(read("2024-03-01 24:00:00")).toBe("2024-03-02T00:00Z");
    const form = "when is not of the form YYYY-MM-DD HH:MM:SS";
    for (const text of ["2024-03-01", "2024-3-01 09:05", "2024-03-01t09:05", "2024-03-01 9:05", "2024-03-01 09:05:0", "2024-03-01 09:05+7", "2024-03-01 09:05:00.", "x024-03-01 09:05"]) expect(read(text), text).toBe(`${form} (got "${text}")`);
  });

  it("says why a day or time does not exist", () => {
    expect(read("2023-02-29 00:00")).toBe('when does not exist (got "2023-02-29 00:00": February 2023 has 28 days)');
    expect(read("2024-02-29 00:00")).toBe("2024-02-29T00:00Z");
    expect(read("2024-13-01 00:00")).toBe('when does not exist (got "2024-13-01 00:00": there is no month 13)');
    expect(read("2024-01-01 25:00")).toBe('when does not exist (got "2024-01-01 25:00": there is no hour 25)');
    expect(read("2024-01-01 24:01")).toBe('when does not exist (got "2024-01-01 24:01": there is no hour 24)');
    expect(read("2024-01-01 23:60")).toBe('when does not exist (got "2024-01-01 23:60": there is no minute 60)');
    expect(read("2024-01-01 23:59:60")).toBe('when does not exist (got "2024-01-01 23:59:60": there is no second 60)');
  });

  it("1990 to 2100, both whole", () => {
    expect([read("1990-01-01 00:00"), read("2100-12-31 23:59")[0]]).toEqual(["1990-01-01T00:00Z", "2"]);
    for (const text of ["1989-12-31 23:59", "2101-01-01 00:00", "1970-01-01 00:00"]) expect(read(text)).toBe(`the year is not between 1990 and 2100: a clock that was not set? (got "${text}")`);
  });

  it("strptime's letters", () => {
    const cases: readonly (readonly [string, string, string])[] = [
      ["%d/%m/%Y %H:%M", "1/3/2024 9:05", "2024-03-01T09:05Z"],
      ["%d%m%y %H%M%S", "010324 090507", "2024-03-01T09:05:07Z"],
      ["%y-%j %I.%M %p", "24-061 09.05 pm", "2024-03-01T21:05Z"],
      ["%y-%j %I.%M %p", "24-061 12.05 AM", "2024-03-01T00:05Z"],
      ["%B %d, %Y %I:%M%p", "march 1, 2024 12:05PM", "2024-03-01T12:05Z"],
      ["%d-%b-%Y %H:%M:%S.%f", "01-MAR-2024 09:05:07.123456", "2024-03-01T09:05:07.123Z"],
      ["fmt:%Y-%m-%dT%H:%M:%S%z", "2024-03-01T09:05:00+07:00", "2024-03-01T02:05Z"],
      ["%Y-%m-%dT%H:%M:%S%z", "2024-03-01T09:05:00Z", "2024-03-01T09:05Z"],
      ["%Y-%m-%dT%H:%M:%S%z", "2024-03-01T09:05:00-0330", "2024-03-01T12:35Z"],
      ["%Y-%m-%d  %H:%M", "2024-03-01    09:05", "2024-03-01T09:05Z"],
      ["100%% %Y-%m-%d %H", "100% 2024-03-01 09", "2024-03-01T09:00Z"],
    ];
    for (const [format, text, wanted] of cases) expect(read(text, format), `${format} ${text}`).toBe(wanted);
    // A literal Z is text: the zone reads the time.
    expect(read("2024-03-01T09:05:00Z", "%Y-%m-%dT%H:%M:%SZ", "+07:00")).toBe("2024-03-01T02:05Z");
    // An offset of its own wins over the zone.
    expect(read("2024-03-01T09:05:00+01:00", "%Y-%m-%dT%H:%M:%S%z", "+07:00")).toBe("2024-03-01T08:05Z");
    expect(read("01/13/2024 00:00", "%d/%m/%Y %H:%M")).toBe('when does not exist (got "01/13/2024 00:00": there is no month 13)');
    expect(read("366 2023 0", "%j %Y %H")).toBe('when does not exist (got "366 2023 0": 2023 has 365 days)');
    expect(read("2024-03-01 13:05 PM", "%Y-%m-%d %I:%M %p")).toBe('when does not exist (got "2024-03-01 13:05 PM": there is no hour 13 on a clock of twelve)');
    for (const text of ["1/3/24 9:05", "1/3/2024 9:05 ", "1-3-2024 9:05"]) expect(read(`${text}x`, "%d/%m/%Y %H:%M")).toContain("when is not of the form %d/%m/%Y %H:%M");
    expect([read("01/01/69 00:00", "%d/%m/%y %H:%M"), read("01/01/68 00:00", "%d/%m/%y %H:%M")]).toEqual(['the year is not between 1990 and 2100: a clock that was not set? (got "01/01/69 00:00")', "2068-01-01T00:00Z"]);
  });
});
