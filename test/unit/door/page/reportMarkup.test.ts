import { chmodSync, mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { findChromium, printedPage } from "../../../../lib/door/page/chromium.js";
import { descriptionHtml } from "../../../../lib/door/page/leftOutHtml.js";
import { closed, foldedTableHtml, listHtml, ownWords, sentenceHtml, tableHtml } from "../../../../lib/door/page/reportMarkup.js";
import { darkStillRules, themed } from "../../../../lib/door/page/themedFigure.js";
import { figure } from "../../../../lib/figure/figure.js";
import { axisOf, baseLayout } from "../../../../lib/figure/sheet.js";
import { paletteOf } from "../../../../lib/figure/theme.js";
import { fixedScale } from "../../../../lib/figure/tickScale.js";

describe("markup of the report", () => {
  it("lets no text out of its place", () => {
    expect(ownWords('<i>"Loft"\u202e\u200f')).toBe("<bdi>&lt;i&gt;&quot;Loft&quot;</bdi>");
    expect(sentenceHtml("a < b & 'c'\u0007\ud800")).toBe("a &lt; b &amp; &#39;c&#39;\ufffd\ufffd");
    expect(listHtml(["one <b>", "two!"])).toBe("<ul><li>One &lt;b&gt;.</li><li>Two!</li></ul>");
    expect(listHtml([])).toBe("");
    expect(descriptionHtml('{"title":"</pre>\u202e"}')).toBe('<pre class="description"><code>{&quot;title&quot;:&quot;&lt;/pre&gt;\\u202e&quot;}</code></pre>');
  });

  it("keeps numbers with their errors and units on one line", () => {
    expect(sentenceHtml("1.08 ± 0.02 hPa at 5 min, 31 ± 10 % of it")).toBe("1.08\u00a0±\u00a00.02\u00a0hPa at 5\u00a0min, 31\u00a0±\u00a010\u00a0% of it");
    expect(sentenceHtml("3 more")).toBe("3 more");
  });

  it("closes sentences once", () => {
    expect([closed("it is"), closed("Is it?"), closed("so:")]).toEqual(["It is.", "Is it?", "So:"]);
  });

  it("heads rows and columns, sets numbers to the right, folds long tables away", () => {
    const table = { caption: "c", head: ["", "n", "what"], rows: [["a", "1.5 ± 0.2 hPa", "<x>"], ["b", null, "y"]] };
    const html = tableHtml(table);
    expect(html).toContain('<th scope="row">a</th><td class="number">1.5\u00a0±\u00a00.2\u00a0hPa</td><td>&lt;x&gt;</td>');
    expect(html).toContain('<td class="number">–</td>');
    expect(html).toContain('<th scope="col"><span class="unseen">Row</span></th>');
    const long = { ...table, rows: Array.from({ length: 13 }, () => ["a", 1, "x"]) };
    expect(foldedTableHtml(long)).toMatch(/^<details class="long printed"><summary>c<\/summary>/);
    expect(foldedTableHtml({ ...long, isForScreen: true })).toMatch(/^<details class="long"><summary>/);
    expect(foldedTableHtml({ ...long, isOpen: true })).not.toContain("<details");
    expect(foldedTableHtml(table)).not.toContain("<details");
  });
});

describe("figures in two themes", () => {
  it("set every color of the light one beside the dark one's, cells of heat maps too", () => {
    const made = themed((theme) => {
      const palette = paletteOf(theme);
      return figure({
        name: "f",
        data: [{ type: "heatmap", name: "h", x: [0, 1], y: [0], z: [[0, 1]], zmin: 0, zmax: 1, colorscale: [[0, palette.paper], [1, theme === "light" ? "#112233" : "#aabbcc"]], showscale: false, xgap: 0, ygap: 0 }],
        layout: { ...baseLayout(palette), xaxis: axisOf(fixedScale([-0.5, 1.5], 2), palette, { anchor: "y" }), yaxis: axisOf(fixedScale([-0.5, 0.5], 2), palette, { anchor: "x" }), shapes: [{ type: "rect", xref: "paper", yref: "paper", x0: 0, x1: 1, y0: 0, y1: 1, fillcolor: palette.insideBand, line: { color: palette.inside, width: 0 }, layer: "below" }] },
        alt: "",
        message: "",
        table: { head: [], rows: [] },
      });
    });
    const [light, dark] = [paletteOf("light"), paletteOf("dark")];
    expect(made?.described).toContainEqual([light.insideBand, dark.insideBand]);
    expect(made?.drawn).toContainEqual([light.inside, dark.inside]);
    expect(made?.drawn).toContainEqual(["#112233", "#aabbcc"]);
    expect(darkStillRules("#f", [["#ffffff", "#000000"], ["#123456", "#123456"]])).toBe('#f [fill="#ffffff"]{fill:#000000}#f [stroke="#ffffff"]{stroke:#000000}');
    expect(themed(() => null)).toBe(null);
  });
});

describe("the browser that prints", () => {
  it("is the one that is named, or one on the path, or none", async () => {
    const folder = mkdtempSync(join(tmpdir(), "airtides-path-"));
    const program = join(folder, "chromium");
    writeFileSync(program, "#!/bin/sh\necho no such luck >&2\n");
    expect(await findChromium({ AIRTIDES_CHROMIUM: program })).toBe(null);
    chmodSync(program, 0o755);
    expect(await findChromium({ AIRTIDES_CHROMIUM: program })).toBe(program);
    expect(await findChromium({ PATH: `/nowhere:${folder}` })).toBe(program);
    expect(await findChromium({ AIRTIDES_CHROMIUM: "/nowhere/browser", PATH: folder })).toBe(null);
    await expect(printedPage(program, "page.html")).rejects.toThrow(`${program} wrote nothing: no such luck`);
  });
});
