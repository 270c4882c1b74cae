import { dayOnly } from "../../answers/headText.js";
import { estimateInWords, shareInWords, turnedOver } from "../../answers/words.js";
import type { ThemedFigure } from "./themedFigure.js";
import type { Estimate } from "../../ground/estimate.js";
import type { HousePair } from "../../indoors/housePair.js";
import { changesByEvent, isChangeSure } from "../../indoors/pairChanges.js";
import type { ReportAnswers } from "./reportAnswers.js";
import type { PlainTable } from "./reportMarkup.js";
import { type ReportPart, untoldPart } from "./reportPart.js";

const heading = "What does my house do to the weather?";
const changeWords: Readonly<Record<string, string>> = {
  meanDifference: "mean difference",
  decrementFactor: "share of the daily swing that comes in",
  timeLag: "delay of the daily swing",
  timeConstant: "time constant",
  moistureExcess: "moisture excess",
  vaporPressureExcess: "vapor pressure excess",
};

/** What the house does to the weather, a part for each pair of places. */
export function houseParts({ indoors, view, record }: ReportAnswers, figures: (pair: number) => readonly ThemedFigure[]): readonly ReportPart[] {
  if (indoors.answer === null) return [untoldPart("house", heading, missingSide(record) ?? indoors.why)];
  const { pairs } = indoors.answer;
  return pairs.map((pair, k) => pairPart(pair, k, view, figures(k)));
}

/** Why there is nothing to compare, for a record that was logged on one side of the wall only. */
function missingSide({ places }: ReportAnswers["record"]): string | null {
  const has = (exposure: "indoor" | "outdoor"): boolean => Object.values(places).some((p) => p.exposure === exposure);
  if (has("indoor") && has("outdoor")) return null;
  return `no place of it is marked as ${has("indoor") ? "outside" : "inside"}; log both at once and tell which is which in the description ("exposure": "indoor" or "outdoor")`;
}

function pairPart(pair: HousePair, k: number, view: ReportAnswers["view"], figures: readonly ThemedFigure[]): ReportPart {
  const inside = view.titles[pair.inside] ?? pair.inside;
  const outside = view.titles[pair.outside] ?? pair.outside;
  const brief = `${levelSays(pair, inside, outside)}${swingSays(pair)}.`;
  const constant = pair.timeConstant === null ? " No one time constant describes it; the reasons stand below." : ` It follows weather of several days with an apparent time constant of ${estimateInWords(pair.timeConstant)}.`;
  return {
    id: k === 0 ? "house" : `house-${k + 1}`,
    heading: `${inside} against ${outside}`,
    brief,
    answer: `${brief}${constant}${moistureSays(pair)}${changeSays(pair)}`,
    figures,
    tables: [numbersTable(pair, view.offsetHours), ...changesTable(pair), ...responseTable(pair)],
    mislead: pair.warnings,
    made: [
      `From ${Math.round(24 * pair.days)} hours that both places share. Differences are inside minus outside; a delay is positive when the inside is later; ± is what these days' weather leaves open, and what the sensors themselves may add stands beside it`,
      "The share of the daily swing and its delay compare the two mean daily cycles; the time constant follows all of outside's swings through one resistance and one capacity, and is told only where swings and daily line agree",
      ...(pair.mould === null ? [] : [`Mould and condensation are judged on an inner surface of temperature factor ${pair.mould.factor.toFixed(2)}: 80 % and 100 % humidity at that surface`]),
    ],
    sources: ["iso13786", "iso13788", "din4108", "comfort", "welch"],
    caution: "Decisions about mould, structure, electricity or energy defer to local codes and licensed practice: this page is a reason to ask, not a reason to build.",
  };
}

function levelSays({ meanDifference: d }: HousePair, inside: string, outside: string): string {
  if (d === null) return `How much warmer ${inside} is than ${outside} cannot be told yet`;
  if (d.low > 0) return `On average ${inside} is ${estimateInWords(d)} warmer than ${outside}`;
  if (d.high < 0) return `On average ${inside} is ${estimateInWords(turnedOver(d))} colder than ${outside}`;
  return `On average ${inside} and ${outside} are about as warm (${estimateInWords(d)})`;
}

function swingSays({ decrementFactor, timeLag, daysLeftAlone }: HousePair): string {
  if (decrementFactor === null) return "";
  const share = estimateInWords({ ...decrementFactor, value: 100 * decrementFactor.value, low: 100 * decrementFactor.low, high: 100 * decrementFactor.high, unit: "%" });
  const later = timeLag === null ? "" : timeLag.value < 0 ? `, ${estimateInWords(turnedOver(timeLag))} before it` : `, ${estimateInWords(timeLag)} later`;
  return `; ${daysLeftAlone === undefined ? "" : "left alone, "}${share} of the daily swing outside comes in${later}`;
}

function moistureSays({ moistureExcess: m, mould }: HousePair): string {
  const excess = m === null ? "" : m.low > 0 ? ` Its air holds ${estimateInWords(m)} more water vapor.` : m.high < 0 ? ` Its air holds ${estimateInWords(turnedOver(m))} less water vapor.` : ` Its air holds about as much water vapor (${estimateInWords(m)}).`;
  if (mould === null || mould.share === null) return excess;
  const { share, hours } = mould;
  const often = hours === 0 ? `no hour of mould risk was seen (up to ${shareInWords(share.high)} may have been missed)` : `${shareInWords(share.value)} of the hours (${shareInWords(share.low)} to ${shareInWords(share.high)}) were damp enough for mould on a cold inner surface`;
  return `${excess} ${often.charAt(0).toUpperCase()}${often.slice(1)}.`;
}

function changeSays({ changes, periods }: HousePair): string {
  return changesByEvent(changes)
    .map((own, k) => {
      const { event } = own[0];
      const factor = own.find((c) => c.quantity === "decrementFactor");
      const [before, after] = [periods[k]?.decrementFactor, periods[k + 1]?.decrementFactor];
      if (factor?.change == null || before == null || after == null) return ` Whether “${event}” changed the daily swing inside cannot be told.`;
      const { change } = factor;
      const both = `${estimateInWords(before)} before, ${estimateInWords(after)} after`;
      return isChangeSure(factor) ? ` Since “${event}” ${change.value < 0 ? "less" : "more"} of the daily swing comes in: ${both}.` : ` “${event}” made no difference to the daily swing beyond chance: ${both}.`;
    })
    .join("");
}

const shown = (e: Estimate | null): string => (e === null ? "not told" : estimateInWords(e));

function numbersTable(pair: HousePair, offsetHours: number): PlainTable {
  const columns = [pair, ...pair.periods];
  const row = (name: string, of: (p: HousePair | HousePair["periods"][number]) => string): string[] => [name, ...columns.map(of)];
  const risk = (p: HousePair | HousePair["periods"][number], key: "mould" | "condensation"): string => {
    const r = p[key];
    if (r === null) return "not told";
    return `${Math.round(r.hours)} h${r.share === null ? "" : ` (${shareInWords(r.share.low)} to ${shareInWords(r.share.high)})`}`;
  };
  return {
    caption: "The numbers, for the whole record and for each time between dated events",
    head: ["", "whole record", ...pair.periods.map((p) => `${dayOnly(p.from, offsetHours)} to ${dayOnly(p.to, offsetHours)}`)],
    rows: [
      row("days in both places", (p) => p.days.toFixed(0)),
      ...(columns.some((p) => p.daysLeftAlone !== undefined) ? [row("days left alone (swing, delay, constant and variance are of these)", (p) => (p.daysLeftAlone ?? p.days).toFixed(0))] : []),
      row("mean difference", (p) => shown(p.meanDifference)),
      row("share of the daily swing (decrement factor)", (p) => shown(p.decrementFactor)),
      row("delay of the daily swing", (p) => shown(p.timeLag)),
      row("time constant", (p) => shown(p.timeConstant)),
      row("variance kept (of departures from 5 days)", (p) => shown(p.varianceRatio)),
      row("moisture excess", (p) => shown(p.moistureExcess)),
      row("vapor pressure excess", (p) => shown(p.vaporPressureExcess)),
      row("hours damp enough for mould", (p) => risk(p, "mould")),
      row("hours of condensation", (p) => risk(p, "condensation")),
    ],
  };
}

function changesTable({ changes }: HousePair): PlainTable[] {
  if (changes.length === 0) return [];
  const rows = changes.map((c) => [`${c.event}: ${changeWords[c.quantity] ?? c.quantity}`, c.change === null ? (c.says ?? "not told") : `${c.change.value < 0 ? "" : "+"}${estimateInWords(c.change)}`, c.ratio === null ? "" : `× ${estimateInWords(c.ratio)}`]);
  return [{ caption: "Before and after, two days each side of the event left out", head: ["event and number", "after minus before", "after over before"], rows }];
}

function responseTable({ response }: HousePair): PlainTable[] {
  const told = response.filter((b) => b.gain !== null);
  if (told.length === 0) return [];
  const period = (cpd: number): string => (cpd < 0.9 ? `${(1 / cpd).toFixed(1)} days` : `${(24 / cpd).toFixed(cpd > 2.6 ? 1 : 0)} hours`);
  return [{ caption: "How it answers slow and quick weather", head: ["about every", "gain", "delay", "coherence"], rows: told.map((b) => [period(b.cyclesPerDay), shown(b.gain), shown(b.lagHours), b.coherence === null ? "" : b.coherence.toFixed(2)]) }];
}
