import { spawn } from "node:child_process";
import { constants } from "node:fs";
import { access, mkdtemp, readFile, rm, stat } from "node:fs/promises";
import { tmpdir } from "node:os";
import { delimiter, join, resolve } from "node:path";
import { pathToFileURL } from "node:url";

/** Names under which the browser is installed, on the search path and elsewhere. */
const names: readonly string[] = ["chromium", "chromium-browser", "google-chrome-stable", "google-chrome", "chrome", "microsoft-edge", "msedge"];
const elsewhere: readonly string[] = [
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge",
  "C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe",
  "C:\\Program Files (x86)\\Google\\Chrome\\Application\\chrome.exe",
  "C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe",
];
/** Longest time for one page · ms. */
const patience = 90_000;

/** One sentence for a machine without the browser. */
export const noChromium = "no Chromium or Chrome was found (AIRTIDES_CHROMIUM can name one); the page itself prints cleanly from any browser";

/**
 * The path of an installed Chromium or Chrome, or null.
 *
 * @param environment AIRTIDES_CHROMIUM names one, PATH is searched; default that of this process
 */
export async function findChromium(environment: Readonly<Record<string, string | undefined>> = process.env): Promise<string | null> {
  const named = environment.AIRTIDES_CHROMIUM;
  // Someone who names a browser means that one and no other.
  if (named !== undefined && named !== "") return (await isProgram(named)) ? named : null;
  const folders = (environment.PATH ?? "").split(delimiter).filter((f) => f !== "");
  const endings = process.platform === "win32" ? [".exe"] : [""];
  for (const name of names) for (const folder of folders) for (const ending of endings) if (await isProgram(join(folder, name + ending))) return join(folder, name + ending);
  for (const path of elsewhere) if (await isProgram(path)) return path;
  return null;
}

async function isProgram(path: string): Promise<boolean> {
  return access(path, constants.X_OK).then(() => stat(path)).then((s) => s.isFile(), () => false);
}

/**
 * Prints a page of this machine as PDF.
 *
 * @param chromium from `findChromium`
 * @param page     path of an html file
 * @returns        the PDF's bytes
 * @throws Error   when the browser fails or takes too long
 */
export async function printedPage(chromium: string, page: string): Promise<Uint8Array> {
  return made(chromium, "page.pdf", (target) => ["--no-pdf-header-footer", `--print-to-pdf=${target}`, pathToFileURL(resolve(page)).href]);
}

/**
 * Draws an SVG text as PNG, twice as fine as its pixels.
 *
 * @param chromium from `findChromium`
 * @param picture  path of an SVG file
 * @param size     px
 * @returns        the PNG's bytes
 * @throws Error   when the browser fails or takes too long
 */
export async function photographedPicture(chromium: string, picture: string, size: { readonly width: number; readonly height: number }): Promise<Uint8Array> {
  return made(chromium, "picture.png", (target) => ["--hide-scrollbars", "--force-device-scale-factor=2", `--window-size=${size.width},${size.height}`, `--screenshot=${target}`, pathToFileURL(resolve(picture)).href]);
}

/** Runs the browser once, in a folder of its own that goes away again. */
async function made(chromium: string, name: string, task: (target: string) => string[]): Promise<Uint8Array> {
  const folder = await mkdtemp(join(tmpdir(), "airtides-"));
  try {
    const target = join(folder, name);
    // A browser run by root, as in a container, refuses to start inside its sandbox; it only ever sees our own page.
    const root = process.getuid?.() === 0 ? ["--no-sandbox"] : [];
    const words = ["--headless", "--disable-gpu", "--no-first-run", "--disable-extensions", "--disable-background-networking", `--user-data-dir=${join(folder, "profile")}`, ...root, ...task(target)];
    const trouble = await run(chromium, words);
    try {
      return await readFile(target);
    } catch {
      throw new Error(`${chromium} wrote nothing${trouble === "" ? "" : `: ${trouble}`}`);
    }
  } finally {
    await rm(folder, { recursive: true, force: true, maxRetries: 5 });
  }
}

/** Waits for a program's end; gives the last line of its complaints. */
function run(program: string, words: readonly string[]): Promise<string> {
  return new Promise((done, fail) => {
    const child = spawn(program, words, { stdio: ["ignore", "ignore", "pipe"] });
    let complaints = "";
    const clock = setTimeout(() => child.kill("SIGKILL"), patience);
    child.stderr.on("data", (chunk: Buffer) => {
      complaints = (complaints + chunk.toString("utf8")).slice(-2000);
    });
    child.on("error", (error) => {
      clearTimeout(clock);
      fail(error);
    });
    child.on("close", (_code, signal) => {
      clearTimeout(clock);
      if (signal === "SIGKILL") fail(new Error(`${program} did not finish within ${patience / 1000} s`));
      else done(complaints.trim().split("\n").at(-1) ?? "");
    });
  });
}
