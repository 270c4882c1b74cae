import type { CheckAnswer } from "../answers/checkRecord.js";
import type { ClimateAnswer } from "../answers/climateOf.js";
import type { IndoorsAnswer } from "../answers/indoorsOf.js";
import type { SwingsAnswer } from "../answers/swingsOf.js";
import type { TidesAnswer } from "../answers/tidesOf.js";
import type { AirRecord } from "../record/airRecord.js";
import { agreementFigure } from "./agreementFigure.js";
import { beforeAfterFigure } from "./beforeAfterFigure.js";
import { calendarFigure } from "./calendarFigure.js";
import { coverageFigure } from "./coverageFigure.js";
import { explore } from "./explore.js";
import type { Figure } from "./figure.js";
import { houseDayFigure } from "./houseDayFigure.js";
import { meanDayFigure } from "./meanDayFigure.js";
import { moistureFigure } from "./moistureFigure.js";
import { responseFigure } from "./responseFigure.js";
import { scatterFigure } from "./scatterFigure.js";
import { spectrumFigure } from "./spectrumFigure.js";
import { swingsFigure } from "./swingsFigure.js";
import { tendencyFigure } from "./tendencyFigure.js";
import type { FigureOptions } from "./theme.js";
import { tideClockFigure } from "./tideClockFigure.js";
import { tideMonthsFigure } from "./tideMonthsFigure.js";
import { tracesFigure } from "./tracesFigure.js";
import { trustFigure } from "./trustFigure.js";
import { yearFigure } from "./yearFigure.js";

/** The answers that are at hand; null where a record could not carry one. */
export interface RecordAnswers {
  readonly check: CheckAnswer;
  readonly tides: TidesAnswer | null;
  readonly swings: SwingsAnswer | null;
  readonly climate: ClimateAnswer | null;
  readonly indoors: IndoorsAnswer | null;
}

/** Names of figures, in the order of the questions that they answer. */
export const figureNames = [
  "coverage", "trust", "agreement",
  "traces", "mean-day", "tide-clock", "tide-months", "swings", "spectrum", "calendar", "year",
  "house-day", "response", "scatter", "moisture", "before-after",
  "tendency", "explore",
] as const;

/** Name of a figure. */
export type FigureName = (typeof figureNames)[number];

/**
 * Every figure of a record, made when it is asked for; null where the record cannot carry it.
 *
 * @param record  with its faults marked (`flagRecord`)
 * @param answers what was answered about it
 * @param options theme
 * @returns       a maker for each name
 * @example recordFigures(record, answers)["tide-clock"]()?.name // "tide-clock"
 */
export function recordFigures(record: AirRecord, answers: RecordAnswers, options: FigureOptions = {}): Readonly<Record<FigureName, () => Figure | null>> {
  const { check, tides, swings, climate, indoors } = answers;
  const of = <A>(answer: A | null, draw: (record: AirRecord, answer: A, options: FigureOptions) => Figure | null) => (): Figure | null => (answer === null ? null : draw(record, answer, options));
  return Object.freeze({
    coverage: of(check, coverageFigure),
    trust: of(check, trustFigure),
    agreement: of(check, agreementFigure),
    traces: () => tracesFigure(record, options),
    "mean-day": of(tides, meanDayFigure),
    "tide-clock": of(tides, tideClockFigure),
    "tide-months": of(tides, tideMonthsFigure),
    swings: of(swings, swingsFigure),
    spectrum: of(swings, spectrumFigure),
    calendar: of(climate, calendarFigure),
    year: of(climate, yearFigure),
    "house-day": of(indoors, houseDayFigure),
    response: of(indoors, responseFigure),
    scatter: of(indoors, scatterFigure),
    moisture: of(indoors, moistureFigure),
    "before-after": of(indoors, beforeAfterFigure),
    tendency: of(swings, tendencyFigure),
    explore: () => explore(record, options),
  });
}
