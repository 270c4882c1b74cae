import katex from "katex";

/**
 * A formula as MathML, which browsers set with their own fonts: no style sheet, no font file.
 *
 * A formula that cannot be read is shown as it was written, marked as a fault, with the reason in its title.
 *
 * @param tex     TeX of the mathematical kind, without the dollar signs
 * @param display true for a formula on lines of its own
 * @returns       html
 */
export function formulaHtml(tex: string, display: boolean): string {
  const made = katex.renderToString(tex, { output: "mathml", displayMode: display, throwOnError: false, strict: "ignore", trust: false });
  // The package's own fault text carries a fixed color, which would not follow dark pages.
  const html = made.replace(/(<span class="katex-error"[^>]*) style="[^"]*"/, "$1");
  // A span and not a block: a formula on its own lines may stand inside a paragraph.
  return display ? `<span class="formula">${html}</span>` : html;
}
