import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { type Browser, chromium, type Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { freshFolder, notebooks } from "./runNotebooks.js";

const out = freshFolder();
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
let browser: Browser;

beforeAll(async () => {
  notebooks(["everything", "stops", "record"], "datasets/hill-school", "--out", out);
  browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: ["--no-sandbox"] });
});
afterAll(() => browser?.close());

/** Opens a page and notes everything that it complains of or asks the network for. */
async function opened(name: string, width: number, colorScheme: "light" | "dark"): Promise<{ page: Page; complaints: string[] }> {
  const context = await browser.newContext({ viewport: { width, height: 900 }, colorScheme, offline: true });
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on("console", (message) => void complaints.push(`${message.type()}: ${message.text()}`));
  page.on("pageerror", (error) => void complaints.push(`error: ${error.message}`));
  page.on("request", (request) => void (/^(file|data|blob):/.test(request.url()) || complaints.push(`request: ${request.url()}`)));
  await page.goto(pathToFileURL(join(out, name)).href);
  return { page, complaints };
}

const pages = ["everything.html", "stops.html", "record.html", "index.html"];
const looks = [1280, 360].flatMap((width) => (["light", "dark"] as const).map((scheme) => [width, scheme] as const));

describe.each(pages)("%s", (name) => {
  it.each(looks)("at %i px, %s: nothing to complain of, nothing beyond the sides, no fault that axe knows", async (width, scheme) => {
    const { page, complaints } = await opened(name, width, scheme);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(width);
    await page.evaluate(axe);
    const faults = await page.evaluate(async () => {
      const found = await (window as any).axe.run(document, { resultTypes: ["violations"] });
      return found.violations.map((v: any) => `${v.id}: ${v.nodes.map((n: any) => n.html.slice(0, 120)).join(" | ")}`);
    });
    expect(faults).toEqual([]);
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});

describe("a figure", () => {
  it.each(looks)("at %i px, %s: a still at first; touched, it is drawn in the page's colors by the library it carries", async (width, scheme) => {
    const { page, complaints } = await opened("everything.html", width, scheme);
    const figure = page.locator("[data-figure]").first();
    const still = figure.locator(`.still .${width < 500 ? "narrow" : "wide"} svg`);
    expect(await still.isVisible()).toBe(true);
    expect(await page.evaluate(() => "Plotly" in window)).toBe(false);
    const before = await figure.boundingBox();
    await figure.locator("button").click();
    await figure.locator(".main-svg").first().waitFor({ timeout: 60_000 });
    await page.waitForFunction(() => document.querySelector("[data-drawn]") !== null);
    expect(await still.isVisible()).toBe(false);
    const after = await figure.boundingBox();
    expect(Math.abs((after?.height ?? 0) - (before?.height ?? 0))).toBeLessThan(3);
    const line = await figure.locator(".scatterlayer .js-line").first().evaluate((e) => getComputedStyle(e).stroke);
    // The theme's colors of what was logged outside (lib/figure/theme.ts).
    expect(line).toBe(scheme === "light" ? "rgb(0, 114, 178)" : "rgb(86, 180, 233)");
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(width);
    // The second one needs no second unpacking.
    await page.locator("[data-figure]").nth(1).locator("button").click();
    await page.waitForFunction(() => document.querySelectorAll("[data-drawn]").length === 2);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it("follows when the reader turns the page dark", async () => {
    const { page } = await opened("everything.html", 1280, "light");
    const figure = page.locator("[data-figure]").first();
    await figure.locator("button").click();
    await page.waitForFunction(() => document.querySelector("[data-drawn]") !== null);
    await page.emulateMedia({ colorScheme: "dark" });
    await page.waitForFunction(() => getComputedStyle(document.querySelector(".js-line") as Element).stroke === "rgb(86, 180, 233)");
    await page.context().close();
  });
});

describe("the page's policy", () => {
  it("runs no script that is not the page's own", async () => {
    const { page, complaints } = await opened("record.html", 1280, "light");
    await page.evaluate(() => {
      const script = document.createElement("script");
      script.textContent = "window.ran = true";
      document.head.append(script);
      document.body.insertAdjacentHTML("beforeend", "<p onclick=\"window.ran = true\" id=\"click\">x</p>");
      document.getElementById("click")?.click();
    });
    expect(await page.evaluate(() => "ran" in window)).toBe(false);
    expect(complaints.length).toBeGreaterThan(0);
    await page.context().close();
  });
});

describe("reading", () => {
  it("an answer shows itself when asked; a link leads to the next page; code can be scrolled by keyboard", async () => {
    const { page } = await opened("everything.html", 360, "light");
    const answer = page.locator("details.solution");
    expect(await answer.locator("math").isVisible()).toBe(false);
    await answer.locator("summary").click();
    expect(await answer.locator("math").isVisible()).toBe(true);
    const unreachable = await page.evaluate(() => [...document.querySelectorAll("pre, .scroll, .formula")].filter((e) => e.scrollWidth > e.clientWidth + 1 && (e as HTMLElement).tabIndex !== 0).length);
    expect(unreachable).toBe(0);
    await page.locator('a[rel="next"]').click();
    expect(await page.title()).toBe("The one that stops");
    await page.locator("header a").click();
    expect(await page.title()).toBe("Notebooks on the air at home");
    await page.context().close();
  });

  it("on A4 nothing is cut off at the side and dark pages are printed light", async () => {
    const { page } = await opened("everything.html", 794, "dark");
    await page.emulateMedia({ media: "print", colorScheme: "dark" });
    const measured = await page.evaluate(() => ({
      cut: [...document.querySelectorAll("pre, .scroll")].filter((e) => e.scrollWidth > e.clientWidth + 1 && getComputedStyle(e).overflowX !== "visible").length,
      paper: getComputedStyle(document.body).backgroundColor,
    }));
    expect(measured).toEqual({ cut: 0, paper: "rgb(255, 255, 255)" });
    expect((await page.pdf({ format: "A4", preferCSSPageSize: true })).length).toBeGreaterThan(10_000);
    await page.context().close();
  });
});
