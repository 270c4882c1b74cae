/** Ids under which a page carries what the script below reads. */
export const drawIds: Readonly<Record<"library" | "colors", string>> = Object.freeze({ library: "drawing-library", colors: "dark-colors" });

/** Id of a figure's own dark colors, which win over the page's. */
export function darkColorsOf(figureId: string): string {
  return `${figureId}-dark`;
}

/**
 * The script of a page with figures: a touched still becomes a figure one can zoom and ask.
 *
 * The page shows stills at once and carries the drawing library packed; only the first touch unpacks and runs it, under the
 * page's policy, which knows it by its digest. A figure's description stands in the element named by `data-figure`; its colors are
 * changed to those of the dark theme when the page is dark. The library's offer to send a chart to its maker is never made. It takes the still's place and height, so that nothing jumps. Without DecompressionStream the stills stay, and a word says why.
 * It also makes what can be scrolled sideways reachable by keyboard.
 */
export const drawScript: string = `(() => {
"use strict";
let ready;
const dark = matchMedia("(prefers-color-scheme: dark)");
const library = () => ready ??= (async () => {
  const packed = Uint8Array.from(atob(document.getElementById("${drawIds.library}").textContent), (c) => c.charCodeAt(0));
  const text = await new Response(new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"))).text();
  const script = document.createElement("script");
  script.textContent = text;
  document.head.append(script);
  if (!window.Plotly) throw new Error("the drawing library did not start");
  return window.Plotly;
})();
const colorsIn = (id) => JSON.parse(document.getElementById(id)?.textContent ?? "[]");
const description = (figure) => {
  const text = document.getElementById(figure.dataset.figure).textContent;
  if (!dark.matches) return JSON.parse(text);
  const pairs = new Map([...colorsIn("${drawIds.colors}"), ...colorsIn(figure.dataset.figure + "${darkColorsOf("")}")]);
  return JSON.parse(text, (key, value) => (typeof value === "string" ? (pairs.get(value) ?? value) : value));
};
const draw = async (figure) => {
  const button = figure.querySelector("button");
  const still = figure.querySelector(".still");
  const room = figure.querySelector(".room");
  button.disabled = true;
  button.textContent = "Unpacking…";
  try {
    const Plotly = await library();
    const { data, layout, config } = description(figure);
    if (still) room.style.height = still.getBoundingClientRect().height + "px";
    room.hidden = false;
    if (still) still.hidden = true;
    await Plotly.newPlot(room, data, sized(room, layout), { responsive: true, displaylogo: false, ...config, showSendToCloud: false, plotlyServerURL: "" });
    button.style.visibility = "hidden";
    figure.dataset.drawn = "yes";
    room.focus({ preventScroll: true });
  } catch (error) {
    room.hidden = true;
    if (still) still.hidden = false;
    button.textContent = "This browser cannot draw it: " + error.message;
  }
};
const sized = (room, layout) => (room.style.height ? { ...layout, height: room.clientHeight } : layout);
const figures = [...document.querySelectorAll("[data-figure]")];
for (const figure of figures) {
  for (const touched of figure.querySelectorAll("button, .still")) touched.addEventListener("click", () => draw(figure), { once: true });
  figure.querySelector("button").hidden = false;
  figure.querySelector(".still")?.classList.add("live");
}
dark.addEventListener("change", () => {
  for (const figure of figures) if (figure.dataset.drawn) {
    const { data, layout } = description(figure);
    const room = figure.querySelector(".room");
    window.Plotly.react(room, data, sized(room, layout));
  }
});
const reach = (part) => {
  for (const wide of part.querySelectorAll("pre, .scroll, .formula")) if (wide.scrollWidth > wide.clientWidth + 1 || wide.scrollHeight > wide.clientHeight + 1) wide.tabIndex = 0;
};
reach(document);
document.addEventListener("toggle", (event) => reach(event.target), true);
})();`;
