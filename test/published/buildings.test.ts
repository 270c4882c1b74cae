import { describe } from "vitest";
import { absoluteHumidityFromVaporPressure } from "../../lib/air/absoluteHumidity.js";
import { saturationVaporPressure } from "../../lib/air/saturationVaporPressure.js";
import { outdoorRunningMean } from "../../lib/indoors/adaptiveComfort.js";
import { dailyResponse } from "../../lib/indoors/dailyResponse.js";
import { humidityClassLimit } from "../../lib/indoors/humidityClass.js";
import { coolingTimeConstant, roomFilter, roomResponse } from "../../lib/indoors/roomFilter.js";
import { surfaceHumidity } from "../../lib/indoors/surfaceRisk.js";
import { penetrationDepth, type WallLayer, wallResponse } from "../../lib/indoors/wallLayers.js";
import { checkRows, type PublishedRow } from "./publishedRow.js";

const firstOrder = "computed in Python: 1/√(1 + ω²τ²) and atan(ωτ)/ω at one cycle per day";
const digits = "half a unit of the last printed digit";
const rows: PublishedRow[] = [];

for (const [tau, gain, lag] of [[2, 0.88591, 1.842], [6, 0.53703, 3.835], [12, 0.30331, 4.823], [24, 0.15718, 5.397], [48, 0.07933, 5.697]]) {
  rows.push(
    { given: `gain of a room of ${tau} h at 1 cpd`, got: () => roomResponse(tau).gain, expected: gain, tolerance: { absolute: 6e-6 }, why: digits, source: firstOrder },
    { given: `lag of a room of ${tau} h at 1 cpd, h`, got: () => roomResponse(tau).lagHours, expected: lag, tolerance: { absolute: 6e-4 }, why: digits, source: firstOrder },
  );
}

/** A daily wave through the room filter, as the estimator sees it. */
function filtered(tau: number): { inside: Float64Array; outside: Float64Array } {
  const outside = Float64Array.from({ length: 24 * 40 }, (_, h) => 4 * Math.cos((2 * Math.PI * h) / 24));
  return { inside: roomFilter(outside, tau).subarray(24 * 25), outside: outside.subarray(24 * 25) };
}
for (const [tau, gain, lag] of [[2, 0.88591, 1.842], [12, 0.30331, 4.823], [48, 0.07933, 5.697]]) {
  const found = () => dailyResponse(filtered(tau).inside, filtered(tau).outside);
  rows.push(
    { given: `decrement factor found for a filtered wave, τ ${tau} h`, got: () => found().decrementFactor?.value ?? 0, expected: gain, tolerance: { relative: 0.007 }, why: "straight lines between hours are 0.6 % lower than the wave", source: firstOrder },
    { given: `lag found for a filtered wave, τ ${tau} h, h`, got: () => found().timeLag?.value ?? 0, expected: lag, tolerance: { absolute: 0.01 }, why: "straight lines shift no phase; the start has faded", source: firstOrder },
  );
}

const wall = (thickness: number, conductivity: number, density: number, heatCapacity: number): WallLayer => ({ thickness, conductivity, density, heatCapacity });
const materials = "computed in Python from √(λT/(πρc)); inputs typical, from memory";
for (const [name, conductivity, density, heatCapacity, depth] of [
  ["dense concrete", 1.8, 2400, 1000, 0.1436], ["solid brick", 0.77, 1700, 840, 0.1218], ["softwood", 0.13, 500, 1600, 0.0669], ["mineral wool", 0.04, 50, 1030, 0.1462],
  ["granite", 2.8, 2600, 1000, 0.1721], ["earth block", 0.75, 1730, 1000, 0.1092], ["aerated concrete", 0.12, 500, 1000, 0.0812],
] as const) {
  rows.push({ given: `daily penetration depth of ${name}, m`, got: () => penetrationDepth({ conductivity, density, heatCapacity }), expected: depth, tolerance: { absolute: 6e-5 }, why: digits, source: materials });
}

const concrete = wall(0.2, 1.8, 2400, 1000);
const brick = wall(0.25, 0.77, 1700, 840);
const wool = wall(0.1, 0.04, 50, 1030);
const transfer = "computed in Python: transfer matrices with unit determinant, ISO 13786 (from memory), R_si 0.13, R_se 0.04";
for (const [name, layers, u, f, lag] of [
  ["concrete 0.20 m", [concrete], 3.5573, 0.51361, 5.676], ["brick 0.25 m", [brick], 2.0215, 0.44636, 7.223], ["brick, wool outside", [brick, wool], 0.33393, 0.14374, 10.005],
  ["brick, wool inside", [wool, brick], 0.33393, 0.21856, 9.216], ["wool alone", [wool], 0.37453, 0.99373, 0.673],
] as const) {
  rows.push(
    { given: `U of ${name}`, got: () => wallResponse(layers).transmittance, expected: u, tolerance: { absolute: 6e-5 }, why: digits, source: transfer },
    { given: `decrement factor of ${name}`, got: () => wallResponse(layers).decrementFactor, expected: f, tolerance: { absolute: 6e-6 }, why: digits, source: transfer },
    { given: `lag of ${name}, h`, got: () => wallResponse(layers).timeLag, expected: lag, tolerance: { absolute: 6e-4 }, why: digits, source: transfer },
  );
}

/** Surface humidity after a day of steady cold, at 20 °C and 50 % inside, −5 °C outside. */
const steady = (factor: number): number =>
  surfaceHumidity({ temperature: new Float64Array(30).fill(20), humidity: new Float64Array(30).fill(50) }, new Float64Array(30).fill(-5), factor)[29];
const minimum = "read: gebaeudeforum.de, minimum thermal protection, Nov 2021 (DIN 4108-2)";
rows.push(
  { given: "time constant of a room that cools from 21 to 15.5 °C in 8 h, outside 2 °C", got: () => coolingTimeConstant(21, 15.5, 2, 8), expected: 23.409, tolerance: { absolute: 6e-4 }, why: digits, source: "computed in Python: Newton cooling" },
  { given: "surface humidity at 12.6 °C, %", got: () => steady(17.6 / 25), expected: 80, tolerance: { absolute: 0.12 }, why: "80 % falls at 12.617 °C by the WMO form", source: minimum },
  { given: "surface humidity at 12.617 °C, %", got: () => steady(17.617 / 25), expected: 80, tolerance: { absolute: 0.003 }, why: "half a unit of the last digit of the temperature", source: "computed in Python, WMO-No. 8 Magnus" },
  { given: "factor at which water condenses: humidity at f 0.570, %", got: () => steady(0.5702), expected: 100, tolerance: { absolute: 0.02 }, why: "dew point 9.255 °C", source: "computed in Python, WMO-No. 8 Magnus" },
  { given: "running mean of 20 18 16 15 14 13 12 °C", got: () => outdoorRunningMean([20, 18, 16, 15, 14, 13, 12]), expected: 16.684, tolerance: { absolute: 6e-4 }, why: digits, source: "from memory: EN 16798-1; computed in Python" },
  { given: "upper limit of class 3 at −5 °C outside, g/m³", got: () => humidityClassLimit(3, -5), expected: 6, tolerance: { absolute: 1e-12 }, why: "exact", source: "from memory: ISO 13788" },
  { given: "upper limit of class 1 at 10 °C outside, g/m³", got: () => humidityClassLimit(1, 10), expected: 1, tolerance: { absolute: 1e-12 }, why: "exact", source: "from memory: ISO 13788" },
  { given: "1.3529 hPa of vapor at 20 °C, g/m³", got: () => absoluteHumidityFromVaporPressure(1.3529, 20), expected: 1, tolerance: { absolute: 5e-5 }, why: "ties the classes' two units; half a digit of 1.3529", source: "computed in Python" },
  { given: "saturation at 20 °C for the vapor of 50 %, hPa", got: () => saturationVaporPressure(20) / 2, expected: 11.663, tolerance: { absolute: 6e-4 }, why: digits, source: "computed in Python, WMO-No. 8 Magnus" },
);

describe("buildings", () => checkRows(rows));
