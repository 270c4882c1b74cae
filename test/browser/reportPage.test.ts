import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { beforeAll, describe, expect, it } from "vitest";
import { paletteOf } from "../../lib/figure/theme.js";
import type { ReportPage } from "../../lib/door/page/reportPage.js";
import { open } from "./chromiumPage.js";
import { hillSchool } from "./hillSchool.js";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

let report: ReportPage;
let address: string;

beforeAll(async () => {
  ({ report, address } = await hillSchool());
});

describe("the report of hill-school, opened", () => {
  it("is small, says nothing on the console and asks for nothing", async () => {
    expect(Buffer.byteLength(report.html)).toBeLessThan(6_000_000);
    const { page, context, complaints, requests } = await open(address);
    await page.evaluate(() => window.scrollTo(0, document.body.scrollHeight));
    expect(complaints).toEqual([]);
    expect(requests).toEqual([]);
    await context.close();
  });

  it("shows text, numbers and stills within a second", async () => {
    const times: number[] = [];
    for (let k = 0; k < 3; k++) {
      const { page, context } = await open(address);
      times.push(await page.evaluate(async () => {
        // The second frame after the document is whole: everything in view has been drawn.
        await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
        const [navigation] = performance.getEntriesByType("navigation") as PerformanceNavigationTiming[];
        const paint = performance.getEntriesByName("first-contentful-paint")[0]?.startTime ?? Number.POSITIVE_INFINITY;
        return Math.max(paint, navigation.domContentLoadedEventEnd);
      }));
      await context.close();
    }
    expect(Math.min(...times)).toBeLessThan(1000);
  });

  it("has a still of every figure, each with all its traces", async () => {
    const { page, context } = await open(address);
    expect(report.figures.length).toBeGreaterThanOrEqual(16);
    const drawn = await page.evaluate(() =>
      [...document.querySelectorAll("figure[data-figure]")].map((figure) => {
        const still = figure.querySelector<SVGSVGElement>(".wide svg");
        const box = still?.getBoundingClientRect();
        const traces = [...(still?.querySelectorAll("g.trace") ?? [])];
        return { width: box?.width ?? 0, height: box?.height ?? 0, traces: traces.length, marks: still?.querySelectorAll("path, rect, line, text").length ?? 0 };
      }),
    );
    expect(drawn.length).toBe(report.figures.length);
    report.figures.forEach((figure, k) => {
      const cartesian = figure.data.filter((t) => t.visible !== false && ["scatter", "bar", "heatmap"].includes(t.type)).length;
      expect([figure.name, drawn[k].traces]).toEqual([figure.name, cartesian]);
      expect(drawn[k].marks).toBeGreaterThan(10);
      expect(drawn[k].width).toBeGreaterThan(600);
      expect(drawn[k].height).toBeGreaterThan(150);
    });
    await context.close();
  });

  for (const scheme of ["light", "dark"] as const) {
    it(`wears ${scheme}, stills too`, async () => {
      const { page, context } = await open(address, { colorScheme: scheme });
      const palette = paletteOf(scheme);
      const seen = await page.evaluate(() => ({
        body: getComputedStyle(document.body).backgroundColor,
        grounds: [...document.querySelectorAll(".wide svg > rect:first-of-type")].map((r) => getComputedStyle(r).fill),
        inks: [...document.querySelectorAll(".wide svg text")].map((t) => getComputedStyle(t).fill),
      }));
      const rgb = (hex: string): string => `rgb(${[1, 3, 5].map((k) => Number.parseInt(hex.slice(k, k + 2), 16)).join(", ")})`;
      expect(new Set(seen.grounds)).toEqual(new Set([rgb(palette.paper)]));
      expect(seen.inks).toContain(rgb(palette.ink));
      expect(seen.inks).not.toContain(rgb(paletteOf(scheme === "light" ? "dark" : "light").ink));
      const [r, g, b] = (seen.body.match(/\d+/g) ?? []).map(Number);
      expect(r + g + b > 384).toBe(scheme === "light");
      await context.close();
    });
  }

  for (const width of [360, 1280]) {
    it(`fits ${width} px without scrolling sideways, every disclosure open`, async () => {
      const { page, context } = await open(address, { viewport: { width, height: 800 } });
      await page.evaluate(() => { for (const d of document.querySelectorAll("details")) d.open = true; });
      const wide = await page.evaluate(() => ({
        page: document.documentElement.scrollWidth,
        // Text cut off at the side would hide outside an element that does not scroll.
        out: [...document.querySelectorAll("main p, main li, main h1, main h2, main h3, main h4, figcaption, summary")].filter((e) => e.getBoundingClientRect().right > innerWidth + 1 && e.closest(".scroll") === null).length,
        smallest: Math.min(...[...document.querySelectorAll(innerWidth < 560 ? ".narrow svg" : ".wide svg")].flatMap((svg) => [...svg.querySelectorAll("text")].map((t) => t.getBoundingClientRect().height)).filter((h) => h > 0)),
      }));
      expect(wide.page).toBeLessThanOrEqual(width);
      expect(wide.out).toBe(0);
      expect(wide.smallest).toBeGreaterThan(9);
      await context.close();
    });
  }

  for (const scheme of ["light", "dark"] as const) {
    it(`gives axe-core nothing serious to name (${scheme})`, async () => {
      const { page, context } = await open(address, { colorScheme: scheme });
      await page.evaluate(() => { for (const d of document.querySelectorAll("details")) d.open = true; });
      await page.evaluate(axe);
      const found = await page.evaluate(async () => {
        const { violations } = await (globalThis as unknown as { axe: { run(): Promise<{ violations: { id: string; impact: string; nodes: { html: string; failureSummary: string }[] }[] }> } }).axe.run();
        return violations.filter((v) => v.impact === "serious" || v.impact === "critical").map((v) => `${v.id}: ${v.nodes.slice(0, 3).map((n) => `${n.html.slice(0, 160)} ${n.failureSummary.slice(0, 200)}`).join(" | ")}`);
      });
      expect(found).toEqual([]);
      await context.close();
    });
  }

  it("has landmarks, headings in order, and for each figure its message and its numbers", async () => {
    const { page, context } = await open(address);
    const seen = await page.evaluate(() => ({
      landmarks: ["header", "main", "footer"].map((tag) => document.querySelectorAll(`body > ${tag}`).length),
      levels: [...document.querySelectorAll("h1, h2, h3, h4, h5, h6")].map((h) => Number(h.tagName[1])),
      figures: [...document.querySelectorAll("figure[data-figure]")].map((f) => ({
        caption: f.querySelector("figcaption")?.textContent ?? "",
        label: f.querySelector(".wide svg")?.getAttribute("aria-labelledby")?.split(" ").map((id) => document.getElementById(id)?.textContent ?? "") ?? [],
        rows: f.querySelectorAll("details tbody tr").length,
        heads: f.querySelectorAll("details th[scope=col]").length,
      })),
      ids: [...document.querySelectorAll("[id]")].map((e) => e.id),
      broken: [...document.querySelectorAll<HTMLAnchorElement>('a[href^="#"]')].filter((a) => document.getElementById(a.hash.slice(1)) === null).length,
    }));
    expect(seen.landmarks).toEqual([1, 1, 1]);
    expect(seen.levels[0]).toBe(1);
    expect(seen.levels.filter((l) => l === 1).length).toBe(1);
    for (const [k, level] of seen.levels.entries()) expect(level - (seen.levels[k - 1] ?? 1)).toBeLessThanOrEqual(1);
    seen.figures.forEach((f, k) => {
      expect(f.caption.length).toBeGreaterThan(20);
      expect(f.label.length).toBe(2);
      for (const label of f.label) expect(label.length).toBeGreaterThan(20);
      expect(f.rows).toBe(Math.min(400, report.figures[k].table.rows.length));
      expect(f.rows).toBeGreaterThan(0);
      expect(f.heads).toBe(report.figures[k].table.head.length);
    });
    expect(new Set(seen.ids).size).toBe(seen.ids.length);
    expect(seen.broken).toBe(0);
    await context.close();
  });

  it("moves nothing by itself", async () => {
    const { page, context } = await open(address, { reducedMotion: "reduce" });
    expect(await page.evaluate(() => [document.getAnimations().length, getComputedStyle(document.documentElement).scrollBehavior])).toEqual([0, "auto"]);
    await context.close();
  });

  it("prints to clean A4: stills, tables, no buttons", async () => {
    const { page, context } = await open(address, { colorScheme: "dark" });
    await page.emulateMedia({ media: "print" });
    const seen = await page.evaluate(() => ({
      buttons: [...document.querySelectorAll("button")].filter((b) => b.offsetParent !== null).length,
      stills: [...document.querySelectorAll<HTMLElement>(".still .wide")].filter((s) => s.offsetHeight > 100).length,
      grounds: [...new Set([...document.querySelectorAll(".wide svg > rect:first-of-type")].map((r) => getComputedStyle(r).fill))],
      paper: getComputedStyle(document.body).backgroundColor,
    }));
    expect(seen).toEqual({ buttons: 0, stills: report.figures.length, grounds: ["rgb(255, 255, 255)"], paper: "rgb(255, 255, 255)" });
    const pdf = await page.pdf({ preferCSSPageSize: true });
    const pages = pdf.toString("latin1").match(/\/Type\s*\/Page\b/g)?.length ?? 0;
    expect(pages).toBeGreaterThan(8);
    expect(pages).toBeLessThan(32);
    await context.close();
  });

  it("stands without scripts: stills are there and no button promises anything", async () => {
    const { page, context } = await open(address, { javaScriptEnabled: false });
    expect(await page.locator(".still .wide svg").count()).toBe(report.figures.length);
    expect(await page.locator("button:visible").count()).toBe(0);
    await context.close();
  });
});
