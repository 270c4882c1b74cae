import { libraryHtml } from "../kernel/figureHtml.js";
import { formulaHtml } from "../page/formulaDoor.js";
import { htmlText } from "../page/pageDocument.js";
import type { NotebookBundle, NotebookOutput, NotebookText } from "./notebook.js";
import { textOf } from "./notebook.js";
import { isSafeHtml } from "./safeHtml.js";

/** How the parts of an output are made that the page as a whole must know of. */
export interface OutputParts {
  /** A figure of the drawing library: its description and its text. */
  figure(description: unknown, text: string): string;
  markdown(text: string): string;
}

const drawing = "application/vnd.plotly.v1+json";
/** Lines of printed text that a page shows at once; of more than `longText` it shows the first ones. */
const [longText, shownText] = [80, 50];

/**
 * What a cell put out, as html.
 *
 * Of several forms of one thing the richest that a page can show by itself is taken: figure, html, picture, text.
 *
 * @param outputs in their order
 * @param parts   how figures and markdown are made
 * @returns       html, empty when there is nothing to see
 */
export function outputsHtml(outputs: readonly NotebookOutput[], parts: OutputParts): string {
  return outputs.map((output) => outputHtml(output, parts)).join("");
}

function outputHtml(output: NotebookOutput, parts: OutputParts): string {
  if (output.output_type === "stream") return printed(textOf(output.text), output.name === "stderr" ? "stderr" : "stdout");
  if (output.output_type === "error") return faultHtml(output.ename, output.evalue, output.traceback);
  return bundleHtml(output.data, parts);
}

function bundleHtml(data: NotebookBundle, parts: OutputParts): string {
  const text = (type: string): string | undefined => (data[type] === undefined ? undefined : textOf(data[type] as NotebookText));
  const plain = text("text/plain") ?? "";
  if (data[drawing] !== undefined) return parts.figure(data[drawing], plain);
  const html = text("text/html");
  // The page carries the drawing library itself.
  if (html?.startsWith("<script>") === true && html === libraryHtml()) return "";
  if (html !== undefined && isSafeHtml(html)) return `<div class="shown">${html.replace(/<table[\s\S]*?<\/table>/gi, '<div class="scroll">$&</div>')}</div>\n`;
  // The kernel writes the names of the forms where it has no words: better to say why nothing is seen.
  if (html !== undefined && (plain === "" || plain.includes("text/html"))) return `<p class="small">What this cell shows runs or loads something, which a page does not; it stands in the notebook.</p>\n`;
  const svg = text("image/svg+xml");
  if (svg !== undefined) return picture("image/svg+xml", Buffer.from(svg, "utf8").toString("base64"), plain);
  for (const type of ["image/png", "image/jpeg", "image/gif", "image/webp"]) {
    const base64 = text(type);
    if (base64 !== undefined) return picture(type, base64.replace(/\s/g, ""), plain);
  }
  const markdown = text("text/markdown");
  if (markdown !== undefined) return `<div class="shown">${parts.markdown(markdown)}</div>\n`;
  const latex = text("text/latex");
  if (latex !== undefined) return `<p>${formulaHtml(latex.replace(/^\s*\$+|\$+\s*$/g, ""), true)}</p>\n`;
  if (plain !== "") return printed(plain, "value");
  if (data["application/json"] !== undefined) return printed(JSON.stringify(data["application/json"], null, 2), "value");
  return "";
}

function picture(type: string, base64: string, alt: string): string {
  return `<img src="data:${type};base64,${base64}" alt="${htmlText(alt)}">\n`;
}

function printed(text: string, kind: string): string {
  const clean = withoutColors(text).replace(/\n$/, "");
  if (clean === "") return "";
  const block = (part: string): string => `<pre class="${kind}"><samp>${htmlText(part)}</samp></pre>\n`;
  const lines = clean.split("\n");
  if (lines.length <= longText) return block(clean);
  const rest = lines.length - shownText;
  return `${block(lines.slice(0, shownText).join("\n"))}<details class="rest"><summary>${rest} more lines</summary>${block(lines.slice(shownText).join("\n"))}</details>\n`;
}

/** An error: its name and message as a reader should see them, then where it happened. */
function faultHtml(name: string, value: string, traceback: readonly string[]): string {
  const head = value === "" ? name : `${name}: ${value}`;
  const [first, ...rest] = traceback.map(withoutColors);
  const lines = (first === withoutColors(head) ? rest : traceback.map(withoutColors)).join("\n").trimEnd();
  const shown = lines === "" ? "" : `<pre><samp>${htmlText(lines)}</samp></pre>`;
  return `<div class="fault" role="group" aria-label="Error"><strong>${htmlText(withoutColors(head).split("\n")[0])}</strong>${shown}</div>\n`;
}

/** Text without the color signs of a terminal, and with lines rewritten by a carriage return in their last form. */
function withoutColors(text: string): string {
  return text.replace(/\u001b\[[0-9;:?]*[ -/]*[@-~]/g, "").replace(/^.*\r(?!\n)/gm, "");
}
