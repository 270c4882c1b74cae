import * as airtides from "../../lib/index.js";
import { type Documented, Made } from "./edgeHarness.js";

const t0 = Date.UTC(2024, 2, 1);
const days = 12;
const wave = (h: number, mean: number, size: number, at: number): number => mean + size * Math.cos((2 * Math.PI * (h - at)) / 24) + 0.3 * size * Math.sin(h / 17) + 0.05 * size * Math.sin(97 * h);
const hourly = (mean: number, size: number, at: number, n = 24 * days): Float64Array => Float64Array.from({ length: n }, (_, h) => wave(h, mean, size, at));
const seriesOf = (quantity: airtides.Quantity, mean: number, size: number, at: number, place = "yard", n = 24 * days): airtides.Series =>
  airtides.series({ times: Array.from({ length: n }, (_, h) => t0 + 3_600_000 * h), values: hourly(mean, size, at, n), quantity, place });

const pressure = seriesOf("surface_air_pressure", 861, 1.5, 10);
const temperature = seriesOf("air_temperature", 22, 4, 14);
const inside = hourly(23, 2, 18);
const outside = hourly(20, 5, 14);
const damp = hourly(70, 9, 5);
const fit = airtides.fitTides(pressure, { longitude: 110.2 });
const fits = new Made(fit, [airtides.fitTides(seriesOf("surface_air_pressure", 0, 1e-9, 3), { longitude: 0 }), airtides.dailyCycle(temperature, { longitude: -180 })]);
const band = (hours: Float64Array): airtides.PressureSwings["parts"] | unknown => airtides.swingBand(hours);
const long = hourly(861, 1.5, 10, 24 * 40);
const swings = new Made(band(long), [band(hourly(861, 0, 0, 24 * 40)), band(new Float64Array(24 * 40))]);
const readings = { start: t0, seconds: Float64Array.from({ length: long.length }, (_, h) => 3600 * h), values: long };
const tideOf = new Made({ valueAt: () => 0.2, changeVariance: () => 0.01, isDetected: true });
const dailyOf = airtides.dailySummaries(temperature, 7);
const dailies = new Made(dailyOf, [[], dailyOf.slice(0, 1), airtides.dailySummaries(airtides.series({ times: [t0], values: [Number.NaN], quantity: "air_temperature" }), 0)]);
const months = new Made(airtides.monthlySummaries(dailyOf, "degC"), [[], airtides.monthlySummaries(dailyOf.slice(0, 1), "degC")]);
const even = { stepSeconds: 3600, unit: "hPa" };
const monthly = Float64Array.from({ length: 60 }, (_, m) => 20 + 3 * Math.cos((2 * Math.PI * m) / 12) + 0.004 * m + 0.3 * Math.sin(1.7 * m * m));
const dailyMeans = Float64Array.from({ length: 500 }, (_, d) => 10 + 8 * Math.cos((2 * Math.PI * (d - 200)) / 365.2422) + Math.sin(1.3 * d * d));
const moist = { temperature: inside, humidity: damp };
const concrete = { conductivity: 1.8, density: 2400, heatCapacity: 1000 };
const change = (value: number): object => ({ value, standardError: 0.1 });

/** Plausible arguments of every public routine that takes numbers, lists or series. */
export const edgeArguments: Readonly<Record<string, readonly unknown[]>> = {
  // ground
  estimate: [{ value: 1.1, standardError: 0.05, low: 1, high: 1.2, unit: "hPa", level: 0.9 }],
  instantText: [t0 + 0.5],
  leastSquares: [[[1, 1, 1, 1], [0, 1, 2, 3.5]], [1, 3, 5, 6]],
  longRunMean: [inside.slice(0, 40)],
  longRunVariance: [outside.slice(0, 40).map((v) => v - 20)],
  random: [7],
  olsAr1: [[new Array(30).fill(1), Array.from({ length: 30 }, (_, i) => (i % 7) - 3)], Array.from({ length: 30 }, (_, i) => Math.sin(i * i)), Array.from({ length: 30 }, (_, i) => i)],
  apparentSolarHours: [t0, 110.2],
  meanMidnight: [t0, 110.2],
  meanSolarHours: [t0, 110.2],
  sunTimes: [t0, -7.1, 110.2],
  sunPosition: [t0],
  // air
  absoluteHumidity: [20, 50],
  absoluteHumidityFromVaporPressure: [11.6, 20],
  airDensity: [20, 50, 1013],
  virtualTemperature: [20, 50, 1013],
  altimeterSetting: [850, 1380],
  dewPoint: [20, 50],
  dewPointFromVaporPressure: [11.6],
  frostPoint: [-10, 70],
  frostPointFromVaporPressure: [2],
  enhancementFactor: [1013],
  geometricHeight: [4996],
  geopotentialHeight: [5000],
  gravity: [45, { height: 10 }],
  heatIndex: [32, 50],
  hypsometricThickness: [1000, 500, 3],
  impliedElevation: [861, { seaLevelPressure: 1012, seaLevelSpread: 5, temperature: 20, temperatureSpread: 5 }],
  mixingRatio: [20, 50, 850],
  mixingRatioFromVaporPressure: [31, 954],
  specificHumidity: [20, 50, 850],
  relativeHumidityFromDewPoint: [20, 9],
  relativeHumidityFromVaporPressure: [20, 11],
  vaporPressure: [20, 50],
  saturationVaporPressure: [20],
  saturationVaporPressureOverIce: [-10],
  columnTemperature: [20, 1380, 60],
  seaLevelPressure: [860, 1380, { temperature: 20, relativeHumidity: 60 }],
  seaLevelPressureThrough: [860, 1380, 26],
  standardHeight: [858],
  standardPressure: [1380],
  standardTemperature: [1000],
  psychrometricWetBulb: [20, 50, 1013],
  stullWetBulb: [20, 50],
  vaporPressureFromWetBulb: [20, 15, 1013],
  // record
  series: [{ times: Array.from({ length: 30 }, (_, i) => t0 + 300_000 * i), values: hourly(861, 1, 3, 30), quantity: "surface_air_pressure", flags: new Array<number>(30).fill(0) }],
  recordFromSeries: [[pressure, temperature], { site: { latitude: -7.1, longitude: 110.2, elevation: 1380 }, averagedOver: 60 }],
  // grid
  detrend: [Array.from({ length: 30 }, (_, i) => 3 + i + Math.sin(i * i)), Array.from({ length: 30 }, (_, i) => i), { degree: 1 }],
  bridgeGaps: [Float64Array.of(1, Number.NaN, Number.NaN, 3, 4, 2), 2],
  gaps: [Float64Array.of(1, Number.NaN, Number.NaN, 3, 4, 2)],
  regularGrid: [pressure, { step: 3600, fillUpTo: 7200 }],
  bridgedHours: [Float64Array.of(1, Number.NaN, Number.NaN, 3, 4, 2)],
  crossCorrelation: [outside, inside, { from: -3, to: 12 }],
  movingBackground: [outside, 25],
  passFilter: [{ longerThan: 2, shorterThan: 15 }],
  passed: [new Made(airtides.passFilter({ shorterThan: 2 })), long],
  passResponse: [new Made(airtides.passFilter({ shorterThan: 2 }), [airtides.passFilter({ longerThan: 2, shorterThan: 15 })]), 5],
  medianStep: [Float64Array.from({ length: 50 }, (_, i) => 300 * i)],
  niceStep: [Float64Array.from({ length: 50 }, (_, i) => 301 * i)],
  lanczosLowPass: [2, 3, 1],
  lowPassResponse: [new Made(airtides.lanczosLowPass(2, 3)), 2],
  runLowPass: [new Made(airtides.lanczosLowPass(2, 3)), long, 861, 48],
  // cycles
  dailyCycle: [temperature, { longitude: 110.2 }],
  fitTides: [pressure, { longitude: 110.2 }],
  joinFits: [new Made([airtides.tideSums(pressure, fit)], [[]])],
  tideSums: [pressure, fits],
  meanDay: [pressure, { longitude: 110.2 }],
  tideAt: [fits, [t0, t0 + 3_600_000, t0 + 86_400_000], { averagedOver: 600 }],
  withoutTide: [pressure, fits],
  autoregressiveDensity: [[0.1, 1, 2], { coefficient: 0.9, innovation: 1, stepSeconds: 3600 }],
  fourierPlan: [60],
  lombScargle: [Array.from({ length: 40 }, (_, i) => i / 8 + 0.01 * Math.sin(i * i)), hourly(861, 1, 3, 40), [0.5, 1, 2]],
  multitaperDensity: [outside, 3, { ...even, level: 0.9 }],
  periodogramDensity: [outside, even],
  powerSpectrum: [outside, even],
  inverseRealTransform: [{ length: 8, real: Float64Array.of(3, -1, 2, 0, 1), imaginary: Float64Array.of(0, 1, 2, 3, 0) }],
  realTransform: [outside],
  spectrumLine: [outside, 1, even],
  windowWeights: ["Hann", 48],
  welchDensity: [outside, 48, { ...even, overlap: 0.5, level: 0.9 }],
  windowFigures: ["Hann", 64],
  bandStrength: [swings, 0.6],
  pressureSwings: [{ hours: { firstAt: t0, values: long }, readings, tide: tideOf, tideVariance: 0.6, noise: 0.05 }, { seed: 1, draws: 8 }],
  pressureTendency: [readings, tideOf, { reading: 0.05, dayToDay: 0.1 }],
  swingBand: [long, { noise: 0.05, dayToDay: 0.1 }],
  swingEvents: [swings, t0],
  swingSpectrum: [Float64Array.from({ length: 160 }, (_, i) => Math.sin(i / 4) + 0.3 * Math.sin(i * i)), airtides.random(1).normal, { draws: 20 }],
  tendencyCharacteristic: [change(1), change(-0.4), change(-1.4), change(0.6)],
  tendencyTerm: [-1.55, { low: -2, high: -1 }],
  varianceShares: [swings, Float64Array.from({ length: 24 * 40 }, (_, h) => Math.cos(h / 3.8))],
  countedDays: [dailies, { base: 18, hotFrom: 30 }],
  dailySummaries: [temperature, 7],
  daysForMean: [30, 0.6, 0.3],
  daysForTrend: [0.03, 1.2, 0.3],
  daysToGo: [365, 100.5],
  yearsForTrend: [0.03, 1.2, 0.3],
  dewPointRange: [inside, damp],
  monthlySummaries: [dailies, "degC"],
  monthlyTrend: [monthly, 3, "K"],
  placeClimate: [temperature, 7, { smallest: 20 }],
  mannKendall: [[1, 2, 2, 3, 1, 4, 4, 5], { group: [0, 1, 0, 1, 0, 1, 0, 1] }],
  theilSen: [[0, 1, 2, 3, 4, 5], [0, 1, 2, 9, 3, 5], "1", { group: [0, 1, 0, 1, 0, 1] }],
  sameMonths: [months, "K"],
  yearlyRound: [dailyMeans, 19000, "degC", "K"],
  yearlySummaries: [months, "degC"],
  // indoors
  adaptiveComfort: [inside, outside],
  bandResponse: [inside, outside],
  changeBetween: [{ value: 1, standardError: 0.3, degreesOfFreedom: 4 }, { value: 2, standardError: 0.4, degreesOfFreedom: 4 }],
  changeOfMean: [dailyMeans.slice(0, 60), dailyMeans.slice(60, 120), 30, { daysBefore: 2 }],
  crossSpectrum: [outside, inside, 72, { stepSeconds: 3600 }],
  dailyResponse: [inside, outside],
  hourlyPair: [temperature, seriesOf("air_temperature", 20, 3, 15, "room"), { offsetHours: 7, clockOffset: 140, bridgeUpTo: 3 }],
  humidityClass: [new Array<number>(40).fill(3).map((v, i) => v + 0.1 * (i % 3)), new Array<number>(40).fill(2), 0.5],
  humidityClassLimit: [2, 10],
  laggedCorrelation: [inside, outside],
  leftAlone: [inside, outside],
  rawCorrelation: [inside, outside],
  meanDifference: [inside, outside],
  moistureExcess: [moist, { temperature: outside, humidity: damp }],
  vaporPressureExcess: [moist, { temperature: outside, humidity: damp }],
  sideBySide: [inside, outside, { unit: "K" }],
  shareOfHours: [inside.map((v) => Number(v > 23))],
  surfaceHumidity: [moist, outside, 0.7],
  surfaceRisk: [moist, outside, { factor: 0.7 }],
  timeConstant: [inside, outside],
  varianceRatio: [inside, outside],
  roomResponse: [12, { cyclesPerDay: 1 }],
  penetrationDepth: [concrete, { periodHours: 24 }],
  wallResponse: [[{ thickness: 0.2, ...concrete }, { thickness: 0.05, conductivity: 0.04, density: 30, heatCapacity: 1400 }], { inner: 0.13, outer: 0.04 }],
  // trust
  agreement: [pressure, seriesOf("surface_air_pressure", 861.3, 1.5, 10, "room"), "pressure"],
  solarCheck: [fits, -7.1, temperature],
  plainJson: [{ hPa: Float64Array.of(861.2, 860), n: 3 }],
  // answers and figures that take numbers beside records
  exportedTideAt: [new Made(airtides.tideExport({ record: { name: "r" }, fits: { yard: fit } }).places.yard), t0],
  chart: [{ title: "A wave", heading: "hPa", xTitle: "h", lines: [{ label: "sine", x: [0, 6, 12], y: [0, 1, 0] }], message: "It rises and falls." }],
  plainText: ["<b>Loft & co", 60],
  evenMinMax: [outside, 20],
  minMaxThinned: [pressure, { bins: 30 }],
};

const whole = /^answer$/;
const forNaN: Documented = { nanForNaN: whole };
const none = /^answer\.(standardErrorOfAtanh|standardErrorOfLog|curvature|byLag\[\]|real|imaginary|radialError|tangentialError|t)$/;
const daily = { nan: /^answer\.(daily\[\]|memoryDays)$/ };

/** Numbers that the documentation says may be none. Where a list of readings comes back, what was missing stays missing. */
export const documentedNaN: Readonly<Record<string, Documented>> = {
  estimate: { infinite: /^answer\.(standardError|low|high)$/ },
  ...Object.fromEntries(
    ["absoluteHumidity", "absoluteHumidityFromVaporPressure", "airDensity", "virtualTemperature", "altimeterSetting", "enhancementFactor", "geometricHeight", "geopotentialHeight", "gravity", "hypsometricThickness", "mixingRatio", "mixingRatioFromVaporPressure", "specificHumidity", "relativeHumidityFromDewPoint", "relativeHumidityFromVaporPressure", "vaporPressure", "saturationVaporPressure", "saturationVaporPressureOverIce", "columnTemperature", "seaLevelPressure", "seaLevelPressureThrough", "standardHeight", "standardPressure", "standardTemperature", "psychrometricWetBulb", "stullWetBulb", "vaporPressureFromWetBulb", "humidityClassLimit"].map((name) => [name, forNaN]),
  ),
  // Air without vapor has no dew point, and the heat index has a range.
  ...Object.fromEntries(["dewPoint", "dewPointFromVaporPressure", "frostPoint", "frostPointFromVaporPressure", "heatIndex"].map((name) => [name, { nan: whole }])),
  series: { nanForNaN: /^answer\.values\[\]$/ },
  recordFromSeries: { nan: /^answer\.places\.yard\.series\.\w+\.values\[\]$/ },
  detrend: { nanForNaN: /^answer\.values\[\]$/ },
  bridgeGaps: { nanForNaN: /^answer\.values\[\]$/ },
  regularGrid: { nan: /^answer\.columns\[\]\.(values|instants)\[\]$/ },
  crossCorrelation: { nan: /^answer\[\]\.pValue$/ },
  movingBackground: { nan: /^answer\[\]$/ },
  passed: { nanForNaN: /^answer\.values\[\]$/ },
  meanDay: { nan: /^answer\.(mean|departure|spread)\[\]$/ },
  tideAt: { nan: /^answer\[\]$/ },
  withoutTide: { nanForNaN: /^answer\.values\[\]$/, infinite: /^answer\.values\[\]$/ },
  swingBand: { nanForNaN: /^answer\.rest\[\]$/ },
  pressureTendency: { nan: /^answer\.series\.(raw|tideFree)\[\]$/ },
  dewPointRange: { nan: /^answer\.(from|to|lowest|highest|median)$/ },
  adaptiveComfort: { nan: /^answer\.outdoorRunningMean$/ },
  changeOfMean: { nan: /^answer\.(phi|degreesOfFreedom)$/ },
  crossSpectrum: { nan: /^answer\.(coherence|real|imaginary|densityX|densityY)\[\]$/ },
  hourlyPair: { nan: /^answer\.(inside|outside)\[\]$/ },
  dailyResponse: { nan: none },
  laggedCorrelation: { nan: none },
  leftAlone: { nan: none },
  varianceRatio: { nan: none },
  timeConstant: { nan: /^answer\.(swings|all)\.(standardErrorOfLog|t)$/ },
  rawCorrelation: { nan: /^answer\.(withCycle|withoutCycle|pValue)$/ },
  meanDifference: daily,
  moistureExcess: daily,
  vaporPressureExcess: daily,
  shareOfHours: { nan: /^answer\.effectiveCount$/ },
  surfaceHumidity: { nan: /^answer\[\]$/ },
  // Thinning keeps readings as they are.
  evenMinMax: { nan: /^answer\.values\[\]$/, infinite: /^answer\.values\[\]$/ },
  minMaxThinned: { nan: /^answer\.values\[\]$/, infinite: /^answer\.values\[\]$/ },
};
