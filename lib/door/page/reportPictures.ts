import { agreementFigure } from "../../figure/agreementFigure.js";
import { calendarFigure } from "../../figure/calendarFigure.js";
import { coverageFigure } from "../../figure/coverageFigure.js";
import type { Figure } from "../../figure/figure.js";
import { meanDayFigure } from "../../figure/meanDayFigure.js";
import { spectrumFigure } from "../../figure/spectrumFigure.js";
import { swingsFigure } from "../../figure/swingsFigure.js";
import { tendencyFigure } from "../../figure/tendencyFigure.js";
import { tideClockFigure } from "../../figure/tideClockFigure.js";
import { tideMonthsFigure } from "../../figure/tideMonthsFigure.js";
import { tracesFigure } from "../../figure/tracesFigure.js";
import { trustFigure } from "../../figure/trustFigure.js";
import { yearFigure } from "../../figure/yearFigure.js";
import { outdoorsFirst } from "./outdoorsFirst.js";
import type { ReportAnswers } from "./reportAnswers.js";

/** The figures of the report, by the part in which they stand. */
export interface ReportPictures {
  readonly trust: readonly Figure[];
  readonly tide: readonly Figure[];
  readonly swings: readonly Figure[];
  readonly climate: readonly Figure[];
  /** For each pair of places. */
  readonly house: readonly (readonly Figure[])[];
  readonly coming: readonly Figure[];
}

/** Draws up the figures of a report, light; a figure that its answer cannot carry is left out. */
export function reportPictures(answers: ReportAnswers): ReportPictures {
  const { record, check } = answers;
  const tides = answers.tides.answer;
  const swings = answers.swings.answer;
  const climate = answers.climate.answer;
  const place = outdoorsFirst(answers, Object.keys(tides?.places ?? swings?.places ?? {}))[0];
  const at = place === undefined ? {} : { place };
  return {
    trust: kept([coverageFigure(record, check), trustFigure(record, check), agreementFigure(record, check)]),
    tide: tides === null ? [] : kept([meanDayFigure(record, tides, at), tideClockFigure(record, tides, at), tideMonthsFigure(record, tides, at)]),
    swings: swings === null ? [] : kept([swingsFigure(record, swings, at), spectrumFigure(record, swings, at)]),
    // A year laid over itself says nothing of a record that has no year.
    climate: kept([tracesFigure(record), ...(climate === null ? [] : [calendarFigure(record, climate), ...(climate.annualCycle.some((r) => r.amplitude !== null) ? [yearFigure(record, climate)] : [])])]),
    house: [],
    coming: swings === null ? [] : kept([tendencyFigure(record, swings, at)]),
  };
}

function kept(figures: readonly (Figure | null)[]): readonly Figure[] {
  return figures.filter((f): f is Figure => f !== null);
}
