import { describe, expect, it } from "vitest";
import { pointsOf, unitsOf } from "../../../../lib/door/kernel/codePoints.js";
import { history } from "../../../../lib/door/kernel/history.js";
import { watchParent } from "../../../../lib/door/kernel/parentWatch.js";
import { shellQueue } from "../../../../lib/door/kernel/queue.js";
import { streamBatches } from "../../../../lib/door/kernel/streamBatches.js";
import type { Message } from "../../../../lib/door/kernel/wire.js";

const message = (name: string, type = "execute_request"): Message => ({ identities: [], header: { msg_id: name, msg_type: type, session: "", username: "", date: "", version: "" }, metadata: {}, content: {} });

describe("queue", () => {
  it("one at a time, in order; a failure gives up the cells that wait and nothing else", () => {
    const log: string[] = [];
    const queue = shellQueue((m) => void log.push(`start ${m.header.msg_id}`), (m) => void log.push(`drop ${m.header.msg_id}`));
    for (const name of ["a", "b"]) queue.push(message(name));
    queue.push(message("info", "kernel_info_request"));
    queue.push(message("c"));
    expect(log).toEqual(["start a"]);
    queue.done(false);
    queue.done(true);
    queue.done(false);
    queue.push(message("d"));
    expect(log).toEqual(["start a", "start b", "drop c", "start info", "start d"]);
    expect(queue.isBusy).toBe(true);
  });

  it("thousands of requests that are done at once do not pile up", () => {
    let started = 0;
    const queue = shellQueue(() => {
      started++;
      if (started === 1) for (let i = 0; i < 20_000; i++) queue.push(message(String(i)));
      queue.done(false);
    }, () => undefined);
    queue.push(message("first"));
    expect(started).toBe(20_001);
  });
});

it("printed text is gathered by cell and stream, in order", async () => {
  const sent: string[] = [];
  const batches = streamBatches<string>((parent, name, text) => void sent.push(`${parent} ${name} ${text}`), 5);
  batches.add("1", "stdout", "a");
  batches.add("1", "stdout", "b");
  batches.add("1", "stderr", "c");
  batches.add("2", "stderr", "d");
  expect(sent).toEqual(["1 stdout ab", "1 stderr c"]);
  await new Promise((done) => setTimeout(done, 30));
  expect(sent.at(-1)).toBe("2 stderr d");
  batches.flush();
  expect(sent).toHaveLength(3);
  batches.add("3", "stdout", "x".repeat(300_000));
  expect(sent).toHaveLength(4);
});

describe("history", () => {
  const past = history();
  for (const [i, code] of ["a1", "b", "a1", "line\ntwo"].entries()) past.add(i + 1, code);
  const codes = (request: object): unknown[] => past.answer(request as Record<string, unknown>).history.map((line) => line[2]);
  it("tail", () => {
    expect(codes({ hist_access_type: "tail", n: 2 })).toEqual(["a1", "line\ntwo"]);
    expect(codes({ hist_access_type: "tail", n: 0 })).toEqual([]);
    expect(codes({ hist_access_type: "tail", n: 2, output: true })).toEqual([["a1", null], ["line\ntwo", null]]);
  });
  it("range: the stop is not included; another session is unknown", () => {
    expect(codes({ hist_access_type: "range", session: 0, start: 2, stop: 4 })).toEqual(["b", "a1"]);
    expect(codes({ hist_access_type: "range", session: 5, start: 2, stop: 4 })).toEqual([]);
  });
  it("search: * and ?, unique keeps the last, other signs are plain", () => {
    expect(codes({ hist_access_type: "search", pattern: "a?" })).toEqual(["a1", "a1"]);
    expect(codes({ hist_access_type: "search", pattern: "a?", unique: true })).toEqual(["a1"]);
    expect(codes({ hist_access_type: "search", pattern: "*", n: 1 })).toEqual(["line\ntwo"]);
    expect(codes({ hist_access_type: "search", pattern: "line*two" })).toEqual(["line\ntwo"]);
    expect(codes({ hist_access_type: "search", pattern: "." })).toEqual([]);
  });
});

it("offsets in code points and in UTF-16 units", () => {
  const text = "a🌡b";
  expect([0, 1, 2, 3, 9].map((n) => unitsOf(text, n))).toEqual([0, 1, 3, 4, 4]);
  expect([0, 1, 3, 4].map((n) => pointsOf(text, n))).toEqual([0, 1, 2, 3]);
});

describe("the parent's death", () => {
  const gone = async (change: (sights: { id: number; alive: boolean }) => void): Promise<number> => {
    const state = { id: 100, alive: true };
    let calls = 0;
    const stop = watchParent(() => void calls++, 2, { parent: () => state.id, isAlive: () => state.alive });
    await new Promise((done) => setTimeout(done, 15));
    expect(calls).toBe(0);
    change(state);
    await new Promise((done) => setTimeout(done, 30));
    stop();
    return calls;
  };
  it("is seen by another parent (Linux, macOS) and by a number that is nobody's (Windows), once", async () => {
    expect(await gone((s) => { s.id = 1; })).toBe(1);
    expect(await gone((s) => { s.alive = false; })).toBe(1);
    expect(await gone(() => undefined)).toBe(0);
  });
});
