import { describe, expect, it } from "vitest";
import { changesBetween, civilTime, instantsOf, offsetAt, zoneFault, zoneNamed } from "../../../lib/ground/zone.js";

const london = zoneNamed("Europe/London")!;
const hour = 3_600_000;

describe("zoneNamed", () => {
  it("knows Z, fixed offsets and IANA names, once each", () => {
    for (const [name, offset] of [["Z", 0], ["UTC", 0], ["+07:00", 7], ["-0330", -3.5], ["+14", 14]] as const) expect(zoneNamed(name), name).toEqual({ name, changes: new Float64Array(0), offsets: Float64Array.of(offset * hour) });
    expect(zoneNamed("Europe/London")).toBe(london);
    expect(zoneNamed("Asia/Jakarta")!.offsets).toEqual(Float64Array.of(7 * hour));
    expect(zoneNamed("Etc/GMT-7")!.offsets[0]).toBe(7 * hour);
  });

  it("does not know others, and says so in our words and their spelling", () => {
    for (const name of ["Mars/Base", "", "local", "+15:00", "+07:60", "7", "UTC+7", "GMT-3:30", "2020-01-01T00:00[Asia/Tokyo]", "Europe/London "]) expect(zoneNamed(name), name).toBeNull();
    expect(zoneFault("zone", "Mars/Base")).toBe('zone must be Z, a fixed offset such as +07:00, or an IANA name such as Europe/London (got "Mars/Base")');
    expect(zoneFault("zone", "GMT-3:30")).toContain("; write -03:30");
  });

  it("covers 1990 to 2100: two changes a year in London", () => {
    const years = new Set(Array.from(london.changes, (c) => new Date(c).getUTCFullYear()));
    expect([Math.min(...years), Math.max(...years)]).toEqual([1990, 2100]);
    expect(london.changes.length).toBe(2 * 111);
    expect(london.offsets.length).toBe(london.changes.length + 1);
  });
});

describe("a civil time", () => {
  const spring = Date.UTC(2024, 2, 31, 1);
  const autumn = Date.UTC(2024, 9, 27, 1);

  it("is read on both sides of each change", () => {
    expect([offsetAt(london, spring - 1), offsetAt(london, spring), offsetAt(london, autumn - 1), offsetAt(london, autumn)]).toEqual([0, hour, hour, 0]);
    expect(civilTime(london, spring)).toBe(spring + hour);
    expect(instantsOf(london, spring - 1)).toEqual({ earlier: spring - 1, later: spring - 1, skipped: false });
    expect(instantsOf(london, spring)).toEqual({ earlier: spring, later: spring, skipped: true });
    expect(instantsOf(london, spring + hour - 1)).toEqual({ earlier: spring + hour - 1, later: spring + hour - 1, skipped: true });
    expect(instantsOf(london, spring + hour)).toEqual({ earlier: spring, later: spring, skipped: false });
    expect(instantsOf(london, autumn - 1)).toEqual({ earlier: autumn - hour - 1, later: autumn - hour - 1, skipped: false });
    expect(instantsOf(london, autumn)).toEqual({ earlier: autumn - hour, later: autumn, skipped: false });
    expect(instantsOf(london, autumn + hour)).toEqual({ earlier: autumn + hour, later: autumn + hour, skipped: false });
  });

  it("also where half an hour, or a whole day, is skipped", () => {
    const lordHowe = zoneNamed("Australia/Lord_Howe")!;
    expect(instantsOf(lordHowe, Date.UTC(2024, 9, 6, 2, 15)).skipped).toBe(true);
    expect(instantsOf(lordHowe, Date.UTC(2024, 9, 6, 2, 30)).skipped).toBe(false);
    const apia = zoneNamed("Pacific/Apia")!;
    const skipped = instantsOf(apia, Date.UTC(2011, 11, 30, 12));
    expect(skipped).toEqual({ earlier: Date.UTC(2011, 11, 30, 22), later: Date.UTC(2011, 11, 30, 22), skipped: true });
  });

  it("changesBetween includes both ends", () => {
    expect(changesBetween(london, spring, autumn)).toEqual([{ at: spring, seconds: 3600 }, { at: autumn, seconds: -3600 }]);
    expect(changesBetween(london, spring + 1, autumn - 1)).toEqual([]);
    expect(changesBetween(zoneNamed("Z")!, 0, autumn)).toEqual([]);
  });
});
