import hljs from "highlight.js/lib/core";
import typescript from "highlight.js/lib/languages/typescript";
import json from "highlight.js/lib/languages/json";
import shell from "highlight.js/lib/languages/bash";

/** Names that notebooks write behind a fence, and the language they mean. */
const languages: Readonly<Record<string, string>> = {
  ts: "typescript", typescript: "typescript", js: "typescript", javascript: "typescript", json: "json", sh: "shell", bash: "shell", shell: "shell", console: "shell",
};

function readyFor(language: string): boolean {
  if (hljs.getLanguage("typescript") === undefined) {
    hljs.registerLanguage("typescript", typescript);
    hljs.registerLanguage("json", json);
    hljs.registerLanguage("shell", shell);
  }
  return language in languages;
}

/**
 * A block of code as html with its words colored; a language we do not know stays plain.
 *
 * @param text     the code
 * @param language its name behind a fence, such as `ts`; empty for none
 */
export function highlightHtml(text: string, language: string): string {
  const code = text.replace(/\n$/, "");
  const known = readyFor(language.toLowerCase());
  const inner = known ? hljs.highlight(code, { language: languages[language.toLowerCase()], ignoreIllegals: true }).value : code.replace(/[&<>]/g, (c) => `&#${c.charCodeAt(0)};`);
  return `<pre class="code"><code>${inner}</code></pre>\n`;
}
