import type { Font } from "../layout.js";
import { fillOf } from "./paint.js";
import { element, escapeText } from "./svgText.js";

/** A stretch of text in one weight. */
interface Run {
  readonly text: string;
  readonly isBold: boolean;
}

const entities: Readonly<Record<string, string>> = Object.freeze({ amp: "&", lt: "<", gt: ">", nbsp: "\u00a0", times: "×", plusmn: "±", deg: "°", mu: "μ" });

/** Height of a line, as a multiple of the font's size. */
const lineHeight = 1.3;

/**
 * Cuts a text of a figure (pseudo-HTML: `<br>`, `<b>`, entities) into lines of plain runs; any other tag stays text.
 *
 * @example textLines("<b>a</b> &lt;<br>b").length // 2
 */
export function textLines(text: string): readonly (readonly Run[])[] {
  const lines: Run[][] = [[]];
  let isBold = false;
  for (const part of text.split(/(<br ?\/?>|<\/?b>)/i)) {
    if (/^<br/i.test(part)) lines.push([]);
    else if (/^<b>$/i.test(part)) isBold = true;
    else if (/^<\/b>$/i.test(part)) isBold = false;
    else if (part !== "") lines.at(-1)?.push({ text: part.replace(/&(\w+);/g, (whole, name: string) => entities[name] ?? whole), isBold });
  }
  return lines;
}

/** About how wide a text is drawn · px; letters are counted, not measured. */
export function textWidth(text: string, size: number): number {
  return Math.max(...textLines(text).map((line) => line.reduce((sum, run) => sum + [...run.text].reduce((w, c) => w + letterWidth(c), 0) * (run.isBold ? 1.06 : 1), 0))) * size;
}

/** Widths of common letters of a sans-serif font, in its size. */
function letterWidth(letter: string): number {
  if (/[ilj.,:;|'!\u00b7 ]/.test(letter)) return 0.28;
  if (/[frtI()\-–/]/.test(letter)) return 0.36;
  if (/[mwMW—…%]/.test(letter)) return 0.86;
  if (/[A-ZÄÖÜ@&°]/.test(letter)) return 0.66;
  return letter.codePointAt(0)! > 0x2e80 ? 1 : 0.55;
}

/** Height of a text · px. */
export function textHeight(text: string, size: number): number {
  return textLines(text).length * lineHeight * size;
}

/**
 * A text at a place, one line under the other.
 *
 * @param text          pseudo-HTML of a figure
 * @param at.x, at.y    place · px
 * @param at.anchor     which side of the text stands at x
 * @param at.vertical   which side of the text stands at y: the top of its box, its middle, its bottom, or its first baseline
 * @param at.angle      degrees clockwise about the place
 */
export function textElement(
  text: string,
  font: Pick<Font, "size" | "color">,
  at: { readonly x: number; readonly y: number; readonly anchor: "start" | "middle" | "end"; readonly vertical: "top" | "middle" | "bottom" | "baseline"; readonly angle?: number },
): string {
  const lines = textLines(text);
  const step = lineHeight * font.size;
  const above = { top: 0, middle: (lines.length * step) / 2, bottom: lines.length * step, baseline: 0 }[at.vertical];
  // A box's first baseline stands where the letters look centered in their line.
  const first = at.vertical === "baseline" ? at.y : at.y - above + step / 2 + 0.35 * font.size;
  const content = lines.map((line, i) => {
    const runs = line.map((run) => (run.isBold ? element("tspan", { "font-weight": 600 }, escapeText(run.text)) : escapeText(run.text))).join("");
    return i === 0 ? runs : element("tspan", { x: at.x, dy: step }, runs === "" ? " " : runs);
  });
  return element(
    "text",
    {
      x: at.x,
      y: first,
      "font-size": font.size,
      ...fillOf(font.color),
      "text-anchor": at.anchor === "start" ? undefined : at.anchor,
      transform: at.angle === undefined || at.angle === 0 ? undefined : `rotate(${at.angle} ${Math.round(at.x)} ${Math.round(at.y)})`,
    },
    content.join("") || " ",
  );
}
