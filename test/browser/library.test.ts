import { join } from "node:path";
import { build } from "esbuild";
import { describe, expect, it } from "vitest";
import { openRecord } from "../../lib/door/disk/openRecord.js";
import { root } from "../laws/sources.js";
import { readmeBlocks } from "../readmeBlocks.js";
import { open, pageAddress } from "./chromiumPage.js";

/** One script for a page, with everything it needs, as the installed package gives it (dist/). */
async function bundled(code: string): Promise<string> {
  const { outputFiles } = await build({ stdin: { contents: code, resolveDir: root, loader: "js" }, bundle: true, minify: true, write: false, format: "esm", platform: "browser", logLevel: "silent" });
  return outputFiles[0].text;
}

/** Hourly readings of hill-school's veranda as someone would paste them, in the words of README.md's page. */
async function pastedLog(): Promise<string> {
  const { start, seconds, values } = (await openRecord(join(root, "datasets", "hill-school"))).places.veranda.series.surface_air_pressure!;
  const lines: string[] = [];
  for (let i = 0; i < values.length; i += 12) {
    const civil = new Date(start + 1000 * seconds[i] + 7 * 3_600_000).toISOString().slice(0, 16).replace("T", " ");
    lines.push(`${civil},${Number.isNaN(values[i]) ? "" : values[i].toFixed(2)}`);
  }
  return `${lines.join("\n")}\n`;
}

describe("the library in a page", () => {
  it("README's page fits the tide of a pasted log", async () => {
    const { page: block } = readmeBlocks();
    const script = /<script type="module">([\s\S]*?)<\/script>/.exec(block)?.[1] ?? "";
    const made = (await bundled(script)).replaceAll("</script", "<\\/script");
    const html = `<!doctype html><meta charset="utf-8"><title>A pasted log</title>${block.replace(/<script[\s\S]*<\/script>/, () => `<script type="module">${made}</script>`)}`;
    const { page, context, complaints, requests } = await open(pageAddress("library.html", html));
    await page.fill("#log", await pastedLog());
    await page.click("#fit");
    await page.waitForFunction(() => document.getElementById("told")?.textContent !== "");
    const told = (await page.textContent("#told")) ?? "";
    const [, low, high] = (/twice a day [\d.]+ hPa \(([\d.]+) to ([\d.]+)\)/.exec(told) ?? []).map(Number);
    // Planted in hill-school (datasets/hill-school/truth.json).
    expect(low <= 1.08 && 1.08 <= high, told).toBe(true);
    expect(high - low).toBeLessThan(0.2);
    expect(complaints).toEqual([]);
    expect(requests).toEqual([]);
    await context.close();
  });

  it("the dew point alone is a small script, from the whole library or from its room", async () => {
    const sizes = await Promise.all(["airtides", "airtides/air"].map(async (from) => Buffer.byteLength(await bundled(`import { dewPoint } from "${from}"; globalThis.dewPoint = dewPoint;`))));
    // Measured 5.5 kB, both.
    expect(Math.max(...sizes)).toBeLessThan(6000);
    // Nothing happens at import: a bundle of nothing used is nothing.
    expect(Buffer.byteLength(await bundled('import * as all from "airtides"; export const one = 1;'))).toBeLessThan(100);
  });

  it("every room goes into a page", async () => {
    for (const room of ["", "/air", "/record", "/grid", "/cycles", "/indoors", "/figure"]) expect((await bundled(`export * from "airtides${room}";`)).length, room).toBeGreaterThan(5000);
    await expect(bundled('export * from "airtides/disk";')).rejects.toThrow(/node:fs/);
  });
});
