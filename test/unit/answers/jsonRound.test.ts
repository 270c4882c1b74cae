import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { openRecord } from "../../../lib/door/disk/openRecord.js";
import { plainJson } from "../../../lib/ground/plainJson.js";
import { checkRecord, climateOf, fitTides, flagRecord, gridOf, indoorsOf, joinFits, series, swingsOf, tideSums, tidesOf } from "../../../lib/index.js";
import { root } from "../../laws/sources.js";

const record = flagRecord(await openRecord(join(root, "datasets", "hill-school")));

/** Where a value read back from JSON is not what was written: NaN must have become null, a typed array a list, and nothing may be lost. */
function differences(wrote: unknown, read: unknown, at = "answer"): string[] {
  if (typeof wrote === "number") return read === (Number.isFinite(wrote) ? wrote : null) ? [] : [`${at}: ${wrote} became ${String(read)}`];
  if (wrote === null || typeof wrote === "string" || typeof wrote === "boolean") return wrote === read ? [] : [`${at}: ${String(wrote)} became ${String(read)}`];
  if (Array.isArray(wrote) || ArrayBuffer.isView(wrote)) {
    const list = Array.from(wrote as ArrayLike<unknown>);
    if (!Array.isArray(read) || read.length !== list.length) return [`${at}: ${list.length} values became ${JSON.stringify(read)?.slice(0, 60)}`];
    return list.flatMap((v, i) => differences(v, read[i], `${at}[${i}]`));
  }
  if (typeof wrote !== "object" || Object.getPrototypeOf(wrote) !== Object.prototype) return [`${at}: ${typeof wrote} is nothing that JSON has`];
  const [mine, theirs] = [Object.entries(wrote), read as Record<string, unknown>];
  if (mine.map(([k]) => k).join() !== Object.keys(theirs).join()) return [`${at}: keys ${mine.map(([k]) => k).join()} became ${Object.keys(theirs).join()}`];
  return mine.flatMap(([key, value]) => differences(value, theirs[key], `${at}.${key}`));
}

const answers: Readonly<Record<string, () => unknown>> = {
  checkRecord: () => checkRecord(record),
  tidesOf: () => tidesOf(record),
  swingsOf: () => swingsOf(record),
  indoorsOf: () => indoorsOf(record),
  climateOf: () => climateOf(record),
  gridOf: () => gridOf(record),
};

describe("answers about hill-school go through JSON and back", () => {
  for (const [name, ask] of Object.entries(answers)) {
    it(name, () => {
      const answer = ask();
      const text = JSON.stringify(plainJson(answer));
      expect(text.length).toBeGreaterThan(500);
      const read: unknown = JSON.parse(text);
      expect(differences(answer, read)).toEqual([]);
      expect(JSON.stringify(plainJson(read))).toBe(text);
    });
  }

  it("finds what JSON loses", () => {
    expect(differences({ a: Float64Array.of(1, Number.NaN) }, JSON.parse(JSON.stringify({ a: Float64Array.of(1, Number.NaN) })))).toHaveLength(1);
    expect(differences({ a: undefined }, {})).toHaveLength(1);
    expect(differences({ a: new Map() }, { a: {} })).toHaveLength(1);
    expect(differences([Number.NaN], [0])).toHaveLength(1);
  });

  it("a series is read back with its holes", () => {
    const own = series({ times: [0, 300_000, 600_000], values: [861.2, Number.NaN, 861.1], quantity: "surface_air_pressure" });
    const read = JSON.parse(JSON.stringify(plainJson(own))) as { start: number; seconds: number[]; values: (number | null)[]; quantity: "surface_air_pressure" };
    expect(read.values).toEqual([861.2, null, 861.1]);
    const again = series({ times: read.seconds.map((s) => read.start + 1000 * s), values: read.values as number[], quantity: read.quantity });
    expect(again.values).toEqual(own.values);
    expect(again.seconds).toEqual(own.seconds);
  });

  it("a month's sums of the tide are as good after the turn", () => {
    const pressure = record.places.veranda.series.surface_air_pressure!;
    const sums = tideSums(pressure, fitTides(pressure, { longitude: 110.2 }));
    const read = JSON.parse(JSON.stringify(plainJson(sums))) as typeof sums;
    expect(joinFits([read]).constituents[1].amplitude).toEqual(joinFits([sums]).constituents[1].amplitude);
  });
});
