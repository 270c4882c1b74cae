import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type ReportPage, reportPage } from "../../lib/door/page/reportPage.js";
import { readRecord } from "../../lib/record/readRecord.js";
import { type Opened, open, pageAddress } from "./chromiumPage.js";

/** Every way of breaking out that we know, and a mark that turns a line around. */
const evil = (where: string): string => `</script><script>window.planted="${where}"</script><img src=x onerror='window.planted="${where}"'>"'><b>&lt;</b>%{x}\u202e\u200f${where}`;
const overrides = /[\u202a-\u202e\u2066-\u2069\u200e\u200f\u061c]/;

const file = `card </title><script>window.planted='file'<!--`;

/** Forty days of two places; some cells and lines hold markup instead of numbers. */
function card(): string {
  const lines = [`at,who,t,rh,p,${evil("header").replace(/[",\n]/g, "")}`];
  for (let k = 0; k < 40 * 48; k++) {
    const at = new Date(Date.UTC(2024, 2, 1) + k * 1_800_000).toISOString().slice(0, 19);
    for (const who of ["o", "i"]) {
      const day = Math.cos((2 * Math.PI * (k - (who === "o" ? 30 : 36))) / 48);
      const noise = Math.sin(k * 12.9898 + (who === "o" ? 0 : 5)) * 0.3;
      const t = (who === "o" ? 15 + 5 * day : 20 + 2 * day) + noise;
      const p = 930 + 3 * Math.sin(k / 150) + 0.8 * Math.cos((4 * Math.PI * (k - 20)) / 48) + 0.05 * noise;
      lines.push(`${at},${who},${t.toFixed(2)},${(60 - 10 * day + noise).toFixed(1)},${p.toFixed(2)},x`);
    }
    if (k % 300 === 7) lines.push(`${at},o,${evil("cell").replace(/[",\n]/g, "")},50,930,x`, `${evil("stamp").replace(/[",\n]/g, "")},o,1,2,3,x`);
  }
  return `${lines.join("\n")}\n`;
}

const description = {
  name: "planted",
  title: evil("title"),
  description: evil("description"),
  site: { latitude: 47, longitude: 11, elevation: 700 },
  places: { out: { title: evil("outside"), exposure: "outdoor" }, in: { title: evil("inside"), exposure: "indoor" } },
  events: [
    { at: "2024-03-20", title: evil("event") },
    { from: "2024-03-02", to: "2024-03-04", kind: "co-location", title: evil("together") },
  ],
  resources: [
    {
      name: "card",
      type: "table",
      path: [file],
      schema: {
        fieldsMatch: "subset",
        fields: [
          { name: "at", type: "datetime", zone: "Z" },
          { name: "who", type: "string", role: "place", values: { o: "out", i: "in" } },
          { name: "t", type: "number", quantity: "air_temperature", unit: "degC" },
          { name: "rh", type: "number", quantity: "relative_humidity", unit: "%" },
          { name: "p", type: "number", quantity: "surface_air_pressure", unit: "hPa" },
        ],
      },
    },
  ],
};

let report: ReportPage;
let opened: Opened;

beforeAll(async () => {
  const record = await readRecord(description, async function* () {
    yield new TextEncoder().encode(card());
  });
  report = reportPage(record, { description: JSON.stringify(description, null, 1) });
  opened = await open(pageAddress("planted.html", report.html));
});

afterAll(() => opened.context.close());

describe("markup planted in every text of a record", () => {
  it("runs nowhere and makes no element", async () => {
    const { page, complaints, requests } = opened;
    expect(complaints).toEqual([]);
    expect(requests).toEqual([]);
    const seen = await page.evaluate(() => ({ planted: (window as unknown as { planted?: string }).planted ?? null, images: document.images.length, bold: document.querySelectorAll("b").length, scripts: [...document.scripts].map((s) => s.type) }));
    expect(seen).toMatchObject({ planted: null, images: 0, bold: 0 });
    expect(seen.scripts.filter((type) => type === "").length).toBe(1);
  });

  it("is shown as it was written, where each text belongs", async () => {
    const { page } = opened;
    const text = (await page.evaluate(() => document.body.textContent)) ?? "";
    for (const where of ["title", "outside", "inside", "event", "together"]) expect(text).toContain(`<script>window.planted="${where}"</script>`);
    expect(await page.title()).toContain('<script>window.planted="title"');
    expect(await page.locator("h1").textContent()).toContain("</script><script>");
    expect(text).toContain(file);
    // The rejected cell is quoted in its reason.
    expect(text).toMatch(/t is not a number \(got "<\/script><script>window/);
    expect(await page.locator("pre.description").textContent()).toContain("\\\\u202e".slice(1));
  });

  it("turns no text around", async () => {
    const { page } = opened;
    const texts = await page.evaluate(() => {
      const found: string[] = [document.title];
      const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
      while (walker.nextNode()) if (walker.currentNode.parentElement?.tagName !== "SCRIPT") found.push(walker.currentNode.textContent ?? "");
      return found;
    });
    expect(texts.filter((t) => overrides.test(t))).toEqual([]);
  });

  it("does not run in touched figures either", async () => {
    const { page, complaints, requests } = opened;
    const figures = page.locator("figure[data-figure]");
    const count = await figures.count();
    expect(count).toBeGreaterThan(10);
    for (let k = 0; k < count; k++) {
      await figures.nth(k).locator("button").click();
      await page.waitForFunction((n) => document.querySelectorAll("figure[data-figure]")[n].getAttribute("data-drawn") === "yes", k, { timeout: 120_000 });
      const box = await figures.nth(k).locator(".room").boundingBox();
      if (box !== null) await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    }
    await page.waitForTimeout(300);
    expect(await page.evaluate(() => (window as unknown as { planted?: string }).planted ?? null)).toBe(null);
    expect(await page.evaluate(() => [...document.querySelectorAll(".room image, .room img, .room a[href]:not([data-title]), .room script")].map((e) => e.outerHTML.slice(0, 120)).filter((e) => /planted|onerror/.test(e)))).toEqual([]);
    expect(complaints).toEqual([]);
    expect(requests).toEqual([]);
    const words = await page.evaluate(() => [...document.querySelectorAll(".room text")].map((t) => t.textContent ?? ""));
    expect(words.filter((w) => overrides.test(w))).toEqual([]);
    expect(words.some((w) => w.includes("<script>"))).toBe(true);
  });
});
