import { htmlText, pageDocument } from "../page/pageDocument.js";
import { pageGenerator } from "./notebookPage.js";
import { notebookStyle } from "./notebookStyle.js";

/** One page in the list. */
export interface IndexEntry {
  readonly title: string;
  /** Address of the page from the index. */
  readonly address: string;
  /** The question it opens with; empty when it has none. */
  readonly question: string;
  /** What happened when it was run; `bad` when it stopped. */
  readonly state: string;
  readonly bad: boolean;
}

/**
 * The page that leads to all notebooks' pages.
 *
 * @param entries in the order of reading
 * @param about   one sentence on the data they were run on; empty when each chose its own
 * @returns       html5
 */
export function notebookIndex(entries: readonly IndexEntry[], about: string): string {
  const items = entries.map((entry) => {
    const question = entry.question === "" ? "" : `<p>${htmlText(entry.question)}</p>`;
    return `<li><h2><a href="${htmlText(entry.address)}">${htmlText(entry.title)}</a></h2>${question}<p class="state${entry.bad ? " bad" : ""}">${htmlText(entry.state)}</p></li>`;
  });
  const stopped = entries.filter((e) => e.bad).length;
  const note = stopped === 0 ? "" : `<p class="warning">${stopped === 1 ? "One notebook" : `${stopped} notebooks`} stopped at an error. What ran before it is on its page.</p>\n`;
  return pageDocument({
    title: "Notebooks on the air at home",
    summary: about === "" ? "Notebooks, each on a record of its own." : about,
    generator: pageGenerator,
    main: `<h1>Notebooks on the air at home</h1>\n<p>${about === "" ? "Each notebook was run on the record it names." : htmlText(about)} Every page stands by itself and can be read, printed and passed on.</p>\n${note}<ol class="index">\n${items.join("\n")}\n</ol>`,
    footer: "<p>Made by airtides notebooks. The numbers carry intervals of 95 %; advice on mould, buildings and weather defers to local codes and licensed practice.</p>",
    style: notebookStyle(),
  });
}
