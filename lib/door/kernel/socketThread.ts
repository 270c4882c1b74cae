import { parentPort, workerData } from "node:worker_threads";
import { breakCode, sharedPlaces } from "./interruptGate.js";
import { kernelInfo } from "./kernelInfo.js";
import { kernelNote } from "./kernelNote.js";
import type { News, Work, WorkerStart } from "./link.js";
import { watchParent } from "./parentWatch.js";
import { requestDesk } from "./requests.js";
import { openSockets } from "./sockets.js";
import { type Outgoing, wire } from "./wire.js";
import { ownRoot } from "./ownPackage.js";

// The thread that owns the sockets: it answers, and hears an interrupt, while a cell computes in the other one.
const { connection, shared, answers } = workerData as WorkerStart;
const port = parentPort as NonNullable<typeof parentPort>;
const places = new Int32Array(shared);
const { decode, encode } = wire(connection.key);

const sockets = await openSockets(connection).catch((error: unknown) => {
  port.postMessage({ kind: "refused", reason: error instanceof Error ? error.message : String(error) } satisfies Work);
  // The other thread ends the process.
  return new Promise<never>(() => undefined);
});

let stopping = false;
async function stop(): Promise<void> {
  if (stopping) return;
  stopping = true;
  await sockets.close();
  port.postMessage({ kind: "exit" });
  // A cell that computes does not hear of it.
  setTimeout(() => process.kill(process.pid, "SIGKILL"), 500);
}

function wake(): void {
  Atomics.add(places, sharedPlaces.answers, 1);
  Atomics.notify(places, sharedPlaces.answers);
}

const desk = requestDesk({
  reply: (channel, to, message) => sockets.send(channel, encode(to, message)),
  publish: (message: Outgoing) => sockets.send("iopub", encode([Buffer.from(message.type, "utf8")], message)),
  toCells: (work) => port.postMessage(work),
  interrupt: () => {
    breakCode(places, () => {
      // Windows would end the process.
      if (process.platform !== "win32") process.kill(process.pid, "SIGINT");
    });
    port.postMessage({ kind: "interrupt" });
    wake();
  },
  answer: (text) => {
    answers.postMessage(text);
    wake();
  },
  stop: () => void stop(),
  info: kernelInfo(ownRoot()),
});

sockets.listen((channel, frames) => {
  try {
    desk.receive(channel, decode(frames));
  } catch (error) {
    kernelNote(`a message on ${channel} was refused: ${error instanceof Error ? error.message : String(error)}`);
  }
});
port.on("message", (news: News) => desk.news(news));
if (process.env.JPY_PARENT_PID !== undefined) watchParent(() => void stop());
