import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { openLog, readText } from "../../../lib/door/disk/openLog.js";
import { writeBeside } from "../../../lib/door/disk/writeBeside.js";

const folder = mkdtempSync(join(tmpdir(), "airtides-disk-"));
afterAll(() => rmSync(folder, { recursive: true }));

const drain = async (path: string): Promise<string> => {
  let text = "";
  for await (const chunk of openLog(path)) text += Buffer.from(chunk).toString("latin1");
  return text;
};

describe("openLog", () => {
  it("gives every byte of a file longer than its buffer", async () => {
    const path = join(folder, "long.txt");
    const text = Array.from({ length: 60000 }, (_, i) => `line ${i}\n`).join("");
    writeFileSync(path, text);
    expect((await drain(path)) === text).toBe(true);
  });
  it("an empty file gives nothing", async () => {
    writeFileSync(join(folder, "empty"), "");
    expect(await drain(join(folder, "empty"))).toBe("");
  });
  it("missing, folder, pipe and a link in a circle are refused in a sentence, at once", async () => {
    symlinkSync("round", join(folder, "round"));
    execFileSync("mkfifo", [join(folder, "pipe")]);
    await expect(drain(join(folder, "none"))).rejects.toThrow(/none could not be read: there is no such file$/);
    await expect(drain(folder)).rejects.toThrow(/must be an ordinary file \(got a folder\)/);
    await expect(drain(join(folder, "pipe"))).rejects.toThrow(/must be an ordinary file \(got a pipe\); copy the log to a file first/);
    await expect(drain(join(folder, "round"))).rejects.toThrow(/round could not be read: it is a link that leads back to itself/);
  });
  it("readText refuses what is too long or not UTF-8", async () => {
    writeFileSync(join(folder, "bytes"), Buffer.from([0xff, 0xfe, 0x00, 0xd8, 0x80]));
    await expect(readText(join(folder, "bytes"), 100)).rejects.toThrow(/must be UTF-8 text/);
    await expect(readText(join(folder, "bytes"), 3)).rejects.toThrow(/must be at most 3 bytes/);
  });
});

describe("writeBeside", () => {
  it("makes the folders above it, and takes those that are there", async () => {
    for (const name of ["one.txt", "two.txt"]) {
      await writeBeside(join(folder, "a", "b", name), name);
      expect(readFileSync(join(folder, "a", "b", name), "utf8")).toBe(name);
    }
  });
  it.runIf(existsSync("/proc/self"))("where the file system makes no folders it says so and ends", async () => {
    await expect(writeBeside("/proc/airtides/out/x.txt", "x")).rejects.toThrow("/proc/airtides/out/x.txt could not be written: no folder can be made there");
  });
  it("writes whole, makes the folder, leaves nothing beside", async () => {
    const path = join(folder, "deep", "er", "out.json");
    expect(await writeBeside(path, "{}\n")).toBe(3);
    expect(readFileSync(path, "utf8")).toBe("{}\n");
    expect(readdirSync(join(folder, "deep", "er"))).toEqual(["out.json"]);
  });
  it("never writes over a file unless told to", async () => {
    const path = join(folder, "mine.txt");
    writeFileSync(path, "mine");
    await expect(writeBeside(path, "yours")).rejects.toThrow(/mine\.txt exists already and is not written over/);
    expect(readFileSync(path, "utf8")).toBe("mine");
    await writeBeside(path, "yours", { replace: true });
    expect(readFileSync(path, "utf8")).toBe("yours");
    expect(readdirSync(folder).filter((f) => f.endsWith(".part"))).toEqual([]);
  });
  it("a folder in the way is a sentence", async () => {
    await expect(writeBeside(join(folder, "mine.txt", "x"), "y")).rejects.toThrow(/could not be written/);
  });
});
