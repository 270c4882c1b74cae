import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, chromium, type Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { freePorts } from "./kernelClient.js";
import { figureCell, notebookFile } from "./notebookFile.js";

const folder = mkdtempSync(join(tmpdir(), "browser-"));
const commandLine = new URL("../../dist/door/cli/airtides.js", import.meta.url).pathname;
const environment = { ...process.env, JUPYTER_PATH: join(folder, "share", "jupyter"), JUPYTER_DATA_DIR: join(folder, "data"), JUPYTER_CONFIG_DIR: join(folder, "config"), JUPYTER_RUNTIME_DIR: join(folder, "runtime") };
const cells = ["import { dewPoint } from 'airtides';\ndewPoint(20, 50)", figureCell("first", false), figureCell("second")];
let server: ChildProcess;
let address = "";
let browser: Browser;

const python = (...args: string[]) => spawnSync("/usr/bin/python3", args, { cwd: folder, encoding: "utf8", env: environment });

beforeAll(async () => {
  expect(spawnSync(process.execPath, [commandLine, "kernel", "install", "--prefix", folder, "--quiet"]).status).toBe(0);
  writeFileSync(join(folder, "live.ipynb"), notebookFile(cells));
  writeFileSync(join(folder, "elsewhere.ipynb"), notebookFile(cells));
  const run = python("-m", "nbconvert", "--to", "notebook", "--execute", "--inplace", "elsewhere.ipynb");
  expect(run.status, run.stderr).toBe(0);
  const [port] = await freePorts(1);
  server = spawn("/usr/bin/python3", ["-m", "notebook", "--no-browser", "--allow-root", "--ip=127.0.0.1", `--port=${port}`, "--NotebookApp.token=", "--NotebookApp.password="], { cwd: folder, env: environment, stdio: ["ignore", "pipe", "pipe"] });
  address = await new Promise<string>((done, fail) => {
    let text = "";
    const hear = (data: Buffer): void => {
      text += data.toString();
      const found = /(http:\/\/127\.0\.0\.1:\d+\/)/.exec(text);
      if (found !== null) done(found[1]);
    };
    server.stdout?.on("data", hear);
    server.stderr?.on("data", hear);
    server.once("exit", () => fail(new Error(`the notebook server ended: ${text}`)));
  });
  browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: ["--no-sandbox"] });
}, 180_000);

afterAll(async () => {
  await browser?.close();
  if (server !== undefined && server.exitCode === null) {
    const ended = new Promise((done) => server.once("exit", done));
    server.kill("SIGINT");
    server.kill("SIGTERM");
    await ended;
  }
  rmSync(folder, { recursive: true, force: true });
}, 60_000);

const drawn = (page: Page, count: number, milliseconds = 60_000): Promise<unknown> =>
  page.waitForFunction((n) => [...document.querySelectorAll("[data-airtides-figure]")].filter((place) => place.querySelector("svg.main-svg .scatterlayer path.js-line") !== null).length === n, count, { timeout: milliseconds });

async function open(name: string): Promise<{ page: Page; faults: string[] }> {
  const page = await browser.newPage();
  const faults: string[] = [];
  page.on("pageerror", (error) => faults.push(String(error)));
  await page.goto(`${address}notebooks/${name}`);
  await page.waitForFunction(() => (window as any).Jupyter?.notebook?.kernel?.is_connected?.() === true, undefined, { timeout: 60_000 });
  return { page, faults };
}

describe("Jupyter Notebook in Chromium", () => {
  it("lists the kernel where Notebook and JupyterLab ask for it", async () => {
    const specs = (await (await fetch(`${address}api/kernelspecs`)).json()) as { kernelspecs: Record<string, { spec: Record<string, unknown> }> };
    expect(specs.kernelspecs.airtides.spec).toMatchObject({ display_name: "TypeScript (airtides)", language: "typescript", interrupt_mode: "message" });
  });

  it("draws after run, restart and run, run again, and save and reload", async () => {
    const { page, faults } = await open("live.ipynb");
    const notebook = (work: string): Promise<unknown> => page.evaluate(`(() => { const notebook = Jupyter.notebook; ${work} })()`);
    await notebook("notebook.execute_all_cells()");
    await drawn(page, 2);
    expect(await page.locator(".output_result .output_text, .output_result pre").first().textContent()).toContain("9.2551");

    await notebook("notebook.clear_all_output()");
    await page.evaluate(() => new Promise<void>((done) => {
      const { notebook } = (window as any).Jupyter;
      notebook.events.one("kernel_ready.Kernel", () => done());
      notebook.kernel.restart();
    }));
    await notebook("notebook.execute_all_cells()");
    await drawn(page, 2);

    for (const index of [1, 2, 1]) {
      await notebook(`notebook.get_cell(${index}).clear_output(); notebook.execute_cells([${index}])`);
      await drawn(page, 2);
    }
    await page.waitForFunction(() => (window as any).Jupyter.notebook.kernel_busy === false);
    await page.evaluate(() => (window as any).Jupyter.notebook.save_notebook());
    const saved = readFileSync(join(folder, "live.ipynb"), "utf8");
    // One library in the document, though its cell ran three times.
    expect(saved.split("(the drawing library of this document's figures)").length - 1).toBe(1);

    await page.reload();
    await drawn(page, 2);
    if (process.env.PICTURES !== undefined) await page.screenshot({ path: join(process.env.PICTURES, "notebook.png"), fullPage: true });
    expect(faults).toEqual([]);
    await page.close();
  }, 240_000);

  it("shows the still, or what is to be seen in words, where the notebook is not trusted", async () => {
    const { page, faults } = await open("elsewhere.ipynb");
    await page.waitForSelector('img[alt="second: a line that rises"]');
    const width = await page.waitForFunction(() => document.querySelector<HTMLImageElement>('img[alt="second: a line that rises"]')?.naturalWidth);
    expect(await width.jsonValue()).toBe(300);
    expect((await page.locator(".output_html").allTextContents()).join(" ")).toContain("first: a line that rises");
    expect(await page.locator("svg.main-svg").count()).toBe(0);
    expect(faults).toEqual([]);
    await page.close();
  }, 120_000);
});

describe("an exported page", () => {
  it("draws without a network, and shows the still without scripts", async () => {
    const run = python("-m", "nbconvert", "--to", "html", "elsewhere.ipynb");
    expect(run.status, run.stderr).toBe(0);
    const page = await browser.newPage();
    // The export names scripts of its own on the web: they are refused at once, as without a network.
    await page.route(/^https?:/, (route) => route.abort());
    await page.goto(`file://${join(folder, "elsewhere.html")}`);
    await drawn(page, 2);
    await page.close();
    const quiet = await (await browser.newContext({ javaScriptEnabled: false })).newPage();
    await quiet.route(/^https?:/, (route) => route.abort());
    await quiet.goto(`file://${join(folder, "elsewhere.html")}`);
    expect(await quiet.locator('img[alt="second: a line that rises"]').evaluate((img) => (img as HTMLImageElement).naturalWidth)).toBe(300);
    await quiet.close();
  }, 120_000);
});
