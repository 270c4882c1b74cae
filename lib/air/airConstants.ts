/**
 * Numbers that every file of this room shares. Each is held by test/published/humidity.test.ts.
 *
 * `molarRatio` and the two gas constants are rounded separately, as in meteorological handbooks: 287.05 / 461.5 = 0.62199,
 * 2·10⁻⁵ away from 0.62198, far below any sensor.
 *
 * @source WMO-No. 8 conventions (values from memory); ideal gas of dry air and vapor
 */
export const airConstants: {
  /** 0 °C · K · exact */
  readonly zeroCelsius: number;
  /** gas constant of dry air · J kg-1 K-1 */
  readonly dryAirGasConstant: number;
  /** gas constant of water vapor · J kg-1 K-1 */
  readonly vaporGasConstant: number;
  /** molar mass of water over that of dry air · 1 */
  readonly molarRatio: number;
  /** standard gravity · m s-2 · exact */
  readonly standardGravity: number;
  /** lapse of the standard atmosphere, positive for cooling with height · K m-1 · exact */
  readonly standardLapse: number;
} = Object.freeze({
  zeroCelsius: 273.15,
  dryAirGasConstant: 287.05,
  vaporGasConstant: 461.5,
  molarRatio: 0.62198,
  standardGravity: 9.80665,
  standardLapse: 0.0065,
});
