import type { Estimate } from "../ground/estimate.js";

export { spanInWords } from "../ground/spanInWords.js";

/** Units as people read them; UDUNITS spellings stand in the data. */
const unitShown: Readonly<Record<string, string>> = Object.freeze({
  degC: "°C",
  K: "K",
  "g m-3": "g/m³",
  "g kg-1": "g/kg",
  "1": "",
});

/** A UDUNITS unit as people read it: `degC` is °C, `g m-3` is g/m³. */
export function unitInWords(unit: string): string {
  return unitShown[unit] ?? unit;
}

/**
 * Decimals that show an uncertainty to one digit, or two where the first is a 1.
 *
 * @param halfWidth half width of an interval, any unit
 * @returns         0…6
 */
export function decimalsFor(halfWidth: number): number {
  if (!(halfWidth > 0) || !Number.isFinite(halfWidth)) return 2;
  const power = Math.floor(Math.log10(halfWidth));
  const lead = halfWidth / 10 ** power;
  return Math.min(6, Math.max(0, lead < 1.95 ? 1 - power : -power));
}

/** A number with a true minus sign. */
export function signed(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  return (Number(text) === 0 ? text.replace("-", "") : text).replace("-", "−");
}

/**
 * An Estimate as text: `1.02 ± 0.03 hPa`, or `0.21 hPa (0 to 0.35)` where the interval is lopsided.
 *
 * @example estimateInWords(estimate({ value: 1.021, standardError: 0.012, low: 0.997, high: 1.045, unit: "hPa" })) // 1.02 ± 0.02 hPa
 */
export function estimateInWords(e: Estimate): string {
  const half = (e.high - e.low) / 2;
  const decimals = decimalsFor(half);
  const unit = unitInWords(e.unit);
  const tail = unit === "" ? "" : ` ${unit}`;
  const lopsided = Math.abs(e.high - e.value - (e.value - e.low)) > 0.25 * half;
  if (!lopsided && e.low !== 0) return `${signed(e.value, decimals)} ± ${half.toFixed(decimals)}${tail}`;
  const low = e.low === 0 ? "0" : signed(e.low, decimals);
  return `${signed(e.value, decimals)}${tail} (${low} to ${signed(e.high, decimals)})`;
}

/** An estimate with its sign turned: for sentences that say "colder by" instead of "warmer by −". */
export function turnedOver(e: Estimate): Estimate {
  return { ...e, value: -e.value, low: -e.high, high: -e.low };
}

/** A text with a capital at its beginning. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/**
 * A difference as a comparison: `1.2 ± 0.4 K warmer`, and `0.8 ± 0.3 K colder` where it is negative.
 *
 * @param e          a difference
 * @param more, less words for a positive and a negative one
 */
export function comparedInWords(e: Estimate, more: string, less: string): string {
  return e.value < 0 ? `${estimateInWords(turnedOver(e))} ${less}` : `${estimateInWords(e)} ${more}`;
}

/** `1 reading`, `2 readings`, with thousands set apart by thin spaces. */
export function counted(count: number, one: string, many: string = `${one}s`): string {
  return `${grouped(count)} ${count === 1 ? one : many}`;
}

/** A whole number with its thousands set apart by a narrow no-break space from 10 000 on. */
export function grouped(count: number): string {
  return Math.abs(count) < 10000 ? String(count) : String(count).replace(/\B(?=(\d{3})+$)/g, "\u202f");
}

/** 0.9873 as `98.7 %`; never 100 % unless it is whole, never 0 % unless it is none. */
export function shareInWords(share: number): string {
  const text = (100 * share).toFixed(1);
  if (text === "100.0") return share === 1 ? "100 %" : "99.9 %";
  if (text === "0.0") return share === 0 ? "0 %" : "under 0.1 %";
  return `${text} %`;
}

/**
 * Rows as aligned columns, two blanks between them; columns of numbers can be set to the right.
 *
 * @param rows  cells of equal count
 * @param right indices of the columns to set to the right
 * @returns     one line a row, no trailing blanks
 */
export function alignedColumns(rows: readonly (readonly string[])[], right: readonly number[] = []): string[] {
  const widths = (rows[0] ?? []).map((_, c) => Math.max(...rows.map((row) => width(row[c] ?? ""))));
  return rows.map((row) =>
    row
      .map((cell, c) => {
        const pad = " ".repeat(widths[c] - width(cell));
        return right.includes(c) ? pad + cell : cell + pad;
      })
      .join("  ")
      .trimEnd(),
  );
}

/** Characters a terminal shows for a text (combining marks take no place). */
function width(text: string): number {
  let n = 0;
  for (const c of text) if (!/\p{M}/u.test(c)) n++;
  return n;
}

/** Values as a line of eighth blocks, lowest to highest; a blank where a value is missing. */
export function sparkline(values: ArrayLike<number>): string {
  const list = Array.from(values);
  const known = list.filter((v) => !Number.isNaN(v));
  const low = Math.min(...known);
  const span = Math.max(...known) - low || 1;
  return list.map((v) => (Number.isNaN(v) ? " " : "▁▂▃▄▅▆▇█"[Math.min(7, Math.floor((8 * (v - low)) / span))])).join("");
}

/** Long text broken at blanks into lines of at most `columns`; the first keeps its margin, later ones are set in by `indent`. */
export function wrapped(text: string, columns: number, indent = ""): string[] {
  const lines: string[] = [];
  const margin = /^ */.exec(text)?.[0] ?? "";
  let line = "";
  for (const word of text.trimStart().split(" ")) {
    const room = columns - (lines.length === 0 ? margin.length : indent.length);
    if (line !== "" && width(line) + 1 + width(word) > room) {
      lines.push(line);
      line = word;
    } else line = line === "" ? word : `${line} ${word}`;
  }
  lines.push(line);
  return lines.map((l, i) => (i === 0 ? margin : indent) + l);
}
