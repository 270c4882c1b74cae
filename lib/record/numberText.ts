/** How numbers are written in a log. */
export interface NumberStyle {
  readonly decimalChar: string;
  readonly groupChar: string;
  /** False lets other text stand before and after the number, such as a unit. */
  readonly bareNumber: boolean;
}

const powers: readonly number[] = Object.freeze(Array.from({ length: 23 }, (_, k) => 10 ** k));

/**
 * Reads a number strictly: digits with at most one decimal sign and an exponent; NaN and INF as the standard has them.
 *
 * @param text  the field, without blanks at its ends
 * @param style see NumberStyle
 * @returns     the number, NaN for the text NaN, ±Infinity for INF; undefined when it is no number
 */
export function numberFrom(text: string, style: NumberStyle): number | undefined {
  const quick = style.bareNumber && style.groupChar === "" ? plainDecimal(text, style.decimalChar.charCodeAt(0)) : undefined;
  if (quick !== undefined) return quick;
  let t = text;
  if (!style.bareNumber) t = t.replace(/^[^0-9+\-.NnIi]+/, "").replace(/[^0-9.NnFf]+$/, "");
  if (style.groupChar !== "") t = t.split(style.groupChar).join("");
  if (style.decimalChar !== ".") {
    if (t.includes(".")) return undefined;
    t = t.replace(style.decimalChar, ".");
  }
  if (/^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/.test(t)) return Number(t);
  if (/^nan$/i.test(t)) return Number.NaN;
  if (/^[+-]?inf$/i.test(t)) return t[0] === "-" ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
  return undefined;
}

/** The common case without a pattern: sign, up to 15 digits, one decimal sign; exact, because both parts are whole. */
function plainDecimal(text: string, decimal: number): number | undefined {
  const n = text.length;
  let i = 0;
  let negative = false;
  const sign = text.charCodeAt(0);
  if (sign === 45 || sign === 43) {
    negative = sign === 45;
    i = 1;
  }
  let whole = 0;
  let digits = 0;
  let after = -1;
  for (; i < n; i++) {
    const c = text.charCodeAt(i);
    if (c >= 48 && c <= 57) {
      whole = 10 * whole + (c - 48);
      digits++;
      if (after >= 0) after++;
    } else if (c === decimal && after < 0) after = 0;
    else return undefined;
  }
  if (digits === 0 || digits > 15) return undefined;
  const value = after > 0 ? whole / powers[after] : whole;
  return negative ? -value : value;
}
