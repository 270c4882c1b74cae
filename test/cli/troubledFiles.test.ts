import { type ChildProcess, execFileSync, spawn } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, readlinkSync, symlinkSync, truncateSync, utimesSync, writeFileSync, appendFileSync, renameSync, unlinkSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as wait } from "node:timers/promises";
import { describe, expect, it } from "vitest";
import { openLog } from "../../lib/door/disk/openLog.js";
import { writeBeside } from "../../lib/door/disk/writeBeside.js";
import { RecordError } from "../../lib/ground/complaint.js";
import { root } from "../laws/sources.js";
import { airtides, goodDescription, goodRows, recordFolder, type Run } from "./run.js";

/** One sentence, nothing on standard output, exit 2, no stack. */
function expectSentence(run: Run, pattern: RegExp): void {
  expect(run.err).toMatch(pattern);
  expect(run.code).toBe(2);
  expect(run.out).toBe("");
  expect(run.err.trimEnd().split("\n").length).toBe(1);
  expect(run.err).not.toMatch(/\n\s+at |node:internal|undefined|\[object|E[A-Z]{4,}/);
}

const program = join(root, "dist", "door", "cli", "airtides.js");
const folderOf = (): string => mkdtempSync(join(tmpdir(), "airtides-trouble-"));

/** What a process said and how it ended. */
async function ended(child: ChildProcess): Promise<{ code: number | null; err: string; out: string }> {
  let [err, out] = ["", ""];
  child.stderr?.on("data", (chunk) => { err += chunk; });
  child.stdout?.on("data", (chunk) => { out += chunk; });
  const code = await new Promise<number | null>((resolve) => child.on("close", resolve));
  return { code, err, out };
}

/** Waits until something is so, at most 20 s. */
async function until(isSo: () => boolean): Promise<void> {
  for (let k = 0; k < 4000 && !isSo(); k++) await wait(5);
  if (!isSo()) throw new Error("waited in vain");
}

describe("files that are not what they should be: a sentence, exit 2", () => {
  it("a folder in the place of a log, of the description, and a part of the path", () => {
    const folder = recordFolder(goodDescription(), {});
    mkdirSync(join(folder, "card.txt"));
    expectSentence(airtides("check", folder), /card\.txt must be an ordinary file \(got a folder\)/);
    const described = folderOf();
    mkdirSync(join(described, "datapackage.json"));
    expectSentence(airtides("check", described), /datapackage\.json must be an ordinary file \(got a folder\)/);
    expectSentence(airtides("check", join(recordFolder(goodDescription()), "card.txt", "more")), /a part of its path is not a folder/);
  });
  it("a link to nothing, a device", () => {
    const folder = recordFolder(goodDescription(), {});
    symlinkSync("gone.txt", join(folder, "card.txt"));
    expectSentence(airtides("check", folder), /card\.txt could not be read: there is no such file/);
    const device = recordFolder(goodDescription(), {});
    symlinkSync("/dev/zero", join(device, "card.txt"));
    expectSentence(airtides("check", device), /card\.txt must be an ordinary file \(got a device\)/);
  });
});

describe("logs that change or vanish while they are read", () => {
  const big = `${"2024-05-01 00:00:00,20,50,861\n".repeat(120_000)}`;
  const read = async (meanwhile: (path: string) => void): Promise<number> => {
    const path = join(folderOf(), "card.txt");
    writeFileSync(path, big);
    utimesSync(path, 1, 1);
    let [bytes, chunks] = [0, 0];
    for await (const chunk of openLog(path)) {
      bytes += chunk.length;
      if (chunks++ === 0) meanwhile(path);
    }
    return bytes;
  };
  it("what was there is read whole when the file is taken away, replaced, or only grows", async () => {
    expect(await read((path) => unlinkSync(path))).toBe(big.length);
    expect(await read((path) => { writeFileSync(`${path}.new`, "x"); renameSync(`${path}.new`, path); })).toBe(big.length);
    expect(await read((path) => appendFileSync(path, "more\n"))).toBe(big.length + 5);
  });
  it("one that is cut or written anew is told: what was read is a mixture", async () => {
    await expect(read((path) => truncateSync(path, 10))).rejects.toThrow(/card\.txt must stay as it is while it is read \(got a file that was cut or written anew meanwhile\); wait until nothing writes to it/);
    await expect(read((path) => writeFileSync(path, big.replaceAll("20", "21")))).rejects.toThrow(RecordError);
  });
});

describe("a full disk", () => {
  it("standard output that takes nothing: a sentence and exit 2", () => {
    const folder = recordFolder(goodDescription());
    for (const words of ["check", "tides", "check --json"]) {
      const script = `"${process.execPath}" "${program}" ${words} "${folder}" > /dev/full; echo "code $?"`;
      const said = execFileSync("bash", ["-c", `(${script}) 2>&1`], { encoding: "utf8" });
      expect(said, words).toMatch(/^standard output could not be written: the disk is full\ncode 2\n$/);
    }
  });
  it("a file that cannot be finished leaves nothing, whole or half", async () => {
    const folder = folderOf();
    const full = function* (): Generator<string> {
      yield "the first half";
      throw Object.assign(new Error("no space"), { code: "ENOSPC" });
    };
    await expect(writeBeside(join(folder, "tide.h"), full())).rejects.toThrow(/tide\.h could not be written: the disk is full/);
    expect(readdirSync(folder)).toEqual([]);
    const record = recordFolder(goodDescription());
    const said = execFileSync("bash", ["-c", `ulimit -f 1; "${process.execPath}" "${program}" grid "${record}" --out "${folder}/grid.csv" 2>&1; echo "code $?"`], { encoding: "utf8" });
    expect(said).toMatch(/grid\.csv could not be written: the file would be larger than the disk or this account allows\ncode 2\n$/);
    expect(readdirSync(folder)).toEqual([]);
  });
  it("a reader that goes away is no fault", () => {
    const folder = recordFolder(goodDescription());
    const said = execFileSync("bash", ["-c", `"${process.execPath}" "${program}" check --json "${folder}" 2>&1 | head -1`], { encoding: "utf8" });
    expect(said).toBe("{\n");
  });
});

describe("Ctrl-C", () => {
  it("while a log is read: one sentence, exit 130", async () => {
    const folder = recordFolder(goodDescription(), { "card.txt": goodRows(12).repeat(400) });
    const child = spawn(process.execPath, [program, "check", folder]);
    const end = ended(child);
    const descriptors = `/proc/${child.pid}/fd`;
    await until(() => existsSync(descriptors) && readdirSync(descriptors).some((fd) => { try { return readlinkSync(join(descriptors, fd)).endsWith("card.txt"); } catch { return false; } }));
    child.kill("SIGINT");
    expect(await end).toEqual({ code: 130, out: "", err: `stopped while ${folder} was read; nothing was written\n` });
  }, 60_000);

  it("while a file is written: nothing is left, what was there before stays", async () => {
    const folder = folderOf();
    writeFileSync(join(folder, "old.csv"), "old");
    const script = `
      import { writeBeside } from ${JSON.stringify(join(root, "dist", "door", "disk", "writeBeside.js"))};
      const pieces = function* () { for (;;) yield "x".repeat(1 << 16); };
      await writeBeside(${JSON.stringify(join(folder, "old.csv"))}, pieces(), { replace: true });`;
    const child = spawn(process.execPath, ["--input-type=module", "-e", script]);
    const end = ended(child);
    await until(() => readdirSync(folder).some((name) => name.endsWith(".part")));
    child.kill("SIGINT");
    expect(await end).toEqual({ code: 130, out: "", err: `stopped: ${join(folder, "old.csv")} was not written\n` });
    expect(readdirSync(folder)).toEqual(["old.csv"]);
    expect(readFileSync(join(folder, "old.csv"), "utf8")).toBe("old");
  }, 60_000);
});
