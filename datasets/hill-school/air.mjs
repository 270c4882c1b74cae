import { chance } from "../invent/chance.mjs";
import { absoluteHumidity, saturation, vaporPressure } from "../invent/moistAir.mjs";
import { redNoise } from "../invent/redNoise.mjs";
import { room } from "../invent/room.mjs";
import { solarHour } from "../invent/tide.mjs";
import { cloudFactor, fairDay, pressureOfAir } from "../invent/weather.mjs";
import * as plan from "./plan.mjs";

const dayMs = 86400000;
const leadDays = 10;

/** Outdoor temperature (°C), vapor pressure (hPa) and the cloud factor, minute by minute. */
function outdoorAir(chanceOf, axis) {
  const { start, stepHours, n } = axis;
  const { outdoor, site } = plan;
  const noise = (name, { memoryHours, sd }) => redNoise(chanceOf(name), n, stepHours, memoryHours, sd);
  const clouds = cloudFactor(chanceOf("clouds"), axis, site.longitude, outdoor.clouds);
  const slow = noise("temperature slow", outdoor.slow);
  const fast = noise("temperature fast", outdoor.fast);
  const damp = noise("vapor slow", outdoor.vapor.slow);
  const dampFast = noise("vapor fast", outdoor.vapor.fast);
  const t = new Float64Array(n);
  const e = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const ms = start + i * stepHours * 3600000;
    const day = (ms - plan.start) / dayMs;
    t[i] = outdoor.mean + outdoor.perDay * day + slow[i] + fast[i] + clouds[i] * fairDay(ms, site.longitude, outdoor.day);
    const { mean, perDay, day: size, dampestAt } = outdoor.vapor;
    const hour = solarHour(ms, site.longitude);
    const wanted = mean + perDay * day + damp[i] + dampFast[i] + size * Math.cos((2 * Math.PI * (hour - dampestAt)) / 24);
    // Air holds no more than saturation: the rest falls as mist.
    e[i] = Math.min(wanted, saturation(t[i]));
  }
  return { t, e, clouds };
}

/** Library temperature (°C) and vapor pressure (hPa) that follow from the outdoor air and the room's constants. */
function libraryAir(chanceOf, axis, outdoor) {
  const { start, stepHours, n } = axis;
  const { library, shutters, zoneHours } = plan;
  const msAt = (i) => start + i * stepHours * 3600000;
  const stateAt = (i) => (msAt(i) < shutters.from ? library.before : library.after);
  const followed = room(outdoor.t, stepHours, (i) => ({ ...stateAt(i), heater: null }));
  const habits = redNoise(chanceOf("library habits"), n, stepHours, library.habits.memoryHours, library.habits.sd);
  const t = followed.map((value, i) => value + habits[i]);

  const moist = redNoise(chanceOf("library moisture"), n, stepHours, library.moistureHabits.memoryHours, library.moistureHabits.sd);
  const supplied = outdoor.e.map((e, i) => {
    const civil = new Date(msAt(i) + zoneHours * 3600000);
    const hour = civil.getUTCHours();
    const taught = civil.getUTCDay() !== 0 && hour >= library.school.fromHour && hour < library.school.toHour;
    return absoluteHumidity(e, outdoor.t[i]) + stateAt(i).moisture + (taught ? library.school.moisture : 0) + moist[i];
  });
  const density = room(supplied, stepHours, () => ({ timeConstant: library.airing, warmer: 0, heater: null }));
  const e = density.map((v, i) => Math.min(vaporPressure(v, t[i]), 0.99 * saturation(t[i])));
  return { t, e };
}

/**
 * The true air of hill-school, minute by minute, begun ten days before the record so that the room has settled.
 *
 * @returns { axis: { start, stepHours, n }, veranda: { t °C, e hPa }, library: { t, e }, pressure hPa, clouds }
 */
export function trueAir() {
  const chanceOf = (name) => chance(plan.seed, name);
  const stepHours = 1 / 60;
  const start = plan.start - leadDays * dayMs;
  const axis = { start, stepHours, n: Math.round((plan.end - start) / 60000) + 120 };
  const { t, e, clouds } = outdoorAir(chanceOf, axis);
  const climate = { ...plan.pressure, lines: plan.tideLines, longitude: plan.site.longitude, strength: () => 1 };
  return { axis, veranda: { t, e }, library: libraryAir(chanceOf, axis, { t, e }), pressure: pressureOfAir(chanceOf, axis, climate), clouds };
}
