import { type ChildProcess, spawn } from "node:child_process";
import { createHmac, randomUUID } from "node:crypto";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Dealer, Request, Subscriber } from "zeromq";

export interface Received {
  readonly channel: "shell" | "control" | "iopub" | "stdin";
  readonly topic: string;
  readonly type: string;
  readonly header: Record<string, any>;
  readonly parent: Record<string, any>;
  readonly content: Record<string, any>;
  /** When it came · ms. */
  readonly at: number;
}

export interface ClientOptions {
  readonly key?: string;
  readonly transport?: "tcp" | "ipc";
  readonly folder?: string;
  readonly environment?: Record<string, string>;
}

export const kernelMain: string = new URL("../../dist/door/kernel/kernelMain.js", import.meta.url).pathname;

/** Ports that nobody uses now. */
export async function freePorts(count: number): Promise<number[]> {
  const servers = await Promise.all(
    Array.from({ length: count }, () => new Promise<ReturnType<typeof createServer>>((done) => {
      const server = createServer().listen(0, "127.0.0.1", () => done(server));
    })),
  );
  const ports = servers.map((server) => (server.address() as { port: number }).port);
  await Promise.all(servers.map((server) => new Promise((done) => server.close(done))));
  return ports;
}

/** A client of one kernel, written by the protocol's text alone: it shares nothing with lib/door/kernel. */
export class KernelClient {
  readonly all: Received[] = [];
  readonly session: string = randomUUID();
  /** What the kernel's process wrote itself. */
  noise = "";
  readonly started: number = performance.now();
  private readonly sockets: Record<string, Dealer> = {};
  private readonly iopub = new Subscriber();
  private readonly heartbeat = new Request();
  private readonly wakers = new Set<() => void>();

  private constructor(
    readonly process: ChildProcess,
    readonly folder: string,
    readonly connectionFile: string,
    private readonly key: string,
  ) {}

  static async start(options: ClientOptions = {}): Promise<KernelClient> {
    const { key = "secret of this test", transport = "tcp" } = options;
    const home = mkdtempSync(join(tmpdir(), "kernel-"));
    const ports = transport === "tcp" ? await freePorts(5) : [1, 2, 3, 4, 5];
    const ip = transport === "tcp" ? "127.0.0.1" : join(home, "socket");
    const file = join(home, "connection.json");
    const names = ["shell_port", "control_port", "iopub_port", "stdin_port", "hb_port"];
    writeFileSync(file, JSON.stringify({ transport, ip, key, signature_scheme: "hmac-sha256", kernel_name: "airtides", ...Object.fromEntries(names.map((name, i) => [name, ports[i]])) }));
    const child = spawn(process.execPath, [kernelMain, file], { cwd: options.folder ?? home, env: { ...process.env, ...options.environment }, stdio: ["ignore", "pipe", "pipe"] });
    const client = new KernelClient(child, home, file, key);
    for (const stream of [child.stdout, child.stderr]) stream?.on("data", (data: Buffer) => { client.noise += data.toString(); });
    client.connect(transport === "tcp" ? ports.map((port) => `tcp://${ip}:${port}`) : ports.map((port) => `ipc://${ip}-${port}`));
    return client;
  }

  private connect([shell, control, iopub, stdin, heartbeat]: string[]): void {
    const identity = randomUUID();
    for (const [name, address] of Object.entries({ shell, control, stdin })) {
      const socket = new Dealer({ routingId: identity, linger: 0 });
      socket.connect(address);
      this.sockets[name] = socket;
      void this.read(name as "shell", socket);
    }
    this.iopub.subscribe();
    this.iopub.connect(iopub);
    void this.read("iopub", this.iopub);
    this.heartbeat.linger = 0;
    this.heartbeat.connect(heartbeat);
  }

  private async read(channel: Received["channel"], socket: AsyncIterable<Buffer[]>): Promise<void> {
    try {
      for await (const frames of socket) {
        const at = frames.findIndex((frame) => frame.toString() === "<IDS|MSG>");
        const parts = frames.slice(at + 2, at + 6);
        if (frames[at + 1].toString() !== this.sign(parts)) throw new Error("the kernel's signature is wrong");
        const [header, parent, , content] = parts.map((part) => JSON.parse(part.toString()));
        this.all.push({ channel, topic: frames[0].toString(), type: header.msg_type, header, parent, content, at: performance.now() });
        for (const wake of this.wakers) wake();
      }
    } catch (error) {
      if (!String(error).includes("closed")) throw error;
    }
  }

  sign(parts: readonly Buffer[], key: string = this.key): string {
    if (key === "") return "";
    const mac = createHmac("sha256", key);
    for (const part of parts) mac.update(part);
    return mac.digest("hex");
  }

  /** Frames of a request. */
  frames(type: string, content: object, options: { key?: string; metadata?: object } = {}): { id: string; frames: Buffer[] } {
    const id = randomUUID();
    const header = { msg_id: id, msg_type: type, session: this.session, username: "tester", date: new Date().toISOString(), version: "5.3" };
    const parts = [header, {}, options.metadata ?? {}, content].map((part) => Buffer.from(JSON.stringify(part)));
    return { id, frames: [Buffer.from("<IDS|MSG>"), Buffer.from(this.sign(parts, options.key ?? this.key)), ...parts] };
  }

  sendRaw(channel: "shell" | "control" | "stdin", frames: Buffer[]): Promise<void> {
    return this.sockets[channel].send(frames);
  }

  async send(channel: "shell" | "control" | "stdin", type: string, content: object = {}, metadata: object = {}): Promise<string> {
    const { id, frames } = this.frames(type, content, { metadata });
    await this.sendRaw(channel, frames);
    return id;
  }

  /** The first message that fits, waiting for it. */
  async wait(fits: (message: Received) => boolean, milliseconds = 30_000): Promise<Received> {
    const until = performance.now() + milliseconds;
    for (;;) {
      const found = this.all.find(fits);
      if (found !== undefined) return found;
      const left = until - performance.now();
      if (left <= 0) throw new Error(`nothing came in ${milliseconds} ms; the kernel wrote: ${this.noise}; last: ${JSON.stringify(this.all.slice(-3)).slice(0, 600)}`);
      await new Promise<void>((done) => {
        const wake = (): void => {
          clearTimeout(timer);
          this.wakers.delete(wake);
          done();
        };
        const timer = setTimeout(wake, left);
        this.wakers.add(wake);
      });
    }
  }

  reply(id: string, milliseconds?: number): Promise<Received> {
    return this.wait((m) => m.channel !== "iopub" && m.channel !== "stdin" && m.parent.msg_id === id, milliseconds);
  }

  /** Publications of one request, in order; waits for its idle. */
  async published(id: string): Promise<Received[]> {
    await this.wait((m) => m.type === "status" && m.parent.msg_id === id && m.content.execution_state === "idle");
    return this.all.filter((m) => m.channel === "iopub" && m.parent.msg_id === id);
  }

  /** Runs a cell: its reply, and what was published between busy and idle. */
  async run(code: string, options: object = {}, metadata: object = {}): Promise<{ id: string; reply: Received["content"]; out: Received[]; took: number }> {
    const start = performance.now();
    const id = await this.send("shell", "execute_request", { code, silent: false, store_history: true, user_expressions: {}, allow_stdin: false, stop_on_error: true, ...options }, metadata);
    const reply = await this.reply(id);
    const out = await this.published(id);
    return { id, reply: reply.content, out: out.filter((m) => m.type !== "status" && m.type !== "execute_input"), took: reply.at - start };
  }

  async beat(text: string): Promise<string> {
    await this.heartbeat.send(text);
    return (await this.heartbeat.receive())[0].toString();
  }

  /** Waits until the kernel answers. Publications sent before a subscription arrives are lost, as with every client. */
  async ready(): Promise<void> {
    for (;;) {
      const id = await this.send("shell", "kernel_info_request");
      await this.reply(id);
      const heard = await this.wait((m) => m.type === "status" && m.parent.msg_id === id && m.content.execution_state === "idle", 1000).catch(() => null);
      if (heard !== null) return;
    }
  }

  exited(milliseconds = 5000): Promise<number | string | null> {
    if (this.process.exitCode !== null || this.process.signalCode !== null) return Promise.resolve(this.process.exitCode ?? this.process.signalCode);
    return new Promise((done, fail) => {
      const timer = setTimeout(() => fail(new Error(`the kernel did not end in ${milliseconds} ms`)), milliseconds);
      this.process.once("exit", (code, signal) => {
        clearTimeout(timer);
        done(code ?? signal);
      });
    });
  }

  close(): void {
    for (const socket of Object.values(this.sockets)) socket.close();
    this.iopub.close();
    this.heartbeat.close();
    if (this.process.exitCode === null && this.process.signalCode === null) this.process.kill("SIGKILL");
    rmSync(this.folder, { recursive: true, force: true });
  }
}
