import { describe, expect, it } from "vitest";
import { epochReader } from "../../../../lib/record/line/epochStamp.js";
import { newStamp } from "../../../../lib/record/line/stamp.js";
import { column, instants, type Loose, readCard } from "../card.js";

/** The instant that a format reads from a text; null when it is not of the form. */
function read(format: string, text: string): string | null {
  const stamp = newStamp();
  const reader = epochReader(format);
  // Read out of the middle of a line: what stands around it is not to be looked at.
  if (reader === null || !reader(`9${text}9`, 1, 1 + text.length, stamp)) return null;
  expect(stamp.offsetMinutes).toBe(0);
  expect(stamp.ofDay).toBeGreaterThanOrEqual(0);
  expect(stamp.ofDay).toBeLessThan(86_400_000);
  return new Date(86_400_000 * stamp.day + stamp.ofDay).toISOString();
}

describe("epochReader", () => {
  // As python's datetime.fromtimestamp(…, timezone.utc) has them.
  it("reads seconds and milliseconds since 1970", () => {
    expect(read("%s", "1709283600")).toBe("2024-03-01T09:00:00.000Z");
    expect(read("%s", "946684800")).toBe("2000-01-01T00:00:00.000Z");
    expect(read("%s", "4102444799")).toBe("2099-12-31T23:59:59.000Z");
    expect(read("%Q", "1709283600250")).toBe("2024-03-01T09:00:00.250Z");
    expect(read("%Q", "0")).toBe("1970-01-01T00:00:00.000Z");
  });

  it("keeps a fraction to the millisecond and cuts what is finer", () => {
    for (const [text, ms] of [["0", "000"], ["5", "500"], ["05", "050"], ["007", "007"], ["123", "123"], ["9999", "999"], ["29999999523", "299"]]) expect(read("%s", `1709283600.${text}`)).toBe(`2024-03-01T09:00:00.${ms}Z`);
    expect(read("%s", "1709283600,25")).toBe("2024-03-01T09:00:00.250Z");
    expect(read("%Q", "1709283600250.999")).toBe("2024-03-01T09:00:00.250Z");
  });

  it("reads digits and nothing else", () => {
    for (const text of ["", "-1709283600", "+1709283600", "1709283600.", ".5", "1.7e9", "17092 3600", "1709283600Z", "1709283600.2.5", "1709283600.2x", "0x65e19b10", "1234567890123456"]) expect([text, read("%s", text), read("%Q", text)]).toEqual([text, null, null]);
    for (const format of ["", "s", "%S", "%s ", "%s%Q", "%q"]) expect(epochReader(format)).toBeNull();
  });
});

const seconds = (change: (field: Loose) => void = () => undefined): Loose =>
  column("Z", (r) => {
    r.schema.fields[0] = { name: "when", type: "datetime", format: "%s" };
    change(r.schema.fields[0]);
  });

describe("a log by seconds since 1970", () => {
  const log = "when,t\n1709283600,1\n1709284200.5,2\n1709284800,3\n";

  it("is read as instants; without a zone the record is in UTC, with one its civil times are that zone's", () => {
    const record = readCard(seconds(), log);
    expect(record.zone).toBe("Z");
    expect(instants(record, "here")).toEqual(["2024-03-01T09:00Z", "2024-03-01T09:10:00.500Z", "2024-03-01T09:20Z"]);
    const there = readCard(seconds((f) => { f.zone = "America/New_York"; }), log);
    expect([there.zone, instants(there, "here")]).toEqual(["America/New_York", instants(record, "here")]);
  });

  it("keeps the repeated and the skipped hour of a zone as they were", () => {
    const fold = Date.UTC(2024, 9, 27, 0) / 1000;
    const rows = Array.from({ length: 5 }, (_, i) => `${fold + 1800 * i},${i}`).join("\n");
    const record = readCard(seconds((f) => { f.zone = "Europe/London"; }), `when,t\n${rows}\n`);
    expect(instants(record, "here")).toEqual(["2024-10-27T00:00Z", "2024-10-27T00:30Z", "2024-10-27T01:00Z", "2024-10-27T01:30Z", "2024-10-27T02:00Z"]);
    expect(record.notes.filter((n) => /skipped|repeated/.test(n))).toEqual([]);
  });

  it("tells damaged lines, a clock that was not set and milliseconds taken for seconds", () => {
    const record = readCard(seconds(), `${log}17,4\n17092x4800,5\n,6\n1709285400000,7\n631151999,8\n631152000,9\n4133980799,10\n4133980800,11\n`);
    const unset = "the year is not between 1990 and 2100: a clock that was not set? (got ";
    expect(record.files[0].rejected).toEqual([
      { line: 5, reason: `${unset}"17")` },
      { line: 6, reason: 'when is not of the form %s (got "17092x4800")' },
      { line: 7, reason: "when is empty" },
      { line: 8, reason: `${unset}"1709285400000")` },
      { line: 9, reason: `${unset}"631151999")` },
      { line: 12, reason: `${unset}"4133980800")` },
    ]);
    expect(record.files[0].accepted).toBe(5);
  });

  it("has its clock corrected and its means moved as any other", () => {
    const d = seconds();
    d.clock = { corrections: [{ at: "2024-03-01T09:00:00Z", ahead: 60 }] };
    d.resources[0].sampling = { averagedOver: 600, stamp: "end" };
    expect(instants(readCard(d, log), "here")[0]).toBe("2024-03-01T08:54Z");
  });
});
