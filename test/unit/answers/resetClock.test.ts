import { describe, expect, it } from "vitest";
import { checkRecord } from "../../../lib/answers/checkRecord.js";
import { climateOf } from "../../../lib/answers/climateOf.js";
import { gridOf } from "../../../lib/answers/gridOf.js";
import { indoorsOf } from "../../../lib/answers/indoorsOf.js";
import { swingsOf } from "../../../lib/answers/swingsOf.js";
import { tidesOf } from "../../../lib/answers/tidesOf.js";
import { plainJson } from "../../../lib/ground/plainJson.js";
import type { AirRecord } from "../../../lib/record/airRecord.js";
import { narrowRecord } from "../../../lib/record/narrowRecord.js";
import { flagRecord } from "../../../lib/trust/faults/flagRecord.js";
import { card, readCard } from "../record/card.js";
import { tropicalPressure, weather } from "./madeRecords.js";

const hourMs = 3_600_000;
const first = Date.UTC(2024, 2, 1);
const hours = 40 * 24;
/** The battery is out: from hour 300 on for 30 h the clock counts from 2000-01-01 00:00 on. */
const out = { from: 300, to: 330 };

/** The log of two places in the order in which it was written; `off` tells when the clock was off by how much · ms. */
function logOf(off: (hour: number) => number): string {
  const pressure = tropicalPressure(hours, 71);
  const air = weather(hours, { seed: 72, memory: 20, spread: 2 });
  return Array.from({ length: hours }, (_, h) => {
    const stamp = new Date(first + h * hourMs + off(h)).toISOString().slice(0, 19).replace("T", ",");
    const t = 20 + air[h] + 4 * Math.cos((2 * Math.PI * (h - 7)) / 24);
    return [`${stamp},V,${t.toFixed(2)},${(pressure[h] - 148).toFixed(2)}`, `${stamp},L,${(22 + 0.4 * air[h]).toFixed(2)},${(pressure[h] - 148.3).toFixed(2)}`].join("\n");
  }).join("\n");
}

const isOut = (h: number): boolean => h >= out.from && h < out.to;
const toZero = Date.UTC(2000, 0, 1) - (first + out.from * hourMs);
const whole = readCard(card(), logOf((h) => (isOut(h) ? toZero : 0)));
const rest = narrowRecord(whole, { since: first - 24 * hourMs });

/** The answer as JSON, and its warnings apart. */
function parted(answer: unknown): { told: unknown; aside: string[] } {
  const aside: string[] = [];
  const isAside = (w: unknown): boolean => typeof w === "string" && w.includes("the clock was reset");
  const told = JSON.parse(JSON.stringify(plainJson(answer)), (_, value: unknown) => {
    if (!Array.isArray(value)) return value;
    aside.push(...(value.filter(isAside) as string[]));
    return value.filter((v) => !isAside(v));
  });
  return { told, aside };
}

const sentence = (count: number): string => `${count} readings stamped 2000-01-01 to 2000-01-02, 24.2 years before the rest of the record, are left out: the clock was reset; run check for what to do`;

describe("a record in which the clock was reset for 30 h", () => {
  it.each<[string, (r: AirRecord) => unknown, string[]]>([
    ["tides", (r) => tidesOf(r), [sentence(30), sentence(30)]],
    ["swings", (r) => swingsOf(r, { draws: 99 }), [sentence(30), sentence(30)]],
    ["climate", (r) => climateOf(r), [sentence(60)]],
    ["indoors", (r) => indoorsOf(r), [`${sentence(60)}.`]],
    ["grid", (r) => gridOf(r), [sentence(60)]],
  ])("%s answers as if these readings were not there, and says so", (_, ask, warnings) => {
    const with30 = parted(ask(whole));
    const without = parted(ask(rest));
    expect(with30.told).toEqual(without.told);
    expect(with30.aside).toEqual(warnings);
    expect(without.aside).toEqual([]);
  });

  it("a record marked already answers alike, and the marked one is the same twice", () => {
    expect(parted(gridOf(flagRecord(whole)))).toEqual(parted(gridOf(whole)));
    expect(flagRecord(flagRecord(whole))).toBe(flagRecord(whole));
  });

  it("check tells it in one finding, counts every reading, and tells no jump of years besides", () => {
    const check = checkRecord(whole);
    expect(check.verdict.reasons.filter((r) => /reset|jump/.test(r))).toEqual([
      "the clock was reset: 30 readings of veranda and 30 readings of library stand at 1999-12-31 17:00 to 2000-01-01 22:00 UTC, 24.2 years before the rest, and are left out of every analysis",
    ]);
    expect(check.places.veranda.readings).toBe(hours);
    expect(check.places.veranda.setAside).toEqual([{ from: "1999-12-31T17:00:00Z", to: "2000-01-01T22:00:00Z", readings: 30 }]);
    expect(check.files[0].accepted).toBe(Object.values(check.places).reduce((n, p) => n + p.readings + p.repeated + p.conflicting, 0));
    expect(check.clock.jumps.map((j) => Math.round(j.seconds / 86400 / 365))).toEqual([24, 24, -24, -24]);
    expect(check.record.days).toBe(39.9583);
    expect(check.places.veranda.coverage).toBe((hours - 30) / hours);
    const text = String((check as { [key: symbol]: () => Record<string, string> })[Symbol.for("Jupyter.display")]()["text/plain"]);
    expect(text).toContain("set aside: 30 readings of a reset clock, 1 Jan 2000 00:00 to 2 Jan 2000 05:00");
    expect(text.replace(/\s+/g, " ")).toContain("at the first and the last of them and at the first of the rest; if not, --since 2024-02-29 leaves them out without a word");
    expect(checkRecord(rest).verdict.reasons.some((r) => /reset/.test(r))).toBe(false);
  });

  it("a clock correction puts the readings where they belong", () => {
    const iso = (at: number): string => new Date(at).toISOString().slice(0, 19);
    const mended = card((d) => {
      d.clock = { corrections: [
        { at: "2000-01-01T00:00:00", ahead: toZero / 1000 },
        { at: iso(Date.UTC(2000, 0, 1) + 29 * hourMs), ahead: toZero / 1000 },
        { at: iso(first), ahead: 0 },
      ] };
    });
    const record = readCard(mended, logOf((h) => (isOut(h) ? toZero : 0)));
    const sound = readCard(card(), logOf(() => 0));
    expect(record.places.veranda.seconds).toEqual(sound.places.veranda.seconds);
    expect(record.places.veranda.series.surface_air_pressure!.values).toEqual(sound.places.veranda.series.surface_air_pressure!.values);
    expect(flagRecord(record).setAside).toBeUndefined();
  });

  it("lines of 1970 are no readings, and check says that the clock was not set", () => {
    const to1970 = Date.UTC(1970, 0, 1) - (first + out.from * hourMs);
    const check = checkRecord(readCard(card(), logOf((h) => (isOut(h) ? to1970 : 0))));
    expect(check.verdict.reasons.filter((r) => /clock was/.test(r))).toEqual([
      "the clock was not set: 60 lines carry a year before 1990 or after 2100, the first on line 601 of card.txt (\"1970-01-01\"), and are no readings",
    ]);
    expect(check.files[0].rejected).toHaveLength(60);
  });

  it("one stray stamp of 2099 stretches nothing", () => {
    const stray = readCard(card(), logOf((h) => (h === 500 ? Date.UTC(2099, 0, 1) - first : 0)));
    expect(gridOf(stray).rows).toBe(hours);
    expect(checkRecord(stray).verdict.reasons.filter((r) => /reset|jump/.test(r))).toEqual([
      "the clock was reset: 1 reading of veranda and 1 reading of library stand at 2099-01-21 13:00 UTC, 74.8 years after the rest, and are left out of every analysis",
    ]);
  });
});
