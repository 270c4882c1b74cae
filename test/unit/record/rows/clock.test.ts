import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { AirRecord } from "../../../../lib/record/airRecord.js";
import { card, column, instants, readCard } from "../card.js";

const minute = 60_000;
const two = (n: number): string => String(n).padStart(2, "0");
const civil = (ms: number): string => new Date(ms).toISOString().slice(0, 16).replace("T", " ");

/** A log of one place from its civil stamps; values 0, 1, 2, … unless told. */
function log(stamps: readonly string[], zone = "Europe/London", values?: readonly number[]): AirRecord {
  return readCard(column(zone, (r) => { r.dialect = { header: false }; }), stamps.map((s, i) => `${s},${values?.[i] ?? i}`).join("\n"));
}

/** Civil stamps from `from` to before `to`, every `step` minutes. */
function every(step: number, from: string, to: string): string[] {
  const out: string[] = [];
  for (let t = Date.parse(`${from}Z`); t < Date.parse(`${to}Z`); t += step * minute) out.push(civil(t));
  return out;
}

const jumpsOf = (r: AirRecord): [string, number][] => r.jumps.map((j) => [new Date(j.at).toISOString().slice(0, 16), j.seconds]);

describe("repeated and skipped hours", () => {
  const fold = "2024-10-27";
  const both = [...every(10, `${fold}T00:00`, `${fold}T02:00`), ...every(10, `${fold}T01:00`, `${fold}T04:00`)];

  it("a repeated hour is told apart by the order of the log", () => {
    const record = log(both);
    const p = record.places.here;
    expect(Array.from(p.seconds)).toEqual(both.map((_, i) => 600 * i));
    expect([p.repeated, p.conflicting, record.jumps]).toEqual([0, 0, []]);
    expect(record.zoneChanges).toEqual([{ at: Date.UTC(2024, 9, 27, 1), seconds: -3600 }]);
  });

  it("also hourly, where the same time stands twice; also from newest to oldest; also for each place by itself", () => {
    const hourly = ["00:00", "01:00", "01:00", "02:00"].map((t) => `${fold} ${t}`);
    expect(instants(log(hourly), "here")).toEqual(["2024-10-26T23:00Z", "2024-10-27T00:00Z", "2024-10-27T01:00Z", "2024-10-27T02:00Z"]);
    const backwards = log([...both].reverse());
    expect(Array.from(backwards.places.here.seconds)).toEqual(both.map((_, i) => 600 * i));
    expect(backwards.notes).toEqual(["the description has no name; one such as hill-school tells records apart", "here: 1 file runs from newest to oldest; clock jumps cannot be seen in it"].slice(1));
    const d = card((c) => { c.resources[0].schema.fields[1].zone = "Europe/London"; });
    const rows = both.flatMap((s) => ["V", "L"].map((who) => `${s.replace(" ", ",")},${who},1,860`));
    const record = readCard(d, rows.join("\n"));
    for (const place of ["veranda", "library"]) expect(Array.from(record.places[place].seconds)).toEqual(both.map((_, i) => 600 * i));
  });

  it("one pass alone: the first, unless it joins what follows and not what went before", () => {
    const before = every(10, `${fold}T00:00`, `${fold}T01:00`);
    const pass = every(10, `${fold}T01:00`, `${fold}T02:00`);
    const after = every(10, `${fold}T02:00`, `${fold}T03:00`);
    expect(instants(log([...before, ...pass]), "here").at(-1)).toBe("2024-10-27T00:50Z");
    expect(instants(log([...before, ...pass, ...after]), "here")[11]).toBe("2024-10-27T00:50Z");
    expect(instants(log([...pass, ...after]), "here").slice(0, 2)).toEqual(["2024-10-27T01:00Z", "2024-10-27T01:10Z"]);
    expect(instants(log([...before.slice(0, 2), ...pass.slice(3), ...after]), "here")[2]).toBe("2024-10-27T01:30Z");
  });

  it("a row written twice inside the hour does not turn the hour over", () => {
    const doubled = both.flatMap((s, i) => (i === 8 ? [s, s] : [s]));
    const p = log(doubled, "Europe/London", doubled.map((_, i) => (i === 9 ? 8 : i))).places.here;
    expect([p.readings, p.repeated, p.conflicting]).toEqual([both.length, 1, 0]);
  });

  it("stamps with an offset of their own are instants already, beside others without one", () => {
    const record = log([`${fold} 01:50+01:00`, `${fold} 01:00+00:00`, `${fold} 01:10+00:00`, `${fold} 01:30`, `${fold} 03:00`]);
    expect(instants(record, "here")).toEqual(["2024-10-27T00:50Z", "2024-10-27T01:00Z", "2024-10-27T01:10Z", "2024-10-27T01:30Z", "2024-10-27T03:00Z"]);
  });

  it("a skipped hour is read with the offset before the change, and told", () => {
    const record = log(["2024-03-31 00:30", "2024-03-31 01:30", "2024-03-31 03:00"]);
    expect(instants(record, "here")).toEqual(["2024-03-31T00:30Z", "2024-03-31T01:30Z", "2024-03-31T02:00Z"]);
    expect(record.notes).toEqual(["log.csv: 1 reading is stamped in an hour that the clocks of Europe/London skipped; perhaps the logger keeps another time"]);
    expect(record.zoneChanges).toEqual([{ at: Date.UTC(2024, 2, 31, 1), seconds: 3600 }]);
  });

  it("harbor-loft: every hour of fourteen months follows the one before", () => {
    const folder = new URL("../../../../datasets/harbor-loft/", import.meta.url);
    const d = JSON.parse(readFileSync(new URL("datapackage.json", folder), "utf8")) as { resources: { path: string[] }[] };
    const record = readCard(d, d.resources[0].path.map((p) => readFileSync(new URL(p, folder))));
    const truth = JSON.parse(readFileSync(new URL("truth.json", folder), "utf8")) as { clock: { skipped: string[]; repeated: string[] }; places: Record<string, { values: Record<string, number> }> };
    const told = (sign: number): string[] => record.zoneChanges.filter((c) => c.seconds * sign > 0).map((c) => new Date(c.at).toISOString().replace(".000", ""));
    expect([told(1), told(-1)]).toEqual([truth.clock.skipped, truth.clock.repeated]);
    for (const p of Object.values(record.places)) {
      expect([p.repeated, p.conflicting]).toEqual([0, 0]);
      for (const [q, count] of Object.entries(truth.places[p.name].values)) {
        expect(p.series[q as "air_temperature"]!.values.filter((v) => !Number.isNaN(v)).length, `${p.name} ${q}`).toBe(count);
      }
    }
    const s = record.places.harbor.seconds;
    expect(s.filter((t, i) => i > 0 && t - s[i - 1] === 3600).length / s.length).toBeGreaterThan(0.95);
    expect(record.jumps).toEqual([]);
  });
});

describe("jumps of the clock", () => {
  const day = (from: string, to: string): string[] => every(5, `2024-03-01T${from}`, `2024-03-01T${to}`);

  it("set back: told with the usual step taken off, rows of the hour lived twice are conflicting", () => {
    const record = log([...day("06:00", "10:00"), ...day("09:00", "12:00")], "Z");
    expect(jumpsOf(record)).toEqual([["2024-03-01T09:55", -3600]]);
    expect([record.places.here.readings, record.places.here.conflicting]).toEqual([72, 12]);
  });

  it("set back by a part of a step: rows lie between the others", () => {
    const record = log([...day("06:00", "10:00"), ...every(5, "2024-03-01T09:18", "2024-03-01T12:00")], "Z");
    expect(jumpsOf(record)).toEqual([["2024-03-01T09:55", -2520]]);
  });

  it("and set right again: the step forward that takes it back is told too, a gap of another size is not", () => {
    const back = [...day("06:00", "10:00"), ...day("09:00", "11:00")];
    expect(jumpsOf(log([...back, ...day("12:00", "13:00")], "Z"))).toEqual([["2024-03-01T09:55", -3600], ["2024-03-01T10:55", 3600]]);
    expect(jumpsOf(log([...back, ...day("12:30", "13:00")], "Z"))).toEqual([["2024-03-01T09:55", -3600]]);
    expect(jumpsOf(log([...day("06:00", "08:00"), ...day("09:00", "10:00")], "Z"))).toEqual([]);
  });

  it("forward first, back later: a logger on daylight saving read at a fixed offset", () => {
    const record = log([...day("06:00", "08:00"), ...day("09:00", "12:00"), ...day("11:00", "13:00")], "Z");
    expect(jumpsOf(record)).toEqual([["2024-03-01T07:55", 3600], ["2024-03-01T11:55", -3600]]);
  });

  it("a clock that fell back to its first day, and was set later", () => {
    const record = log([...day("06:00", "08:00"), "2000-01-01 00:00", "2000-01-01 00:05", ...day("09:00", "10:00")], "Z");
    const gone = (Date.UTC(2024, 2, 1, 7, 55) - Date.UTC(2000, 0, 1)) / 1000 + 300;
    const again = (Date.UTC(2024, 2, 1, 9) - Date.UTC(2000, 0, 1, 0, 5)) / 1000 - 300;
    expect(jumpsOf(record)).toEqual([["2000-01-01T00:05", again], ["2024-03-01T07:55", -gone]]);
  });

  it("is not: another file, a stretch copied twice, rows that came late, two rows exchanged", () => {
    const whole = day("06:00", "10:00");
    const values = (list: readonly string[]): number[] => list.map((s) => whole.indexOf(s));
    const copied = [...whole, ...whole.slice(10, 30), ...day("10:00", "11:00")];
    const copy = log(copied, "Z", values(copied));
    expect([copy.jumps, copy.notes, copy.places.here.repeated]).toEqual([[], [], 20]);
    // One damaged number in the copy makes no jump of it.
    expect(log(copied, "Z", values(copied).map((v, i) => (i === whole.length + 3 ? -7 : v))).jumps).toEqual([]);
    const late = [...whole.slice(0, 10), ...whole.slice(20), ...whole.slice(10, 20)];
    const lateRecord = log(late, "Z", values(late));
    expect([lateRecord.jumps, lateRecord.notes]).toEqual([[], ["here: 10 rows stood out of order in the log and were put in place"]]);
    expect(Array.from(lateRecord.places.here.series.air_temperature!.values)).toEqual(values(whole));
    const exchanged = [whole[1], whole[0], ...whole.slice(2, 20), whole[21], whole[20], ...whole.slice(22)];
    expect(log(exchanged, "Z", values(exchanged)).jumps).toEqual([]);
    const d = column("Z", (r) => { r.path = ["b", "a"]; r.dialect = { header: false }; });
    const files = [whole.slice(20), whole.slice(0, 30)].map((list) => list.map((s) => `${s},${whole.indexOf(s)}`).join("\n"));
    expect(readCard(d, files).jumps).toEqual([]);
  });

  it("one jump in two overlapping copies of a card is told once", () => {
    const d = column("Z", (r) => { r.path = ["a", "b"]; r.dialect = { header: false }; });
    const rows = [...day("06:00", "10:00"), ...day("09:00", "12:00")].map((s, i) => `${s},${i}`);
    const record = readCard(d, [rows.slice(0, 70).join("\n"), rows.slice(20).join("\n")]);
    expect(jumpsOf(record)).toEqual([["2024-03-01T09:55", -3600]]);
  });

  it("hill-school: accounts, readings and jumps as planted", () => {
    const folder = new URL("../../../../datasets/hill-school/", import.meta.url);
    const d = JSON.parse(readFileSync(new URL("datapackage.json", folder), "utf8")) as { resources: { path: string[] }[] };
    const record = readCard(d, d.resources[0].path.map((p) => readFileSync(new URL(p, folder))));
    const truth = JSON.parse(readFileSync(new URL("truth.json", folder), "utf8")) as {
      files: { path: string; lines: number; accepted: number; skipped: number; rejectedLines: Record<string, number[]> }[];
      places: Record<string, { readings: number; repeated: number; conflicting: number; values: Record<string, number> }>;
      clock: { jumps: { place: string; at: string; seconds: number }[] };
    };
    for (const [k, f] of truth.files.entries()) {
      const { rejected, ...rest } = record.files[k];
      expect(rest).toEqual({ path: f.path, lines: f.lines, accepted: f.accepted, skipped: f.skipped });
      expect(rejected.map((r) => r.line)).toEqual(Object.values(f.rejectedLines).flat().sort((a, b) => a - b));
      const reasons = new Map(rejected.map((r) => [r.line, r.reason]));
      for (const line of f.rejectedLines.unset) expect(reasons.get(line)).toContain("a clock that was not set?");
      for (const line of f.rejectedLines.glued) expect(reasons.get(line)).toContain("two lines in one?");
      for (const line of f.rejectedLines.garbled) expect(reasons.get(line)).toContain("is not a number");
    }
    for (const [name, t] of Object.entries(truth.places)) {
      const { readings, repeated, conflicting, series } = record.places[name];
      expect({ readings, repeated, conflicting }).toEqual({ readings: t.readings, repeated: t.repeated, conflicting: t.conflicting });
      for (const [q, count] of Object.entries(t.values)) expect(series[q as "air_temperature"]!.values.filter((v) => !Number.isNaN(v)).length).toBe(count);
    }
    const [back, forth] = truth.clock.jumps;
    expect(record.jumps.map((j) => [j.place, j.seconds])).toEqual([back, forth].map((j) => [j.place, j.seconds]));
    expect(Math.abs(record.jumps[0].at - Date.parse(back.at))).toBeLessThan(1000);
    // The truth names the row after the step forward; a jump is told by the row before it.
    expect(Math.abs(record.jumps[1].at + 3_900_000 - Date.parse(forth.at))).toBeLessThan(1000);
    expect(two(record.corrections)).toBe("03");
  });
});
