import { countedDays } from "../cycles/climate/countedDays.js";
import { daysToGo, trendNeedsYears } from "../cycles/climate/daysToGo.js";
import { dewPointRange } from "../cycles/climate/dewPointRange.js";
import { type PlaceClimate, placeClimate } from "../cycles/climate/placeClimate.js";
import { RecordError } from "../ground/complaint.js";
import { type Displayable, displayable } from "../ground/display.js";
import { dayText, instantText } from "../ground/instant.js";
import type { AirRecord, PlaceRecord } from "../record/airRecord.js";
import { leftOut } from "../record/flag.js";
import { type Quantity, quantities, quantityWords } from "../record/quantity.js";
import type { Series } from "../record/series.js";
import { faultsOf } from "../trust/faults/faultsOf.js";
import { flagRecord } from "../trust/faults/flagRecord.js";
import { resetWarnings } from "../trust/findings/resetFindings.js";
import type { ClimateFields, ClimateRound, ClimateSpan, SpanNumbers } from "./climateFields.js";
import { climateText } from "./climateText.js";
import { recordHead } from "./recordHead.js";
import { recordView } from "./recordView.js";
import { movesOf } from "./placeTide.js";

/** Days, months, years, the yearly round and trends of a record. */
export type ClimateAnswer = Displayable<ClimateFields>;

/**
 * What the air does over days, months and years: summaries with their coverage, the yearly round, and a trend or the reason for none.
 *
 * Faulty readings are found first and left out. Days are those of the record's standard time. A level shift, or a station that was
 * moved, is told, and no trend is drawn across it.
 *
 * @param record           from a reader, or from plain arrays
 * @param options.base     of the degree days · °C · default 18
 * @param options.hotFrom  a hot day reaches at least this · °C · default 30
 * @param options.smallest trend one would want to see, in the quantity's unit per decade, for `daysToGo` beside a slope
 * @returns                see the fields; NaN and null where the record cannot carry a number
 * @throws RecordError     kind data when no reading is left
 * @throws RangeError      when base or hotFrom are outside −100…100 °C
 * @example climateOf(record).monthly[1].quantities.air_temperature?.mean?.value // 18.8 °C
 * @source README of lib/cycles/climate
 */
export function climateOf(record: AirRecord, options: { readonly base?: number; readonly hotFrom?: number; readonly smallest?: number } = {}): ClimateAnswer {
  const { base = 18, hotFrom = 30, smallest } = options;
  const flagged = flagRecord(record);
  const view = recordView(flagged);
  const found: { place: string; quantity: Quantity; climate: PlaceClimate }[] = [];
  const fields = { counted: [] as ClimateFields["counted"][number][], dewPoint: [] as ClimateFields["dewPoint"][number][], warnings: resetWarnings(flagged) };
  for (const place of Object.values(flagged.places)) {
    for (const quantity of quantities) {
      const series = place.series[quantity];
      if (series === undefined || !series.values.some((v, i) => !Number.isNaN(v) && (series.flags[i] & leftOut) === 0)) continue;
      const climate = acrossShifts(flagged, place, quantity, placeClimate(series, view.offsetHours, { smallest }), fields.warnings);
      found.push({ place: place.name, quantity, climate });
      fields.warnings.push(...climate.warnings.map((w) => `${place.title}, ${quantityWords[quantity]}: ${w}`));
      if (quantity !== "air_temperature") continue;
      for (const date of new Set(climate.daily.map((d) => d.date.slice(0, 4)))) {
        const days = climate.daily.filter((d) => d.date.startsWith(date));
        fields.counted.push(Object.freeze({ place: place.name, date, base, hotFrom, ...countedDays(days, { base, hotFrom }) }));
      }
    }
    const { air_temperature: temperature, relative_humidity: humidity } = place.series;
    if (temperature !== undefined && humidity !== undefined) {
      const range = dewPointRange(sound(temperature), sound(humidity));
      if (range.readings > 0) fields.dewPoint.push(Object.freeze({ place: place.name, ...range }));
    }
  }
  if (found.length === 0) throw new RecordError(`${record.name} must hold a reading that is not marked as faulty (got none); run check to see why`, "data");
  const answer = {
    record: recordHead(flagged),
    daily: spans(found, (c) => c.daily, (d) => d.mean),
    monthly: spans(found, (c) => c.monthly, (m) => m.mean),
    yearly: spans(found, (c) => c.yearly, (y) => y.mean),
    annualCycle: Object.freeze(found.map(({ place, quantity, climate }) => roundOf(place, quantity, climate))),
    trend: Object.freeze(found.map(({ place, quantity, climate }) => Object.freeze({ place, quantity, ...climate.trend }))),
    counted: Object.freeze(fields.counted),
    dewPoint: Object.freeze(fields.dewPoint),
    years: Object.freeze(found.flatMap(({ place, quantity, climate }) => climate.years.map((y) => Object.freeze({ place, quantity, ...y })))),
    warnings: Object.freeze([...new Set(fields.warnings)]),
  } as unknown as ClimateFields;
  const parts: Record<string, Partial<Record<Quantity, PlaceClimate>>> = {};
  for (const { place, quantity, climate } of found) parts[place] = { ...parts[place], [quantity]: climate };
  Object.defineProperty(answer, "parts", { value: Object.freeze(parts), enumerable: false });
  return displayable(answer, (columns) => climateText(answer, view, columns));
}

/** A climate whose trend is withheld where the level shifts or the station was moved. */
function acrossShifts(record: AirRecord, place: PlaceRecord, quantity: Quantity, climate: PlaceClimate, warnings: string[]): PlaceClimate {
  const shifts = faultsOf(record, place.name).filter((f) => f.flag === "step" && f.quantity === quantity);
  const moves = movesOf(record).filter((at) => at > record.from && at < record.to);
  if (shifts.length === 0 && moves.length === 0) return climate;
  const told = [
    ...shifts.map((f) => `the level shifts on ${dayText(f.from)}${f.size === null ? "" : ` by ${f.size < 0 ? "−" : "+"}${Math.abs(f.size).toFixed(1)}`}`),
    ...moves.map((at) => `the station was moved on ${dayText(at)}`),
  ].join("; ");
  warnings.push(`${place.title}, ${quantityWords[quantity]}: ${told}: means before and after are not alike`);
  const last = Math.max(...shifts.map((f) => f.from), ...moves);
  const togo = daysToGo(Math.ceil(365.25 * trendNeedsYears), Math.max(0, (record.to - last) / 86_400_000));
  const reason = climate.trend.slope === null ? climate.trend.reason : `none across a change of the measurement (${told}); narrow the record to one side with --since or --until`;
  const trend = Object.freeze({ ...climate.trend, slope: null, fit: null, robust: null, reason, daysToGo: Math.max(togo, climate.trend.daysToGo) });
  return Object.freeze({ ...climate, trend });
}

type Spanned = { readonly date: string; readonly min: number | null; readonly max: number | null; readonly minAt: number | null; readonly maxAt: number | null; readonly coverage: number };

/** The summaries of all quantities of a place, gathered by date; places in the record's order. */
function spans<S extends Spanned, Mean>(
  found: readonly { place: string; quantity: Quantity; climate: PlaceClimate }[],
  of: (climate: PlaceClimate) => readonly S[],
  mean: (span: S) => Mean | null,
): readonly ClimateSpan<Mean>[] {
  const out: ClimateSpan<Mean>[] = [];
  for (const place of new Set(found.map((f) => f.place))) {
    const byDate = new Map<string, Partial<Record<Quantity, SpanNumbers<Mean>>>>();
    for (const { quantity, climate } of found.filter((f) => f.place === place)) {
      for (const span of of(climate)) {
        const { min, max, minAt, maxAt, coverage } = span;
        const numbers = Object.freeze({ mean: mean(span), min, max, minAt: minAt === null ? null : instantText(minAt), maxAt: maxAt === null ? null : instantText(maxAt), coverage });
        byDate.set(span.date, { ...byDate.get(span.date), [quantity]: numbers });
      }
    }
    for (const date of [...byDate.keys()].sort()) out.push(Object.freeze({ place, date, quantities: Object.freeze(byDate.get(date) ?? {}) }));
  }
  return Object.freeze(out);
}

function roundOf(place: string, quantity: Quantity, { annualCycle: round, annualCycleToGo }: PlaceClimate): ClimateRound {
  return Object.freeze({
    place,
    quantity,
    mean: round?.mean ?? null,
    amplitude: round?.amplitude ?? null,
    maximumOn: round?.maximumOn ?? null,
    detected: round?.detected ?? null,
    harmonics: round?.harmonics ?? null,
    daysToGo: annualCycleToGo,
  });
}

/** Values with what no analysis uses as NaN. */
function sound(series: Series): Float64Array {
  return series.values.map((v, i) => ((series.flags[i] & leftOut) !== 0 ? Number.NaN : v));
}

