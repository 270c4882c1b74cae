import type { AirRecord } from "../record/airRecord.js";
import type { Finding, FindingWords } from "../trust/findings/finding.js";
import { agreementLines, clockLines, fileLines, placeLines } from "./checkDetails.js";
import type { CheckFields } from "./checkFields.js";
import type { CheckView } from "./checkView.js";
import { commandMeaning, type CommandMeaning } from "./commandMeaning.js";
import { dayAndTime, dayOnly, headLines } from "./headText.js";
import { capital, counted, wrapped } from "./words.js";

/**
 * The trust report as text for people: the verdict, what is fine, each problem with what to do about it, what it means for the later
 * commands; then the details.
 *
 * @param answer   from `checkRecord`
 * @param findings of the same record, in the words of `screenWords`
 * @param record   the record, flagged
 * @param view     offset, titles and units
 * @param columns  width of the screen
 */
export function checkText(answer: CheckFields, findings: readonly Finding[], record: AirRecord, view: CheckView, columns = 100): string {
  const lines = [...headLines(answer.record, view.offsetHours).flatMap((l) => wrapped(l, columns)), "", `This record is ${answer.verdict.level.toUpperCase()}.`];
  lines.push(...questionLines(answer, columns), ...fineLines(findings, columns), ...problemLines(findings, columns), ...meaningLines(commandMeaning(record, findings), columns));
  lines.push("", "The details", ...fileLines(answer, columns));
  for (const [name, place] of Object.entries(answer.places)) lines.push("", ...placeLines(view.titles[name] ?? name, place, view, columns));
  lines.push("", ...clockLines(answer, view, columns));
  if (answer.agreement.length > 0) lines.push("", ...agreementLines(answer, view, columns));
  for (const [name, altitude] of Object.entries(answer.altitude)) lines.push("", ...wrapped(`Barometer, ${view.titles[name] ?? name}: ${altitude.says}`, columns, "  "));
  return `${lines.join("\n")}\n`;
}

/** How findings name places and times on a screen: titles, and the record's standard time. */
export function screenWords({ titles, offsetHours }: CheckView): FindingWords {
  const moment = (at: number): string => dayAndTime(new Date(at).toISOString(), offsetHours);
  return {
    place: (name) => titles[name] ?? name,
    day: (at) => dayOnly(new Date(at).toISOString(), offsetHours),
    span: (from, to) => {
      const [first, last] = [moment(from), moment(to)];
      if (first === last) return first;
      return `${first} to ${last.slice(0, -6) === first.slice(0, -6) ? last.slice(-5) : last}`;
    },
  };
}

/** What the description leaves open, until its owner answers. */
function questionLines({ questions = [] }: CheckFields, columns: number): string[] {
  if (questions.length === 0) return [];
  const head = `${counted(questions.length, "open question")} in the description. Write the answer where the path says, or, where the draft is right, take the question out of "questions":`;
  return ["", ...wrapped(head, columns), ...questions.flatMap(({ path, ask }) => wrapped(`  ? ${path}: ${ask}`, columns, "    "))];
}

function fineLines(findings: readonly Finding[], columns: number): string[] {
  const good = findings.filter((f) => f.weight === 0);
  return good.length === 0 ? [] : ["", "What is fine", ...good.flatMap(({ says }) => wrapped(`  · ${sentence(says)}`, columns, "    "))];
}

function problemLines(findings: readonly Finding[], columns: number): string[] {
  const bad = findings.filter((f) => f.weight > 0).sort((a, b) => b.weight - a.weight);
  if (bad.length === 0) return ["", ...wrapped("Nothing was found that must be mended.", columns)];
  const lines = ["", "What is not, and what to do"];
  for (const [k, { weight, says, remedy }] of bad.entries()) {
    lines.push(...wrapped(`${String(k + 1).padStart(3)} ${weight === 2 ? "! " : ""}${sentence(says)}`, columns, "    "));
    if (remedy !== "") lines.push(...wrapped(`    → ${sentence(remedy)}`, columns, "      "));
  }
  return lines;
}

function meaningLines(meanings: readonly CommandMeaning[], columns: number): string[] {
  const margin = Math.max(...meanings.map(({ command }) => command.length)) + 4;
  const told = meanings.flatMap(({ command, says }) =>
    says.flatMap((text, k) => wrapped(`  ${(k === 0 ? command : "").padEnd(margin - 4)}  ${text}`, columns, " ".repeat(margin))),
  );
  return ["", "What it means for the other commands", ...told];
}

const sentence = (text: string): string => `${capital(text)}${/[.:]$/.test(text) ? "" : "."}`;
