import { absoluteHumidity } from "../invent/moistAir.mjs";
import { dailyResponse } from "../invent/room.mjs";
import { isoUtc, rounded } from "../invent/stamp.mjs";
import { changes } from "./civilClock.mjs";
import * as plan from "./plan.mjs";

const hourMs = 3600000;
const quantities = Object.keys(plan.decimals);

/** Mean and spread of the loft, and means of loft minus harbor, over the true air between two instants. */
function ofTheAirDrawn(air, from, to) {
  const { start, stepHours } = air.axis;
  const [first, last] = [from, to].map((ms) => Math.round((ms - start) / (stepHours * hourMs)));
  const n = last - first;
  let sum = 0;
  let squares = 0;
  let warmer = 0;
  let moister = 0;
  for (let i = first; i < last; i++) {
    const { harbor: o, loft: l } = air;
    sum += l.t[i];
    squares += l.t[i] ** 2;
    warmer += l.t[i] - o.t[i];
    moister += absoluteHumidity(l.e[i], l.t[i]) - absoluteHumidity(o.e[i], o.t[i]);
  }
  return {
    loftMean: rounded(sum / n, 3), loftSpread: rounded(Math.sqrt(squares / n - (sum / n) ** 2), 3),
    meanDifference: rounded(warmer / n, 3), moistureExcess: rounded(moister / n, 3),
  };
}

/** Stretches of the record in which nothing about the loft changes: heated or not, before or after the insulation. */
function periods(air) {
  const { loft, insulation, start, end } = plan;
  const cuts = [...loft.heated.flatMap(({ from, to }) => [from, to]), insulation.from].filter((ms) => ms > start && ms < end);
  const edges = [start, ...cuts, end].sort((a, b) => a - b);
  return edges.slice(1).map((to, k) => {
    const from = edges[k];
    const heated = loft.heated.some((season) => from >= season.from && from < season.to);
    const { timeConstant, warmer } = from < insulation.from ? loft.before : loft.after;
    const { decrementFactor, timeLagHours } = dailyResponse(timeConstant);
    const open = heated ? {} : { meanDifferenceOfModel: warmer, decrementFactor: rounded(decrementFactor, 4), timeLagHours: rounded(timeLagHours, 3) };
    return { from: isoUtc(from), to: isoUtc(to), heated, timeConstantHours: timeConstant, ...open, ofTheAirDrawn: ofTheAirDrawn(air, from, to) };
  });
}

function placeTruth(place, rows) {
  const sensor = plan.sensors[place];
  const each = (of) => Object.fromEntries(quantities.map((q) => [q, of(q)]));
  return {
    values: each((q) => rows.filter(({ present }) => present[place][q]).length),
    sensorOffset: each((q) => sensor[q].offset), whiteNoise: each((q) => sensor[q].white),
    barometerDriftPerYear: sensor.surface_air_pressure.driftPerYear ?? 0,
    tide: plan.tideLines.map(({ name, amplitude, maximumAt }) => ({ name, amplitude, maximumAt })),
  };
}

/** Standard deviation of the true station pressure over the record, hPa. */
function pressureSpread(air) {
  const first = Math.round((plan.start - air.axis.start) / (air.axis.stepHours * hourMs));
  const p = air.pressure.subarray(first);
  const mean = p.reduce((a, b) => a + b, 0) / p.length;
  return rounded(Math.sqrt(p.reduce((a, b) => a + (b - mean) ** 2, 0) / p.length), 3);
}

/**
 * The whole truth of harbor-loft, for truth.json.
 *
 * @param air  from `trueAir`
 * @param logs from `writeLogs`
 */
export function truth(air, logs) {
  const rows = logs.flatMap((log) => log.rows);
  const { loft, sensors } = plan;
  const difference = (q) => rounded(sensors.loft[q].offset - sensors.harbor[q].offset, 3);
  return {
    about: "What was planted in the invented record harbor-loft. Instants are UTC; amplitudes hPa from mean to crest; maximumAt in hours of local mean solar time; house units (°C, K, %, hPa, g m-3, h); differences are loft minus harbor.",
    seed: plan.seed,
    files: logs.map(({ path, rows: own }) => ({ path, lines: own.length + 1, accepted: own.length, skipped: 1, rejected: 0, kinds: { row: own.length, header: 1 } })),
    places: Object.fromEntries(Object.keys(sensors).map((place) => [place, placeTruth(place, rows)])),
    pressureWeather: {
      ...plan.pressure, spreadDrawn: pressureSpread(air),
      model: "base + tide + strength × (smooth (two equal poles) + slow AR(1)) + fast AR(1); strength 1 ± winterStrength, greatest in mid-January; hours and hPa; the same air in both places",
    },
    response: {
      model: "one time constant: dT/dt = (outdoor + meanDifference − T)/timeConstant + heating, plus habits (AR(1)) on top of T; heating = gain × (setPoint − T) between 0 and power (K/h) in the heating season; with heating on neither decrement nor lag is that of the walls",
      heater: loft.heater, habits: loft.habits, airingHours: loft.airing, moisture: loft.moisture, periods: periods(air),
      insulation: { at: isoUtc(plan.insulation.from), timeConstantBefore: loft.before.timeConstant, timeConstantAfter: loft.after.timeConstant, meanDifferenceChangeUnheated: rounded(loft.after.warmer - loft.before.warmer, 3) },
    },
    sensorOffset: Object.fromEntries(quantities.map((q) => [q, difference(q)])),
    clock: { betweenPlaces: { a: "harbor", b: "loft", offsetSeconds: 0, driftSecondsPerDay: 0 }, zone: plan.zone, ...changes(plan.start, plan.end) },
    gaps: plan.gaps.map((gap) => ({ ...gap, from: isoUtc(gap.from), to: isoUtc(gap.to) })),
    faults: [],
  };
}
