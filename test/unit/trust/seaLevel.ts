import type { Readings } from "../../simulation/inventedHouse.js";

/**
 * Readings whose pressure was reduced to sea level with the temperature of the moment, as some loggers do.
 *
 * @source p₀ = p exp(g H / (R_d (T + a H / 2))), a = 0.0065 K/m, R_d 287.05, g 9.80665: the usual form without humidity, from memory
 */
export function reduceToSeaLevel(readings: Readings, elevation: number): Readings {
  const { surface_air_pressure: p, air_temperature: t } = readings;
  const column = (celsius: number): number => celsius + 273.15 + (0.0065 * elevation) / 2;
  return { ...readings, surface_air_pressure: p.map((v, i) => v * Math.exp((9.80665 * elevation) / (287.05 * column(t[i])))) };
}
