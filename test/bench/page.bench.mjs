/**
 * How long a report takes to stand in a browser, against an empty page, by turns: from opening to the second frame, and from the first
 * touch of a figure until it is drawn.
 *
 * `node test/bench/page.bench.mjs [rounds]`; needs Debian's chromium. Nothing here is a test.
 */
import { existsSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { chromium } from "playwright-core";
import { airtides, median } from "./sideRun.mjs";

const rounds = Number(process.argv[2]) || 5;
const executablePath = "/usr/bin/chromium";

/** Opens a page; milliseconds from the start of the navigation to the second frame after loading, and what `then` measures. */
async function opened(browser, path, then = () => Number.NaN) {
  const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
  await page.goto(pathToFileURL(path).href, { waitUntil: "load" });
  const open = await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done(performance.now())))));
  const after = await then(page);
  await page.close();
  return { open, after };
}

/** Milliseconds from the first touch of a figure until it is drawn: the drawing library is unpacked and run in between. */
async function touched(page) {
  const figure = page.locator("figure[data-figure]").first();
  await figure.scrollIntoViewIfNeeded();
  const from = performance.now();
  await figure.locator("button").click();
  await page.waitForFunction(() => document.querySelector("figure[data-figure]")?.getAttribute("data-drawn") === "yes", undefined, { timeout: 120_000 });
  return performance.now() - from;
}

async function measured() {
  const folder = mkdtempSync(join(tmpdir(), "airtides-page-"));
  const browser = await chromium.launch({ executablePath, args: ["--no-sandbox"] });
  try {
    const empty = join(folder, "empty.html");
    writeFileSync(empty, '<!doctype html><html lang="en"><title>Empty</title><p>Nothing.</p></html>');
    airtides("report", "--quiet", "--out", folder, fileURLToPath(new URL("../../datasets/hill-school", import.meta.url)));
    const runs = { empty: [], report: [], touch: [] };
    for (let k = 0; k < rounds; k++) {
      runs.empty.push((await opened(browser, empty)).open);
      const { open, after } = await opened(browser, join(folder, "report.html"), touched);
      runs.report.push(open);
      runs.touch.push(after);
    }
    const [bare, page, touch] = [runs.empty, runs.report, runs.touch].map(median);
    console.log(`\nreport of hill-school in Chromium, medians of ${rounds} by turns: second frame after ${page.toFixed(0)} ms, ${(page / bare).toFixed(1)} × an empty page (${bare.toFixed(0)} ms); the first touched figure drawn after ${touch.toFixed(0)} ms`);
  } finally {
    await browser.close();
    rmSync(folder, { recursive: true });
  }
}

if (existsSync(executablePath)) await measured();
else console.log("drawing a page needs Debian's chromium: not measured");
