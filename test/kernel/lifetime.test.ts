import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { afterEach, describe, expect, it } from "vitest";
import { KernelClient, kernelMain } from "./kernelClient.js";

const open: KernelClient[] = [];
/** Further processes that a failing test must not leave behind. */
const others: ChildProcess[] = [];
async function start(options: Parameters<typeof KernelClient.start>[0] = {}): Promise<KernelClient> {
  const kernel = await KernelClient.start(options);
  open.push(kernel);
  await kernel.ready();
  return kernel;
}
afterEach(() => {
  for (const kernel of open.splice(0)) kernel.close();
  for (const other of others.splice(0)) other.kill("SIGKILL");
});

describe("the kernel's life", () => {
  it("answers who it is before its compiler is ready, on both sockets, and says that it starts", async () => {
    const kernel = await start();
    const info = await kernel.reply(await kernel.send("control", "kernel_info_request"));
    expect(info.content).toMatchObject({ status: "ok", protocol_version: "5.4", implementation: "airtides", language_info: { name: "typescript", version: "5.0.4", file_extension: ".ts", mimetype: "text/typescript", nbconvert_exporter: "script" } });
  });

  it("shuts down with an answer on both sockets, also while a cell computes", async () => {
    for (const code of ["1", "while (true) {}"]) {
      const kernel = await start();
      await kernel.send("shell", "execute_request", { code, silent: false });
      await kernel.wait((m) => m.type === "execute_input");
      const id = await kernel.send("control", "shutdown_request", { restart: true });
      expect((await kernel.reply(id)).content).toEqual({ status: "ok", restart: true });
      await kernel.wait((m) => m.channel === "iopub" && m.type === "shutdown_reply" && m.parent.msg_id === id);
      expect([0, "SIGKILL"]).toContain(await kernel.exited(3000));
    }
  });

  it("speaks unsigned and over local sockets where the connection file says so", async () => {
    const kernel = await start({ key: "", transport: "ipc" });
    const { out } = await kernel.run("6 * 7");
    expect(out[0].content.data["text/plain"]).toBe("42");
  });

  it("ends when the process that started it is gone, also while a cell computes", async () => {
    const outer = await KernelClient.start();
    open.push(outer);
    outer.process.kill("SIGKILL");
    await outer.exited();
    // A parent that starts the kernel on the same connection file and is then killed.
    const script = `const { spawn } = require('node:child_process'); const k = spawn(process.execPath, ${JSON.stringify([kernelMain, outer.connectionFile])}, { stdio: 'ignore', env: { ...process.env, JPY_PARENT_PID: String(process.pid) } }); console.log(k.pid); setInterval(() => {}, 1000)`;
    const parent = spawn(process.execPath, ["-e", script], { stdio: ["ignore", "pipe", "inherit"] });
    others.push(parent);
    const [line] = (await once(parent.stdout, "data")) as [Buffer];
    const pid = Number(line.toString());
    const isAlive = (): boolean => {
      try {
        process.kill(pid, 0);
        return true;
      } catch {
        return false;
      }
    };
    await outer.ready();
    await outer.send("shell", "execute_request", { code: "while (true) {}", silent: false });
    await outer.wait((m) => m.type === "execute_input");
    expect(isAlive()).toBe(true);
    parent.kill("SIGKILL");
    for (let i = 0; i < 100 && isAlive(); i++) await new Promise((done) => setTimeout(done, 50));
    expect(isAlive()).toBe(false);
  });

  it("says in one sentence that another kernel has its addresses, and leaves that one alone", async () => {
    const first = await start();
    const second = spawn(process.execPath, [kernelMain, first.connectionFile], { stdio: ["ignore", "ignore", "pipe"] });
    others.push(second);
    let text = "";
    second.stderr.on("data", (data: Buffer) => { text += data.toString(); });
    const [code] = await once(second, "exit");
    expect(code).toBe(1);
    expect(text).toMatch(/^airtides kernel: [^\n]*[Aa]ddress[^\n]*\n$/);
    expect((await first.run("'alive'")).reply.status).toBe("ok");
  });

  it("says in one sentence what is wrong with its connection file", async () => {
    const run = async (args: string[]): Promise<string> => {
      const child = spawn(process.execPath, [kernelMain, ...args], { stdio: ["ignore", "ignore", "pipe"] });
      let text = "";
      child.stderr.on("data", (data: Buffer) => { text += data.toString(); });
      await once(child, "exit");
      return text;
    };
    expect(await run([])).toMatch(/^airtides kernel: a connection file must be given[^\n]*\n$/);
    expect(await run(["/nowhere/connection.json"])).toMatch(/^airtides kernel: the connection file \/nowhere\/connection.json must be readable JSON[^\n]*\n$/);
  });
});
