import { instantText } from "../ground/instant.js";
import type { HousePair, PairPeriod } from "../indoors/housePair.js";
import { changesByEvent, isChangeSure, type PairChange } from "../indoors/pairChanges.js";
import type { PairNumbers } from "../indoors/pairNumbers.js";
import { dayOnly, headLines } from "./headText.js";
import { moistureLines } from "./moistureText.js";
import type { RecordHead } from "./recordHead.js";
import type { RecordView } from "./recordView.js";
import { alignedColumns, counted, estimateInWords, signed, turnedOver, wrapped } from "./words.js";

/** What the text needs besides the answer. */
export interface IndoorsView extends RecordView {
  /** Temperature factor of the surface judged. */
  readonly factor: number;
}

/**
 * What the house does to the weather, as text for people.
 *
 * @param answer  from `indoorsOf`
 * @param view    offset, titles and the surface's factor
 * @param columns width of the screen
 */
export function indoorsText(answer: { readonly record: RecordHead; readonly pairs: readonly HousePair[] }, view: IndoorsView, columns = 100): string {
  const lines = headLines(answer.record, view.offsetHours);
  for (const pair of answer.pairs) lines.push("", ...pairLines(pair, view, columns));
  lines.push(
    "",
    ...wrapped(
      "Each ± is a 95 % interval from the weather of these days; what the two sensors may add by themselves stands apart from it. Decisions about mould, structure, electricity or energy defer to local codes and licensed practice.",
      columns,
    ),
  );
  return `${lines.join("\n")}\n`;
}

function pairLines(pair: HousePair, view: IndoorsView, columns: number): string[] {
  const [inside, outside] = [pair.inside, pair.outside].map((name) => view.titles[name] ?? name);
  const lines = [`${inside} against ${outside}, ${Number(pair.days.toFixed(1))} days in both`];
  const say = (text: string): void => void lines.push(...wrapped(text, columns));
  for (const sentence of temperatureSentences(pair, inside)) say(sentence);
  const sensors = pair.sensorOffset.temperature;
  if (sensors !== null) {
    say(
      pair.sensorOffset.basis === "co-location"
        ? `Side by side the two thermometers differed by ${estimateInWords(sensors)}: that was taken off.`
        : `The two thermometers were never told to stand side by side: they may add ${estimateInWords(sensors)} by themselves. A day or two on one table, told as an event of kind co-location, settles it.`,
    );
  }
  if (pair.response.some((b) => b.gain !== null)) lines.push("", ...responseLines(pair));
  const moisture = moistureLines(pair, view.factor, columns);
  if (moisture.length > 0) lines.push("", ...moisture);
  if (pair.periods.length > 0) lines.push("", ...changeLines(pair, view, columns));
  lines.push("");
  for (const warning of pair.warnings) lines.push(...wrapped(`  ! ${warning}`, columns, "    "));
  return lines;
}

function temperatureSentences(pair: PairNumbers, inside: string): string[] {
  const out: string[] = [];
  const { meanDifference: difference, spread, decrementFactor: factor, timeLag: lag, timeConstant, varianceRatio, maxCorrelation } = pair;
  if (difference !== null) {
    const direction = difference.low > 0 ? "warmer than" : difference.high < 0 ? "colder than" : "from";
    const size = direction === "from" ? `differs by ${estimateInWords(difference)}` : `is ${estimateInWords(direction === "colder than" ? turnedOver(difference) : difference)}`;
    out.push(`On average ${inside} ${size} ${direction} outside. Its temperature spreads by ${spread.inside.toFixed(1)} K, outside by ${spread.outside.toFixed(1)} K (standard deviation).`);
  }
  if (factor !== null) {
    const later = lag === null ? "" : lag.value < 0 ? `, ${estimateInWords(turnedOver(lag))} ahead of it` : `, ${estimateInWords(lag)} later`;
    const who = pair.daysLeftAlone === undefined ? "It" : `On the ${pair.daysLeftAlone.toFixed(0)} days it was left alone (for weeks something holds it: thermostat, cooling, people) it`;
    out.push(`${who} follows the daily swing by ${estimateInWords(factor)} (decrement factor)${later}.`);
  }
  out.push(timeConstant === null ? "No one time constant describes it; the reasons stand below." : `One apparent time constant describes how it follows the weather of several days: ${estimateInWords(timeConstant)}.`);
  if (varianceRatio !== null) out.push(`Of the variance of days and hours (departures from the 5-day mean) it keeps ${estimateInWords(varianceRatio)}.`);
  const { value, lag: at, raw } = maxCorrelation;
  if (value !== null && at !== null) {
    const plain = raw === null || Number.isNaN(raw.withCycle) ? "" : ` Plainly correlated without a lag they give ${signed(raw.withCycle, 2)}. ${raw.says}`;
    const when = at.value < 0 ? `${estimateInWords(turnedOver(at))} earlier` : `${estimateInWords(at)} later`;
    out.push(`Departures from the 5-day mean agree best ${when}, with a correlation of ${estimateInWords(value)}.${plain}`);
  }
  return out;
}

function responseLines({ response }: PairNumbers): string[] {
  const period = (cpd: number): string => (cpd < 0.9 ? `${(1 / cpd).toFixed(1)} d` : `${(24 / cpd).toFixed(cpd > 2.6 ? 1 : 0)} h`);
  const rows = response
    .filter((b) => b.gain !== null)
    .map((b) => [period(b.cyclesPerDay), b.gain === null ? "" : estimateInWords(b.gain), b.lagHours === null ? "not told" : estimateInWords(b.lagHours), b.coherence === null ? "" : b.coherence.toFixed(2)]);
  return ["  how it answers slow and quick weather", ...alignedColumns([["about", "gain", "lag", "coherence"], ...rows]).map((l) => `    ${l}`)];
}

const words: Readonly<Record<string, string>> = {
  meanDifference: "mean difference",
  decrementFactor: "decrement factor",
  timeLag: "time lag",
  timeConstant: "time constant",
  moistureExcess: "vapor excess",
  vaporPressureExcess: "vapor pressure excess",
};

function changeLines(pair: HousePair, view: IndoorsView, columns: number): string[] {
  const lines: string[] = ["  before and after"];
  for (const [k, changes] of changesByEvent(pair.changes).entries()) {
    const [before, after] = [pair.periods[k], pair.periods[k + 1]];
    if (before === undefined || after === undefined) continue;
    const to = (period: PairPeriod): string => (period.from === period.to ? "" : ` to ${lastDay(period.to, view.offsetHours)}`);
    const from = (period: PairPeriod): string => (period.from === period.to ? "" : ` from ${dayOnly(period.from, view.offsetHours)}`);
    const days = `${counted(Math.round(before.days), "day")} before${to(before)}, ${counted(Math.round(after.days), "day")} after${from(after)}`;
    lines.push(...wrapped(`    Since “${changes[0].event}” on ${dayOnly(changes[0].at, view.offsetHours)} (${days}):`, columns, "    "));
    const reasons = new Set(changes.map((c) => (c.change === null ? reasonOf(c) : null)));
    if (reasons.size === 1 && !reasons.has(null)) {
      lines.push(...wrapped(`      nothing told: ${[...reasons][0]}`, columns, "      "));
      continue;
    }
    const factor = changes.find((c) => c.quantity === "decrementFactor");
    if (factor?.change != null && before.decrementFactor !== null && after.decrementFactor !== null) {
      const verdict = isChangeSure(factor) ? "" : ", no change beyond chance";
      lines.push(...wrapped(`      the room follows the daily swing by ${estimateInWords(after.decrementFactor)} instead of ${estimateInWords(before.decrementFactor)}${verdict}.`, columns, "      "));
    }
    for (const change of changes) lines.push(...wrapped(`      ${changeSentence(change)}`, columns, "      "));
  }
  return lines;
}

/** The last day of a period that ends with the instant given. */
function lastDay(end: string, offsetHours: number): string {
  return dayOnly(instantText(Date.parse(end) - 1000), offsetHours);
}

/** Why a change is not told, without the event's name. */
function reasonOf({ says }: PairChange): string {
  return says === null ? "no reason given" : says.slice(says.lastIndexOf(": ") + 2).replace(/\.$/, "");
}

function changeSentence(c: PairChange): string {
  const word = words[c.quantity];
  if (c.change === null) return `${word}: not told (${reasonOf(c)})`;
  const ratio = c.ratio === null ? "" : ` (times ${estimateInWords(c.ratio)})`;
  return `${word}: ${c.change.value < 0 ? "" : "+"}${estimateInWords(c.change)}${ratio}${isChangeSure(c) ? "" : ", no change beyond chance"}`;
}
