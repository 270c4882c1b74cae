import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { ReportPage } from "../../lib/door/page/reportPage.js";
import { type Opened, open } from "./chromiumPage.js";
import { hillSchool } from "./hillSchool.js";

/** What the drawing library keeps of a drawn figure. */
interface Drawn extends HTMLElement {
  readonly _fullLayout: Record<string, { range?: unknown[]; type?: string; title?: { text: string }; tickvals?: unknown[]; _offset: number; _length: number }>;
  readonly _fullData: { name: string; type: string; visible: boolean | string }[];
}

/** Whether a figure has buttons and a bar that a still leaves out. */
const isForHands = (figure: ReportPage["figures"][number]): boolean => figure.layout.updatemenus !== undefined;

let report: ReportPage;
let address: string;
let opened: Opened;

beforeAll(async () => {
  ({ report, address } = await hillSchool());
  opened = await open(address);
});

afterAll(() => opened.context.close());

describe("a touched figure", () => {
  it("unpacks the library only when touched, by keyboard too, and takes its still's place without a jump", async () => {
    const { page } = opened;
    expect(await page.evaluate(() => "Plotly" in window)).toBe(false);
    const figure = page.locator("figure[data-figure]").first();
    const place = (): Promise<number[]> => page.evaluate(() => [...document.querySelectorAll("figure, figcaption, h2")].map((e) => Math.round(e.getBoundingClientRect().top + scrollY)));
    const before = await place();
    await figure.locator("button").focus();
    await page.keyboard.press("Enter");
    await figure.locator(".room .main-svg").first().waitFor({ timeout: 120_000 });
    await page.waitForFunction(() => document.querySelector("figure[data-figure]")?.getAttribute("data-drawn") === "yes");
    expect(await place()).toEqual(before);
    expect(await figure.locator(".still").isVisible()).toBe(false);
    expect(await page.evaluate(() => document.activeElement?.className)).toContain("room");
  });

  it("by a click on the still, each of them, without a word on the console or a request", async () => {
    const { page } = opened;
    const figures = page.locator("figure[data-figure]");
    for (let k = 1; k < report.figures.length; k++) {
      await figures.nth(k).locator(".still").click({ position: { x: 40, y: 40 } });
      await page.waitForFunction((n) => document.querySelectorAll("figure[data-figure]")[n].getAttribute("data-drawn") === "yes", k, { timeout: 120_000 });
    }
    expect(opened.complaints).toEqual([]);
    expect(opened.requests).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(1280);
    // No button may send a reader's record anywhere.
    const buttons = await page.evaluate(() => [...new Set([...document.querySelectorAll<HTMLElement>(".modebar-btn")].map((b) => b.dataset.title ?? ""))]);
    expect(buttons).toContain("Download plot as a PNG");
    expect(buttons.filter((b) => /share|cloud|edit|send|upload/i.test(b))).toEqual([]);
  });

  it("agrees with its still and its description: ranges, traces, labels", async () => {
    const { page } = opened;
    const seen = await page.evaluate(() =>
      [...document.querySelectorAll("figure[data-figure]")].map((figure) => {
        const room = figure.querySelector(".room") as unknown as Drawn;
        const axes = Object.entries(room._fullLayout).filter(([key]) => /^[xy]axis\d*$/.test(key));
        const words = (part: Element): string[] => [...part.querySelectorAll("text")].map((t) => (t.textContent ?? "").replace(/\s+/g, "")).filter((t) => t !== "");
        // Hidden words (a hover box, measuring marks) are no labels.
        const shown = words(room.querySelector(".main-svg") as Element).concat(...[...room.querySelectorAll(".main-svg")].slice(1).map(words));
        const still = figure.querySelector(".wide svg") as SVGSVGElement;
        return {
          axes: axes.map(([key, axis]) => ({ key, type: axis.type, range: axis.range, title: axis.title?.text ?? "" })),
          traces: room._fullData.map((t) => `${t.type} ${t.name}`),
          drawnTraces: room.querySelectorAll(".trace, .hm, .barlayer .trace").length,
          shown,
          still: words(still),
        };
      }),
    );
    report.figures.forEach((figure, k) => {
      const { axes, traces, shown, still, drawnTraces } = seen[k];
      const layout = figure.layout as unknown as Record<string, { range: unknown[]; type: string; title?: { text: string } }>;
      expect(traces, figure.name).toEqual(figure.data.map((t) => `${t.type} ${t.name}`));
      expect(drawnTraces, figure.name).toBeGreaterThan(0);
      for (const axis of axes) {
        const told = layout[axis.key];
        if (told === undefined) continue;
        expect(axis.type, `${figure.name} ${axis.key}`).toBe(told.type);
        const number = (v: unknown): number => (axis.type === "date" ? Date.parse(`${String(v).replace(" ", "T").padEnd(10, "-01")}${String(v).length > 10 ? "" : "T00:00"}Z`) : Number(v));
        for (const [i, end] of (axis.range ?? []).entries()) expect(Math.abs(number(end) - number(told.range[i])), `${figure.name} ${axis.key} range`).toBeLessThanOrEqual(1e-6 * Math.max(1, Math.abs(number(end))));
        expect(axis.title, `${figure.name} ${axis.key}`).toBe(told.title?.text ?? axis.title);
      }
      // What one can move about in chooses its ticks by the zoom, and its buttons are for a hand: only its own words are compared.
      if (isForHands(figure)) {
        const own = figure.layout.annotations.map((note) => note.text.replace(/<[^>]*>/g, "").replace(/&amp;/g, "&").replace(/\s+/g, ""));
        expect(own.length).toBeGreaterThan(3);
        for (const word of own) expect([still.includes(word), shown.includes(word), word]).toEqual([true, true, word]);
      } else expect([...still].sort(), `${figure.name}: words of the still and of the interactive figure`).toEqual([...shown].sort());
      expect(still.length, figure.name).toBeGreaterThan(5);
    });
  });

  it("stands to the pixel where its still stood, where both are as wide", async () => {
    // 760 px is the width that wide stills are drawn for: 800 less the page's margins.
    const { page, context } = await open(address, { viewport: { width: 800, height: 900 } });
    const figures = page.locator("figure[data-figure]");
    for (let k = 0; k < report.figures.length; k++) {
      await figures.nth(k).locator("button").click();
      await page.waitForFunction((n) => document.querySelectorAll("figure[data-figure]")[n].getAttribute("data-drawn") === "yes", k, { timeout: 120_000 });
    }
    const seen = await page.evaluate(() =>
      [...document.querySelectorAll("figure[data-figure]")].map((figure) => {
        const room = figure.querySelector(".room") as unknown as Drawn;
        const layout = room._fullLayout as unknown as Record<string, { _offset: number; _length: number }> & { _plots?: Record<string, { xaxis: { _offset: number; _length: number }; yaxis: { _offset: number; _length: number } }> };
        const boxes = Object.values(layout._plots ?? {}).map(({ xaxis: x, yaxis: y }) => [x._offset, y._offset, x._length, y._length].map(Math.round));
        const panels = [...figure.querySelectorAll(".wide clipPath rect")].map((r) => ["x", "y", "width", "height"].map((a) => Math.round(Number(r.getAttribute(a)))));
        return { width: room.clientWidth, boxes, panels };
      }),
    );
    seen.forEach(({ width, boxes, panels }, k) => {
      expect(width).toBe(760);
      // The drawing library makes room for a color bar by itself, some pixels more than it was given.
      const slack = report.figures[k].data.some((t) => t.type === "heatmap" && t.showscale) ? 16 : 1;
      if (!isForHands(report.figures[k])) for (const box of boxes) expect(panels.some((panel) => panel.every((v, i) => Math.abs(v - box[i]) <= slack)), `${report.figures[k].name}: ${box} among ${panels.join(" · ")}`).toBe(true);
    });
    expect(seen.flatMap((s) => s.boxes).length).toBeGreaterThan(20);
    await context.close();
  });

  it("turns dark with the page", async () => {
    const { page } = opened;
    await page.emulateMedia({ colorScheme: "dark" });
    await page.waitForFunction(() => (document.querySelector(".room .main-svg") as SVGElement).style.background.includes("20, 24, 28"), undefined, { timeout: 30_000 });
    const grounds = await page.evaluate(() => [...document.querySelectorAll(".room .main-svg:first-child")].map((svg) => (svg as SVGElement).style.background.replace(/ none.*/, "")));
    expect(new Set(grounds)).toEqual(new Set(["rgb(20, 24, 28)"]));
    await page.emulateMedia({ colorScheme: "light" });
  });

  it("gives paper its still again", async () => {
    const { page } = opened;
    await page.emulateMedia({ media: "print" });
    expect(await page.locator(".still .wide:visible").count()).toBe(report.figures.length);
    expect(await page.locator(".room:visible").count()).toBe(0);
  });
});

describe("the page's policy", () => {
  it("runs its own scripts only", async () => {
    const { page, context, complaints } = await open(address);
    const ran = await page.evaluate(() => {
      const script = document.createElement("script");
      script.textContent = "window.strange = 1";
      document.head.append(script);
      const image = document.createElement("img");
      image.setAttribute("onerror", "window.strange = 2");
      image.src = "data:image/png;base64,xx";
      document.body.append(image);
      return "strange" in window;
    });
    await page.waitForTimeout(200);
    expect(ran).toBe(false);
    expect(await page.evaluate(() => "strange" in window)).toBe(false);
    expect(complaints.some((c) => /Content Security Policy/.test(c))).toBe(true);
    const policy = await page.evaluate(() => document.querySelector('meta[http-equiv="Content-Security-Policy"]')?.getAttribute("content") ?? "");
    expect(policy).toContain("default-src 'none'");
    expect(policy).not.toMatch(/script-src[^;]*unsafe/);
    await context.close();
  });
});
