import { existsSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { airtides, goodRows } from "./run.js";

const folder = (files: Record<string, string | Uint8Array>): string => {
  const path = mkdtempSync(join(tmpdir(), "airtides-describe-"));
  for (const [name, text] of Object.entries(files)) {
    mkdirSync(join(path, name, ".."), { recursive: true });
    writeFileSync(join(path, name), text);
  }
  return path;
};
const log = (): string => `time,temp,hum,press\n${goodRows(12)}`;

describe("airtides describe", () => {
  it("tells and asks, and writes nothing without --out", () => {
    const at = folder({ "card.txt": log() });
    const run = airtides("describe", join(at, "card.txt"));
    expect([run.code, run.err]).toEqual([0, ""]);
    expect(run.out).toContain("air temperature in °C");
    expect(run.out).toContain("? site: where does it stand?");
    expect(run.out).toContain("Nothing was written");
    expect(readdirSync(at)).toEqual(["card.txt"]);
  });

  it("--json is one document with the keys of the contract", () => {
    const at = folder({ "card.txt": log() });
    const run = airtides("describe", "--json", join(at, "card.txt"));
    expect(run.code).toBe(0);
    const answer = JSON.parse(run.out);
    expect(Object.keys(answer)).toEqual(["record", "draft", "guesses", "questions"]);
    expect(Object.keys(answer.record)).toEqual(["name", "title", "site", "from", "to", "days"]);
    expect(answer.record).toMatchObject({ site: null, from: "2024-05-01T00:00:00Z", days: 11.9931 });
    for (const g of answer.guesses) expect(Object.keys(g)).toEqual(["path", "because"]);
    for (const q of answer.questions) expect(Object.keys(q)).toEqual(["path", "ask"]);
    expect(answer.guesses.map((g: { path: string }) => g.path)).toContain("resources[0].schema.fields[1].unit");
  });

  it("--out writes a draft that check can read; check repeats the open questions until they are answered", () => {
    const at = folder({ "card.txt": log() });
    const out = join(at, "datapackage.json");
    expect(airtides("describe", join(at, "card.txt"), "--out", out).code).toBe(0);
    const open = (): string[] | undefined => JSON.parse(airtides("check", "--json", at).out).questions?.map((q: { path: string }) => q.path);
    const draft = JSON.parse(readFileSync(out, "utf8"));
    expect(open()).toEqual(["title", "site", "places.here.exposure", "resources[0].schema.fields[0].zone", "resources[0].sampling"]);
    expect(airtides("check", at).out).toContain("5 open questions in the description");
    const guessed = (): string[] => JSON.parse(airtides("check", "--json", at).out).verdict.reasons.filter((r: string) => /is a guess/.test(r));
    expect(guessed()).toEqual([expect.stringContaining("(resources[0].schema.fields[0].zone)"), expect.stringContaining("(places.here.exposure)")]);
    // Another value answers a question by itself; where the draft is right, its entry is taken out.
    Object.assign(draft, { title: "Our porch", site: { latitude: -7.1, longitude: 110.2, elevation: 1380 } });
    draft.resources[0].schema.fields[0].zone = "+07:00";
    writeFileSync(out, JSON.stringify(draft));
    expect(open()).toEqual(["places.here.exposure", "resources[0].sampling"]);
    draft.questions = draft.questions.filter((q: { path: string }) => q.path !== "resources[0].sampling" && q.path !== "places.here.exposure");
    writeFileSync(out, JSON.stringify(draft));
    expect(open()).toBeUndefined();
    expect(airtides("check", at).out).not.toContain("open question");
    expect(guessed()).toEqual([]);
  });

  it("never writes over a file", () => {
    const at = folder({ "card.txt": log(), "datapackage.json": "mine" });
    const run = airtides("describe", join(at, "card.txt"), "--out", join(at, "datapackage.json"));
    expect(run).toEqual({ code: 2, out: "", err: `${join(at, "datapackage.json")} exists already and is not written over; name another file or move it away\n` });
    expect(readFileSync(join(at, "datapackage.json"), "utf8")).toBe("mine");
    expect(readdirSync(at).sort()).toEqual(["card.txt", "datapackage.json"]);
  });

  it("paths are relative to the draft's folder, and a log outside it is refused", () => {
    const at = folder({ "record/2024/card.txt": log(), "elsewhere/card.txt": log() });
    const out = join(at, "record", "datapackage.json");
    expect(airtides("describe", join(at, "record/2024/card.txt"), "--out", out).code).toBe(0);
    expect(JSON.parse(readFileSync(out, "utf8")).resources[0].path).toBe("2024/card.txt");
    const run = airtides("describe", join(at, "elsewhere/card.txt"), "--out", join(at, "record", "other.json"));
    expect(run.code).toBe(2);
    expect(run.err).toMatch(/must be inside the folder of the description, .*record \(got a path that leads above it\); put the description beside the logs or above them\n$/);
    expect(existsSync(join(at, "record", "other.json"))).toBe(false);
  });

  it("a log by seconds since 1970 goes the whole way: described, checked, its tide told", () => {
    const rows = goodRows(12).trim().split("\n").map((l) => l.replace(/^[^,]*/, (t) => String(Date.parse(`${t.replace(" ", "T")}+07:00`) / 1000)));
    const at = folder({ "card.txt": `unix,temp,hum,press\n3,20.0,70.0,861.00\n${rows.join("\n")}\n` });
    const out = join(at, "datapackage.json");
    expect(airtides("describe", join(at, "card.txt"), "--out", out).code).toBe(0);
    const draft = JSON.parse(readFileSync(out, "utf8"));
    expect(draft.resources[0].schema.fields[0]).toEqual({ name: "unix", type: "datetime", format: "%s" });
    expect(draft.questions.map((q: { path: string }) => q.path)).toEqual(["title", "site", "places.here.exposure", "resources[0].sampling"]);
    draft.site = { latitude: -7.1, longitude: 110.2, elevation: 1380 };
    draft.resources[0].schema.fields[0].zone = "+07:00";
    writeFileSync(out, JSON.stringify(draft));
    const check = airtides("check", at);
    expect([check.code, check.err]).toEqual([0, ""]);
    expect(check.out).toMatch(/card\.txt +1730 +1728 +1 +1\n/);
    expect(JSON.parse(airtides("check", "--json", at).out).record).toMatchObject({ from: "2024-04-30T17:00:00Z", days: 11.9931 });
    // Twice a day ± 1.2 hPa was planted, with its crest at 0.41 of the civil day.
    expect(airtides("tides", at).out).toMatch(/swings 1\.\d+ ± 0\.\d+ hPa/);
  });

  it("a log of days alone: climate and swings answer, tides refuses in one sentence, check says so before", () => {
    const rows = Array.from({ length: 400 }, (_, d) => `${new Date(Date.UTC(2023, 0, 1 + d)).toISOString().slice(0, 10)},${(11 - 9 * Math.cos((2 * Math.PI * (d - 20)) / 365.25)).toFixed(1)},${(1014 + 6 * Math.sin(d / 1.1) + 3 * Math.sin(d / 2.7)).toFixed(1)}`);
    const at = folder({ "days.csv": `date,temp,press\n${rows.join("\n")}\n` });
    const out = join(at, "datapackage.json");
    expect(airtides("describe", join(at, "days.csv"), "--out", out).code).toBe(0);
    const draft = JSON.parse(readFileSync(out, "utf8"));
    expect(draft.resources[0].schema.fields[0]).toEqual({ name: "date", type: "date", zone: "Z" });
    expect(draft.questions.at(-1).ask).toMatch(/^is each value the mean of its civil day\?/);
    draft.site = { latitude: 51, longitude: 0, elevation: 20 };
    draft.resources[0].schema.fields[0].zone = "Europe/London";
    writeFileSync(out, JSON.stringify(draft));
    const said = (...words: string[]): string => {
      const run = airtides(...words, at);
      expect([run.code, run.err]).toEqual([0, ""]);
      return run.out.replace(/\s+/g, " ");
    };
    const check = said("check");
    expect(check).toContain("tides cannot be told: the pressure was read every 24 h, and every 3 h is needed");
    expect(check).toMatch(/swings safe.* climate safe/);
    expect(said("climate")).toContain("one value a day: each is taken as the mean of its day, and no lowest or highest is told");
    const climate = JSON.parse(airtides("climate", "--json", at).out);
    expect(climate.daily.length).toBe(400);
    const summer = climate.daily.find((d: { date: string }) => d.date === "2023-07-14");
    expect(summer.quantities.air_temperature.mean).toBe(Number(rows[194].split(",")[1]));
    expect(said("swings")).toContain("Readings 24 hours apart are too few to ask whether the swings come at a beat");
    const tides = airtides("tides", at);
    expect([tides.code, tides.out, tides.err]).toEqual([1, "", "series must hold a reading every 3 hours or oftener (got one every 24.0 h); log oftener\n"]);
  });

  it("what is no log is told in one sentence, exit 2; text that tells no time, exit 1", () => {
    const at = folder({ "empty.txt": "", "picture.png": Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10), "count.csv": `n,temp\n${Array.from({ length: 50 }, (_, i) => `${i},${20 + (i % 7)}`).join("\n")}\n`, "card.txt": log() });
    const told = (name: string): [number | null, string] => {
      const run = airtides("describe", join(at, name));
      expect(run.out).toBe("");
      return [run.code, run.err];
    };
    expect(told("empty.txt")).toEqual([2, "empty.txt must hold at least one row (got an empty file)\n"]);
    expect(told("picture.png")).toEqual([2, "picture.png must be a text log (got a picture); save or copy the log as plain text, such as csv\n"]);
    expect(told("none.txt")).toEqual([2, `${join(at, "none.txt")} could not be read: there is no such file\n`]);
    expect(told(".")[0]).toBe(2);
    expect(told("count.csv")[0]).toBe(1);
    const both = airtides("describe", join(at, "empty.txt"), join(at, "card.txt"));
    expect([both.code, both.err]).toEqual([2, "empty.txt must hold at least one row (got an empty file)\n"]);
    expect(both.out).toContain("Draft of a description for 1 log");
  });

  it("of a long log the beginning and the end are looked at, and how much is said", () => {
    const at = folder({ "card.txt": log().padEnd(3_100_000, `2024-05-13 00:00:00,21.0,70.0,861.00\n`) });
    const run = airtides("describe", join(at, "card.txt"));
    expect([run.code, run.err]).toEqual([0, ""]);
    expect(run.out.replace(/\s+/g, " ")).toContain("of card.txt, 3.1 MB, the beginning (2 MB) and the end (0.5 MB) were looked at, and nothing between");
  });
});
