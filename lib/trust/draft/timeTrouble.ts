import { plainWord } from "./quantityVocabulary.js";
import { stampForms, type StampKind } from "./stampForms.js";

const join = "add a column with date and time such as 2024-03-01 09:05 first";

/**
 * Why no stamp was found in a log: what its columns hold instead, and what to do.
 *
 * @param rows  cells of the rows
 * @param width columns
 * @param names of the columns, or empty
 * @returns     what was got and the remedy, for a sentence "must tell the time of each row (got …); …"
 */
export function timeTrouble(rows: readonly (readonly string[])[], width: number, names: readonly string[]): { readonly got: string; readonly remedy: string } {
  const looked = rows.slice(0, 400);
  const called = (c: number): string => (names[c] ? `column ${c + 1}, ${names[c]}` : `column ${c + 1}`);
  const columns = Array.from({ length: width }, (_, c) => looked.map((r) => r[c] ?? ""));
  const numbers = columns.map((cells) => cells.map((t) => (/^\d+([.,]\d+)?$/.test(t) ? Number(t.replace(",", ".")) : Number.NaN)));
  for (const [c, values] of numbers.entries()) {
    if (!isMostly(values, (v) => v > 0) || !isRising(values)) continue;
    const read = `convert it, and ${join}`;
    if (isMostly(values, (v) => v >= 32874 && v < 73415) && values.some((v) => v % 1 !== 0)) return { got: `a spreadsheet's day numbers in ${called(c)}, which are not read`, remedy: `let the spreadsheet write date and time in full (2024-03-01 09:05) and save again` };
    if (isMostly(values, (v) => v >= 2447892 && v < 2488435) && values.some((v) => v % 1 !== 0)) return { got: `Julian day numbers in ${called(c)}, which are not read`, remedy: read };
  }
  const kinds = columns.map((cells) => kindOf(cells));
  const at = (kind: StampKind): number => kinds.indexOf(kind);
  const calendar = calendarColumns(numbers);
  if (calendar !== null && at("date") < 0) return { got: `year, month and day in columns of their own, from ${called(calendar)} on, which are not read`, remedy: "join them into one column such as 2024-03-01 09:05" };
  const foreign = columns.findIndex((cells) => cells.filter((t) => /\d/.test(t) && foreignMonth(t)).length > 0.3 * cells.length);
  if (foreign >= 0) return { got: `names of months that are not English in ${called(foreign)}, "${columns[foreign].find((t) => foreignMonth(t))}"`, remedy: "write the month as a number or in English" };
  const weekday = columns.findIndex((cells) => isMostly(cells.map((t) => (/^\p{L}{2,9}\.?,? +\S*\d/u.test(t) ? 1 : Number.NaN)), () => true));
  if (weekday >= 0) return { got: `words before the date in ${called(weekday)}, "${columns[weekday][0]}", which are not read`, remedy: "take the names of days away, or write ISO 8601" };
  if (at("date") >= 0) return { got: `a date alone in ${called(at("date"))}, and not one row a day`, remedy: "add a column with the time of day" };
  if (at("time") >= 0) return { got: `a time of day alone in ${called(at("time"))}`, remedy: "add a column with the date; a date in the file's name is not read" };
  const counter = numbers.findIndex((values) => isMostly(values, (v) => v >= 0) && isEven(values));
  if (counter >= 0) return { got: `a count in ${called(counter)} that begins anywhere`, remedy: `work out the time of each row from the moment the logger was started, and ${join}` };
  return { got: "no column that reads as date and time", remedy: "write date and time in each row, best as 2024-03-01 09:05" };
}

function isMostly(values: readonly number[], is: (v: number) => boolean): boolean {
  return values.length > 0 && values.filter((v) => !Number.isNaN(v) && is(v)).length >= 0.8 * values.length;
}

function isRising(values: readonly number[]): boolean {
  const known = values.filter((v) => !Number.isNaN(v));
  const up = known.filter((v, i) => i > 0 && v >= known[i - 1]).length;
  return known.length < 2 || up >= 0.9 * (known.length - 1) || up <= 0.1 * (known.length - 1);
}

/** Rises by the same step nearly always. */
function isEven(values: readonly number[]): boolean {
  const steps = values.slice(1).map((v, i) => v - values[i]);
  const usual = [...steps].sort((a, b) => a - b)[Math.floor(steps.length / 2)] ?? 0;
  return usual > 0 && steps.filter((s) => Math.abs(s - usual) <= 0.1 * usual).length >= 0.7 * steps.length;
}

function kindOf(cells: readonly string[]): StampKind | null {
  const first = cells.find((c) => /[-/.:h\p{L}]/u.test(c) && stampForms(c).length > 0);
  if (first === undefined || cells.filter((c) => /\d[-/.:h ]/.test(c)).length < 0.7 * cells.length) return null;
  const kinds = stampForms(first).map((f) => f.kind);
  return kinds.includes("datetime") ? "datetime" : kinds.includes("date") ? "date" : /[:h]/.test(first) ? "time" : null;
}

/** First of three neighbor columns that hold a year, a month and a day, in either order. */
function calendarColumns(numbers: readonly (readonly number[])[]): number | null {
  const within = (c: number, low: number, high: number): boolean => c < numbers.length && isMostly(numbers[c], (v) => Number.isInteger(v) && v >= low && v <= high);
  for (let c = 0; c + 2 < numbers.length; c++) {
    if (within(c, 1990, 2100) && within(c + 1, 1, 12) && within(c + 2, 1, 31)) return c;
    if (within(c + 2, 1990, 2100) && within(c, 1, 31) && within(c + 1, 1, 31)) return c;
  }
  return null;
}

const english = /^(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)(?!\p{L})|^(january|february|march|april|june|july|august|september|october|november|december)$/iu;
const months = /^(jan|ene|gen|janv|jän|sij|led|sty|tam|ocak|fev|feb|fév|feb|úno|lut|helm|şub|mar|mär|märz|mrt|maa|bře|abr|avr|avril|apr|huh|dub|kwi|nis|mai|maj|mei|may|mag|tou|kvě|jun|juin|juni|giu|kes|čvn|cze|haz|jul|juil|juli|lug|hei|čvc|lip|tem|ago|aoû|aug|elo|srp|sie|ağu|set|sep|sept|syy|zář|wrz|eyl|out|okt|ott|oct|lok|říj|paź|eki|nov|marras|lis|kas|dez|dec|dic|des|jou|pro|gru|ara|янв|фев|мар|апр|ма|июн|июл|авг|сен|окт|ноя|дек)/u;

/** A word in a stamp that begins like a month in another language, and no English one stands in it. */
function foreignMonth(text: string): boolean {
  const words = text.match(/\p{L}{3,}/gu) ?? [];
  return words.some((w) => !english.test(w) && (months.test(w.toLowerCase()) || months.test(plainWord(w))));
}
