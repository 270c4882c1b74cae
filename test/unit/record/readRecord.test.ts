import { describe, expect, it } from "vitest";
import type { RecordError } from "../../../lib/ground/complaint.js";
import { readRecord } from "../../../lib/record/readRecord.js";
import { RecordReader } from "../../../lib/record/recordReader.js";
import { card, column, complaint, instants, type Loose, readCard } from "./card.js";

const row = (time: string, who = "V", t = "20.5", p = "861.2"): string => `2024-03-01,${time},${who},${t},${p}`;

describe("readRecord", () => {
  it("reads a long log into places, UTC and house units", async () => {
    const d = card((c) => {
      c.resources[0].schema.fields[3].unit = "degF";
      c.resources[0].schema.fields[4].unit = "inHg";
    });
    const bytes = new TextEncoder().encode([row("09:00", "V", "68", "29.92"), row("09:05", "L", "NA", "")].join("\n"));
    const record = await readRecord(d, async () => [bytes]);
    const { veranda, library } = record.places;
    expect(instants(record, "veranda")).toEqual(["2024-03-01T02:00Z"]);
    expect(Math.abs(veranda.series.air_temperature!.values[0] - 20)).toBeLessThan(1e-12);
    expect(Math.abs(veranda.series.surface_air_pressure!.values[0] - 1013.2075)).toBeLessThan(5e-5);
    expect([library.readings, Object.keys(library.series)]).toEqual([1, []]);
    expect(record.notes).toContain("library has no value of air temperature");
    expect([record.zone, record.from, record.to]).toEqual(["+07:00", Date.UTC(2024, 2, 1, 2), Date.UTC(2024, 2, 1, 2, 5)]);
    expect(Object.isFrozen(record) && Object.isFrozen(veranda) && Object.isFrozen(record.files[0])).toBe(true);
  });

  it("reads from asynchronous chunks that share one buffer, and leaves the description alone", async () => {
    const d = Object.freeze(card());
    const before = JSON.stringify(d);
    const text = new TextEncoder().encode(`${row("09:00")}\n${row("09:05")}\n`);
    const buffer = new Uint8Array(7);
    async function* chunks(): AsyncGenerator<Uint8Array> {
      for (let i = 0; i < text.length; i += 7) {
        const part = text.subarray(i, i + 7);
        buffer.set(part);
        yield buffer.subarray(0, part.length);
      }
    }
    expect((await readRecord(d, chunks)).places.veranda.readings).toBe(2);
    expect(JSON.stringify(d)).toBe(before);
  });

  it("puts every line in one of accepted, skipped, rejected; accepted = readings + repeated + conflicting", () => {
    const lines = ["# made by hand", row("09:00"), "", row("09:00"), row("09:00", "V", "20.6"), row("09:05", "L"), row("09:10", "X"), "2024-03-01,09:1", row("09:15").repeat(2), "  "];
    const d = card((c) => {
      c.resources[0].dialect.commentChar = "#";
    });
    const record = readCard(d, lines.join("\n"));
    const [file] = record.files;
    expect({ ...file, rejected: file.rejected.length }).toEqual({ path: "card.txt", lines: 10, accepted: 4, skipped: 3, rejected: 3 });
    expect(file.rejected.map((r) => r.line)).toEqual([7, 8, 9]);
    const sum = Object.values(record.places).reduce((n, p) => n + p.readings + p.repeated + p.conflicting, 0);
    expect(sum).toBe(file.accepted);
    expect([record.places.veranda.repeated, record.places.veranda.conflicting]).toEqual([1, 1]);
    expect(record.places.veranda.series.air_temperature!.values[0]).toBe(20.5);
  });

  it("missing twice is the same, missing and told are not", () => {
    const { veranda } = readCard(card(), [row("09:00", "V", "NA"), row("09:00", "V", ""), row("09:00", "V", "1")].join("\n")).places;
    expect([veranda.readings, veranda.repeated, veranda.conflicting]).toEqual([1, 1, 1]);
  });

  it("wide: each number has its place, and a place whose every value is missing has no reading", () => {
    const d = card((c) => {
      c.resources[0].schema.fields = [
        { name: "when", type: "datetime", zone: "Z" },
        { name: "a", type: "number", quantity: "air_temperature", unit: "degC", place: "veranda" },
        { name: "b", type: "number", quantity: "air_temperature", unit: "degC", place: "library" },
        { name: "c", type: "number", quantity: "surface_air_pressure", unit: "hPa", place: "library" },
      ];
    });
    const record = readCard(d, "2024-03-01 00:00,1,2,860\n2024-03-01 01:00,3,,\n2024-03-01 02:00,,,\n2024-03-01 03:00,4,,861\n");
    expect(record.files[0].accepted).toBe(4);
    expect([record.places.veranda.readings, record.places.library.readings]).toEqual([3, 2]);
    expect(Array.from(record.places.library.series.air_temperature!.values)).toEqual([2, Number.NaN]);
  });

  it("joins files and resources: quantities at one instant are merged, contradictions keep the first", () => {
    const d = column("Z", (r, c) => {
      r.path = ["a.csv", "b.csv"];
      r.dialect = { header: false };
      const other = structuredClone(r);
      other.name = "barometer";
      other.path = "c.csv";
      other.schema.fields[1] = { name: "p", type: "number", quantity: "surface_air_pressure", unit: "Pa" };
      c.resources.push(other);
    });
    const record = readCard(d, ["2024-03-01 00:00,1\n2024-03-01 01:00,2", "2024-03-01 01:00,2\n2024-03-01 00:00,9\n", "2024-03-01 01:00,86000\n2024-03-01 02:00,86100"]);
    const { here } = record.places;
    expect([here.readings, here.repeated, here.conflicting, here.merged]).toEqual([3, 1, 1, 1]);
    expect(Array.from(here.series.air_temperature!.values)).toEqual([1, 2, Number.NaN]);
    expect(Array.from(here.series.surface_air_pressure!.values)).toEqual([Number.NaN, 860, 861]);
    expect(record.files.map((f) => f.path)).toEqual(["a.csv", "b.csv", "c.csv"]);
  });

  it("moves averaged readings to the middle of their time", () => {
    const at = (stamp: string): string[] => {
      const record = readCard(column("Z", (r) => { r.sampling = { averagedOver: 600, stamp }; r.dialect = { header: false }; }), "2024-03-01 00:00,1");
      expect(record.averagedOver).toBe(600);
      return instants(record, "here");
    };
    expect([at("start"), at("middle"), at("end")]).toEqual([["2024-03-01T00:05Z"], ["2024-03-01T00:00Z"], ["2024-02-29T23:55Z"]]);
  });

  it("takes a clock that was ahead back, linear between the corrections and constant outside", () => {
    const d = column("+07:00", (r, c) => {
      r.dialect = { header: false };
      c.clock = { corrections: [{ at: "2024-03-01T00:00", ahead: -10 }, { at: "2024-03-11T00:00", ahead: 90 }] };
    });
    const record = readCard(d, ["2024-02-20", "2024-03-01", "2024-03-06", "2024-03-11", "2024-03-20"].map((day) => `${day} 00:00,1`).join("\n"));
    expect(instants(record, "here")).toEqual(["2024-02-19T17:00:10Z", "2024-02-29T17:00:10Z", "2024-03-05T16:59:20Z", "2024-03-10T16:58:30Z", "2024-03-19T16:58:30Z"]);
    expect(record.corrections).toBe(2);
  });

  it("takes a place's own clock off beside the record's", () => {
    const d = card((c) => {
      c.places.library.clock = { corrections: [{ at: "2024-03-01T00:00", ahead: 30 }] };
    });
    const before = readCard(card(), `${row("09:00")}\n${row("09:00", "L")}`);
    const after = readCard(d, `${row("09:00")}\n${row("09:00", "L")}`);
    expect(instants(after, "veranda")).toEqual(instants(before, "veranda"));
    expect(after.places.library.start - before.places.library.start).toBe(-30_000);
    expect(after.corrections).toBe(1);
    const both = readCard(card((c) => Object.assign(c, { ...d, clock: { corrections: [{ at: "2024-03-01T00:00", ahead: 10 }] } })), `${row("09:00")}\n${row("09:00", "L")}`);
    expect([both.places.veranda.start - before.places.veranda.start, both.places.library.start - before.places.library.start]).toEqual([-10_000, -40_000]);
    expect(both.corrections).toBe(2);
  });

  it("turns the description's events into instants of the record's zone", () => {
    const d = card((c) => {
      c.events = [{ at: "2024-03-01", title: "a day" }, { from: "2024-03-01T00:00", to: "2024-03-03", kind: "co-location", title: "a period" }, { at: "2024-03-01T00:00Z", title: "its own offset" }];
    });
    expect(readCard(d, row("09:00")).events).toEqual([
      { at: Date.UTC(2024, 1, 29, 17), to: null, kind: null, title: "a day" },
      { at: Date.UTC(2024, 1, 29, 17), to: Date.UTC(2024, 2, 3, 17), kind: "co-location", title: "a period" },
      { at: Date.UTC(2024, 2, 1), to: null, kind: null, title: "its own offset" },
    ]);
  });

  it("values with their own offset need no zone; the record's zone is the first of theirs", () => {
    const record = readCard(column("Z", (r) => { delete r.schema.fields[0].zone; }), "when,t\n2024-03-01T09:00+07:00,1\n2024-03-01T02:05Z,2\n2024-03-01T02:10,3\n");
    expect(instants(record, "here")).toEqual(["2024-03-01T02:00Z", "2024-03-01T02:05Z"]);
    expect([record.zone, record.files[0].rejected[0].reason]).toEqual(["+07:00", "the time carries no offset, and the description names no zone"]);
  });
});

describe("when nothing can be read", () => {
  const fault = (d: Loose, text: string): [string, string] => {
    try {
      readCard(d, text);
    } catch (error) {
      return [(error as RecordError).kind, (error as Error).message];
    }
    return ["", ""];
  };

  it("names file, commonest reason and its first line", () => {
    expect(fault(card(), `${row("25:00")}\n${row("09:00", "V", "x")}\n${row("09:05", "V", "y")}\n`)).toEqual([
      "data",
      'card.txt must hold at least one row that can be read (got 3 rejected of 3 lines; 2 of them, first on line 2: t is not a number (got "x"))',
    ]);
    expect(fault(card(), "")).toEqual(["data", "card.txt must hold at least one row (got an empty file)"]);
    expect(fault(card(), "\n\n")).toEqual(["data", "card.txt must hold at least one row (got 2 lines, none of them a row)"]);
    expect(fault(card((d) => { d.resources[0].dialect.header = true; }), "\u0001\u0002\n\u0003\n")).toEqual([
      "data",
      "card.txt must hold at least one row that can be read (got 2 rejected of 2 lines; first on line 1: it stands before the header, and is neither header nor row); has no line that could be its header, date, time, who, t, p",
    ]);
  });

  it("is the description's fault when nothing is wrong but the zone, or the header does not fit", () => {
    expect(fault(column("Z", (r) => { delete r.schema.fields[0].zone; }), "when,t\n2024-03-01 09:00,1\n")).toEqual([
      "description",
      'resources[0].schema.fields[0].zone must be given, because the times carry no offset (got nothing; line 2 of log.csv); write the offset of the logger\'s clock, such as "+07:00", or an IANA name such as "Europe/London"',
    ]);
    expect(fault(column(), "t,when\n1,2024-03-01 09:00\n")).toEqual(["description", 'log.csv line 1: the header must be when, t, or fieldsMatch be "equal" (got t, when)']);
  });
});

describe("RecordReader", () => {
  it("wants its files in order, each begun and ended", () => {
    const reader = new RecordReader(column("Z", (r) => { r.path = ["a", "b"]; }));
    expect(complaint(() => reader.push(new Uint8Array(1)))).toBe("RecordReader.push: file must be begun (got none); call begin first");
    expect(complaint(() => reader.end())).toBe("RecordReader.end: file must be begun (got none); call begin first");
    expect(complaint(() => reader.begin("b"))).toBe('RecordReader.begin: path must be the next one, "a" (got "b")');
    reader.begin("a");
    expect(complaint(() => reader.begin("b"))).toBe('RecordReader.begin: path must wait until the file before it is ended (got "b"); call end first');
    expect(complaint(() => reader.finish())).toBe('RecordReader.finish: paths must all be read (got "a" not ended)');
  });
});
