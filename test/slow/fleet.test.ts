import { type ChildProcess, spawn } from "node:child_process";
import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { Queue, QueueEvents } from "bullmq";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { airtides } from "../cli/run.js";
import { root } from "../laws/sources.js";
import { cells, plantedS2, stationName, stations } from "./stations.js";

const count = 200;
const failing = { empty: [17], faulty: [101] };
const folder = mkdtempSync(join(tmpdir(), "airtides-fleet-"));
const folders = stations(count, failing);
const started: ChildProcess[] = [];
let redis = "";

async function freePort(): Promise<number> {
  const server = createServer();
  await new Promise<void>((done) => server.listen(0, "127.0.0.1", done));
  const { port } = server.address() as { port: number };
  await new Promise((done) => server.close(done));
  return port;
}

interface Started {
  readonly child: ChildProcess;
  readonly ended: Promise<number | null>;
  readonly said: () => string;
}

function start(command: string, words: readonly string[]): Started {
  const child = spawn(command, words, { cwd: folder, stdio: ["ignore", "pipe", "pipe"] });
  started.push(child);
  let text = "";
  for (const stream of [child.stdout, child.stderr]) stream?.on("data", (piece: Buffer) => (text += piece.toString()));
  return { child, said: () => text, ended: new Promise((done) => child.once("close", (code) => done(code))) };
}

const fleet = (name: string, ...words: string[]): Started => start(process.execPath, [join(root, "dist", "door", "fleet", `${name}.js`), "--redis", redis, ...words]);

/** Waits until something holds, at most a minute. */
async function until(what: string, holds: () => boolean | Promise<boolean>): Promise<void> {
  const from = Date.now();
  while (!(await holds())) {
    if (Date.now() - from > 60_000) throw new Error(`${what} did not come about within a minute`);
    await pause(20);
  }
}

beforeAll(async () => {
  const port = await freePort();
  redis = `redis://127.0.0.1:${port}`;
  const server = start("redis-server", ["--port", String(port), "--bind", "127.0.0.1", "--dir", folder, "--save", "", "--appendonly", "no"]);
  await until("redis-server", () => server.said().includes("Ready to accept connections"));
});

afterAll(async () => {
  for (const child of started.reverse()) if (child.exitCode === null) child.kill("SIGKILL");
  for (const path of [folder, ...folders]) rmSync(path, { recursive: true, force: true });
});

describe("many stations by a queue on Redis", () => {
  it("200 stations, one worker and the producer killed in the middle: every record once, in a table that is right", async () => {
    const connection = { url: redis };
    const queue = new Queue("airtides", { connection });
    const events = new QueueEvents("airtides", { connection });
    await events.waitUntilReady();
    const times = { completed: new Map<string, number>(), stalled: new Map<string, number>(), failed: new Map<string, number>() };
    for (const kind of ["completed", "stalled", "failed"] as const) events.on(kind, ({ jobId }: { jobId: string }) => times[kind].set(jobId, (times[kind].get(jobId) ?? 0) + 1));

    const first = fleet("produce", "--out", "stations.csv", "tides", ...folders);
    const workers = [fleet("worker", "--patience", "3"), fleet("worker", "--patience", "3")];
    await until("a quarter of the stations", () => times.completed.size >= count / 4);

    // One worker is stopped with a record in hand, then killed: with one record a worker, two in hand means one each.
    await until("a worker with a record in hand", async () => {
      workers[0].child.kill("SIGSTOP");
      if ((await queue.getActiveCount()) === 2) return true;
      workers[0].child.kill("SIGCONT");
      return false;
    });
    workers[0].child.kill("SIGKILL");
    // The producer goes too, and is started again with the same words.
    first.child.kill("SIGKILL");
    await Promise.all([workers[0].ended, first.ended]);
    expect(existsSync(join(folder, "stations.csv"))).toBe(false);
    const before = times.completed.size;
    expect(before).toBeLessThan(count - 1);
    const second = fleet("produce", "--out", "stations.csv", "tides", ...folders);
    expect([await second.ended, second.said()]).toEqual([1, `wrote stations.csv: ${count} records, 2 of them without an answer\n`]);

    await until("all events", () => times.completed.size >= count);
    expect([times.completed.size, [...times.completed.values()].filter((n) => n !== 1)]).toEqual([count, []]);
    expect([times.stalled.size, times.failed.size]).toEqual([1, 0]);
    expect(await queue.getJobCounts()).toMatchObject({ active: 0, waiting: 0, delayed: 0, completed: 0, failed: 0 });

    const [head, ...rows] = cells(readFileSync(join(folder, "stations.csv"), "utf8"));
    const single = JSON.parse(airtides("tides", "--json", "--jobs", "2", ...folders).out).records as any[];
    const expected = single.flatMap((r) => (r.error === undefined ? r.places.porch.constituents.map((c: any) => [r.record.name, c.name, String(c.amplitude.value)]) : [[r.record.name, "", ""]]));
    expect(rows.map((r) => [r[0], r[3], r[4]])).toEqual(expected);
    const s2 = rows.filter((r) => r[head.indexOf("line")] === "S2");
    expect(s2.map((r) => r[0])).toEqual(folders.map((_, k) => stationName(k)).filter((_, k) => k !== 17 && k !== 101));
    // Rows are rounded to 0.01 hPa, and the planted ripple is 0.02 hPa.
    for (const r of s2) expect(Math.abs(Number(r[4]) - plantedS2(Number(r[0].slice(-3)))), r.join()).toBeLessThan(0.02);

    workers[1].child.kill("SIGTERM");
    expect(await workers[1].ended).toBe(0);
    await events.close();
    await queue.close();
  });

  it("a record that comes while it is tried again is answered; lines of any command; nothing is written over", async () => {
    const [late] = stations(1);
    folders.push(late);
    const words = ["--queue", "late", "--out", "late.jsonl", "check", `${late}-moved`, folders[0]];
    const producer = fleet("produce", ...words);
    const worker = fleet("worker", "--queue", "late", "--jobs", "2");
    const queue = new Queue("late", { connection: { url: redis } });
    await until("a first attempt that failed", async () => (await queue.getDelayedCount()) === 1);
    folders.push(`${late}-moved`);
    cpSync(late, `${late}-moved`, { recursive: true });
    expect([await producer.ended, producer.said()]).toEqual([0, "wrote late.jsonl: 2 records, 0 of them without an answer\n"]);
    const lines = readFileSync(join(folder, "late.jsonl"), "utf8").trimEnd().split("\n").map((l) => JSON.parse(l));
    expect(lines.map((l) => [l.record.name, l.verdict.level])).toEqual([["station-000", "usable"], ["station-000", "usable"]]);
    const again = fleet("produce", ...words);
    expect([await again.ended, again.said()]).toEqual([2, "late.jsonl exists already and is not written over; name another file or move it away\n"]);
    worker.child.kill("SIGTERM");
    expect(await worker.ended).toBe(0);
    await queue.close();
  });

  it("a worker that was only asleep and answers late changes nothing, and works on", async () => {
    const queue = new Queue("asleep", { connection: { url: redis } });
    const events = new QueueEvents("asleep", { connection: { url: redis } });
    await events.waitUntilReady();
    const completed: string[] = [];
    events.on("completed", ({ jobId }) => completed.push(jobId));
    const asleep = fleet("worker", "--queue", "asleep", "--patience", "1");
    const producer = fleet("produce", "--queue", "asleep", "--out", "asleep.jsonl", "tides", ...folders.slice(0, 6));
    await until("a record in hand", async () => {
      asleep.child.kill("SIGSTOP");
      if ((await queue.getActiveCount()) === 1) return true;
      asleep.child.kill("SIGCONT");
      return false;
    });
    const awake = fleet("worker", "--queue", "asleep", "--patience", "1");
    expect([await producer.ended, producer.said()]).toEqual([0, "wrote asleep.jsonl: 6 records, 0 of them without an answer\n"]);
    awake.child.kill("SIGTERM");
    expect(await awake.ended).toBe(0);
    asleep.child.kill("SIGCONT");
    // The late answer finds its task done and gone.
    const second = fleet("produce", "--queue", "asleep", "--out", "again.jsonl", "tides", folders[6]);
    expect([await second.ended, asleep.said()]).toEqual([0, expect.stringMatching(/note: 127\.0\.0\.1:\d+: .*(lock|key)/i)]);
    await until("all events", () => completed.length >= 7);
    expect([completed.length, new Set(completed).size]).toEqual([7, 7]);
    expect(await queue.getJobCounts()).toMatchObject({ active: 0, waiting: 0, delayed: 0, completed: 0, failed: 0 });
    asleep.child.kill("SIGTERM");
    expect(await asleep.ended).toBe(0);
    await events.close();
    await queue.close();
  });

  it("wrong use and an address without Redis are told in one sentence", async () => {
    const told = async (run: Started): Promise<[number | null, string]> => [await run.ended, run.said()];
    const nobody = `redis://127.0.0.1:${await freePort()}`;
    expect(await told(fleet("worker", "--redis", nobody))).toEqual([2, expect.stringMatching(/^Redis must answer at 127\.0\.0\.1:\d+ \(got .*ECONNREFUSED.*\); start redis-server, or name another with --redis\n$/)]);
    expect(await told(fleet("worker", "--redis", "here"))).toEqual([2, '--redis must be an address such as redis://127.0.0.1:6379 (got "here")\n']);
    expect(await told(fleet("worker", "--jobs", "0"))).toEqual([2, '--jobs must be a whole number from 1 to 256 (got "0")\n']);
    expect(await told(fleet("produce", "--out", "x.csv", "check", folders[0]))).toEqual([2, "--out must be a file that ends in .jsonl, or in .csv for tides (got x.csv)\n"]);
    expect(await told(fleet("produce", "--out", "x.csv", "tides"))).toEqual([2, "produce.js must be given COMMAND and RECORD… (got no RECORD)\n"]);
    expect(await told(fleet("produce", "--odd"))).toEqual([2, expect.stringMatching(/^Unknown option '--odd'[^\n]*\n$/)]);
  });
});
