import { absoluteHumidity } from "../invent/moistAir.mjs";
import { dailyResponse } from "../invent/room.mjs";
import { isoUtc, rounded } from "../invent/stamp.mjs";
import { throughSunnySensor } from "./apparent.mjs";
import { faultsSeen, fileAccounts, keptRows } from "./account.mjs";
import * as plan from "./plan.mjs";

const quantities = Object.keys(plan.decimals);

/** Mean of inside minus outside over the true air, minute by minute, between two instants. */
function trueMeans(air, from, to) {
  const { start, stepHours } = air.axis;
  const index = (ms) => Math.round((ms - start) / (stepHours * 3600000));
  let warmer = 0;
  let moister = 0;
  const [first, last] = [index(from), index(to)];
  for (let i = first; i < last; i++) {
    const { veranda: o, library: l } = air;
    warmer += l.t[i] - o.t[i];
    moister += absoluteHumidity(l.e[i], l.t[i]) - absoluteHumidity(o.e[i], o.t[i]);
  }
  return { meanDifference: rounded(warmer / (last - first), 3), moistureExcess: rounded(moister / (last - first), 3) };
}

/** The library's response in one period: the model's constants, what follows from them, and the means of the air drawn. */
function period(air, from, to, { timeConstant, warmer, moisture }) {
  const { decrementFactor, timeLagHours } = dailyResponse(timeConstant);
  return {
    from: isoUtc(from), to: isoUtc(to), timeConstantHours: timeConstant, meanDifferenceOfModel: warmer, moistureGivenOff: moisture,
    decrementFactor: rounded(decrementFactor, 4), timeLagHours: rounded(timeLagHours, 3),
    throughSunnySensor: throughSunnySensor(air, from, to, timeConstant), ofTheAirDrawn: trueMeans(air, from, to),
  };
}

function placeTruth(place, { rows, repeated, conflicting }) {
  const sensor = plan.sensors[place];
  const each = (of) => Object.fromEntries(quantities.map((q) => [q, of(q)]));
  const wet = rows.filter((row) => Number(row.relative_humidity.toFixed(1)) >= 100 && row.relative_humidity < 105.05).length;
  return {
    readings: rows.length, repeated, conflicting, values: each((q) => rows.filter((row) => !Number.isNaN(row[q])).length),
    humidityFrom100To105: wet, sensorOffset: each((q) => sensor[q].offset), whiteNoise: each((q) => sensor[q].white),
    barometerDriftPerYear: sensor.surface_air_pressure.driftPerYear ?? 0,
    tide: plan.tideLines.map(({ name, amplitude, maximumAt }) => {
      return { name, amplitude, maximumAt, maximumAtByItsClock: rounded(maximumAt + plan.untoldAhead[place] / 3600, 3) };
    }),
  };
}

/** The library's clock set back and forward again, as a reader sees it (instants after the told corrections). */
function clockJumps(kept) {
  const { place, from, to, seconds } = plan.clockSetBack;
  const instants = kept[place].rows;
  const before = instants.filter((row) => row.at < from).at(-1).instant;
  const shown = instants.filter((row) => row.at >= from && row.at < to).at(-1).instant;
  return [
    { place, at: isoUtc(before), seconds, says: "set back by mistake; rows written in the hour that repeats are conflicting, the first are kept" },
    { place, at: isoUtc(shown), seconds: -seconds, says: "set right again; shows as a gap of an hour" },
  ];
}

/**
 * The whole truth of hill-school, for truth.json.
 *
 * @param air   from `trueAir`
 * @param cards from `writeCards`
 */
export function truth(air, cards) {
  const kept = keptRows(cards);
  const { clockSetBack, letters, library, shutters, together, unsetClock, untoldAhead } = plan;
  return {
    about: "What was planted in the invented record hill-school. Instants are UTC as a reader gets them after the told clock corrections, except those of gaps and response periods, which are true ones; amplitudes hPa from mean to crest; maximumAt in hours of local mean solar time, maximumAtByItsClock with the clock error nobody told still in it; throughSunnySensor is the response as the sun-heated veranda sensor shows it; differences are library minus veranda; faults whose size is null have none.",
    seed: plan.seed,
    files: fileAccounts(cards),
    places: Object.fromEntries(Object.keys(letters).map((place) => [place, placeTruth(place, kept[place])])),
    pressureWeather: { ...plan.pressure, model: "base + tide + smooth (two equal poles) + slow AR(1) + fast AR(1); hours and hPa; the same air in both places" },
    response: {
      model: "one time constant: dT/dt = (outdoor + meanDifference − T)/timeConstant, plus habits (AR(1)) on top of T; moisture: outdoor absolute humidity + what is given off, followed with an airing time; all K, h, g m-3",
      habits: library.habits, airingHours: library.airing, schoolHours: library.school,
      periods: [period(air, together.to, shutters.from, library.before), period(air, shutters.from, plan.end, library.after)],
    },
    sensorOffset: {
      air_temperature: rounded(plan.sensors.library.air_temperature.offset - plan.sensors.veranda.air_temperature.offset, 3),
      relative_humidity: plan.sensors.library.relative_humidity.offset - plan.sensors.veranda.relative_humidity.offset,
      surface_air_pressure: rounded(plan.sensors.library.surface_air_pressure.offset - plan.sensors.veranda.surface_air_pressure.offset, 3),
    },
    clock: {
      corrections: plan.corrections,
      betweenPlaces: { a: "library", b: "veranda", offsetSeconds: untoldAhead.library - untoldAhead.veranda, driftSecondsPerDay: 0 },
      jumps: clockJumps(kept),
      mistimed: { place: clockSetBack.place, seconds: clockSetBack.seconds, readings: kept.library.rows.filter((row) => row.at >= clockSetBack.from && row.at < clockSetBack.to).length },
      unset: { place: unsetClock.place, rows: unsetClock.rows, shows: "1970-01-01" },
    },
    gaps: plan.gaps.map((gap) => ({ ...gap, from: isoUtc(gap.from), to: isoUtc(gap.to) })),
    faults: faultsSeen(kept).map((fault) => ({ ...fault, from: isoUtc(fault.from), to: isoUtc(fault.to), size: fault.size === null ? null : rounded(fault.size, 2) })),
  };
}
