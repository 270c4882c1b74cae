import { utc } from "../invent/stamp.mjs";

/** Everything that was decided about the invented record harbor-loft, before a single number was drawn. Times are UTC unless said. */

/** Chosen once, the first day of the record; not tried against any other. */
export const seed = 20230915;

export const site = { latitude: 58, longitude: -5, elevation: 12 };
export const zone = "Europe/London";
export const start = utc("2023-09-15T00:00");
export const end = utc("2024-11-20T00:00");
export const stepSeconds = 3600;

/** Weak tide, the same in both places and all year. 1.16 cos³(58°) hPa is 0.173 hPa: S2 stands 1.10 times above it. */
export const tideLines = [
  { name: "S1", timesPerDay: 1, amplitude: 0.12, maximumAt: 6.5 },
  { name: "S2", timesPerDay: 2, amplitude: 0.19, maximumAt: 10.3 },
  { name: "S3", timesPerDay: 3, amplitude: 0.05, maximumAt: 2.5 },
  { name: "S4", timesPerDay: 4, amplitude: 0.01, maximumAt: 3 },
];

/** Swings of passing lows and highs, a quarter stronger in mid-January and a quarter weaker in mid-July. */
export const pressure = {
  base: 1008,
  smooth: { memoryHours: 20, sd: 9.3 },
  slow: { memoryHours: 192, sd: 3.5 },
  fast: { memoryHours: 0.6, sd: 0.12 },
  winterStrength: 0.25,
};

export const outdoor = {
  mean: 8.5,
  year: { amplitude: 4.8, warmestDay: "2024-07-30" },
  slow: { memoryHours: 60, sd: 2.4 },
  fast: { memoryHours: 1.5, sd: 0.4 },
  day: { first: 1.6, second: 0.35, warmestAt: 14.2, summerMore: 0.6 },
  clouds: { sd: 0.4, memoryDays: 1.5, low: 0.1, high: 2 },
  damp: { mean: 0.83, slow: { memoryHours: 40, sd: 0.07 }, low: 0.45 },
};

export const insulation = { at: "2024-07-06", from: utc("2024-07-06T11:00"), title: "insulation laid under the roof" };

/** The loft: one time constant, steady gains, and in the heating season a heater that holds 67 °F. Insulation keeps C and the gains, and divides the losses by 1.6. */
export const loft = {
  before: { timeConstant: 15, warmer: 3.2 },
  after: { timeConstant: 24, warmer: 5.1 },
  heater: { setPoint: 19.44, gain: 4, power: 2 },
  heated: [
    { from: utc("2023-10-01T00:00"), to: utc("2024-05-01T00:00") },
    { from: utc("2024-10-01T00:00"), to: utc("2024-12-01T00:00") },
  ],
  habits: { memoryHours: 20, sd: 0.2 },
  airing: 2,
  /** Moisture given off: least when it is 15 °C or warmer outside, more by `perKelvin` for each degree below. */
  moisture: { least: 0.6, perKelvin: 0.13, memoryHours: 12, sd: 0.25 },
};

/** °C, %, hPa; the drift is of the barometer. */
export const sensors = {
  harbor: {
    air_temperature: { offset: 0.1, white: 0.06, wander: { memoryHours: 6, sd: 0.05 } },
    relative_humidity: { offset: 1, white: 0.4, wander: { memoryHours: 12, sd: 0.3 }, low: 0, high: 100 },
    surface_air_pressure: { offset: 0.4, white: 0.05 },
  },
  loft: {
    air_temperature: { offset: -0.2, white: 0.06, wander: { memoryHours: 6, sd: 0.05 } },
    relative_humidity: { offset: -2, white: 0.4, wander: { memoryHours: 12, sd: 0.3 }, low: 0, high: 100 },
    surface_air_pressure: { offset: -0.2, driftPerYear: 0.3, white: 0.05 },
  },
};

/** As printed: °F to a tenth, whole per cent, inHg to a thousandth. */
export const decimals = { air_temperature: 1, relative_humidity: 0, surface_air_pressure: 3 };
export const columns = { air_temperature: "temp", relative_humidity: "hum", surface_air_pressure: "baro" };

export const gaps = [
  { places: ["harbor", "loft"], from: utc("2024-01-08T15:30"), to: utc("2024-01-17T09:30"), why: "logger unplugged" },
  { places: ["loft"], from: utc("2024-03-02T20:30"), to: utc("2024-03-05T18:30"), why: "battery of the loft's sensor; its columns are empty" },
  { places: ["harbor", "loft"], from: utc("2024-05-21T02:30"), to: utc("2024-05-22T08:30"), why: "power failure" },
  { places: ["harbor", "loft"], from: utc("2024-09-14T11:30"), to: utc("2024-09-14T16:30"), why: "power failure" },
];
export const lostShare = 0.004;
export const missingShare = 0.003;

export const logs = [
  { path: "log-2023.csv", from: start, to: utc("2024-01-01T00:00") },
  { path: "log-2024.csv", from: utc("2024-01-01T00:00"), to: end },
];
