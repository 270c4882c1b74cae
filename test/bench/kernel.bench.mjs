/**
 * The kernel against stock tslab, alternating in one run: start to first result, later cells, memory. Clocks are noisy: take the ratios.
 *
 * Stock tslab is the kernel that the package tslab installs by itself. Call: node test/bench/kernel.bench.mjs [rounds, default 5]
 */
import { spawn } from "node:child_process";
import { createHmac, randomUUID } from "node:crypto";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { Dealer, Subscriber } from "zeromq";

const root = fileURLToPath(new URL("../..", import.meta.url));
const rounds = Number(process.argv[2] ?? 5);
const cells = 40;
const kernels = {
  airtides: (file) => [join(root, "dist", "door", "kernel", "kernelMain.js"), file],
  stock: (file) => [join(root, "node_modules", "tslab", "bin", "tslab"), "kernel", "--config-path", file],
};

async function freePorts(count) {
  const servers = await Promise.all(Array.from({ length: count }, () => new Promise((done) => { const s = createServer().listen(0, "127.0.0.1", () => done(s)); })));
  const ports = servers.map((s) => s.address().port);
  await Promise.all(servers.map((s) => new Promise((done) => s.close(done))));
  return ports;
}

/** One kernel from start to end: times in ms, memory in MB. */
async function once(command) {
  // A folder with the types of Node in reach, so that both compile the same `console` and `process`.
  const folder = mkdtempSync(join(root, "node_modules", ".bench-"));
  const names = ["shell_port", "control_port", "iopub_port", "stdin_port", "hb_port"];
  const ports = await freePorts(5);
  const key = randomUUID();
  const file = join(folder, "connection.json");
  writeFileSync(file, JSON.stringify({ transport: "tcp", ip: "127.0.0.1", key, signature_scheme: "hmac-sha256", ...Object.fromEntries(names.map((n, i) => [n, ports[i]])) }));
  const shell = new Dealer({ routingId: randomUUID(), linger: 0 });
  const iopub = new Subscriber({ linger: 0 });
  shell.connect(`tcp://127.0.0.1:${ports[0]}`);
  iopub.subscribe();
  iopub.connect(`tcp://127.0.0.1:${ports[2]}`);
  (async () => { for await (const _ of iopub); })().catch(() => {});
  const session = randomUUID();
  const ask = async (type, content) => {
    const parts = [{ msg_id: randomUUID(), msg_type: type, session, username: "bench", date: new Date().toISOString(), version: "5.3" }, {}, {}, content].map((p) => Buffer.from(JSON.stringify(p)));
    const mac = createHmac("sha256", key);
    for (const part of parts) mac.update(part);
    await shell.send([Buffer.from("<IDS|MSG>"), Buffer.from(mac.digest("hex")), ...parts]);
    const frames = await shell.receive();
    const at = frames.findIndex((f) => f.toString() === "<IDS|MSG>");
    return JSON.parse(frames[at + 5].toString());
  };
  const run = async (code) => {
    const start = performance.now();
    const reply = await ask("execute_request", { code, silent: false, store_history: true, user_expressions: {}, allow_stdin: false, stop_on_error: true });
    if (reply.status !== "ok") throw new Error(`a cell of the bench failed: ${JSON.stringify(reply)}`);
    return performance.now() - start;
  };
  const start = performance.now();
  const child = spawn(process.execPath, command(file), { cwd: folder, stdio: "ignore" });
  try {
    await ask("kernel_info_request", {});
    const ready = performance.now() - start;
    await run("1 + 1");
    const first = performance.now() - start;
    const later = [];
    for (let i = 0; i < cells; i++) later.push(await run(`const value${i} = [1, 2, 3].map((x) => x * ${i});\nfunction f${i}(a: number): number { return a + value${i}[0]; }\nf${i}(${i})`));
    const memory = Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${child.pid}/status`, "utf8"))[1]) / 1024;
    return { ready, first, cell: median(later.slice(-20)), memory };
  } finally {
    child.kill("SIGKILL");
    shell.close();
    iopub.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

const median = (list) => [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)];

const found = { airtides: [], stock: [] };
for (let round = 0; round < rounds; round++) for (const [name, command] of Object.entries(kernels)) found[name].push(await once(command));
const rows = ["ready", "first", "cell", "memory"].map((what) => {
  const [own, stock] = ["airtides", "stock"].map((name) => median(found[name].map((f) => f[what])));
  const ratio = median(found.airtides.map((f, i) => f[what] / found.stock[i][what]));
  return { what: { ready: "ready for a client (ms)", first: "start to first result (ms)", cell: "later cells, median of 20 (ms)", memory: `memory after ${cells} cells (MB)` }[what], airtides: own.toFixed(0), stock: stock.toFixed(0), ratio: ratio.toFixed(2) };
});
console.table(rows);
