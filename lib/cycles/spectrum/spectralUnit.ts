/** A unit raised to the square, UDUNITS spelling; a temperature's square is that of its differences, K2. */
function squared(unit: string): string {
  if (unit === "1") return "1";
  if (unit === "degC") return "K2";
  return /^[A-Za-z]+$/.test(unit) ? `${unit}2` : `(${unit})2`;
}

/**
 * Unit of a power spectrum (mean square in a bin) of values in `unit`.
 *
 * @example powerUnit("hPa") // "hPa2"
 */
export function powerUnit(unit: string): string {
  return squared(unit);
}

/**
 * Unit of a density per cycle a day of values in `unit`: a day is one over a cycle per day.
 *
 * @example densityUnit("hPa") // "hPa2 d"
 */
export function densityUnit(unit: string): string {
  return unit === "1" ? "d" : `${squared(unit)} d`;
}

/**
 * Unit of an amplitude of values in `unit`: a difference of temperatures is in K.
 *
 * @example amplitudeUnit("degC") // "K"
 */
export function amplitudeUnit(unit: string): string {
  return unit === "degC" ? "K" : unit;
}
