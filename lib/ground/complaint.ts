/** Where a fault in outside data was met. */
export interface Whereabouts {
  /** File as the reader was given it. */
  readonly file?: string;
  /** Line, counted from 1. */
  readonly line?: number;
}

/**
 * A fault in data or a description that came from outside, told in one sentence that names place and remedy.
 *
 * The command line prints `message` without a stack. A caller's own mistake is a TypeError or RangeError instead.
 *
 * @source none (house rule)
 */
export class RecordError extends Error {
  override readonly name = "RecordError";
  /** `description`: the description or the use is faulty (exit 2) · `data`: the data cannot carry the answer (exit 1). */
  readonly kind: "description" | "data";
  readonly where: Whereabouts;
  /** Further faults found in the same pass, one sentence each. */
  readonly others: readonly string[];

  constructor(message: string, kind: "description" | "data", where: Whereabouts = {}, others: readonly string[] = []) {
    super(message);
    this.kind = kind;
    this.where = where;
    this.others = others;
  }
}

/**
 * The house's sentence for a faulty argument: `<function>: <argument> must <requirement> (got <value>)[; <remedy>]`.
 *
 * @param at          function name, or empty for a description's path
 * @param argument    the argument or path
 * @param requirement what must hold, beginning with the verb after "must"
 * @param got         the value found, with its unit
 * @param remedy      what to do, or nothing
 */
export function mustSentence(at: string, argument: string, requirement: string, got: string, remedy?: string): string {
  const head = at === "" ? "" : `${at}: `;
  return `${head}${argument} must ${requirement} (got ${got})${remedy === undefined ? "" : `; ${remedy}`}`;
}

/**
 * A sentence without the name of the routine that says it, for readers who do not know the routine.
 *
 * @param sentence in the form of `mustSentence`; others come back as they are
 * @example withoutRoutine("fitTides: series must hold a reading (got none)") // "series must hold a reading (got none)"
 */
export function withoutRoutine(sentence: string): string {
  return sentence.replace(/^[a-z]\w+: (?=.* must )/, "");
}

/** A value as it stands in an error sentence: short, quoted if text, never `[object Object]`. */
export function shown(value: unknown, unit = ""): string {
  const tail = unit === "" ? "" : ` ${unit}`;
  if (typeof value === "string") return value.length > 60 ? `"${value.slice(0, 57)}..."` : `"${value}"`;
  if (typeof value === "number") return `${value}${tail}`;
  if (value === undefined) return "nothing";
  if (value === null) return "null";
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === "object") return "an object";
  return String(value);
}

/**
 * Checks that a number is finite and inside a closed interval.
 *
 * @throws TypeError  when it is not a number
 * @throws RangeError when it is NaN, infinite or outside
 */
export function requireWithin(at: string, argument: string, value: number, low: number, high: number, unit = ""): void {
  if (typeof value !== "number") throw new TypeError(mustSentence(at, argument, "be a number", shown(value)));
  if (value >= low && value <= high && Number.isFinite(value)) return;
  const limits =
    low === -Infinity && high === Infinity
      ? "be finite"
      : high === Infinity
        ? `be at least ${low}${unit === "" ? "" : ` ${unit}`}`
        : `be from ${low} to ${high}${unit === "" ? "" : ` ${unit}`}`;
  throw new RangeError(mustSentence(at, argument, limits, shown(value, unit)));
}

/** Beyond this no reading of any instrument lies, and sums of fourth powers still hold in a number. */
const largestReading = 1e60;

/**
 * Checks that every reading is finite or missing, and small enough to be squared.
 *
 * @param at       function name
 * @param argument the argument
 * @param values   any unit · [n] · NaN is missing
 * @param largest  largest size · default 1e60; Number.MAX_VALUE where readings are only kept and never squared
 * @throws RangeError at the first infinite reading, or one beyond the largest
 * @example requireReadings("example", "values", [1, NaN]) // nothing
 */
export function requireReadings(at: string, argument: string, values: ArrayLike<number>, largest: number = largestReading): void {
  for (let i = 0; i < values.length; i++) {
    const v = values[i];
    if (!(Math.abs(v) > largest)) continue;
    const requirement = Math.abs(v) === Infinity ? "be finite or NaN" : `lie within ±${largest}`;
    throw new RangeError(mustSentence(at, argument, requirement, `${v} at index ${i}`));
  }
}
