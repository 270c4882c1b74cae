import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { type Browser, type BrowserContext, type BrowserContextOptions, chromium, type Page } from "playwright-core";
import { findChromium } from "../../lib/door/page/chromium.js";

let shared: Browser | undefined;

/** The one Chromium of all browser tests; it ends with the test process. */
export async function browser(): Promise<Browser> {
  if (shared === undefined) {
    const executablePath = await findChromium();
    if (executablePath === null) throw new Error("the browser tests need a Chromium: install one, or name it in AIRTIDES_CHROMIUM");
    shared = await chromium.launch({ executablePath, args: ["--no-sandbox"] });
    process.once("beforeExit", () => void shared?.close());
  }
  return shared;
}

/** A page that is open, with everything it complained of and everything it asked for. */
export interface Opened {
  readonly page: Page;
  readonly context: BrowserContext;
  /** Console errors, warnings and uncaught errors. */
  readonly complaints: string[];
  /** Addresses asked for besides the page itself. */
  readonly requests: string[];
}

const folder = mkdtempSync(join(tmpdir(), "airtides-browser-"));

/** Writes a page to a file of its own and gives its address. */
export function pageAddress(name: string, html: string): string {
  const path = join(folder, name);
  writeFileSync(path, html);
  return pathToFileURL(path).href;
}

/** Opens an address in a context of its own. */
export async function open(address: string, options: BrowserContextOptions = {}): Promise<Opened> {
  const context = await (await browser()).newContext({ viewport: { width: 1280, height: 900 }, ...options });
  const page = await context.newPage();
  const complaints: string[] = [];
  const requests: string[] = [];
  page.on("console", (message) => {
    if (message.type() === "error" || message.type() === "warning") complaints.push(message.text());
  });
  page.on("pageerror", (error) => complaints.push(error.message));
  page.on("request", (request) => {
    if (request.url().split("#")[0] !== address && !request.url().startsWith("data:")) requests.push(request.url());
  });
  await page.goto(address);
  return { page, context, complaints, requests };
}
