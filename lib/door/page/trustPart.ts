import type { CheckFields, CheckPlace } from "../../answers/checkFields.js";
import { faultWords } from "../../answers/faultWords.js";
import { dayAndTime } from "../../answers/headText.js";
import { counted, estimateInWords, grouped, shareInWords, signed, spanInWords, turnedOver, unitInWords } from "../../answers/words.js";
import type { ThemedFigure } from "./themedFigure.js";
import { houseUnit, quantityWords } from "../../record/quantity.js";
import type { ReportAnswers } from "./reportAnswers.js";
import type { PlainTable } from "./reportMarkup.js";
import type { ReportPart } from "./reportPart.js";

const openings: Readonly<Record<"good" | "usable" | "poor", string>> = { good: "Yes", usable: "Yes, with care", poor: "Not as it stands" };
/** Runs of faults told on the page; all stand in `check --json`. */
const mostRuns = 60;

/** Can I trust this record: the verdict, what was lost, what is faulty, clocks and barometers. */
export function trustPart({ check, view }: ReportAnswers, figures: readonly ThemedFigure[]): ReportPart {
  const title = (name: string): string => view.titles[name] ?? name;
  const { level, reasons } = check.verdict;
  // The last reason is among the gravest.
  const brief = `${openings[level]}: ${linesSentence(check)}.${level === "good" ? "" : ` Above all, ${reasons[reasons.length - 1]}.`}`;
  const more = [coverageSentence(check, title), clockSentence(check, title), agreementSentence(check, title)].filter((s) => s !== "");
  const kept = Object.values(check.places).reduce((n, p) => n + p.flags.warmed + p.flags.saturated, 0);
  return {
    id: "trust",
    heading: "Can I trust this record?",
    brief,
    answer: `${brief} ${more.join(" ")}`,
    figures,
    found: reasons,
    tables: [linesTable(check), placesTable(check, title), ...faultsTable(check, view.offsetHours, title)],
    mislead: [
      "A sensor that drifts slowly looks like weather: only two sensors side by side, again after some months, show it.",
      "The tide tells a wrong clock only up to twelve hours; the warmest hour of the day picks the half.",
      ...Object.entries(check.altitude).map(([name, a]) => `The barometer of ${title(name)} implies a height of ${estimateInWords(a.impliedElevation)}, as fine as weather lets it be judged: a smaller error of it cannot be seen here.`),
      ...(kept === 0 ? [] : [`${counted(kept, "reading")} marked as warmed or saturated stay in, so highest temperatures and humidities may be too high.`]),
    ],
    made: [
      "Every line of every log is accounted for: lines = accepted + skipped + rejected. Readings are marked, never deleted; those that cannot be, spikes, stuck and exchanged ones are left out of every analysis.",
      "Two clocks are compared by the pressure both barometers feel; one clock by the hour of the tide, which is nearly the same everywhere by the sun. A barometer's level is compared with the standard atmosphere at the told height.",
    ],
    sources: ["dataPackage", "standardAtmosphere", "chapman"],
  };
}

function linesSentence({ files }: CheckFields): string {
  const lines = files.reduce((n, f) => n + f.lines, 0);
  const accepted = files.reduce((n, f) => n + f.accepted, 0);
  const rejected = files.reduce((n, f) => n + f.rejected.length, 0);
  if (lines === 0) return "the readings were handed over without a log";
  return `of ${grouped(lines)} lines ${grouped(accepted)} became readings and ${rejected === 0 ? "none was unreadable" : `${grouped(rejected)} could not be read`}`;
}

function coverageSentence({ places }: CheckFields, title: (name: string) => string): string {
  const told = Object.entries(places).map(([name, p], i) => `${title(name)} ${i === 0 ? "is covered " : ""}for ${shareInWords(p.coverage)}${i === 0 ? " of its time" : ""}`);
  return told.length === 0 ? "" : `${told.join(", ")}.`;
}

function clockSentence({ clock }: CheckFields, title: (name: string) => string): string {
  return clock.betweenPlaces
    .map(({ a, b, offset }) => {
      const size = `${Math.abs(Math.round(offset.value))} ± ${Math.round((offset.high - offset.low) / 2)} s`;
      if (offset.low <= 0 && offset.high >= 0) return `By their barometers the clocks of ${title(a)} and ${title(b)} agree (${signed(offset.value, 0)} ± ${Math.round((offset.high - offset.low) / 2)} s).`;
      return `By their barometers the clock of ${title(a)} is ${size} ${offset.value > 0 ? "ahead of" : "behind"} that of ${title(b)}.`;
    })
    .join(" ");
}

function agreementSentence({ agreement }: CheckFields, title: (name: string) => string): string {
  const side = agreement.find((a) => a.basis === "co-location" && a.quantity === "air_temperature") ?? agreement[0];
  if (side === undefined) return "";
  const how = side.basis === "co-location" ? "Side by side" : "All the time";
  // Only barometers are compared over the whole record, so only theirs can drift.
  const drifting = agreement.find(({ drift }) => drift !== null && (drift.low > 0 || drift.high < 0));
  const drift = drifting?.drift ?? null;
  const apart = drifting === undefined || drift === null ? "" : ` Their barometers drift apart by ${estimateInWords({ ...(drift.value < 0 ? turnedOver(drift) : drift), unit: drifting.bias.unit })} a year.`;
  return `${how}, the ${wordOf(side.quantity)} of ${title(side.a)} minus that of ${title(side.b)} is ${estimateInWords(side.bias)}.${apart}`;
}

function wordOf(quantity: string): string {
  return quantityWords[quantity as keyof typeof quantityWords] ?? quantity;
}

function linesTable({ files }: CheckFields): PlainTable {
  return {
    caption: "Every line of every log",
    head: ["file", "lines", "accepted", "skipped", "not readable"],
    rows: files.map((f) => [f.path, grouped(f.lines), grouped(f.accepted), grouped(f.skipped), grouped(f.rejected.length)]),
  };
}

function placesTable({ places }: CheckFields, title: (name: string) => string): PlainTable {
  const row = ([name, p]: [string, CheckPlace]): string[][] =>
    Object.entries(p.quantities).map(([q, s]) => {
      const number = (v: number | null): string => (v === null ? "–" : signed(v, 1));
      return [`${title(name)}: ${quantityWords[q as keyof typeof quantityWords]}, ${unitInWords(houseUnit[q as keyof typeof houseUnit])}`, number(s.min), number(s.mean), number(s.max), shareInWords(s.coverage), spanInWords(p.medianStepSeconds), String(p.gaps.length)];
    });
  return { caption: "What each place logged (flagged readings left out)", head: ["", "lowest", "mean", "highest", "coverage", "one every", "gaps"], rows: Object.entries(places).flatMap(row) };
}

function faultsTable({ places }: CheckFields, offsetHours: number, title: (name: string) => string): PlainTable[] {
  const runs = Object.entries(places).flatMap(([name, p]) => p.faults.map((f) => ({ name, f })));
  if (runs.length === 0) return [];
  const told = [...runs].sort((a, b) => b.f.readings - a.f.readings).slice(0, mostRuns).sort((a, b) => Date.parse(a.f.from) - Date.parse(b.f.from));
  const rows = told.map(({ name, f }) => {
    const { what, use } = faultWords[f.flag];
    const size = f.size === null ? "" : `${f.size > 0 ? "+" : ""}${signed(f.size, 1)} ${unitInWords(houseUnit[f.quantity])}`;
    return [dayAndTime(f.from, offsetHours), f.to === f.from ? "" : dayAndTime(f.to, offsetHours), `${title(name)}, ${quantityWords[f.quantity]}`, what, size, String(f.readings), use];
  });
  const cut = runs.length > told.length ? `; the ${told.length} longest of ${runs.length} runs` : "";
  return [{ isForScreen: true, caption: `Faulty readings, in the record's standard time${cut}`, head: ["from", "to", "where", "what", "size", "readings", "used?"], rows }];
}
