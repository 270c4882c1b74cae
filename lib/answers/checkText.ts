import type { FlagName } from "../record/flag.js";
import { type Quantity, quantityWords } from "../record/quantity.js";
import type { CheckFields, CheckPlace } from "./checkFields.js";
import { dayAndTime, headLines } from "./headText.js";
import { alignedColumns, counted, estimateInWords, grouped, shareInWords, signed, spanInWords, unitInWords, wrapped } from "./words.js";

/** What the text needs besides the answer. */
export interface CheckView {
  readonly offsetHours: number;
  readonly titles: Readonly<Record<string, string>>;
  readonly unitOf: (quantity: string) => string;
}

const faultWords: Readonly<Record<FlagName, string>> = {
  range: "cannot be",
  spike: "spike",
  stuck: "stuck",
  step: "level shift",
  saturated: "saturated",
  swapped: "places exchanged",
  warmed: "warmed by sun",
};

/** What becomes of readings with each flag. */
const faultUse: Readonly<Record<FlagName, string>> = {
  range: "left out",
  spike: "left out",
  stuck: "left out",
  step: "kept; the tide is fitted on either side",
  saturated: "kept",
  swapped: "left out",
  warmed: "kept; reads too warm",
};

/** How many faults of a kind the text lists one by one. */
const mostListed = 4;

/**
 * The trust report as text for people: the verdict, what is fine, then each problem.
 *
 * @param answer  from `checkRecord`
 * @param view    offset, titles and units
 * @param columns width of the screen
 */
export function checkText(answer: CheckFields, view: CheckView, columns = 100): string {
  const lines = [...headLines(answer.record, view.offsetHours), "", `This record is ${answer.verdict.level.toUpperCase()}.`];
  for (const reason of answer.verdict.reasons) lines.push(...wrapped(`  · ${reason}`, columns, "    "));
  lines.push(...questionLines(answer, columns), "", "Lines", ...fileLines(answer, columns));
  for (const [name, place] of Object.entries(answer.places)) lines.push("", ...placeLines(view.titles[name] ?? name, place, view, columns));
  lines.push("", ...clockLines(answer, view, columns));
  if (answer.agreement.length > 0) lines.push("", ...agreementLines(answer, view));
  for (const [name, altitude] of Object.entries(answer.altitude)) lines.push("", ...wrapped(`Barometer, ${view.titles[name] ?? name}: ${altitude.says}`, columns, "  "));
  return `${lines.join("\n")}\n`;
}

/** What the description leaves open, until its owner answers. */
function questionLines({ questions = [] }: CheckFields, columns: number): string[] {
  if (questions.length === 0) return [];
  const head = `${counted(questions.length, "open question")} in the description. Write the answer where the path says, or, where the draft is right, take the question out of "questions":`;
  return ["", ...wrapped(head, columns), ...questions.flatMap(({ path, ask }) => wrapped(`  ? ${path}: ${ask}`, columns, "    "))];
}

function fileLines(answer: CheckFields, columns: number): string[] {
  const head = ["file", "lines", "= accepted", "+ skipped", "+ rejected"];
  const rows = answer.files.map((f) => [f.path, grouped(f.lines), grouped(f.accepted), grouped(f.skipped), grouped(f.rejected.length)]);
  const lines = alignedColumns([head, ...rows], [1, 2, 3, 4]).map((l) => `  ${l}`);
  for (const f of answer.files) {
    if (f.rejected.length === 0) continue;
    const first = f.rejected.slice(0, 3).map((r) => `line ${r.line}: ${r.reason}`);
    const more = f.rejected.length > 3 ? `; ${f.rejected.length - 3} more in --json` : "";
    lines.push(...wrapped(`  rejected in ${f.path}: ${first.join("; ")}${more}`, columns, "    "));
  }
  return lines;
}

function placeLines(title: string, place: CheckPlace, view: CheckView, columns: number): string[] {
  if (place.readings === 0) return [`${title}: no reading`];
  const step = place.medianStepSeconds > 0 ? `one every ${spanInWords(place.medianStepSeconds)}` : "a single instant";
  const lines = [`${title}: ${counted(place.readings, "reading")}, ${step}, coverage ${shareInWords(place.coverage)}`];
  const rows = Object.entries(place.quantities).map(([q, s]) => {
    const unit = unitInWords(view.unitOf(q));
    const number = (v: number | null): string => (v === null ? "–" : signed(v, 1));
    return [quantityWords[q as Quantity], number(s.min), number(s.mean), number(s.max), unit, shareInWords(s.coverage)];
  });
  lines.push(...alignedColumns([["", "lowest", "mean", "highest", "", "coverage"], ...rows], [1, 2, 3, 5]).map((l) => `  ${l}`));
  if (place.repeated + place.conflicting > 0) {
    const conflict = place.conflicting > 0 ? `, ${counted(place.conflicting, "row")} that contradict a row of the same instant (the first was kept)` : "";
    lines.push(...wrapped(`  ${counted(place.repeated, "repeated row")}${conflict}`, columns, "    "));
  }
  if (place.gaps.length > 0) {
    const longest = [...place.gaps].sort((a, b) => b.hours - a.hours).slice(0, 3);
    const told = longest.map((g) => `${spanInWords(3600 * g.hours)} from ${dayAndTime(g.from, view.offsetHours)}`);
    lines.push(...wrapped(`  ${counted(place.gaps.length, "gap")}, the longest: ${told.join("; ")}`, columns, "    "));
  } else lines.push("  no gaps");
  lines.push(...faultLines(place, view, columns));
  return lines;
}

function faultLines(place: CheckPlace, view: CheckView, columns: number): string[] {
  const lines: string[] = [];
  for (const flag of Object.keys(faultWords) as FlagName[]) {
    const runs = place.faults.filter((f) => f.flag === flag);
    if (runs.length === 0) continue;
    const readings = place.flags[flag] ?? 0;
    lines.push(`  ${faultWords[flag]}: ${counted(readings, "reading")} in ${counted(runs.length, "run")} (${faultUse[flag]})`);
    const largest = [...runs].sort((a, b) => b.readings - a.readings || Math.abs(b.size ?? 0) - Math.abs(a.size ?? 0)).slice(0, mostListed);
    for (const f of largest.sort((a, b) => Date.parse(a.from) - Date.parse(b.from))) {
      const size = f.size === null ? "" : `, ${f.size > 0 ? "+" : ""}${signed(f.size, 1)} ${unitInWords(view.unitOf(f.quantity))}`;
      const to = f.to === f.from ? "" : ` to ${dayAndTime(f.to, view.offsetHours)}`;
      lines.push(...wrapped(`      ${quantityWords[f.quantity]}, ${dayAndTime(f.from, view.offsetHours)}${to}${size}`, columns, "        "));
    }
    if (runs.length > mostListed) lines.push(`      and ${runs.length - mostListed} more in --json`);
  }
  if (lines.length === 0) lines.push("  no faulty readings found");
  return lines;
}

function clockLines(answer: CheckFields, view: CheckView, columns: number): string[] {
  const { clock } = answer;
  const lines = [`Clock: zone ${clock.zone}, ${counted(clock.corrections, "correction")} applied`];
  for (const j of clock.jumps) {
    lines.push(...wrapped(`  the clock of ${view.titles[j.place] ?? j.place} goes ${j.seconds < 0 ? "back" : "forward"} by ${spanInWords(j.seconds)} after ${dayAndTime(j.at, view.offsetHours)}`, columns, "    "));
  }
  if (clock.skippedHours.length + clock.repeatedHours.length > 0) {
    lines.push(...wrapped(`  civil clock changes: ${[...clock.skippedHours, ...clock.repeatedHours].sort().map((t) => dayAndTime(t, view.offsetHours)).join("; ")} (standard time)`, columns, "    "));
  }
  for (const b of clock.betweenPlaces) {
    const ahead = b.offset.low > 0 ? "ahead of" : b.offset.high < 0 ? "behind" : "";
    const [a, other] = [view.titles[b.a] ?? b.a, view.titles[b.b] ?? b.b];
    const size = `${Math.abs(Math.round(b.offset.value))} ± ${Math.round((b.offset.high - b.offset.low) / 2)} s`;
    const drift = b.drift === null || (b.drift.low <= 0 && b.drift.high >= 0) ? "" : `, changing by ${estimateInWords(b.drift).replace(" s d-1", " s a day")}`;
    lines.push(...wrapped(ahead === "" ? `  the clocks of ${a} and ${other} agree by their barometers (${size})` : `  the clock of ${a} is ${size} ${ahead} that of ${other}, by their barometers${drift}`, columns, "    "));
  }
  if (clock.solar !== null) lines.push(...wrapped(`  ${clock.solar.says}`, columns, "    "));
  return lines;
}

function agreementLines(answer: CheckFields, view: CheckView): string[] {
  const rows = answer.agreement.map((a) => {
    const unit = unitInWords(a.bias.unit);
    return [
      `${view.titles[a.a] ?? a.a} minus ${view.titles[a.b] ?? a.b}`,
      quantityWords[a.quantity],
      a.basis === "co-location" ? "side by side" : "all the time",
      estimateInWords(a.bias),
      `95 % of readings within ${signed(a.limits.low, 2)} to ${signed(a.limits.high, 2)} ${unit}`,
    ];
  });
  return ["Agreement", ...alignedColumns(rows).map((l) => `  ${l}`)];
}
