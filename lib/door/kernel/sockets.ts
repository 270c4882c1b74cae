import { Publisher, Reply, Router } from "zeromq";
import { addressOf, type Channel, type Connection } from "./connection.js";
import { kernelNote } from "./kernelNote.js";

/** The kernel's sockets, bound. */
export interface Sockets {
  /** Begins to take messages: called with the frames of each, in the order of its socket. */
  listen(received: (channel: "shell" | "control" | "stdin", frames: Uint8Array[]) => void): void;
  /** Sends in order; never waits. */
  send(channel: "shell" | "control" | "iopub" | "stdin", frames: readonly Uint8Array[]): void;
  /** Lets what was sent go out, about a second at most, and closes. */
  close(): Promise<void>;
}

/**
 * Binds the five sockets and answers the heartbeat.
 *
 * @param connection where
 * @throws Error when an address is taken
 */
export async function openSockets(connection: Connection): Promise<Sockets> {
  // Without a limit on what waits, a flood of output is not lost when a client reads slowly.
  const options = { linger: 1000, sendHighWaterMark: 0 };
  const routers = { shell: new Router(options), control: new Router(options), stdin: new Router(options) };
  const all = { ...routers, iopub: new Publisher(options), heartbeat: new Reply({ linger: 0 }) };
  const bound = await Promise.allSettled(Object.entries(all).map(([channel, socket]) => socket.bind(addressOf(connection, channel as Channel))));
  const failed = bound.find((one) => one.status === "rejected");
  if (failed !== undefined) {
    for (const socket of Object.values(all)) socket.close();
    throw failed.reason;
  }

  const echo = async (): Promise<void> => {
    for await (const frames of all.heartbeat) await all.heartbeat.send(frames);
  };
  const isClosed = (): boolean => all.shell.closed;
  const kept = (work: Promise<void>): void => {
    work.catch((error: unknown) => {
      if (!isClosed()) kernelNote(`a socket failed: ${String(error)}`);
    });
  };
  kept(echo());

  // One send at a time is allowed on a socket: each waits for the one before.
  const last: Record<string, Promise<void>> = {};
  return {
    listen: (received) => {
      const take = async (channel: "shell" | "control" | "stdin"): Promise<void> => {
        for await (const frames of routers[channel]) received(channel, frames);
      };
      for (const channel of ["shell", "control", "stdin"] as const) kept(take(channel));
    },
    send: (channel, frames) => {
      const socket = all[channel];
      last[channel] = (last[channel] ?? Promise.resolve()).then(() => (socket.closed ? undefined : socket.send(frames as Uint8Array[]))).catch(() => undefined);
    },
    close: async () => {
      await Promise.all(Object.values(last));
      for (const socket of Object.values(all)) socket.close();
    },
  };
}
