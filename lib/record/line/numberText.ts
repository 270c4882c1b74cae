/** How numbers are written in a column. */
export interface NumberStyle {
  /** One character. */
  readonly decimalChar: string;
  /** One character or more that part thousands; empty when nothing does. */
  readonly groupChar: string;
  /** False lets other text stand before and after the number, such as a unit. */
  readonly bareNumber: boolean;
  /** Whole numbers only. */
  readonly isInteger: boolean;
}

/** 10⁰…10²², each exact. */
export const powersOfTen: Float64Array = Float64Array.from({ length: 23 }, (_, k) => 10 ** k);

/**
 * Reads a number strictly: a sign, digits with at most one decimal sign, an exponent; nothing else.
 *
 * @param text the line
 * @param from, to where the number stands in it, without blanks
 * @param style see NumberStyle
 * @returns    NaN when it is no number (the texts NaN and INF are the caller's); ±Infinity when it is too large
 * @example readNumber("21.5,", 0, 4, style) // 21.5
 * @source XSD decimal with an optional exponent, as Data Package 2.0 has it for number
 */
export function readNumber(text: string, from: number, to: number, style: NumberStyle): number {
  const decimal = style.isInteger ? -1 : style.decimalChar.charCodeAt(0);
  let i = from;
  let isNegative = false;
  const sign = text.charCodeAt(i);
  if (sign === 45 || sign === 43) {
    isNegative = sign === 45;
    i++;
  }
  let whole = 0;
  let digits = 0;
  let after = -1;
  for (; i < to; i++) {
    const c = text.charCodeAt(i);
    if (c >= 48 && c <= 57) {
      whole = 10 * whole + (c - 48);
      digits++;
      if (after >= 0) after++;
    } else if (c === decimal && after < 0) after = 0;
    else return readSlowly(text.slice(from, to), style);
  }
  // Fifteen digits are exact, and so is the power of ten: one division rounds correctly.
  if (digits === 0 || digits > 15) return readSlowly(text.slice(from, to), style);
  const value = after > 0 ? whole / powersOfTen[after] : whole;
  return isNegative ? -value : value;
}

function readSlowly(text: string, style: NumberStyle): number {
  let t = text;
  if (!style.bareNumber) {
    const digit = t.search(/\d/);
    if (digit < 0) return Number.NaN;
    const lead = /[+-]?[^\d+-]?$/.exec(t.slice(0, digit))?.[0] ?? "";
    const kept = lead.endsWith(style.decimalChar) || /^[+-]$/.test(lead) ? lead : "";
    t = kept + t.slice(digit).replace(/[^\d]+$/, "");
  }
  if (style.groupChar !== "") {
    // A group sign parts digits; at an end, doubled or after the decimal sign it is damage.
    const [front, ...behind] = t.split(style.decimalChar);
    if (behind.some((b) => b.includes(style.groupChar))) return Number.NaN;
    const groups = front.split(style.groupChar);
    if (groups.length > 1 && groups.some((g, k) => !(k === 0 ? /^[+-]?\d+$/ : /^\d+$/).test(g))) return Number.NaN;
    t = [groups.join(""), ...behind].join(style.decimalChar);
  }
  if (style.isInteger) return /^[+-]?\d+$/.test(t) ? Number(t) : Number.NaN;
  if (style.decimalChar !== ".") {
    if (t.includes(".")) return Number.NaN;
    t = t.replace(style.decimalChar, ".");
  }
  return /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/.test(t) ? Number(t) : Number.NaN;
}

/** What a text that is no plain number says: `missing` for NaN, `infinite` for INF with or without a sign, null else. */
export function wordNumber(text: string): "missing" | "infinite" | null {
  if (/^nan$/i.test(text)) return "missing";
  return /^[+-]?inf$/i.test(text) ? "infinite" : null;
}
