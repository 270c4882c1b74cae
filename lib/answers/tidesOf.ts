import type { Constituent, MonthTide, Seasonal, TideFit } from "../cycles/tide/tideFit.js";
import { RecordError } from "../ground/complaint.js";
import { type Displayable, displayable } from "../ground/display.js";
import type { AirRecord } from "../record/airRecord.js";
import type { Quantity } from "../record/quantity.js";
import type { Series } from "../record/series.js";
import { flagRecord } from "../trust/faults/flagRecord.js";
import { resetWarnings } from "../trust/findings/resetFindings.js";
import { eachBarometer, valuesOf } from "./eachBarometer.js";
import { tideOfPlace } from "./placeTide.js";
import { type RecordHead, recordHead } from "./recordHead.js";
import { recordView } from "./recordView.js";
import { tideDoubts } from "./tideDoubts.js";
import { tidesText } from "./tidesText.js";

/** The tide of one place. */
export interface TidesPlace {
  readonly quantity: Quantity;
  readonly days: number;
  readonly constituents: readonly Constituent[];
  readonly climatology: readonly MonthTide[];
  readonly seasonal: Seasonal;
  readonly warnings: readonly string[];
}

interface TidesFields {
  readonly record: RecordHead;
  readonly places: Readonly<Record<string, TidesPlace>>;
  /** The fits behind the answer; not enumerable, so not in JSON. */
  readonly fits: Readonly<Record<string, TideFit>>;
}

/** The tide of every place of a record that has one. */
export type TidesAnswer = Displayable<TidesFields>;

/**
 * What does the air do twice a day: the pressure tide of every place.
 *
 * Faulty readings are found first and left out. Station pressure is fitted where it was logged, sea-level pressure otherwise.
 *
 * @param record        from a reader, or from plain arrays
 * @param options.lines lines to report besides S1, S2 and S3, such as `["S4", "L2"]`
 * @returns             for each place: quantity, days, constituents, months, season with its p-value, warnings
 * @throws RecordError  kind description without a longitude; kind data when no place carries an answer
 * @throws RangeError   when a line is unknown or cannot be told apart over the record
 * @example tidesOf(record).places.veranda.constituents[1].amplitude.value // 1.08 hPa, the tide S2
 */
export function tidesOf(record: AirRecord, options: { lines?: readonly string[] } = {}): TidesAnswer {
  const { lines = [] } = options;
  if (record.site === null) {
    throw new RecordError("site must be told for the tide, because its hours are those of the sun (got no site); add latitude, longitude and elevation to the description", "description");
  }
  const flagged = flagRecord(record);
  const { found, untold } = eachBarometer(flagged, "the tide", (place, pressure) => {
    const fit = tideOfPlace(flagged, pressure, lines, { months: true, moves: true });
    return { fit, told: tidesPlace(pressure, fit, [...resetWarnings(flagged, [place.name]), ...tideDoubts(flagged, place, fit)]) };
  });
  const answer = { record: recordHead(flagged), places: valuesOf(found, ({ told }) => told) } as TidesFields;
  Object.defineProperty(answer, "fits", { value: valuesOf(found, ({ fit }) => fit), enumerable: false });
  const view = { ...recordView(flagged), untold };
  return displayable(answer, (columns) => tidesText(answer, view, columns));
}

function tidesPlace(series: Series, fit: TideFit, doubts: readonly string[]): TidesPlace {
  return Object.freeze({
    quantity: series.quantity,
    days: fit.days,
    constituents: fit.constituents,
    climatology: fit.climatology,
    seasonal: fit.seasonal,
    warnings: Object.freeze([...doubts, ...fit.warnings]),
  });
}
