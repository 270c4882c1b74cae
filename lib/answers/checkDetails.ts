import type { FlagName } from "../record/flag.js";
import { type Quantity, quantityWords } from "../record/quantity.js";
import type { CheckFields, CheckPlace } from "./checkFields.js";
import type { CheckView } from "./checkView.js";
import { faultWords } from "./faultWords.js";
import { dayAndTime } from "./headText.js";
import { alignedColumns, counted, estimateInWords, grouped, shareInWords, signed, spanInWords, unitInWords, wrapped } from "./words.js";

/** How many faults of a kind the text lists one by one. */
const mostListed = 4;

/** A table where it fits the screen, its rows as text where not. */
function fitting(table: readonly string[], columns: number, rows: () => readonly string[]): string[] {
  if (table.every((line) => [...line].length <= columns)) return [...table];
  return rows().flatMap((row) => wrapped(row, columns, "    "));
}

/** Every line of every file, and why lines were rejected. */
export function fileLines(answer: CheckFields, columns: number): string[] {
  if (answer.files.length === 0) return [];
  const head = ["file", "lines", "= accepted", "+ skipped", "+ rejected"];
  const rows = answer.files.map((f) => [f.path, grouped(f.lines), grouped(f.accepted), grouped(f.skipped), grouped(f.rejected.length)]);
  const table = alignedColumns([head, ...rows], [1, 2, 3, 4]).map((l) => `  ${l}`);
  const lines = fitting(table, columns, () => rows.map(([path, all, accepted, skipped, rejected]) => `  ${path}: ${all} lines = ${accepted} accepted + ${skipped} skipped + ${rejected} rejected`));
  for (const f of answer.files) {
    if (f.rejected.length === 0) continue;
    const first = f.rejected.slice(0, 3).map((r) => `line ${r.line}: ${r.reason}`);
    const more = f.rejected.length > 3 ? `; ${f.rejected.length - 3} more in --json` : "";
    lines.push(...wrapped(`  rejected in ${f.path}: ${first.join("; ")}${more}`, columns, "    "));
  }
  return ["Lines", ...lines];
}

/** What a place logged, its gaps and its faults. */
export function placeLines(title: string, place: CheckPlace, view: CheckView, columns: number): string[] {
  if (place.readings === 0) return [`${title}: no reading`];
  const step = place.medianStepSeconds > 0 ? `one every ${spanInWords(place.medianStepSeconds)}` : "a single instant";
  const lines = wrapped(`${title}: ${counted(place.readings, "reading")}, ${step}, coverage ${shareInWords(place.coverage)}`, columns, "  ");
  const rows = Object.entries(place.quantities).map(([q, s]) => {
    const number = (v: number | null): string => (v === null || Number.isNaN(v) ? "–" : signed(v, 1));
    return [quantityWords[q as Quantity], number(s.min), number(s.mean), number(s.max), unitInWords(view.unitOf(q)), shareInWords(s.coverage)];
  });
  const table = alignedColumns([["", "lowest", "mean", "highest", "", "coverage"], ...rows], [1, 2, 3, 5]).map((l) => `  ${l}`);
  lines.push(...fitting(table, columns, () => rows.map(([what, low, mean, high, unit, coverage]) => `  ${what}: ${low} to ${high} ${unit}, mean ${mean} ${unit}, coverage ${coverage}`)));
  if (place.repeated + place.conflicting > 0) {
    const conflict = place.conflicting > 0 ? `, ${counted(place.conflicting, "row")} that contradict a row of the same instant (the first was kept)` : "";
    lines.push(...wrapped(`  ${counted(place.repeated, "repeated row")}${conflict}`, columns, "    "));
  }
  if (place.gaps.length > 0) {
    const longest = [...place.gaps].sort((a, b) => b.hours - a.hours).slice(0, 3);
    const told = longest.map((g) => `${spanInWords(3600 * g.hours)} from ${dayAndTime(g.from, view.offsetHours)}`);
    lines.push(...wrapped(`  ${counted(place.gaps.length, "gap")}, the longest: ${told.join("; ")}`, columns, "    "));
  } else lines.push("  no gaps");
  for (const s of place.setAside ?? []) lines.push(...wrapped(`  set aside: ${counted(s.readings, "reading")} of a reset clock, ${dayAndTime(s.from, view.offsetHours)} to ${dayAndTime(s.to, view.offsetHours)}`, columns, "    "));
  lines.push(...faultLines(place, view, columns));
  return lines;
}

function faultLines(place: CheckPlace, view: CheckView, columns: number): string[] {
  const lines: string[] = [];
  for (const flag of Object.keys(faultWords) as FlagName[]) {
    const runs = place.faults.filter((f) => f.flag === flag);
    if (runs.length === 0) continue;
    const { what, use } = faultWords[flag];
    lines.push(...wrapped(`  ${what}: ${counted(place.flags[flag] ?? 0, "reading")} in ${counted(runs.length, "run")} (${use})`, columns, "    "));
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

/** The zone, jumps and changes of the clock, one logger against another, all against the sun. */
export function clockLines({ clock }: CheckFields, view: CheckView, columns: number): string[] {
  const title = (name: string): string => view.titles[name] ?? name;
  const lines = wrapped(`Clock: zone ${clock.zone}, ${counted(clock.corrections, "correction")} applied`, columns, "  ");
  const say = (text: string): void => void lines.push(...wrapped(`  ${text}`, columns, "    "));
  for (const j of clock.jumps) say(`the clock of ${title(j.place)} goes ${j.seconds < 0 ? "back" : "forward"} by ${spanInWords(j.seconds)} after ${dayAndTime(j.at, view.offsetHours)}`);
  if (clock.skippedHours.length + clock.repeatedHours.length > 0) {
    say(`civil clock changes: ${[...clock.skippedHours, ...clock.repeatedHours].sort().map((t) => dayAndTime(t, view.offsetHours)).join("; ")} (standard time)`);
  }
  for (const b of clock.betweenPlaces) {
    const ahead = b.offset.low > 0 ? "ahead of" : b.offset.high < 0 ? "behind" : "";
    const size = `${Math.abs(Math.round(b.offset.value))} ± ${Math.round((b.offset.high - b.offset.low) / 2)} s`;
    const drift = b.drift === null || (b.drift.low <= 0 && b.drift.high >= 0) ? "" : `, changing by ${estimateInWords(b.drift).replace(" s d-1", " s a day")}`;
    say(ahead === "" ? `the clocks of ${title(b.a)} and ${title(b.b)} agree by their barometers (${size})` : `the clock of ${title(b.a)} is ${size} ${ahead} that of ${title(b.b)}, by their barometers${drift}`);
  }
  if (clock.solar !== null) say(clock.solar.says);
  return lines;
}

/** How the sensors of two places agree, with what must be known of each comparison. */
export function agreementLines({ agreement }: CheckFields, view: CheckView, columns: number): string[] {
  const rows = agreement.map((a) => {
    const unit = unitInWords(a.bias.unit);
    return [
      `${view.titles[a.a] ?? a.a} minus ${view.titles[a.b] ?? a.b}`,
      quantityWords[a.quantity],
      a.basis === "co-location" ? "side by side" : "all the time",
      estimateInWords(a.bias),
      `95 % of readings within ${signed(a.limits.low, 2)} to ${signed(a.limits.high, 2)} ${unit}`,
    ];
  });
  const lines = fitting(alignedColumns(rows).map((l) => `  ${l}`), columns, () => rows.map(([who, what, basis, bias, limits]) => `  ${who}, ${what}, ${basis}: ${bias}; ${limits}`));
  for (const [k, a] of agreement.entries()) {
    const drift = a.drift === null || (a.drift.low <= 0 && a.drift.high >= 0) ? [] : [`their difference drifts by ${estimateInWords(a.drift).replace(" year-1", " a year")}`];
    for (const warning of [...drift, ...(view.agreementWarnings[k] ?? [])]) lines.push(...wrapped(`  ${quantityWords[a.quantity]}, ${rows[k][2]}: ${warning}`, columns, "    "));
  }
  return ["Agreement", ...lines];
}
