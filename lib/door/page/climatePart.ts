import type { ClimateAnswer } from "../../answers/climateOf.js";
import { dayOnly } from "../../answers/headText.js";
import { estimateInWords, signed, unitInWords } from "../../answers/words.js";
import type { ThemedFigure } from "./themedFigure.js";
import type { Estimate } from "../../ground/estimate.js";
import { moreDays } from "../../ground/moreDays.js";
import { houseUnit, type Quantity, quantities, quantityWords } from "../../record/quantity.js";
import { outdoorsFirst } from "./outdoorsFirst.js";
import type { ReportAnswers } from "./reportAnswers.js";
import type { PlainTable } from "./reportMarkup.js";
import { type ReportPart, untoldPart } from "./reportPart.js";

const heading = "Days, months and years";

/** What does the air do over days, months and years. */
export function climatePart(answers: ReportAnswers, figures: readonly ThemedFigure[]): ReportPart {
  const { climate, view, check } = answers;
  if (climate.answer === null) return untoldPart("climate", heading, climate.why);
  const { answer } = climate;
  const [name] = outdoorsFirst(answers, [...new Set(answer.daily.map((d) => d.place))]);
  const title = view.titles[name] ?? name;
  const quantity = quantities.find((q) => answer.daily.some((d) => d.place === name && d.quantities[q] !== undefined)) ?? "air_temperature";
  const summary = check.places[name]?.quantities[quantity];
  const unit = unitInWords(houseUnit[quantity]);
  const number = (v: number | null | undefined): string => (v === null || v === undefined ? "–" : `${signed(v, 1)} ${unit}`);
  const extreme = extremes(answer, name, quantity, view.offsetHours);
  const range = extreme === null ? "" : ` It was lowest on ${extreme.low.at} and highest on ${extreme.high.at}.`;
  const between = extreme === null ? "" : `, between ${number(extreme.low.value)} and ${number(extreme.high.value)}`;
  const brief = `The ${quantityWords[quantity]} at ${title} was ${number(summary?.mean)} on average over these ${Math.round(check.record.days)} days${between}.`;
  const dew = answer.dewPoint.find((d) => d.place === name);
  const dewSays = dew === undefined ? "" : ` Nine of ten dew points lay between ${signed(dew.from, 1)} and ${signed(dew.to, 1)} °C.`;
  const round = answer.annualCycle.find((r) => r.place === name && r.quantity === quantity);
  return {
    id: "climate",
    heading,
    brief,
    answer: `${brief}${range}${dewSays} ${roundSays(round, quantity)}${trendSays(answer, name, quantity)}`,
    figures,
    tables: monthsTable(answer, view.titles),
    mislead: [
      ...answer.warnings,
      "The mean of these days is no climate: another season, or another year, has another one.",
      "Lowest and highest are readings; steps over a quarter of an hour miss the true ones, and the sensor's own bias is in all of them.",
    ],
    made: [
      "Days are those of the record's standard time. A daily mean needs 18 covered hours, a month 20 days; nothing is filled in. The ± of a month counts its missing days, not the sensor's bias.",
      "A yearly round is fitted from one year on, a trend from five years on, with the memory of the weather in its interval",
    ],
    sources: ["theilSen", "wmo8"],
  };
}

interface Extreme {
  readonly value: number;
  readonly at: string;
}

function extremes(answer: ClimateAnswer, place: string, quantity: Quantity, offsetHours: number): { low: Extreme; high: Extreme } | null {
  let low: { value: number; at: string } | null = null;
  let high: { value: number; at: string } | null = null;
  for (const day of answer.daily) {
    const n = day.place === place ? day.quantities[quantity] : undefined;
    if (n?.min != null && n.minAt !== null && (low === null || n.min < low.value)) low = { value: n.min, at: n.minAt };
    if (n?.max != null && n.maxAt !== null && (high === null || n.max > high.value)) high = { value: n.max, at: n.maxAt };
  }
  if (low === null || high === null) return null;
  return { low: { ...low, at: dayOnly(low.at, offsetHours) }, high: { ...high, at: dayOnly(high.at, offsetHours) } };
}

function roundSays(round: ClimateAnswer["annualCycle"][number] | undefined, quantity: Quantity): string {
  if (round === undefined) return "";
  if (round.amplitude === null) return `Not enough data yet for the yearly round: log ${moreDays(round.daysToGo)}.`;
  if (round.maximumOn === null) return `No yearly round of the ${quantityWords[quantity]} stands out: at most ${signed(round.amplitude.high, 1)} ${unitInWords(round.amplitude.unit)} to either side.`;
  return `Over the year it swings by ${estimateInWords(round.amplitude)} to either side of ${round.mean === null ? "its mean" : estimateInWords(round.mean)}, highest about day ${Math.round(round.maximumOn.value)} of the year (± ${Math.max(1, Math.round((round.maximumOn.high - round.maximumOn.low) / 2))} days).`;
}

function trendSays(answer: ClimateAnswer, place: string, quantity: Quantity): string {
  const trend = answer.trend.find((t) => t.place === place && t.quantity === quantity);
  if (trend === undefined) return "";
  if (trend.slope !== null) return ` Its trend is ${estimateInWords(trend.slope)} a decade.`;
  return ` No trend is told: ${trend.reason}${trend.daysToGo > 0 ? `; log ${moreDays(trend.daysToGo)}` : ""}.`;
}

function monthsTable(answer: ClimateAnswer, titles: Readonly<Record<string, string>>): PlainTable[] {
  const spans = answer.monthly.length > 120 ? answer.yearly : answer.monthly;
  const rows = spans.flatMap((m) =>
    quantities.flatMap((q) => {
      const n = m.quantities[q];
      if (n === undefined) return [];
      const show = (v: number | null): string => (v === null ? "–" : signed(v, 1));
      return [[`${titles[m.place] ?? m.place}, ${m.date}`, `${quantityWords[q]}, ${unitInWords(houseUnit[q])}`, meanOf(n.mean), show(n.min), show(n.max), `${Math.round(100 * n.coverage)} %`]];
    }),
  );
  return rows.length === 0 ? [] : [{ caption: "Months (standard time of the record)", head: ["place and month", "what", "mean", "lowest", "highest", "covered"], rows }];
}

/** A month that misses no day has no interval. */
function meanOf(mean: Estimate | null): string {
  if (mean === null) return "too few days";
  if (mean.high - mean.low < 1e-9) return signed(mean.value, 1);
  return estimateInWords({ ...mean, unit: "1" });
}
