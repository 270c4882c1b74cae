import { capital } from "../../answers/words.js";
import { escapeText } from "../../figure/still/svgText.js";

/** Marks that steer the direction of text: a name keeps its own letters' direction without them. */
const directionMarks = /[\u200e\u200f\u061c\u202a-\u202e\u2066-\u2069]/g;

/**
 * A name or title of the record as html: escaped, and kept from turning the text about it.
 *
 * @example ownWords("<b>Loft") // "<bdi>&lt;b&gt;Loft</bdi>"
 */
export function ownWords(text: string): string {
  return `<bdi>${escapeText(text.replace(directionMarks, ""))}</bdi>`;
}

/** A number with its error and its unit, and units by themselves: not to be parted at a line's end. */
const units = "hPa|K|h|d|s|m|min|%|°C|g/m³|g/kg|px|days|day|hours|readings";
const parted = new RegExp(`(\\d) (±|(?:${units})(?![\\w/]))`, "g");

/** A sentence as html; it may hold words of the record. Numbers stay on one line with their errors and units. */
export function sentenceHtml(text: string): string {
  return escapeText(text.replace(directionMarks, "").replace(parted, "$1\u00a0$2").replace(/± (?=\d)/g, "±\u00a0"));
}

/** A list of sentences; nothing for none. */
export function listHtml(sentences: readonly string[]): string {
  return sentences.length === 0 ? "" : `<ul>${sentences.map((s) => `<li>${sentenceHtml(closed(s))}</li>`).join("")}</ul>`;
}

/** A sentence with a capital and a full stop. */
export function closed(text: string): string {
  const whole = capital(text);
  return /[.!?…:]$/.test(whole) ? whole : `${whole}.`;
}

/** A table of plain texts. */
export interface PlainTable {
  readonly caption: string;
  readonly head: readonly string[];
  /** null is a missing value. */
  readonly rows: readonly (readonly (string | number | null)[])[];
  /** True keeps a long table open. */
  readonly isOpen?: boolean;
  /** True leaves a long table off paper, where its caption alone stands. */
  readonly isForScreen?: boolean;
}

/** Longer tables are folded away under their caption. */
const longestOpen = 12;

/** Cells that begin with a number are set to the right. */
const numberLike = /^[+−–-]?\d[\d\s\u202f.,]*( ?±.*)?( ?[°%a-zA-Z/³]{0,6})?$/;

/** A table as html, which scrolls by itself when it is wide; the first column heads its rows. */
export function tableHtml({ caption, head, rows }: PlainTable): string {
  const isNumber = head.map((_, c) => c > 0 && rows.every((r) => r[c] === null || typeof r[c] === "number" || r[c] === "" || numberLike.test(String(r[c]))));
  const cell = (value: string | number | null, c: number): string => {
    const text = value === null ? "–" : typeof value === "number" ? String(value).replace("-", "−") : value;
    const kind = isNumber[c] ? ' class="number"' : "";
    return c === 0 ? `<th scope="row">${sentenceHtml(text)}</th>` : `<td${kind}>${sentenceHtml(text)}</td>`;
  };
  const top = head.map((h, c) => `<th scope="col"${isNumber[c] ? ' class="number"' : ""}>${h === "" ? '<span class="unseen">Row</span>' : sentenceHtml(h)}</th>`).join("");
  const body = rows.map((r) => `<tr>${head.map((_, c) => cell(r[c] ?? null, c)).join("")}</tr>`).join("\n");
  return `<div class="scroll"><table><caption>${sentenceHtml(caption)}</caption><thead><tr>${top}</tr></thead><tbody>\n${body}\n</tbody></table></div>\n`;
}

/** A table, folded away when it is long. */
export function foldedTableHtml(table: PlainTable): string {
  if (table.isOpen === true || table.rows.length <= longestOpen) return tableHtml(table);
  return `<details class="long${table.isForScreen === true ? "" : " printed"}"><summary>${sentenceHtml(table.caption)}</summary>${tableHtml({ ...table, caption: `${table.rows.length} rows` })}</details>\n`;
}
