import { mkdirSync, mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { chooseNotebooks } from "../../../../lib/door/runner/chooseNotebooks.js";
import type { Notebook } from "../../../../lib/door/runner/notebook.js";
import { notebookPage } from "../../../../lib/door/runner/notebookPage.js";
import { earlierPages, marked, requireOwn } from "../../../../lib/door/runner/ownOutput.js";
import { isSafeHtml } from "../../../../lib/door/runner/safeHtml.js";

const folder = mkdtempSync(join(tmpdir(), "airtides-notebooks-"));
for (const name of ["02-even-steps.ipynb", "01-first-look.ipynb", "10-long-view.ipynb", "README.md", ".hidden.ipynb"]) writeFileSync(join(folder, name), "{}");

describe("chooseNotebooks", () => {
  const names = async (...only: string[]): Promise<string[]> => (await chooseNotebooks(only, folder)).map((n) => n.name);

  it("all in order, one by name, by number, by path", async () => {
    expect(await names()).toEqual(["01-first-look", "02-even-steps", "10-long-view"]);
    expect(await names("10", "02-even-steps")).toEqual(["10-long-view", "02-even-steps"]);
    expect((await chooseNotebooks(["/else/where/own.ipynb"], folder))[0]).toEqual({ name: "own", path: "/else/where/own.ipynb" });
  });

  it("refuses what fits none, fits several, or comes twice", async () => {
    await expect(names("99")).rejects.toThrow('notebooks: --only must name one of 01-first-look, 02-even-steps, 10-long-view, or an .ipynb file (got "99")');
    await expect(names("0")).rejects.toThrow('(got "0")');
    await expect(names("01", "01-first")).rejects.toThrow('(got "01-first-look" twice)');
    await expect(chooseNotebooks([], "/no/such/folder")).rejects.toThrow("must hold notebooks (got none)");
  });
});

describe("requireOwn", () => {
  const place = mkdtempSync(join(tmpdir(), "airtides-own-"));
  const book: Notebook = { nbformat: 4, nbformat_minor: 5, metadata: {}, cells: [{ cell_type: "markdown", id: "a", metadata: {}, source: "# A" }] };

  it("lets a run write over what an earlier run wrote", async () => {
    writeFileSync(join(place, "a.ipynb"), JSON.stringify(marked(book), null, 1));
    writeFileSync(join(place, "a.html"), notebookPage(book, { name: "a", about: "" }));
    await requireOwn(join(place, "a.ipynb"));
    await requireOwn(join(place, "a.html"));
    await requireOwn(join(place, "not-there.ipynb"));
  });

  it("refuses a notebook that was changed since, a source notebook, a foreign page, a folder", async () => {
    writeFileSync(join(place, "b.ipynb"), readFileSync(join(place, "a.ipynb"), "utf8").replace("# A", "# My notes"));
    writeFileSync(join(place, "c.ipynb"), JSON.stringify(book));
    writeFileSync(join(place, "c.html"), "<p>mine</p>");
    mkdirSync(join(place, "d.html"));
    for (const name of ["b.ipynb", "c.ipynb", "c.html", "d.html"]) await expect(requireOwn(join(place, name))).rejects.toThrow(/exists already and is not a page or notebook as an earlier run left it/);
  });
});

describe("earlierPages", () => {
  it("finds our own pages with title and question, and no others", async () => {
    const place = mkdtempSync(join(tmpdir(), "airtides-earlier-"));
    const page = (title: string): string => notebookPage({ nbformat: 4, nbformat_minor: 5, metadata: {}, cells: [{ cell_type: "markdown", id: "a", metadata: {}, source: `# ${title}\n\nHow "large" & why?` }] }, { name: "x", about: "" });
    for (const name of ["b", "a", "index", "new"]) writeFileSync(join(place, `${name}.html`), page(`Page ${name} <1>`));
    writeFileSync(join(place, "foreign.html"), "<title>mine</title>");
    mkdirSync(join(place, "folder.html"));
    expect(await earlierPages(place, ["index.html", "new.html"])).toEqual([
      { file: "a.html", title: "Page a <1>", question: 'How "large" & why?' },
      { file: "b.html", title: "Page b <1>", question: 'How "large" & why?' },
    ]);
    expect(await earlierPages(join(place, "not there"), [])).toEqual([]);
  });
});

describe("isSafeHtml", () => {
  it.each(["", "text &lt;", '<table class="x"><tr><th scope="row">1<td></table>'.replace("<td>", "</th></tr>"), '<p style="color:red">a<br>b<br/></p>', '<a href="https://x.org">x</a>', "<b>B</b>"])("lets %j stand", (html) => expect(isSafeHtml(html)).toBe(true));

  it.each([
    "<script>x</script>", "<img src=x>", "<p onclick=x>", "<p>", "</p>", "<b><i></b></i>", "<a href='javascript:x'>x</a>", '<p style="background:url(x)">a</p>', '<div style="position:fixed">a</div>',
    "<iframe></iframe>", "<svg></svg>", "<!-- c -->", "<style>p{}</style>", "<p", "1 < 2", "<p class='a' src='b'>x</p>", "<form></form>", "<base href='x'>",
  ])("sends %j back", (html) => expect(isSafeHtml(html)).toBe(false));
});
