import { createHash } from "node:crypto";
import { pageStyle } from "./pageStyle.js";

/** What a page is made of; everything but `title`, `summary` and `generator` is html that is written as it stands. */
export interface PageParts {
  /** Plain text. */
  readonly title: string;
  /** Plain text: one sentence on the page for lists of pages. */
  readonly summary?: string;
  /** Plain text: which of our commands made it; by this a later run knows its own page. */
  readonly generator: string;
  /** Html inside the page's header, such as where this page belongs. */
  readonly header?: string;
  /** Html of the main part, with the one h1. */
  readonly main: string;
  readonly footer?: string;
  /** Style rules after the house's own. */
  readonly style?: string;
  /** Scripts of the page, in order, as text: nothing else may run. */
  readonly scripts?: readonly string[];
  /** Data for the scripts, which nothing runs: an element's id, its type and its text. */
  readonly data?: readonly { readonly id: string; readonly type: string; readonly text: string }[];
  /** Further scripts that one of the scripts may put into the page: each as the digest that `scriptDigest` gives. */
  readonly laterScripts?: readonly string[];
}

/**
 * Text made safe to stand in html, in an element and in a quoted attribute.
 *
 * @param text any text
 */
export function htmlText(text: string): string {
  return text.replace(/[&<>"']/g, (c) => `&#${c.charCodeAt(0)};`);
}

/**
 * The name by which the page's policy knows a script.
 *
 * @param script the script's text exactly as it stands in its element
 */
function scriptDigest(script: string): string {
  return `'sha256-${createHash("sha256").update(script, "utf8").digest("base64")}'`;
}

/**
 * A whole page that needs nothing from anywhere: the house's look inside, and a policy under which only its own scripts run.
 *
 * Pictures may be data, styles may be inline (figures set them), scripts are known by their digest, and nothing is loaded, framed or sent.
 *
 * @param parts what stands in it
 * @returns     html5
 */
export function pageDocument(parts: PageParts): string {
  const scripts = parts.scripts ?? [];
  // Inside a script element only its own end could break out, and JSON may write any sign as \u….
  const data = (parts.data ?? []).map((d) => `<script type="${htmlText(d.type)}" id="${htmlText(d.id)}">${d.text.replace(/</g, "\\u003c")}</script>\n`).join("");
  const known = [...scripts.map(scriptDigest), ...(parts.laterScripts ?? [])];
  const policy = `default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:; script-src ${known.length === 0 ? "'none'" : known.join(" ")}; base-uri 'none'; form-action 'none'`;
  const summary = parts.summary === undefined ? "" : `\n<meta name="description" content="${htmlText(parts.summary)}">`;
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${htmlText(parts.title)}</title>${summary}
<meta name="generator" content="${htmlText(parts.generator)}">
<meta name="color-scheme" content="light dark">
<style>${pageStyle}${parts.style ?? ""}</style>
</head>
<body>
<a class="skip" href="#main">To the text</a>
${parts.header === undefined ? "" : `<header class="page">${parts.header}</header>\n`}<main id="main">
${parts.main}
</main>
${parts.footer === undefined ? "" : `<footer class="page">${parts.footer}</footer>\n`}${data}${scripts.map((s) => `<script>${s}</script>\n`).join("")}</body>
</html>
`;
}
