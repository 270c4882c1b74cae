import type { FileAccount } from "../record/airRecord.js";
import type { FieldShape, ResourceShape } from "../record/description/description.js";
import { pathText } from "../record/description/faults.js";
import { quantityWords } from "../record/quantity.js";
import type { DescribeFields } from "./describeFields.js";
import { alignedColumns, counted, grouped, unitInWords, wrapped } from "./words.js";

/** How many logs the text lists. */
const mostListed = 12;

/**
 * A draft as text for people: how well the logs can be read, what each column is and why, what is asked.
 *
 * @param answer  from `describeLogs`
 * @param files   account of the lines that were looked at
 * @param columns width of the screen
 */
export function describeText(answer: DescribeFields, files: readonly FileAccount[], columns = 100): string {
  const { draft, questions } = answer;
  const lines = [`Draft of a description for ${counted(files.length, "log")}: ${draft.name}`, "", "Read by the draft", ...fileLines(files, columns)];
  for (const [i, r] of draft.resources.entries()) lines.push("", ...resourceLines(answer, r, i, columns));
  lines.push("", ...placeLines(answer, columns));
  const ask = `${counted(questions.length, "question")} that only you can answer. They stand in the draft under "questions"; write the answer where the path says, or, where the draft is right, take the question out. airtides check repeats those that are open:`;
  lines.push("", ...wrapped(ask, columns), ...questions.flatMap((q) => wrapped(`  ? ${q.path}: ${q.ask}`, columns, "    ")));
  // Names of a damaged header may hold anything: a screen shall not obey them.
  return `${lines.map((l) => l.replace(/[\u0000-\u001f\u007f-\u009f]/g, "·")).join("\n")}\n`;
}

function fileLines(files: readonly FileAccount[], columns: number): string[] {
  const listed = files.slice(0, mostListed);
  const rows = listed.map((f) => [f.path, grouped(f.lines), grouped(f.accepted), grouped(f.skipped), grouped(f.rejected.length)]);
  const lines = alignedColumns([["file", "lines", "= accepted", "+ skipped", "+ rejected"], ...rows], [1, 2, 3, 4]).map((l) => `  ${l}`);
  if (files.length > listed.length) lines.push(`  and ${files.length - listed.length} more`);
  for (const f of listed) {
    if (f.rejected.length > 0) lines.push(...wrapped(`  rejected in ${f.path}: ${f.rejected.slice(0, 2).map((r) => `line ${r.line}: ${r.reason}`).join("; ")}${f.rejected.length > 2 ? `; and ${f.rejected.length - 2} more` : ""}`, columns, "    "));
  }
  return lines;
}

function resourceLines(answer: DescribeFields, r: ResourceShape, i: number, columns: number): string[] {
  const at = `resources[${i}]`;
  const why = (path: string): string => answer.guesses.filter((g) => g.path === path).map((g) => g.because).join("; ");
  const lines = [`${at}, ${r.name}`, ...wrapped(`  files: ${why(`${at}.path`)}`, columns, "    ")];
  const dialect = [why(`${at}.dialect.delimiter`), why(`${at}.dialect.header`), why(`${at}.dialect.commentChar`), r.encoding === undefined ? "" : `encoding ${r.encoding}: ${why(`${at}.encoding`)}`];
  lines.push(...wrapped(`  lines: ${dialect.filter((d) => d !== "").join("; ")}`, columns, "    "));
  const missing = why(`${at}.schema.missingValues`);
  if (missing !== "") lines.push(...wrapped(`  missing values: ${missing}`, columns, "    "));
  for (const [k, f] of r.schema.fields.entries()) lines.push(...wrapped(`  ${k + 1}. ${f.name}: ${fieldWords(f)}${reasonsOf(answer, `${at}.schema.fields[${k}]`)}`, columns, "     "));
  return lines;
}

/** What a field is taken for. */
function fieldWords(f: FieldShape): string {
  if (f.role === "place") return `whose row it is (${Object.entries(f.values ?? {}).map(([written, place]) => (written === place ? written : `${written} is ${place}`)).join(", ")})`;
  if (f.quantity !== undefined) return `${quantityWords[f.quantity]} in ${f.unit === "degF" ? "°F" : unitInWords(f.unit ?? "") || "shares of 1"}${f.place === undefined ? "" : ` of ${f.place}`}`;
  if (f.type === "datetime" || f.type === "date" || f.type === "time") return `${f.type === "datetime" ? "date and time" : f.type === "time" ? "time of day" : "date"}, ${f.format ?? "ISO 8601"}${f.zone === undefined ? "" : `, zone ${f.zone}`}`;
  return "not read";
}

function reasonsOf({ guesses }: DescribeFields, at: string): string {
  const own = guesses.filter((g) => g.path === at || g.path.startsWith(`${at}.`)).map((g) => g.because.replace(/^not read: /, ""));
  const different = [...new Set(own)];
  return different.length === 0 ? "" : `: ${different.join("; ")}`;
}

function placeLines({ draft, guesses }: DescribeFields, columns: number): string[] {
  const places = Object.entries(draft.places ?? {});
  const head = places.length === 1 ? "One place" : `${places.length} places`;
  return [
    head,
    ...places.flatMap(([name, p]) => {
      const because = guesses.filter((g) => g.path === pathText(["places", name, "exposure"])).map((g) => g.because)[0];
      const side = p.exposure === undefined ? "outside or inside is not told" : `taken to be ${p.exposure === "outdoor" ? "outside" : "inside"}`;
      return wrapped(`  ${name}: ${side}${because === undefined ? "" : `: ${because}`}`, columns, "    ");
    }),
  ];
}
