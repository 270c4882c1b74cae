import type { Annotation } from "./layout.js";
import { fontSize, type Palette } from "./theme.js";

/** A line of the key: the same color and dash as the trace, and its label. */
export interface KeyEntry {
  readonly color: string;
  /** What stands before the label: `dashGlyph`, ▲, ■. */
  readonly glyph: string;
  readonly text: string;
  /** Writes the label in ink, where the color is too light for text. */
  readonly inkText?: boolean;
}

/** Of one row of the key · px. */
export const keyHeight = 19;
const titleLine = 20;
/** Signs of a bold title that surely fit into 340 px. */
const titleSigns = 37;
/** Signs of a label that fit into half of 300 px. */
const keySigns = 22;

/** What stands for a line of this dash in a key. */
export const dashGlyph: Readonly<Record<"solid" | "dash" | "dot" | "dashdot", string>> = Object.freeze({ solid: "━━", dash: "╍╍", dot: "┅┅", dashdot: "━╍" });

/** A text on the sheet, with the house's defaults. */
export function note(palette: Palette, parts: Pick<Annotation, "text" | "x" | "y"> & Partial<Annotation>): Annotation {
  const { font, ...rest } = parts;
  return { xref: "x", yref: "y", xanchor: "left", yanchor: "middle", align: "left", showarrow: false, ...rest, font: font ?? { color: palette.ink, size: fontSize.text } };
}

/** Entries stand two in a row; a long one takes a row. */
function keyPlaces(key: readonly KeyEntry[]): { readonly row: number; readonly x: number }[] {
  let [row, column] = [0, 0];
  return key.map((entry) => {
    const isLong = entry.text.length > keySigns;
    if (isLong && column === 1) [row, column] = [row + 1, 0];
    const place = { row, x: column / 2 };
    if (isLong || column === 1) [row, column] = [row + 1, 0];
    else column = 1;
    return place;
  });
}

/** Rows that a key takes. */
export function keyRows(key: readonly KeyEntry[]): number {
  const places = keyPlaces(key);
  return places.length === 0 ? 0 : places[places.length - 1].row + 1;
}

/** Title and key above the plot; glyphs and labels of the key apart, so that labels stand under each other. */
export function headNotes(title: string, key: readonly KeyEntry[], palette: Palette, left: number, buttonRow = 0): Annotation[] {
  const places = keyPlaces(key);
  const rows = keyRows(key);
  const text = wrapTitle(title).map((line) => `<b>${line}</b>`).join("<br>");
  const head = note(palette, { text, xref: "paper", yref: "paper", x: 0, y: 1, yanchor: "bottom", xshift: 12 - left, yshift: 10 + buttonRow + keyHeight * rows, font: { color: palette.ink, size: fontSize.title } });
  const entries = key.flatMap(({ color, glyph, text, inkText }, i) => {
    const { row, x } = places[i];
    const at = { xref: "paper", yref: "paper", x, y: 1, yanchor: "bottom", yshift: 4 + keyHeight * (rows - 1 - row) } as const;
    const shift = x === 0 ? 12 - left : 0;
    return [
      note(palette, { ...at, text: `<b>${glyph}</b>`, xanchor: "center", xshift: shift + 11, font: { color, size: fontSize.text } }),
      note(palette, { ...at, text, xshift: shift + 26, font: { color: inkText === true ? palette.ink : color, size: fontSize.text } }),
    ];
  });
  return [head, ...entries];
}

/** Space for title and key · px. */
export function heightAbove(title: string, key: readonly KeyEntry[] = []): number {
  return 14 + titleLine * wrapTitle(title).length + 8 + keyHeight * keyRows(key);
}

/** Breaks a title at blanks into lines that fit a narrow screen; `<` of an entity-free title is not expected. */
function wrapTitle(text: string): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(" ")) {
    if (line !== "" && line.length + 1 + word.length > titleSigns) {
      lines.push(line);
      line = word;
    } else line = line === "" ? word : `${line} ${word}`;
  }
  lines.push(line);
  return lines;
}
