// Makes plotlySchema.json anew: `node test/unit/figure/makePlotlySchema.mjs /usr/bin/chromium`.
// Plotly tells its own schema only in a browser. What figures do not use is cut away, so that using it is a fault.
import { readFileSync, writeFileSync } from "node:fs";
import { chromium } from "playwright-core";

const root = new URL("../../..", import.meta.url);
const browser = await chromium.launch({ executablePath: process.argv[2] ?? "/usr/bin/chromium", args: ["--no-sandbox"] });
const page = await browser.newPage();
await page.addScriptTag({ path: new URL("node_modules/plotly.js-dist-min/plotly.min.js", root).pathname });
const schema = await page.evaluate(() => globalThis.Plotly.PlotSchema.get());
await browser.close();

const traces = ["scatter", "bar", "heatmap", "scatterpolar", "barpolar"];
const parts = ["annotations", "autosize", "bargap", "barmode", "dragmode", "font", "height", "hoverlabel", "hovermode", "hoversubplots", "margin", "paper_bgcolor", "plot_bgcolor", "polar", "shapes", "showlegend", "title", "updatemenus", "xaxis", "yaxis"];
const kept = new Set(["valType", "values", "flags", "extras", "min", "max", "items", "arrayOk", "freeLength", "dimensions", "regex", "role"]);
const isLeaf = (node) => typeof node === "object" && node !== null && typeof node.valType === "string";

function reduced(node) {
  if (Array.isArray(node)) return node.map(reduced);
  if (typeof node !== "object" || node === null) return node;
  if (isLeaf(node)) {
    const leaf = Object.fromEntries(Object.entries(node).filter(([key]) => kept.has(key)).map(([key, value]) => [key, key === "items" ? reduced(value) : value]));
    return node.valType === "subplotid" ? { ...leaf, dflt: node.dflt } : leaf;
  }
  return Object.fromEntries(Object.entries(node).filter(([key, value]) => !/src$|^editType$|^impliedEdits$|^_|^description$|^role$|^calendar|^uid$|^meta$/.test(key) && typeof value === "object").map(([key, value]) => [key, reduced(value)]));
}

const { version } = JSON.parse(readFileSync(new URL("node_modules/plotly.js-dist-min/package.json", root), "utf8"));
const result = {
  about: `Plotly.PlotSchema.get() of plotly.js-dist-min ${version}, cut to what figures use by makePlotlySchema.mjs`,
  traces: Object.fromEntries(traces.map((name) => [name, reduced(schema.traces[name].attributes)])),
  layout: Object.fromEntries(parts.map((name) => [name, reduced(schema.layout.layoutAttributes[name] ?? schema.traces.bar.layoutAttributes[name])])),
};
writeFileSync(new URL("plotlySchema.json", import.meta.url), `${JSON.stringify(result)}\n`);
