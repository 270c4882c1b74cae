import { MessageChannel, receiveMessageOnPort, Worker } from "node:worker_threads";
import { type Connection, readConnection } from "./connection.js";
import { askedName } from "./hints.js";
import { interruptGate, sharedPlaces } from "./interruptGate.js";
import { isComplete } from "./isComplete.js";
import { kernelNote } from "./kernelNote.js";
import type { News, WorkerStart, Work } from "./link.js";
import { type CellOutcome, type Cells, openCells } from "./openCells.js";

// The kernel's process: `node kernelMain.js CONNECTION_FILE`. This thread runs cells, the other one owns the sockets.
const [connectionFile] = process.argv.slice(2);
if (connectionFile === undefined) refuse("a connection file must be given; Jupyter does when it starts the kernel (airtides kernel install)");

function refuse(sentence: string): never {
  kernelNote(sentence);
  process.exit(2);
}

function connectionOf(file: string): Connection {
  try {
    return readConnection(file);
  } catch (error) {
    return refuse((error as Error).message);
  }
}

const shared = new SharedArrayBuffer(12);
const places = new Int32Array(shared);
const { port1: answersHere, port2: answers } = new MessageChannel();
const thread = new Worker(new URL("./socketThread.js", import.meta.url), { workerData: { connection: connectionOf(connectionFile), shared, answers } satisfies WorkerStart, transferList: [answers] });
thread.on("error", (error) => {
  // The one part that is not JavaScript.
  const isMissing = /zeromq|native build|\.node\b/i.test(error.message);
  kernelNote(isMissing ? `the socket library zeromq cannot be loaded on ${process.platform} ${process.arch}; the command line and the library work without it (${error.message})` : error.message);
  process.exit(1);
});
const tell = (news: News): void => thread.postMessage(news);

let allowsInput = false;
const cells: Cells = openCells({
  folder: process.cwd(),
  put: (tag, piece) => tell({ kind: "piece", tag, piece }),
  gate: interruptGate(places),
  ask: (tag, question, secret) => {
    if (!allowsInput) throw new Error("prompt must have someone to ask: this client takes no input; write the answer into the cell");
    const interrupts = Atomics.load(places, sharedPlaces.interrupts);
    while (receiveMessageOnPort(answersHere) !== undefined);
    let seen = Atomics.load(places, sharedPlaces.answers);
    tell({ kind: "ask", tag, question, secret });
    for (;;) {
      const answer = receiveMessageOnPort(answersHere);
      if (answer !== undefined) return String(answer.message);
      if (Atomics.load(places, sharedPlaces.interrupts) > interrupts) throw Object.assign(new Error("the cell was interrupted"), { name: "Interrupted" });
      Atomics.wait(places, sharedPlaces.answers, seen);
      seen = Atomics.load(places, sharedPlaces.answers);
    }
  },
});

async function execute(work: Extract<Work, { kind: "execute" }>): Promise<void> {
  const asked = askedName(work.code);
  if (asked !== null) {
    const text = cells.inspect(asked, asked.length) ?? `nothing is known of ${asked}`;
    tell({ kind: "done", id: work.id, content: { status: "ok", user_expressions: {}, payload: [{ source: "page", data: { "text/plain": text }, start: 0 }] } });
    return;
  }
  allowsInput = work.allowsInput;
  const outcome = await cells.run(work.code, work.tag, work.key);
  if (outcome.status === "error") {
    const { ename, evalue, traceback } = outcome;
    tell({ kind: "fault", id: work.id, fault: { ename, evalue, traceback } });
    tell({ kind: "done", id: work.id, content: { status: "error", ename, evalue, traceback } });
    return;
  }
  if (outcome.result !== null) tell({ kind: "result", id: work.id, data: outcome.result.data, metadata: outcome.result.metadata });
  const expressions: Record<string, unknown> = {};
  for (const [name, text] of Object.entries(work.expressions)) expressions[name] = expressionReply(await cells.evaluate(text, `${work.tag}:${name}`));
  tell({ kind: "done", id: work.id, content: { status: "ok", user_expressions: expressions, payload: [] } });
}

function expressionReply(outcome: CellOutcome): unknown {
  if (outcome.status === "error") return outcome;
  return { status: "ok", data: outcome.result?.data ?? {}, metadata: outcome.result?.metadata ?? {} };
}

function answerOf(work: Extract<Work, { kind: "complete" | "inspect" | "isComplete" }>): Record<string, unknown> {
  if (work.kind === "isComplete") return askedName(work.code) === null ? { ...isComplete(cells.parser, work.code) } : { status: "complete" };
  if (work.kind === "inspect") {
    const text = cells.inspect(work.code, work.cursor);
    return { status: "ok", found: text !== null, data: text === null ? {} : { "text/plain": text }, metadata: {} };
  }
  const { start, end, matches, kinds } = cells.complete(work.code, work.cursor);
  const types = matches.map((text, i) => ({ text, type: kinds[i], start, end }));
  return { status: "ok", matches, cursor_start: start, cursor_end: end, metadata: { _jupyter_types_experimental: types } };
}

thread.on("message", (work: Work) => {
  if (work.kind === "exit") process.exit(0);
  if (work.kind === "refused") {
    kernelNote(`the sockets could not be opened: ${work.reason}; is another kernel running on this connection file?`);
    process.exit(1);
  }
  if (work.kind === "interrupt") return cells.interrupt();
  if (work.kind === "execute") return void execute(work);
  try {
    tell({ kind: "done", id: work.id, content: answerOf(work) });
  } catch (error) {
    const { name, message } = error as Error;
    tell({ kind: "done", id: work.id, content: { status: "error", ename: name, evalue: message, traceback: [] } });
  }
});

// A signal that reaches the process when no code runs must not end it; the message that comes with it does the rest.
process.on("SIGINT", () => undefined);
process.on("uncaughtException", (error) => cells.late(error));
process.on("unhandledRejection", (reason) => cells.late(reason));
