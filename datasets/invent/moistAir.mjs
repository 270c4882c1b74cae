/**
 * Saturation vapor pressure over water, hPa, at t °C.
 * Source: WMO-No. 8 (2008 edition), Annex 4.B: 6.112 exp(17.62 t/(243.12 + t)), −45 … 60 °C.
 */
export function saturation(t) {
  return 6.112 * Math.exp((17.62 * t) / (243.12 + t));
}

// Gas constant of water vapor, 461.5 J/(kg K); hPa to Pa and kg to g give the factor.
const perKelvin = 1e5 / 461.5;

/** Absolute humidity, g/m³, of vapor pressure e hPa at t °C: ideal gas, R = 461.5 J/(kg K). */
export function absoluteHumidity(e, t) {
  return (perKelvin * e) / (t + 273.15);
}

/** Vapor pressure, hPa, of absolute humidity v g/m³ at t °C; turns `absoluteHumidity` round. */
export function vaporPressure(v, t) {
  return (v * (t + 273.15)) / perKelvin;
}
