import { utc } from "../invent/stamp.mjs";

/**
 * Everything that was decided about the invented record hill-school, before a single number was drawn.
 * Times are civil times at +07:00; `local` turns them into epoch ms.
 */

/** Chosen once, the first day of the record; not tried against any other. */
export const seed = 20240412;

export const zoneHours = 7;
export const local = (text) => utc(text) - zoneHours * 3600000;

export const site = { latitude: -7.1, longitude: 110.2, elevation: 1380 };
export const start = local("2024-04-12T00:00");
export const end = local("2024-07-22T00:00");
export const stepSeconds = 300;

/** Pressure tide, the same in both places. 1.16 cos³(7.1°) hPa × 860/1013 is 0.962 hPa: S2 stands 1.12 times above it. */
export const tideLines = [
  { name: "S1", timesPerDay: 1, amplitude: 0.56, maximumAt: 5.6 },
  { name: "S2", timesPerDay: 2, amplitude: 1.08, maximumAt: 9.83 },
  { name: "S3", timesPerDay: 3, amplitude: 0.11, maximumAt: 1.9 },
  { name: "S4", timesPerDay: 4, amplitude: 0.02, maximumAt: 2.4 },
];

export const pressure = {
  base: 860,
  smooth: { memoryHours: 30, sd: 1 },
  slow: { memoryHours: 192, sd: 0.7 },
  fast: { memoryHours: 0.6, sd: 0.06 },
};

export const outdoor = {
  mean: 19.6,
  perDay: -0.01,
  slow: { memoryHours: 60, sd: 1.2 },
  fast: { memoryHours: 1.5, sd: 0.35 },
  day: { first: 3.4, second: 0.9, warmestAt: 13.9 },
  clouds: { sd: 0.28, memoryDays: 2, low: 0.35, high: 1.5 },
  vapor: { mean: 16, perDay: -0.01, slow: { memoryHours: 120, sd: 1.1 }, fast: { memoryHours: 8, sd: 0.5 }, day: 0.35, dampestAt: 10 },
};

/** From this evening on the shutters are closed every night; the model takes it as one change of the room's constants. */
export const shutters = { at: "2024-06-03", from: local("2024-06-03T18:00"), title: "shutters closed at night" };

/** The library: one time constant, a steady warming, moisture given off, and habits added on top. */
export const library = {
  before: { timeConstant: 9, warmer: 0.8, moisture: 1.1 },
  after: { timeConstant: 15, warmer: 1.5, moisture: 1.5 },
  habits: { memoryHours: 30, sd: 0.25 },
  airing: 1.5,
  school: { fromHour: 7, toHour: 13, moisture: 0.9 },
  moistureHabits: { memoryHours: 12, sd: 0.25 },
};

/** Both sensors on one table on the veranda. */
export const together = { from: start, to: local("2024-04-15T09:00"), fromText: "2024-04-12T00:00", toText: "2024-04-15T09:00" };

/** Hygrometers are held within their scale of 0 … 100 %; a wet one reads past it (see `wet`). */
export const sensors = {
  veranda: {
    air_temperature: { offset: -0.1, white: 0.05, wander: { memoryHours: 6, sd: 0.05 } },
    relative_humidity: { offset: 1, white: 0.3, wander: { memoryHours: 12, sd: 0.3 }, low: 0, high: 100 },
    surface_air_pressure: { offset: 0.2, white: 0.04 },
  },
  library: {
    air_temperature: { offset: 0.25, white: 0.05, wander: { memoryHours: 6, sd: 0.05 } },
    relative_humidity: { offset: -1.5, white: 0.3, wander: { memoryHours: 12, sd: 0.3 }, low: 0, high: 100 },
    surface_air_pressure: { offset: -0.4, driftPerYear: 0.5, white: 0.04 },
  },
};
export const decimals = { air_temperature: 1, relative_humidity: 1, surface_air_pressure: 2 };
export const letters = { veranda: "V", library: "L" };

/** Told in the description: how far both clocks were ahead. Beyond that the library's clock is ahead by a fixed amount nobody noted. */
export const corrections = [
  { at: "2024-04-12T09:00:00", ahead: 0 },
  { at: "2024-06-03T09:00:00", ahead: 62 },
  { at: "2024-07-21T16:00:00", ahead: 118 },
];
export const untoldAhead = { veranda: 0, library: 140 };

/** Set back by an hour by mistake, set right again five hours later. */
export const clockSetBack = { place: "library", from: local("2024-06-17T14:00"), to: local("2024-06-17T19:00"), seconds: -3600 };

/** After a power failure the first rows carry a clock that has not been set yet. */
export const unsetClock = { place: "veranda", from: local("2024-04-28T11:40"), rows: 8, shows: utc("1970-01-01T00:00") };

export const gaps = [
  { places: ["veranda", "library"], from: local("2024-04-28T03:10"), to: local("2024-04-28T11:40"), why: "power failure" },
  { places: ["veranda", "library"], from: local("2024-05-24T18:00"), to: local("2024-05-26T19:00"), why: "power failure over two days" },
  { places: ["library"], from: local("2024-06-12T08:00"), to: local("2024-06-12T11:10"), why: "battery" },
  { places: ["veranda", "library"], from: local("2024-06-30T14:00"), to: local("2024-06-30T15:20"), why: "power failure" },
  { places: ["veranda"], from: local("2024-07-09T22:00"), to: local("2024-07-10T04:30"), why: "battery" },
];

const t = "air_temperature";
const rh = "relative_humidity";
const p = "surface_air_pressure";

export const swap = { from: local("2024-05-09T12:00"), to: local("2024-05-09T16:30") };
export const stuck = [
  { place: "veranda", quantity: t, from: local("2024-05-17T21:10"), to: local("2024-05-18T07:40") },
  { place: "library", quantity: rh, from: local("2024-06-08T13:00"), to: local("2024-06-08T23:00") },
  { place: "veranda", quantity: p, from: local("2024-07-04T06:00"), to: local("2024-07-04T12:00") },
];
export const step = { place: "library", quantity: p, from: local("2024-07-01T08:00"), size: 1.4 };
export const wet = [
  { from: local("2024-04-20T02:00"), to: local("2024-04-20T08:30") },
  { from: local("2024-05-05T01:00"), to: local("2024-05-05T09:00") },
  { from: local("2024-05-31T03:00"), to: local("2024-05-31T07:00") },
];
export const range = [
  { place: "veranda", quantity: p, from: local("2024-05-12T15:00"), rows: 4, value: 0 },
  { place: "library", quantity: t, from: local("2024-05-29T01:00"), rows: 1, value: -99.9 },
  { place: "veranda", quantity: t, from: local("2024-06-05T05:00"), rows: 3, value: 185 },
  { place: "library", quantity: rh, from: local("2024-07-12T10:00"), rows: 2, value: 120.4 },
];

/** Low sun reaches under the eaves around the solstice, on days whose clouds leave at least this factor. */
export const sun = { firstDay: "2024-06-18", days: 21, fromHour: 15 + 1 / 3, toHour: 17, leastFactor: 1.1, peak: 3.5 };

export const spikes = [
  { place: "veranda", quantity: t, count: 5, low: 8, high: 20 },
  { place: "library", quantity: t, count: 4, low: 8, high: 20 },
  { place: "veranda", quantity: rh, count: 4, low: 28, high: 40 },
  { place: "library", quantity: rh, count: 3, low: 28, high: 40 },
  { place: "veranda", quantity: p, count: 5, low: 5, high: 15 },
  { place: "library", quantity: p, count: 4, low: 5, high: 15 },
];

export const lostShare = 0.006;
export const missingShare = 0.003;
export const loggedTwice = 5;

/** Three copies of the card; each begins before the last one ends. Lines are spoiled in each copy by itself. */
export const cards = [
  { path: "card-05.txt", from: start, to: local("2024-05-16T09:00"), lineEnd: "\n", cutAtEnd: true },
  { path: "card-06.txt", from: local("2024-05-14T00:00"), to: local("2024-06-20T09:30"), lineEnd: "\r\n", cutAtEnd: false },
  { path: "card-07.txt", from: local("2024-06-19T12:00"), to: end, lineEnd: "\n", cutAtEnd: false },
];
export const spoiled = { cut: 6, glued: 4, garbled: 5, blank: 8, comment: 4 };
export const header = "date,time,who,temp,hum,press";
