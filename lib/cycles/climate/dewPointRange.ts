import { dewPoint } from "../../air/dewPoint.js";
import { mustSentence } from "../../ground/complaint.js";
import { quantiles } from "../../ground/summary.js";

/** Where the dew point of a span lies. */
export interface DewPointRange {
  /** °C · NaN when nothing is present. */
  readonly lowest: number;
  readonly highest: number;
  readonly median: number;
  /** Nine of ten readings lie between these two · °C. */
  readonly from: number;
  readonly to: number;
  readonly readings: number;
}

/**
 * Range of the dew point over a span of readings of temperature and humidity.
 *
 * The dew point tells how much water is in the air whatever its temperature; it changes with the air mass, little with the hour.
 *
 * @param temperature °C · [n] · NaN is missing
 * @param humidity    % over liquid water · [n], same instants · NaN is missing
 * @returns           see DewPointRange, frozen
 * @throws RangeError when lengths differ, or a reading is outside the range of dewPoint
 * @example dewPointRange([20, 20], [50, 60]).lowest // 9.3
 * @source dewPoint of lib/air
 */
export function dewPointRange(temperature: ArrayLike<number>, humidity: ArrayLike<number>): DewPointRange {
  if (humidity.length !== temperature.length) {
    throw new RangeError(mustSentence("dewPointRange", "humidity", `have the length of temperature, ${temperature.length}`, String(humidity.length)));
  }
  const points: Float64Array = new Float64Array(temperature.length);
  let readings = 0;
  for (let i = 0; i < temperature.length; i++) {
    // None of what is missing or of 0 %; below that it would be refused.
    const point = humidity[i] < 0 ? Number.NaN : dewPoint(temperature[i], humidity[i]);
    if (!Number.isNaN(point)) points[readings++] = point;
  }
  const [lowest, from, median, to, highest] = quantiles(points.subarray(0, readings), [0, 0.05, 0.5, 0.95, 1]);
  return Object.freeze({ lowest, highest, median, from, to, readings });
}
