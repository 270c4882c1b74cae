import type { Estimate } from "../ground/estimate.js";
import { moreDays } from "../ground/moreDays.js";
import { houseUnit, quantities, quantityWords, type Quantity } from "../record/quantity.js";
import type { ClimateFields, ClimateRound, ClimateSpan, SpanNumbers } from "./climateFields.js";
import { dayAndTime, headLines, zoneText } from "./headText.js";
import type { RecordView } from "./recordView.js";
import { alignedColumns, estimateInWords, signed, unitInWords, wrapped } from "./words.js";

type Told = Pick<ClimateFields, "record" | "monthly" | "yearly" | "annualCycle" | "trend" | "counted" | "dewPoint" | "years" | "warnings">;

/** Beyond so many months the years are told in their place. */
const mostMonths = 24;
/** Comparisons and counts are told for so many years, the newest; all stand in the answer. */
const mostYears = 3;
const lengths: readonly number[] = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
const names: readonly string[] = ["January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"];

/**
 * The climate of a record as text for people.
 *
 * @param answer  from `climateOf`
 * @param view    offset and titles
 * @param columns width of the screen
 */
export function climateText(answer: Told, view: RecordView, columns = 100): string {
  const lines = headLines(answer.record, view.offsetHours);
  for (const place of new Set(answer.monthly.map((m) => m.place))) {
    const title = view.titles[place] ?? place;
    lines.push("", `${title}, days and months of standard time (${zoneText(view.offsetHours)})`);
    for (const quantity of quantities) lines.push(...quantityLines(place, quantity, answer, view, columns));
    lines.push(...countedLines(place, answer, columns));
  }
  lines.push("", ...toGoLines(answer, columns));
  for (const warning of answer.warnings) lines.push(...wrapped(`! ${warning}`, columns, "  "));
  lines.push(
    "",
    ...wrapped("Each ± is a 95 % interval for the month or year as it was; the sensor's own bias is in none of them. Lowest and highest are readings, left out where a gap lies near their usual hour.", columns),
  );
  return `${lines.join("\n")}\n`;
}

function quantityLines(place: string, quantity: Quantity, answer: Told, view: RecordView, columns: number): string[] {
  const mine = <Mean>(spans: readonly ClimateSpan<Mean>[]): [string, SpanNumbers<Mean>][] =>
    spans.flatMap((s) => {
      const numbers = s.place === place ? s.quantities[quantity] : undefined;
      return numbers === undefined ? [] : [[s.date, numbers]];
    });
  const months = mine(answer.monthly);
  if (months.length === 0) return [];
  const years = mine(answer.yearly);
  const spans = months.length > mostMonths ? years : months;
  const word = months.length > mostMonths ? "months" : "days";
  const unit = unitInWords(houseUnit[quantity]);
  const extreme = (value: number | null, at: string | null): string => (value === null || at === null ? "" : `${signed(value, 1)}, ${dayAndTime(at, view.offsetHours).replace(/ \d{4} /, " ")}`);
  const rows = spans.map(([date, s]) => [date, s.mean === null ? "not told" : meanText(s.mean), extreme(s.min, s.minAt), extreme(s.max, s.maxAt), `${Math.round(100 * s.coverage)} %`]);
  const lines = [`  ${quantityWords[quantity]}, ${unit}`, ...alignedColumns([["", "mean", "lowest", "highest", `${word} covered`], ...rows]).map((l) => `    ${l}`)];
  const round = answer.annualCycle.find((r) => r.place === place && r.quantity === quantity);
  if (round?.mean != null) lines.push(...wrapped(`    ${roundSentence(round)}`, columns, "    "));
  const trend = answer.trend.find((t) => t.place === place && t.quantity === quantity);
  if (trend?.slope != null) {
    const robust = trend.robust === null ? "" : `; by the median of like months ${estimateInWords(trend.robust.slope)}`;
    lines.push(...wrapped(`    Trend: ${estimateInWords(trend.slope)} a decade${robust}, ${trend.reason}.`, columns, "    "));
  }
  for (const y of answer.years.filter((v) => v.place === place && v.quantity === quantity).slice(-mostYears)) {
    const count = y.months.length;
    lines.push(...wrapped(`    ${y.year} against ${y.against}, the same ${count} ${count === 1 ? "month" : "months"}: ${y.difference.value < 0 ? "" : "+"}${differenceText(y.difference)}.`, columns, "    "));
  }
  return lines;
}

/** Months that miss no day have no interval: the difference is as it was. */
function differenceText(e: Estimate): string {
  return isExact(e) ? `${signed(e.value, 1)} ${unitInWords(e.unit)}` : estimateInWords(e);
}

function isExact(e: Estimate): boolean {
  return e.high - e.low < 1e-9;
}

/** A month that misses no day has no interval. */
function meanText(mean: Estimate): string {
  return isExact(mean) ? signed(mean.value, 1) : estimateInWords(mean).replace(/ (°C|%|hPa|g\/m³)/, "");
}

function roundSentence({ mean, amplitude, maximumOn }: ClimateRound): string {
  if (mean === null || amplitude === null) return "";
  if (maximumOn === null) return `No yearly round stands out: it is at most ${signed(amplitude.high, 1)} ${unitInWords(amplitude.unit)} to either side of the mean.`;
  return `Over the year: ${estimateInWords(mean)}, and ${estimateInWords(amplitude)} to either side, highest about ${dayOfYear(maximumOn.value)} ± ${Math.max(1, Math.round((maximumOn.high - maximumOn.low) / 2))} days.`;
}

function dayOfYear(day: number): string {
  let left = Math.max(0, Math.floor(day - 1));
  for (let m = 0; m < 12; m++) {
    if (left < lengths[m]) return `${left + 1} ${names[m]}`;
    left -= lengths[m];
  }
  return "31 December";
}

function countedLines(place: string, answer: Told, columns: number): string[] {
  const lines: string[] = [];
  // A year of which no day is whole says nothing, such as the midnight that ends a record.
  const years = answer.counted.filter((c) => c.place === place && c.daysWithMean + c.daysWithMin + c.daysWithMax > 0);
  for (const [k, { date, base, hotFrom, heatingDegreeDays, coolingDegreeDays, daysWithMean, days, frostDays, daysWithMin, hotDays, daysWithMax }] of years.entries()) {
    if (k < years.length - mostYears) continue;
    const rule = k === Math.max(0, years.length - mostYears) ? ` to a base of ${signed(base, Number.isInteger(base) ? 0 : 1)} °C (nothing is filled in)` : "";
    const extremes = daysWithMin + daysWithMax === 0 ? "" : `; frost on ${frostDays} of ${daysWithMin} days, ${hotFrom} °C and more on ${hotDays} of ${daysWithMax}`;
    lines.push(...wrapped(`  ${date}: ${Math.round(heatingDegreeDays)} heating and ${Math.round(coolingDegreeDays)} cooling degree days${rule} from ${daysWithMean} of ${days} days${extremes}.`, columns, "  "));
  }
  const dew = answer.dewPoint.find((d) => d.place === place);
  if (dew !== undefined) {
    lines.push(...wrapped(`  The dew point is mostly between ${signed(dew.from, 1)} and ${signed(dew.to, 1)} °C (9 of 10 readings), ${signed(dew.lowest, 1)} at its lowest and ${signed(dew.highest, 1)} at its highest.`, columns, "  "));
  }
  return lines;
}

/** What is still too short, once for all quantities that miss the same. */
function toGoLines(answer: Told, columns: number): string[] {
  const rounds = answer.annualCycle.filter((r) => r.mean === null && r.daysToGo > 0).map((r) => r.daysToGo);
  const trends = answer.trend.filter((t) => t.slope === null);
  const lines: string[] = [];
  if (rounds.length > 0) lines.push(...wrapped(`The yearly round needs a year: log ${moreDays(Math.max(...rounds))}.`, columns));
  for (const reason of new Set(trends.map((t) => t.reason))) {
    const days = Math.max(...trends.filter((t) => t.reason === reason).map((t) => t.daysToGo));
    lines.push(...wrapped(`No trend: ${reason}${days > 0 ? `; log ${moreDays(days)}` : ""}.`, columns));
  }
  return lines;
}
