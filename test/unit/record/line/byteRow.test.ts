import { describe, expect, it } from "vitest";
import { planRecord } from "../../../../lib/record/description/planRecord.js";
import { ByteRow } from "../../../../lib/record/line/byteRow.js";
import { columnsInOrder } from "../../../../lib/record/line/headerMatch.js";
import { StampTemplate } from "../../../../lib/record/line/stampTemplate.js";
import { RowStore } from "../../../../lib/record/rows/rowStore.js";
import { RowTargets } from "../../../../lib/record/rows/rowTargets.js";
import { expectClose } from "../../../close.js";
import { card, column, type Loose, readCard } from "../card.js";

const encoder = new TextEncoder();

/** Reads lines as bytes: how many are taken, where reading stops, and what the stores of the places hold. */
function read(description: Loose, text: string) {
  const [plan] = planRecord(description).resources;
  const stores = new Map(plan.places.map((p) => [p, new RowStore([...new Set(plan.numbers.flatMap((n) => (n.place === null || n.place === p ? [n.quantity] : [])))])]));
  const rows = new ByteRow(plan, columnsInOrder(plan), new RowTargets(plan, stores));
  const bytes = encoder.encode(text);
  const stop = rows.isFit ? rows.read(bytes, 0, bytes.length) : -1;
  const rowsOf = (place: string) => {
    const { length, times, columns } = stores.get(place)!;
    return Array.from({ length }, (_, i) => [new Date(times[i]).toISOString().slice(0, 19), ...columns.map((c) => c[i])]);
  };
  return { isFit: rows.isFit, lines: rows.lines, rest: stop < 0 ? text : text.slice(stop), rowsOf };
}

describe("ByteRow", () => {
  it("takes plain lines, place by place", () => {
    const got = read(card(), "2024-03-01,09:05:00,V,24.3,861.14\n2024-03-01,09:05:00,L,-0.5,861\r\n2024-03-02,09:06:30,V,,NA\n2024-03-02,10:00:00,V,,.25\n");
    expect(got.lines).toBe(2);
    expect(got.rest).toBe("2024-03-02,09:06:30,V,,NA\n2024-03-02,10:00:00,V,,.25\n");
    expect(got.rowsOf("veranda")).toEqual([["2024-03-01T09:05:00", 24.3, 861.14]]);
    expect(got.rowsOf("library")).toEqual([["2024-03-01T09:05:00", -0.5, 861]]);
    expect(read(card(), "2024-03-02,10:00:00,V,,.25\n").rowsOf("veranda")).toEqual([["2024-03-02T10:00:00", Number.NaN, 0.25]]);
  });

  it("stops at every line that is not plain, and stores nothing of it", () => {
    const good = "2024-03-01,09:05:00,V,24.3,861.14";
    const odd = [
      `${good},`, "2024-03-01,09:05:00,V,24.3", `"2024-03-01",09:05:00,V,24.3,861.14`, " 2024-03-01,09:05:00,V,24.3,861.14", "2024-03-01,09:05:00,X,24.3,861.14", "2024-03-01,09:05:00,V,2e1,861.14", "2024-03-01,09:05:00,V,24.3.1,861.14",
      "2024-03-01,09:05:00,V,24.3,1234567890.123456", "2024-02-30,09:05:00,V,24.3,861.14", "2024-03-01,24:00:00,V,24.3,861.14", "2024-03-01,25:05:00,V,24.3,861.14", "2024-03-01,09:65:00,V,24.3,861.14", "2024-03-01,0a:05:00,V,24.3,861.14", "1970-01-01,09:05:00,V,24.3,861.14", "", "#", "2024-03-01,09:05:00,V,24.3,861.14\r\r",
      "2024-03-01,,V,24.3,861.14", ",09:05:00,V,24.3,861.14", "2024-03-01,09:05:00,V,+,861.14", "2024-03-01,09:05:00,V,-.,861.14", `2024-03-01,09:05:00,V,24.3,${"0".repeat(1 << 20)}1`,
    ];
    for (const line of odd) {
      const got = read(card(), `${good}\n${line}\n`);
      expect([got.lines, got.rest.slice(0, 80), got.rowsOf("veranda").length], line.slice(0, 80)).toEqual([1, `${line}\n`.slice(0, 80), 1]);
    }
  });

  it("a clock that was never set is told for every line of its day", () => {
    const lines = ["2024-03-01,09:05:00,V,24.3,861.14", ...[0, 1, 2].map((k) => `1970-01-01,00:0${k}:00,V,24,861`), "2024-03-01,09:06:00,V,24,861"];
    const [file] = readCard(card(), lines.map((l) => `${l}\n`).join("")).files;
    expect([file.accepted, file.rejected.map((r) => r.line)]).toEqual([2, [2, 3, 4]]);
  });

  it("needs an offset where no zone is told, in every line", () => {
    const d = column(undefined, (r) => { delete r.schema.fields[0].zone; r.dialect = { header: false }; });
    const got = read(d, "2024-03-01T09:05Z,1\n2024-03-01T09:06Z,2\n2024-03-01T09:07,3\n");
    expect([got.lines, got.rest]).toEqual([2, "2024-03-01T09:07,3\n"]);
    expect(read(d, "2024-03-01T09:05+02:00,1\n2024-03-02T09:06-01:30,2\n").rowsOf("here").map((r) => r[0])).toEqual(["2024-03-01T07:05:00", "2024-03-02T10:36:00"]);
  });

  it("leaves a line that is too long, and one that tells two offsets, to the text", () => {
    const noted = card((c) => c.resources[0].schema.fields.push({ name: "note", type: "string" }));
    const line = (n: number): string => `2024-03-01,09:05,V,1,861,${"x".repeat(n)}\n`;
    const room = (1 << 20) - line(0).length + 1;
    expect([read(noted, line(room - 1)).lines, read(noted, line(room + 1)).lines]).toEqual([1, 0]);
    const twice = card((c) => c.resources[0].schema.fields.splice(0, 2, { name: "time", type: "time", format: "%H:%M%z" }, { name: "date", type: "date", format: "%Y-%m-%d%z" }));
    expect(read(twice, "09:05+0100,2024-03-01+0200,V,1,861\n").lines).toBe(0);
  });

  it("leaves descriptions to texts that bytes cannot tell", () => {
    const isFit = (change: (r: Loose) => void): boolean => read(card((c) => change(c.resources[0])), "").isFit;
    expect(isFit(() => undefined)).toBe(true);
    expect(isFit((r) => { r.dialect.delimiter = "::"; })).toBe(false);
    expect(isFit((r) => { r.dialect.skipInitialSpace = true; })).toBe(false);
    expect(isFit((r) => { r.dialect.commentChar = "é"; })).toBe(false);
    expect(isFit((r) => { r.schema.fields[2].values = { "V ": "veranda", L: "library" }; })).toBe(false);
    expect(isFit((r) => { r.schema.fields[2].values = { "V,": "veranda", L: "library" }; })).toBe(false);
  });

  it("a wide row goes to the places that have a value in it", () => {
    const d = card((c) => {
      const number = (name: string, place: string): Loose => ({ name, type: "number", quantity: "air_temperature", unit: "K", place });
      c.resources[0].schema.fields.splice(2, 3, number("a", "veranda"), number("b", "library"));
    });
    const got = read(d, "2024-03-01,09:05,300,\n2024-03-01,09:06,,301\n2024-03-01,09:07,,\n");
    expect(got.lines).toBe(3);
    expect([got.rowsOf("veranda").length, got.rowsOf("library").length]).toEqual([1, 1]);
    expectClose(got.rowsOf("library")[0][1] as number, 301 - 273.15, { absolute: 1e-12 });
  });
});

describe("StampTemplate", () => {
  const template = (fields: Loose[]): StampTemplate => new StampTemplate(planRecord(card((c) => c.resources[0].schema.fields.splice(0, 2, ...fields))).resources[0].stamps[0]);
  const learn = (t: StampTemplate, text: string): boolean => t.learn(encoder.encode(text), 0, text.length);
  const again = (t: StampTemplate, text: string): boolean => {
    const bytes = encoder.encode(text);
    return bytes.length === t.length && t.read(bytes, new DataView(bytes.buffer), 0);
  };
  const datetime = (format?: string): Loose[] => [{ name: "at", type: "datetime", zone: "Z", ...(format === undefined ? {} : { format }) }];

  it("reads the clock of the same day, and nothing of another", () => {
    const t = template(datetime());
    expect(learn(t, "2024-03-01 09:05:07.250")).toBe(true);
    expect([t.day, t.ofDay]).toEqual([19783, ((9 * 60 + 5) * 60 + 7) * 1000 + 250]);
    expect([again(t, "2024-03-01 23:59:59.250"), t.ofDay]).toEqual([true, 86_399_250]);
    for (const other of ["2024-03-02 09:05:07.250", "2024-03-01T09:05:07.250", "2024-03-01 09:05:07.251", "2024-03-01 24:00:00.250", "2024-03-01 09:60:07.250", "2024-03-01 09:05:60.250", "2024-03-01 9a:05:07.250", "3024-03-01 09:05:07.250"]) expect(again(t, other), other).toBe(false);
  });

  it("finds the clock wherever a format has it, and gives up where it has no fixed place", () => {
    const us = template(datetime("%H%M%S on %m/%d/%Y"));
    expect(learn(us, "090507 on 3/1/2024")).toBe(true);
    expect([again(us, "101112 on 3/1/2024"), us.ofDay]).toEqual([true, ((10 * 60 + 11) * 60 + 12) * 1000]);
    const short = template(datetime("%d.%m.%Y %H:%M"));
    expect(learn(short, "1.3.2024 9:05")).toBe(true);
    expect([again(short, "1.3.2024 7:59"), short.ofDay]).toEqual([true, (7 * 60 + 59) * 60_000]);
    for (const other of ["1.3.2024 10:00", "1.3.2024 a:59", "1.3.2024 7:60", "1.3.2024 7159", "11.3.2024 9:5"]) expect(again(short, other), other).toBe(false);
    expect(learn(template(datetime("%d.%m.%Y %H:%M")), "1.3.2024 9:5")).toBe(false);
    expect(learn(template(datetime("%d.%m.%Y %I:%M %p")), "01.03.2024 09:05 am")).toBe(false);
    expect(learn(template(datetime()), "2024-03-01 24:00:00")).toBe(false);
    expect(learn(template(datetime()), " 2024-03-01 09:05")).toBe(false);
  });
});
