/** What a cell looks like, before anything is known of its column. */
export type CellKind = "empty" | "number" | "stamp" | "word" | "odd";

const digitsForm = /^[+-]?(\d+|\d{1,3}([.,' \u00a0\u202f]\d{3})+)?([.,]\d*)?([eE][+-]?\d+)?$/;
const numberWithUnit = /^(\p{L}[\p{L}_]{0,11}\s?[=:]\s?)?[+-]?\d[\d.,]*\s?[^\d\s,;|]{0,6}$/u;
const dateForm = /^\p{L}{0,9}[,.]? ?(\d{1,4}([-/.]|\. |年)\d{1,2}([-/.]|\. |月)\d{1,4}\.?日?|\d{1,2}[-/. ]{0,2}\p{L}{3,9}\.?,?[-/. ]{0,2}\d{2,4}|\d{4}[-/. ]\p{L}{3,9}\.?[-/. ]\d{1,2}|\p{L}{3,9}\.? \d{1,2},? \d{2,4}|\d{8}|\d{4}-\d{3})/u;
const timeForm = /^[T _,-]{0,3}\d{1,2}[:.h-]\d{1,2}([:.m]\d{1,2}([.,:]\d{1,9})?)?\s?([AaPp]\.?\s?[Mm]\.?)?\s?(Z|[+-]\d{2}(:?\d{2})?)?(\s?\p{L}{1,5}([+-]\d{1,2})?)?$/u;
const packedTime = /^[T _-]?\d{4}(\d{2})?Z?$/;
const wordForm = /^[^\d,;|\t]*\p{L}[^,;|\t]*$/u;
const markForm = /^[-*?#.]+$/;

/** Sorts a cell by its look: empty, a number in any style, a stamp or a part of one, a word, or anything else. */
export function cellKind(cell: string): CellKind {
  if (cell === "") return "empty";
  if (digitsForm.test(cell) && /\d/.test(cell)) return "number";
  if (isStamp(cell)) return "stamp";
  if (numberWithUnit.test(cell)) return "number";
  return wordForm.test(cell) || markForm.test(cell) ? "word" : "odd";
}

function isStamp(cell: string): boolean {
  const date = dateForm.exec(cell)?.[0];
  if (date !== undefined) {
    const rest = cell.slice(date.length);
    return rest === "" || /^\s?(Z|\p{L}{1,4})$/u.test(rest) || timeForm.test(rest) || packedTime.test(rest);
  }
  if (timeForm.test(cell) && /[:h]/.test(cell)) return true;
  const time = /^\d{1,2}[:.h]\d{2}([:.]\d{2})?(\s?[AaPp][Mm])?[ ,]+/.exec(cell)?.[0];
  return time !== undefined && dateForm.test(cell.slice(time.length));
}
