import { absoluteHumidity } from "../air/absoluteHumidity.js";
import { readingLimit } from "../air/readingLimit.js";
import { vaporPressure } from "../air/relativeHumidity.js";
import { type MeanDifference, meanDifference } from "./meanDifference.js";

/** Temperature and humidity of one place by hours. */
export interface MoistHours {
  /** °C · [n] · NaN is missing. */
  readonly temperature: ArrayLike<number>;
  /** % over liquid water · [n] · NaN is missing. */
  readonly humidity: ArrayLike<number>;
}

const isHumidity = (v: number): boolean => v >= readingLimit.relativeHumidity.low && v <= readingLimit.relativeHumidity.high;
const isTemperature = (v: number): boolean => v >= readingLimit.temperature.low && v <= readingLimit.temperature.high;

/** Applies a formula of temperature and humidity hour by hour; what is missing or cannot be (above 105 %) is NaN. */
function byHour({ temperature, humidity }: MoistHours, formula: (t: number, rh: number) => number): Float64Array {
  return Float64Array.from({ length: temperature.length }, (_, h) =>
    isHumidity(humidity[h]) && isTemperature(temperature[h]) ? formula(temperature[h], humidity[h]) : Number.NaN,
  );
}

/** Absolute humidity by hours · g m-3 · [n] · NaN where missing or impossible. */
export function hourlyMoisture(place: MoistHours): Float64Array {
  return byHour(place, (t, rh) => absoluteHumidity(t, rh));
}

/** Vapor pressure by hours · hPa · [n] · NaN where missing or impossible. */
export function hourlyVaporPressure(place: MoistHours): Float64Array {
  return byHour(place, (t, rh) => vaporPressure(t, rh));
}

/**
 * Moisture excess: how many grams of water a cubic meter of air holds more inside than outside, on average.
 *
 * What breathing, cooking, washing and drying add, less what airing takes away. Two uncorrected sensors of the usual class may
 * differ by 0.7 g/m³ by themselves, which is not in the interval: see sensorOffset.
 *
 * @param inside, outside see MoistHours · [n], hour 0 a midnight
 * @returns               see MeanDifference, unit g m-3
 * @throws RangeError     when lengths differ
 * @example moistureExcess(indoorAir, outdoorAir).difference?.value // 1.38 g m-3
 * @source difference of absolute humidities; interval as meanDifference
 */
export function moistureExcess(inside: MoistHours, outside: MoistHours): MeanDifference {
  return meanDifference(hourlyMoisture(inside), hourlyMoisture(outside), { unit: "g m-3" });
}

/**
 * Vapor pressure excess: how much higher the pressure of water vapor is inside than outside, on average; what drives moisture into walls.
 *
 * @param inside, outside see MoistHours · [n], hour 0 a midnight
 * @returns               see MeanDifference, unit hPa
 * @throws RangeError     when lengths differ
 * @example vaporPressureExcess(indoorAir, outdoorAir).difference?.value // 1.94 hPa
 * @source difference of vapor pressures; interval as meanDifference
 */
export function vaporPressureExcess(inside: MoistHours, outside: MoistHours): MeanDifference {
  return meanDifference(hourlyVaporPressure(inside), hourlyVaporPressure(outside), { unit: "hPa" });
}
