import { remembered } from "../../ground/remembered.js";
import type { AirRecord } from "../../record/airRecord.js";
import { leftOut } from "../../record/flag.js";
import { quantityWords } from "../../record/quantity.js";
import type { Series } from "../../record/series.js";
import { consequence, type Finding, type FindingWords } from "./finding.js";

/** So often must one value come back to look like a code. */
const fewest = 5;
/** It stands away from every other value by this share of all that they range over. */
const apart = 0.5;

/** A value that looks like a code for missing, how often it stands there, and how many of those no flag takes out. */
interface Code {
  readonly value: number;
  readonly count: number;
  readonly believed: number;
}

/** Asked once for the verdict and once for its words. */
const once = remembered<Series, Code | null>();

/**
 * Columns in which one far value comes back again and again: −999.9, −99, −9, a code for missing that the description does not name.
 *
 * @param record flagged
 * @param words  names of places
 * @source common practice, no source
 */
export function missingCodes(record: AirRecord, words: FindingWords): Finding[] {
  const found: Finding[] = [];
  for (const place of Object.values(record.places)) {
    for (const series of Object.values(place.series)) {
      const code = once(series, "", () => codeOf(series));
      if (code === null) continue;
      const text = Number(code.value.toFixed(2)).toString().replace("-", "−");
      const isOut = code.believed === 0;
      found.push({
        weight: isOut ? 1 : 2,
        says: `the ${quantityWords[series.quantity]} of ${words.place(place.name)} reads exactly ${text} ${series.unit === "degC" ? "°C" : series.unit} ${code.count} times, far from everything else: it looks like a code for a missing value`,
        remedy: `add it, as the log writes it, to missingValues in the description`,
        consequences: isOut ? [] : consequence(series.quantity.includes("pressure") ? ["tides", "swings"] : ["indoors", "climate"], "all", `codes for missing are read as ${quantityWords[series.quantity]}`),
      });
    }
  }
  return found;
}

/** The lowest or the highest value where it comes back often and stands far off; null otherwise. */
function codeOf({ values, flags }: Series): Code | null {
  let low = Infinity;
  let secondLow = Infinity;
  let high = -Infinity;
  let secondHigh = -Infinity;
  for (let i = 0; i < values.length; i++) {
    const v = values[i];
    // NaN is in no order.
    if (v < low) {
      secondLow = low;
      low = v;
    } else if (v > low && v < secondLow) secondLow = v;
    if (v > high) {
      secondHigh = high;
      high = v;
    } else if (v < high && v > secondHigh) secondHigh = v;
  }
  const lowCode = secondLow - low > apart * (high - secondLow) && secondLow < high ? counted(low, values, flags) : null;
  if (lowCode !== null) return lowCode;
  return high - secondHigh > apart * (secondHigh - low) && secondHigh > low ? counted(high, values, flags) : null;
}

/** How often one value stands in a series; null where that is not often. */
function counted(value: number, values: Float64Array, flags: Uint16Array): Code | null {
  let count = 0;
  let believed = 0;
  for (let i = 0; i < values.length; i++) {
    if (values[i] !== value) continue;
    count++;
    if ((flags[i] & leftOut) === 0) believed++;
  }
  return count >= fewest ? { value, count, believed } : null;
}
