import { agreementFigure } from "../../figure/agreementFigure.js";
import { beforeAfterFigure } from "../../figure/beforeAfterFigure.js";
import { calendarFigure } from "../../figure/calendarFigure.js";
import { coverageFigure } from "../../figure/coverageFigure.js";
import { explore } from "../../figure/explore.js";
import { houseDayFigure } from "../../figure/houseDayFigure.js";
import { meanDayFigure } from "../../figure/meanDayFigure.js";
import { moistureFigure } from "../../figure/moistureFigure.js";
import { responseFigure } from "../../figure/responseFigure.js";
import { scatterFigure } from "../../figure/scatterFigure.js";
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
import { type ThemedFigure, themed } from "./themedFigure.js";

/** The figures of the report, by the part in which they stand. */
export interface ReportPictures {
  readonly trust: readonly ThemedFigure[];
  readonly tide: readonly ThemedFigure[];
  readonly swings: readonly ThemedFigure[];
  readonly climate: readonly ThemedFigure[];
  /** For each pair of places. */
  readonly house: readonly (readonly ThemedFigure[])[];
  readonly coming: readonly ThemedFigure[];
  /** The whole record, to move about in. */
  readonly teach: readonly ThemedFigure[];
}

/** Draws up the figures of a report; a figure that its answer cannot carry is left out. */
export function reportPictures(answers: ReportAnswers): ReportPictures {
  const { record, check } = answers;
  const tides = answers.tides.answer;
  const swings = answers.swings.answer;
  const climate = answers.climate.answer;
  const indoors = answers.indoors.answer;
  const place = outdoorsFirst(answers, Object.keys(tides?.places ?? swings?.places ?? {}))[0];
  const at = place === undefined ? {} : { place };
  // A year laid over itself says nothing of a record that has no year.
  const hasYear = climate?.annualCycle.some((r) => r.amplitude !== null) === true;
  return {
    trust: kept([themed((theme) => coverageFigure(record, check, { theme })), themed((theme) => trustFigure(record, check, { theme })), themed((theme) => agreementFigure(record, check, { theme }))]),
    tide:
      tides === null
        ? []
        : kept([themed((theme) => meanDayFigure(record, tides, { ...at, theme })), themed((theme) => tideClockFigure(record, tides, { ...at, theme })), themed((theme) => tideMonthsFigure(record, tides, { ...at, theme }))]),
    swings: swings === null ? [] : kept([themed((theme) => swingsFigure(record, swings, { ...at, theme })), themed((theme) => spectrumFigure(record, swings, { ...at, theme }))]),
    climate: kept([
      themed((theme) => tracesFigure(record, { theme })),
      ...(climate === null ? [] : [themed((theme) => calendarFigure(record, climate, { theme }))]),
      ...(climate !== null && hasYear ? [themed((theme) => yearFigure(record, climate, { theme }))] : []),
    ]),
    house: (indoors?.pairs ?? []).map((_, pair) =>
      indoors === null ? [] : kept([houseDayFigure, responseFigure, scatterFigure, beforeAfterFigure, moistureFigure].map((make) => themed((theme) => make(record, indoors, { pair, theme })))),
    ),
    coming: swings === null ? [] : kept([themed((theme) => tendencyFigure(record, swings, { ...at, theme }))]),
    teach: kept([themed((theme) => explore(record, { theme }))]),
  };
}

function kept(figures: readonly (ThemedFigure | null)[]): readonly ThemedFigure[] {
  return figures.filter((f): f is ThemedFigure => f !== null);
}
