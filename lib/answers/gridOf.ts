import { mustSentence, RecordError, shown } from "../ground/complaint.js";
import { type Displayable, displayable } from "../ground/display.js";
import { regularGrid } from "../grid/regularGrid.js";
import { medianStep } from "../grid/step.js";
import type { AirRecord } from "../record/airRecord.js";
import { flagBit } from "../record/flag.js";
import { quantities, quantityWords } from "../record/quantity.js";
import type { Series } from "../record/series.js";
import { flagRecord } from "../trust/faults/flagRecord.js";
import { resetWarnings } from "../trust/findings/resetFindings.js";
import { type CleanedColumn, type CleanedGrid, gridFlagBit } from "./cleanedGrid.js";
import { type Derivation, derivations, type Derived, derivedSeries } from "./derivedSeries.js";
import { gridText } from "./gridText.js";
import { type RecordHead, recordHead } from "./recordHead.js";
import { recordView } from "./recordView.js";

/** What is asked of a cleaned grid. */
export interface CleanedGridOptions {
  /** s · default the usual step of the densest series. */
  readonly step?: number;
  /** Longest gap that is bridged by a straight line · s · default 3600; 0 bridges nothing. */
  readonly fillUpTo?: number;
  /** Further quantities to make. */
  readonly derived?: readonly Derivation[];
}

/** A column as the answer tells it. */
export type ToldColumn = Pick<CleanedColumn, "place" | "quantity" | "unit" | "coverage"> & {
  /** Steps that are bridges. */
  readonly filled: number;
  readonly leftOut: CleanedColumn["leftOut"];
  readonly made: string | null;
};

/** The fields of the answer, as `grid --json` writes them but for the files. */
export interface GridFields {
  readonly record: RecordHead;
  readonly stepSeconds: number;
  readonly rows: number;
  readonly columns: readonly ToldColumn[];
  readonly warnings: readonly string[];
  /** The grid itself; not enumerable, so not in JSON. */
  readonly grid: CleanedGrid;
}

/** The cleaned grid of a record, with its text form. */
export type GridAnswer = Displayable<GridFields>;

/** Most values a grid may hold: what fits into a home computer's memory. */
const mostValues = 60_000_000;

/**
 * The cleaned, regular grid of a record, to take away into any other analysis.
 *
 * Faults are marked first; readings flagged range, spike, stuck or swapped are left out and counted, the other flags are told beside
 * the values. All places stand on one time axis; a step's stamp is its beginning, its value the mean of the readings in it.
 *
 * @param record           from a reader, or from plain arrays
 * @param options.step     s · default the usual step of the densest series
 * @param options.fillUpTo longest gap that is bridged · s · default 3600
 * @param options.derived  further quantities: `dew-point`, `absolute-humidity`, `sea-level`, `tide-free`
 * @returns                columns with coverage, bridges and what was left out; `grid` holds the arrays
 * @throws RecordError     kind data when a quantity that was asked for can be made of no place; kind description without the elevation it takes
 * @throws RangeError      when step or fillUpTo is out of range, or the grid would not fit into memory
 * @throws TypeError       when a derivation is unknown
 * @example gridOf(record, { step: 600, derived: ["dew-point"] }).columns[3].quantity // "dew_point_temperature"
 */
export function gridOf(record: AirRecord, options: CleanedGridOptions = {}): GridAnswer {
  const { derived = [] } = options;
  const unknown = derived.find((d) => !derivations.includes(d));
  if (unknown !== undefined) throw new TypeError(mustSentence("gridOf", "derived", `be of ${derivations.join(", ")}`, shown(unknown)));
  const flagged = flagRecord(record);
  const warnings: string[] = resetWarnings(flagged);
  const sources = sourcesOf(flagged, new Set(derived), warnings);
  if (sources.length === 0) throw new RecordError(`${record.name} must hold a quantity that is known (got none)`, "data");
  const span = (flagged.to - flagged.from) / 1000;
  if (options.step !== undefined && options.step > 0 && (span / options.step) * sources.length > mostValues) {
    throw new RangeError(mustSentence("gridOf", "step", `leave at most ${mostValues} values`, `${options.step} s over ${(span / 86400).toFixed(1)} d in ${sources.length} columns`));
  }
  const { start, stepSeconds, length, columns } = regularGrid(
    sources.map((s) => s.series),
    { ...(options.step === undefined ? {} : { step: options.step }), ...(options.fillUpTo === undefined ? {} : { fillUpTo: options.fillUpTo }) },
  );
  const laid = columns.map((c, i) => cleanedColumn(sources[i], c, stepSeconds));
  const usual = Math.min(...sources.map((s) => medianStep(s.series.seconds)).filter((s) => s > 0));
  if (usual < Infinity && stepSeconds < 0.9 * usual) warnings.push(`the step of ${stepSeconds} s is shorter than the ${Math.round(usual)} s between readings: most steps are bridges or empty`);
  const places = Object.values(flagged.places).map(({ name, title, exposure, elevation }) => Object.freeze({ name, title, exposure, elevation: elevation ?? record.site?.elevation ?? null }));
  const head = recordHead(flagged);
  const grid: CleanedGrid = Object.freeze({ record: head, places: Object.freeze(places), start, stepSeconds, length, columns: Object.freeze(laid) });
  const answer = {
    record: head,
    stepSeconds,
    rows: length,
    columns: Object.freeze(laid.map(({ place, quantity, unit, coverage, filledSteps, leftOut, made }) => Object.freeze({ place, quantity, unit, coverage, filled: filledSteps, leftOut, made }))),
    warnings: Object.freeze(warnings),
  } as unknown as GridFields;
  Object.defineProperty(answer, "grid", { value: grid, enumerable: false });
  const view = recordView(flagged);
  return displayable(answer, (width) => gridText(answer, view, width));
}

/** What was logged and what is made of it, place by place. */
function sourcesOf(flagged: AirRecord, asked: ReadonlySet<Derivation>, warnings: string[]): Derived[] {
  const found: Derived[] = [];
  const reasons = new Map<Derivation, string[]>();
  for (const place of Object.values(flagged.places)) {
    for (const quantity of quantities) {
      const series = place.series[quantity];
      if (series !== undefined) found.push({ series, quantity, standardName: quantity, title: quantityWords[quantity], made: "" });
    }
    for (const what of derivations) {
      if (!asked.has(what)) continue;
      const made = derivedSeries(flagged, place, what);
      if (typeof made !== "string") found.push(made);
      else reasons.set(what, [...(reasons.get(what) ?? []), `${place.title}: no ${what} was made: ${made}`]);
    }
  }
  for (const [what, why] of reasons) {
    // "It was logged" is no failure: the column is there.
    const isNowhere = why.length === Object.keys(flagged.places).length && why.some((w) => !w.endsWith("was logged"));
    if (isNowhere) throw new RecordError(`${flagged.name} must let ${what} be made in one place at least (got: ${why[0]})`, "data");
    warnings.push(...why);
  }
  return found;
}

function cleanedColumn(source: Derived, column: ReturnType<typeof regularGrid>["columns"][number], stepSeconds: number): CleanedColumn {
  const { values, filled, counts, instants } = column;
  const usual = medianStep(source.series.seconds);
  // What any whole step holds at least: one reading of a logger that writes every 7 minutes fills a step of 10.
  const whole = Math.max(1, usual > 0 ? Math.floor(stepSeconds / usual + 0.05) : 1);
  const stepCoverage: Float32Array = new Float32Array(values.length);
  const flags: Uint16Array = column.flags;
  let behind = 0;
  let held = 0;
  let filledSteps = 0;
  for (let k = 0; k < values.length; k++) {
    stepCoverage[k] = Math.min(1, counts[k] / whole);
    if (filled[k] === 1) {
      flags[k] |= gridFlagBit.filled;
      filledSteps++;
    }
    if (counts[k] === 0) continue;
    behind += instants[k] - k * stepSeconds;
    held++;
  }
  const { series, quantity, standardName, title, made } = source;
  return Object.freeze({
    place: series.place,
    quantity,
    standardName,
    unit: series.unit,
    title,
    made: made === "" ? null : made,
    values,
    flags,
    filled,
    stepCoverage,
    coverage: column.coverage,
    filledSteps,
    leftOut: leftOutOf(series),
    meanInstant: held === 0 ? Number.NaN : behind / held,
  });
}

/** Readings left out by each fault; one with two faults counts under both. */
function leftOutOf({ flags }: Series): CleanedColumn["leftOut"] {
  const count = { range: 0, spike: 0, stuck: 0, swapped: 0 };
  for (const bits of flags) {
    if (bits === 0) continue;
    if (bits & flagBit.range) count.range++;
    if (bits & flagBit.spike) count.spike++;
    if (bits & flagBit.stuck) count.stuck++;
    if (bits & flagBit.swapped) count.swapped++;
  }
  return Object.freeze(count);
}
