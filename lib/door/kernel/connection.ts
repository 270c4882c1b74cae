import { readFileSync } from "node:fs";

/** The five sockets of a kernel. */
export type Channel = "shell" | "control" | "iopub" | "stdin" | "heartbeat";

/** What a client wrote into the connection file. */
export interface Connection {
  readonly transport: "tcp" | "ipc";
  readonly ip: string;
  /** Key of the signatures; empty means unsigned. */
  readonly key: string;
  readonly ports: Readonly<Record<Channel, number>>;
}

const portNames: Readonly<Record<Channel, string>> = { shell: "shell_port", control: "control_port", iopub: "iopub_port", stdin: "stdin_port", heartbeat: "hb_port" };

/**
 * Reads a connection file.
 *
 * @param path the file that the client names on the kernel's command line
 * @throws Error with one sentence when it cannot be read or lacks something
 */
export function readConnection(path: string): Connection {
  let document: Record<string, unknown>;
  try {
    document = JSON.parse(readFileSync(path, "utf8")) as Record<string, unknown>;
  } catch (error) {
    throw new Error(`the connection file ${path} must be readable JSON (${(error as Error).message}); let Jupyter start the kernel`);
  }
  const { transport = "tcp", ip = "127.0.0.1", key = "", signature_scheme: scheme = "hmac-sha256" } = document;
  if (transport !== "tcp" && transport !== "ipc") throw new Error(`transport must be tcp or ipc (got ${String(transport)}) in ${path}`);
  if (typeof ip !== "string" || typeof key !== "string") throw new Error(`ip and key must be text in ${path}`);
  if (scheme !== "hmac-sha256" && key !== "") throw new Error(`signature_scheme must be hmac-sha256 (got ${String(scheme)}) in ${path}`);
  const ports = Object.fromEntries(
    Object.entries(portNames).map(([channel, name]) => {
      const port = document[name];
      if (!Number.isInteger(port)) throw new Error(`${name} must be a whole number (got ${String(port)}) in ${path}`);
      return [channel, port];
    }),
  ) as Record<Channel, number>;
  return { transport, ip, key, ports };
}

/** Address of one socket, as the socket library wants it. */
export function addressOf(connection: Connection, channel: Channel): string {
  const { transport, ip, ports } = connection;
  return transport === "tcp" ? `tcp://${ip}:${ports[channel]}` : `ipc://${ip}-${ports[channel]}`;
}
