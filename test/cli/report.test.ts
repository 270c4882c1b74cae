import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { root } from "../laws/sources.js";
import { goodDescription, goodRows, recordFolder, type Run } from "./run.js";

/** Runs the report in a folder of its own; without a browser unless one is named. */
function report(where: string, words: string[], chromium = "/no/such/browser"): Run {
  const run = spawnSync(process.execPath, [join(root, "dist", "door", "cli", "airtides.js"), "report", ...words], {
    cwd: where,
    encoding: "utf8",
    timeout: 60_000,
    env: { ...process.env, AIRTIDES_CHROMIUM: chromium },
  });
  return { code: run.status, out: run.stdout, err: run.stderr };
}

const emptyFolder = (): string => mkdtempSync(join(tmpdir(), "airtides-report-"));
const folder = recordFolder(goodDescription());

describe("airtides report", () => {
  it("writes one page to airtides-out/NAME and tells it, in words and as JSON", () => {
    const where = emptyFolder();
    const told = report(where, [folder]);
    expect([told.code, told.err]).toEqual([0, ""]);
    expect(told.out).toMatch(/^wrote airtides-out\/trial\/report\.html \(\d\.\d MB\)\n! places must hold at least one with exposure "indoor"/);
    const again = report(where, [folder, "--json"]);
    const document = JSON.parse(again.out);
    expect(Object.keys(document)).toEqual(["record", "written", "warnings"]);
    expect(document.written).toEqual([{ path: "airtides-out/trial/report.html", bytes: readFileSync(join(where, "airtides-out/trial/report.html")).length }]);
    expect(document.warnings.length).toBe(1);
    // Nothing half-written is left beside it.
    expect(readdirSync(join(where, "airtides-out/trial"))).toEqual(["report.html"]);
  }, 150_000);

  it("says in one sentence what needs a browser that is not there, and writes the rest", () => {
    const where = emptyFolder();
    const { written, warnings } = JSON.parse(report(where, [folder, "--json", "--out", "here", "--pdf", "--figures", "pictures"]).out);
    expect(warnings.filter((w: string) => w.includes("no Chromium or Chrome was found"))).toEqual([
      "the PDF was not written: no Chromium or Chrome was found (AIRTIDES_CHROMIUM can name one); the page itself prints cleanly from any browser",
      "the figures as PNG were not written: no Chromium or Chrome was found (AIRTIDES_CHROMIUM can name one); the page itself prints cleanly from any browser",
    ]);
    expect(written.map((w: { path: string }) => w.path).slice(0, 3)).toEqual(["here/report.html", "pictures/coverage.svg", "pictures/trust.svg"]);
    expect(readFileSync(join(where, "pictures/coverage.svg"), "utf8")).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg"/);
  }, 150_000);

  it("replaces its own page and nothing else", () => {
    const where = emptyFolder();
    mkdirSync(join(where, "mine"));
    writeFileSync(join(where, "mine", "report.html"), "my own page");
    const refused = report(where, [folder, "--out", "mine"]);
    expect([refused.code, refused.out]).toEqual([2, ""]);
    expect(refused.err).toBe("mine/report.html exists already and was not written by an earlier report; name another folder with --out or --figures, or move it away\n");
    expect(readFileSync(join(where, "mine", "report.html"), "utf8")).toBe("my own page");
    mkdirSync(join(where, "pictures"));
    writeFileSync(join(where, "pictures", "coverage.svg"), "<svg>mine</svg>");
    const kept = report(where, [folder, "--out", "new", "--figures", "pictures"]);
    expect(kept.code).toBe(2);
    expect(kept.err).toMatch(/^pictures\/coverage\.svg exists already/);
    expect(existsSync(join(where, "new"))).toBe(false);
  }, 150_000);

  it("gives several records a folder each, and a bad one its sentence", () => {
    const where = emptyFolder();
    const other = recordFolder({ ...goodDescription(), name: "other-trial" }, { "card.txt": goodRows(4) });
    const run = report(where, [folder, join(where, "nowhere"), other, "--out", "all", "--json"]);
    expect(run.code).toBe(2);
    const { records } = JSON.parse(run.out);
    expect(records.map((r: any) => r.written?.[0].path ?? r.error)).toEqual(["all/trial/report.html", expect.stringContaining("could not be read: there is no such file"), "all/other-trial/report.html"]);
  }, 150_000);

  it("tells a record of three days what it cannot carry, on the page too", () => {
    const where = emptyFolder();
    const short = recordFolder({ ...goodDescription(), site: undefined }, { "card.txt": goodRows(3) });
    const { warnings } = JSON.parse(report(where, [short, "--json"]).out);
    expect(warnings.some((w: string) => w.startsWith("site must be told for the tide"))).toBe(true);
    const page = readFileSync(join(where, "airtides-out/trial/report.html"), "utf8");
    expect(page).toContain("This record cannot carry it: site must be told for the tide");
    expect(page).toContain("too short for the swings of several days: log");
  }, 150_000);
});
