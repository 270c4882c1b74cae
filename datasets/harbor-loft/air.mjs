import { chance } from "../invent/chance.mjs";
import { absoluteHumidity, saturation, vaporPressure } from "../invent/moistAir.mjs";
import { redNoise } from "../invent/redNoise.mjs";
import { room } from "../invent/room.mjs";
import { utc } from "../invent/stamp.mjs";
import { cloudFactor, fairDay, pressureOfAir } from "../invent/weather.mjs";
import * as plan from "./plan.mjs";

const hourMs = 3600000;
const leadDays = 15;

/** cos of the yearly angle: 1 on `day` of each year, −1 half a year later. */
function yearly(ms, day) {
  return Math.cos((2 * Math.PI * (ms - utc(`${day}T12:00`))) / (365.25 * 24 * hourMs));
}

/** Outdoor temperature without its daily cycle, temperature (°C) and vapor pressure (hPa), every 10 minutes. */
function outdoorAir(chanceOf, axis) {
  const { start, stepHours, n } = axis;
  const { outdoor, site } = plan;
  const noise = (name, { memoryHours, sd }) => redNoise(chanceOf(name), n, stepHours, memoryHours, sd);
  const clouds = cloudFactor(chanceOf("clouds"), axis, site.longitude, outdoor.clouds);
  const slow = noise("temperature slow", outdoor.slow);
  const fast = noise("temperature fast", outdoor.fast);
  const damp = noise("damp", outdoor.damp.slow);
  const calm = new Float64Array(n);
  const t = new Float64Array(n);
  const e = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const ms = start + i * stepHours * hourMs;
    const season = yearly(ms, outdoor.year.warmestDay);
    calm[i] = outdoor.mean + outdoor.year.amplitude * season + slow[i];
    const cycle = (1 + outdoor.day.summerMore * season) * clouds[i];
    t[i] = calm[i] + fast[i] + cycle * fairDay(ms, site.longitude, outdoor.day);
    const share = Math.max(outdoor.damp.low, outdoor.damp.mean + damp[i]);
    // The sea sets the moisture: a share of saturation at the temperature without its daily cycle, never past saturation.
    e[i] = Math.min(share * saturation(calm[i]), saturation(t[i]));
  }
  return { calm, t, e };
}

/** Loft temperature (°C) and vapor pressure (hPa) from the outdoor air, the heater and the moisture given off. */
function loftAir(chanceOf, axis, outdoor) {
  const { start, stepHours, n } = axis;
  const { loft, insulation } = plan;
  const followed = room(outdoor.t, stepHours, (i) => {
    const ms = start + i * stepHours * hourMs;
    const heated = loft.heated.some(({ from, to }) => ms >= from && ms < to);
    return { ...(ms < insulation.from ? loft.before : loft.after), heater: heated ? loft.heater : null };
  });
  const habits = redNoise(chanceOf("loft habits"), n, stepHours, loft.habits.memoryHours, loft.habits.sd);
  const t = followed.map((value, i) => value + habits[i]);
  const { least, perKelvin, memoryHours, sd } = loft.moisture;
  const moist = redNoise(chanceOf("loft moisture"), n, stepHours, memoryHours, sd);
  const supplied = outdoor.e.map((e, i) => {
    return absoluteHumidity(e, outdoor.t[i]) + Math.max(0, least + perKelvin * Math.max(0, 15 - outdoor.calm[i]) + moist[i]);
  });
  const density = room(supplied, stepHours, () => ({ timeConstant: loft.airing, warmer: 0, heater: null }));
  const e = density.map((v, i) => Math.min(vaporPressure(v, t[i]), 0.99 * saturation(t[i])));
  return { t, e };
}

/**
 * The true air of harbor-loft every 10 minutes, begun 15 days before the record so that the loft has settled.
 *
 * @returns { axis: { start, stepHours, n }, harbor: { t °C, e hPa }, loft: { t, e }, pressure hPa }
 */
export function trueAir() {
  const chanceOf = (name) => chance(plan.seed, name);
  const stepHours = 1 / 6;
  const start = plan.start - leadDays * 24 * hourMs;
  const axis = { start, stepHours, n: Math.round((plan.end - start) / (stepHours * hourMs)) + 12 };
  const { calm, t, e } = outdoorAir(chanceOf, axis);
  const strength = (ms) => 1 + plan.pressure.winterStrength * yearly(ms, "2024-01-15");
  const climate = { ...plan.pressure, lines: plan.tideLines, longitude: plan.site.longitude, strength };
  return { axis, harbor: { t, e }, loft: loftAir(chanceOf, axis, { calm, t, e }), pressure: pressureOfAir(chanceOf, axis, climate) };
}
