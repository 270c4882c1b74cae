import { describe, expect, it } from "vitest";
import type { Notebook, NotebookCell, NotebookOutput } from "../../../../lib/door/runner/notebook.js";
import { notebookPage, notebookQuestion, notebookTitle } from "../../../../lib/door/runner/notebookPage.js";
import { notebookIndex } from "../../../../lib/door/runner/notebookIndex.js";

const text = (source: string, ...tags: string[]): NotebookCell => ({ cell_type: "markdown", id: `t${source.length}`, metadata: { tags }, source });
const code = (source: string, outputs: NotebookOutput[] = [], ...tags: string[]): NotebookCell => ({ cell_type: "code", id: "c", metadata: { tags }, source, outputs, execution_count: 3 });
const book = (...cells: NotebookCell[]): Notebook => ({ nbformat: 4, nbformat_minor: 5, metadata: {}, cells });
const page = (...cells: NotebookCell[]): string => notebookPage(book(...cells), { name: "sample", about: "" });
const main = (html: string): string => html.slice(html.indexOf("<main"), html.indexOf("</main>"));

describe("a notebook's page", () => {
  it("keeps headings in order over all its texts, and gives each a name of its own", () => {
    const html = main(page(text("# One\n\n### Leaps"), text("# Second first\n\n## Leaps\n\n##### Deep")));
    expect([...html.matchAll(/<h(\d) id="([^"]+)">/g)].map((m) => `${m[1]} ${m[2]}`)).toEqual(["1 one", "2 leaps", "2 second-first", "2 leaps-2", "3 deep"]);
  });

  it("has one heading even when the notebook has none", () => expect(main(page(text("no heading")))).toContain("<h1>sample</h1>"));

  it("lists its parts behind the opening words, when there are three or more", () => {
    const html = main(page(text("# A\n\nOpening."), code("1"), text("## B\n\n## C\n\n## D")));
    expect(html).toMatch(/Opening\.<\/p>\s*<nav class="contents"[\s\S]*<a href="#b">B<\/a>[\s\S]*<\/nav>\s*<div class="cell"/);
    expect(main(page(text("# A\n\n## B\n\n## C")))).not.toContain("contents");
  });

  it("hides an answer, whose headings are none of the page's", () => {
    const html = main(page(text("# A"), text("## The answer\n\n$2A$", "answer")));
    expect(html).toMatch(/<details class="solution"><summary>Show the answer<\/summary>\s*<p><strong>The answer<\/strong><\/p>[\s\S]*<math[\s\S]*<\/details>/);
    expect(html.match(/<h\d/g)).toEqual(["<h1"]);
  });

  it("leaves out raw cells and what tags take away", () => {
    const html = page(text("# A"), { ...text("\\tex"), cell_type: "raw" }, text("gone", "remove-cell"), code("hidden()", [{ output_type: "stream", name: "stdout", text: "seen" }], "remove-input"), code("seen()", [{ output_type: "stream", name: "stdout", text: "hidden" }], "remove-output"));
    for (const word of ["\\tex", "gone", "hidden"]) expect(main(html)).not.toContain(word);
    expect(main(html).match(/seen/g)).toHaveLength(2);
  });

  it("sets formulas as MathML, and leaves money alone", () => {
    const html = main(page(text("$a_1$ and $$b$$ cost $5 or $6, \\$7\n\n$$\nc\n$$\n\n`$d$` $\\bad{$")));
    expect(html.match(/<math/g)).toHaveLength(3);
    expect(html).toContain("cost $5 or $6, $7");
    expect(html).toContain("<code>$d$</code>");
    expect(html).toContain('class="katex-error"');
  });

  it("lets no markup of a text, an output, an error or a record through", () => {
    const bad = "<script>x()</script><img src=x onerror=y()>";
    const html = notebookPage(
      book(text(`# A ${bad}\n\n${bad} [l](javascript:z()) ![p](http://far/p.png)`), code(bad, [
        { output_type: "stream", name: "stdout", text: bad },
        { output_type: "display_data", data: { "text/html": bad, "text/plain": bad }, metadata: {} },
        { output_type: "display_data", data: { "text/html": "<table><tr><td onclick=a()>x</td></tr></table>" }, metadata: {} },
        { output_type: "error", ename: bad, evalue: bad, traceback: [bad] },
        { output_type: "display_data", data: { "application/vnd.plotly.v1+json": { data: [], layout: { title: { text: "</script>" } } }, "text/plain": bad }, metadata: {} },
      ])),
      { name: "sample", about: bad, next: { address: "a.html", title: bad }, stopped: { cell: 3, message: bad } },
    );
    expect(html.match(/<script>/g)).toHaveLength(1);
    expect(html).not.toMatch(/<img|onclick=a|href="javascript|"http:\/\/far|<\/script>"/);
  });

  it("takes the richest form that it can show", () => {
    const data = (bundle: Record<string, unknown>): string => main(page(text("# A"), code("", [{ output_type: "execute_result", data: bundle, metadata: {}, execution_count: 1 }])));
    expect(data({ "text/plain": "plain", "text/html": ["<table><tr>", "<td>1</td></tr></table>"] })).toContain('<div class="scroll"><table><tr><td>1</td></tr></table></div>');
    expect(data({ "text/plain": "plain", "image/png": "QUJD\n" })).toContain('<img src="data:image/png;base64,QUJD" alt="plain">');
    expect(data({ "text/plain": "plain", "text/markdown": "**b**" })).toContain("<strong>b</strong>");
    expect(data({ "text/plain": "plain", "text/latex": "$x$" })).toContain("<math");
    expect(data({ "text/plain": "1 < 2" })).toContain("<samp>1 &#60; 2</samp>");
    expect(data({ "application/json": { a: 1 } })).toContain("&#34;a&#34;: 1");
    expect(data({})).not.toContain("outputs");
  });

  it("cleans printed text of color signs and rewritten lines, and folds what is long", () => {
    const printed = (s: string): string => main(page(text("# A"), code("", [{ output_type: "stream", name: "stdout", text: s }])));
    expect(printed("\u001b[31mred\u001b[0m")).toContain("<samp>red</samp>");
    expect(printed("10 %\r20 %\rdone\n")).toContain("<samp>done</samp>");
    expect(printed("x\r\ny")).toContain("x\r\ny");
    expect(printed(Array(80).fill("l").join("\n"))).not.toContain("<details");
    expect(printed(Array(81).fill("l").join("\n"))).toContain("31 more lines");
  });

  it("links to other notebooks lead to their pages; pasted pictures come along", () => {
    const cell = { ...text("[next](07-swings.ipynb#top) [far](https://example.org/a.ipynb) ![p](attachment:p.png)"), attachments: { "p.png": { "image/png": "QUJD" } } } as NotebookCell;
    const html = main(page(cell));
    expect(html).toContain('href="07-swings.html#top"');
    expect(html).toContain('href="https://example.org/a.ipynb"');
    expect(html).toContain('<img src="data:image/png;base64,QUJD" alt="p">');
  });

  it("says under which rules it stands, and carries the drawing library only when it has a figure", () => {
    const plain = page(text("# A"));
    expect(plain).toMatch(/http-equiv="Content-Security-Policy" content="default-src 'none'; [^"]*script-src 'sha256-[A-Za-z0-9+/=]+'; base-uri 'none'/);
    expect(plain).not.toContain(`id="drawing-library"`);
    const figure: NotebookOutput = { output_type: "display_data", data: { "application/vnd.plotly.v1+json": { data: [], layout: {} }, "text/plain": "two humps" }, metadata: {} };
    const drawn = page(text("# A"), code("", [figure, figure]));
    expect(drawn.match(/id="drawing-library"/g)).toHaveLength(1);
    expect(drawn.match(/data-figure="figure-\d-drawing"/g)).toHaveLength(2);
  });
});

describe("title, question and index", () => {
  const opened = book(text("# The *tide*, `now`\n\n## part\n\n- list\n\nHow [large](x) is\nit? With $A$."));

  it("are taken from the first texts, as plain words", () => {
    expect(notebookTitle(opened, "x")).toBe("The tide, now");
    expect(notebookQuestion(opened)).toBe("How large is it? With A.");
    expect([notebookTitle(book(), "x"), notebookQuestion(book(text("# A")))]).toEqual(["x", ""]);
  });

  it("the index says which notebook stopped", () => {
    const entry = { title: "A <b>", address: "a.html", question: "Why?", state: "3 cells, run in 2 s", bad: false };
    expect(notebookIndex([entry], "")).toContain('<a href="a.html">A &#60;b&#62;</a>');
    expect(notebookIndex([entry], "")).not.toContain('class="warning"');
    expect(notebookIndex([entry, { ...entry, bad: true }], "Run on X.")).toMatch(/Run on X\.[\s\S]*class="warning">One notebook stopped/);
  });
});
