import MarkdownIt from "markdown-it";

/** What a markdown text is turned into, and how its parts that are not ours to know are made. */
export interface MarkdownParts {
  /** A formula as html; `display` stands on lines of its own. */
  formula(tex: string, display: boolean): string;
  /** A block of code as html, by its language's name (may be empty). */
  code(text: string, language: string): string;
  /** Where a picture's data are, as a `data:` address; undefined leaves its alternative text. */
  picture(address: string): string | undefined;
  /** Where a link leads from the page. */
  link(address: string): string;
  /** Level and id of the next heading: by this a page keeps its headings in order over several texts; undefined makes it a bold line. */
  heading(level: number, text: string): { readonly level: number; readonly id: string } | undefined;
}

/** Tokens of the package, as far as the rules here touch them. */
type Rules = InstanceType<typeof MarkdownIt>;

/** `$…$` inside a line, `$$…$$` inside a line or over several; a `$` before a digit after a blank is money. */
function addFormulas(md: Rules): void {
  md.inline.ruler.after("escape", "formula", (state, silent) => {
    if (state.src[state.pos] !== "$") return false;
    const display = state.src[state.pos + 1] === "$";
    const mark = display ? "$$" : "$";
    const from = state.pos + mark.length;
    let to = state.src.indexOf(mark, from);
    while (to > 0 && state.src[to - 1] === "\\") to = state.src.indexOf(mark, to + 1);
    if (to <= from || to > state.posMax - mark.length) return false;
    const tex = state.src.slice(from, to);
    if (!display && (/^\s|\s$/.test(tex) || /\d/.test(state.src[to + 1] ?? ""))) return false;
    if (!silent) {
      const token = state.push("formula", "math", 0);
      token.content = tex.trim();
      token.markup = mark;
    }
    state.pos = to + mark.length;
    return true;
  });
  md.block.ruler.after(
    "blockquote",
    "formula_block",
    (state, startLine, endLine, silent) => {
      const lineOf = (n: number): string => state.src.slice(state.bMarks[n] + state.tShift[n], state.eMarks[n]);
      if (!lineOf(startLine).startsWith("$$") || state.sCount[startLine] - state.blkIndent >= 4) return false;
      let line = startLine;
      let text = lineOf(line).slice(2);
      while (!text.trimEnd().endsWith("$$")) {
        line++;
        if (line >= endLine) return false;
        text += `\n${lineOf(line)}`;
      }
      if (silent) return true;
      const token = state.push("formula_block", "math", 0);
      token.content = text.trimEnd().slice(0, -2).trim();
      token.map = [startLine, line + 1];
      state.line = line + 1;
      return true;
    },
    { alt: ["paragraph", "reference", "blockquote", "list"] },
  );
}

function escaped(md: Rules, text: string): string {
  return md.utils.escapeHtml(text);
}

/**
 * Markdown text as html: tables, code, formulas; html in the text is shown as written, never let through.
 *
 * Links that could run something (`javascript:` and the like) are left as text by the package itself.
 *
 * @param text  markdown of the CommonMark kind with tables
 * @param parts how formulas, code, pictures, links and headings are made
 * @returns     html of block elements
 */
export function markdownHtml(text: string, parts: MarkdownParts): string {
  const md = new MarkdownIt({ html: false, linkify: false, typographer: false });
  addFormulas(md);
  const rules = md.renderer.rules;
  rules.formula = (tokens, i) => parts.formula(tokens[i].content, tokens[i].markup === "$$");
  rules.formula_block = (tokens, i) => parts.formula(tokens[i].content, true);
  rules.fence = (tokens, i) => parts.code(tokens[i].content, tokens[i].info.trim().split(/\s+/)[0] ?? "");
  rules.code_block = (tokens, i) => parts.code(tokens[i].content, "");
  rules.table_open = () => '<div class="scroll"><table>\n';
  rules.table_close = () => "</table></div>\n";
  rules.image = (tokens, i) => {
    const data = parts.picture(String(tokens[i].attrGet("src") ?? ""));
    const alt = tokens[i].content;
    return data === undefined ? `<em>${escaped(md, alt)}</em>` : `<img src="${escaped(md, data)}" alt="${escaped(md, alt)}">`;
  };
  // Pictures carried as data are let through by the package; links to data are not ours to follow.
  rules.link_open = (tokens, i, options, _env, self) => {
    tokens[i].attrSet("href", parts.link(String(tokens[i].attrGet("href") ?? "")));
    return self.renderToken(tokens, i, options);
  };
  const ends: string[] = [];
  rules.heading_open = (tokens, i) => {
    const made = parts.heading(Number(tokens[i].tag.slice(1)), plainOf(tokens[i + 1]));
    ends.push(made === undefined ? "</strong></p>" : `</h${made.level}>`);
    return made === undefined ? "<p><strong>" : `<h${made.level} id="${escaped(md, made.id)}">`;
  };
  rules.heading_close = () => `${ends.pop() ?? ""}\n`;
  return md.render(text);
}

/** Text of an inline token without its markup. */
function plainOf(token: { readonly content: string; readonly children: readonly { readonly content: string }[] | null }): string {
  return token.children?.map((c) => c.content).join("") ?? token.content;
}
