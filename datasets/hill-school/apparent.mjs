import { dailyResponse } from "../invent/room.mjs";
import { rounded } from "../invent/stamp.mjs";
import { sunOnSensor } from "./loggers.mjs";
import * as plan from "./plan.mjs";

const dayMs = 86400000;

/** Sum of values times e^(−iωt) over whole civil days between two instants, ω once a day. */
function dailyLine(at, air, from, to) {
  const midnight = plan.local("2024-01-01T00:00");
  const first = midnight + Math.ceil((from - midnight) / dayMs) * dayMs;
  const last = midnight + Math.floor((to - midnight) / dayMs) * dayMs;
  let re = 0;
  let im = 0;
  for (let ms = first; ms < last; ms += air.axis.stepHours * 3600000) {
    const angle = (2 * Math.PI * (ms - midnight)) / dayMs;
    re += at(ms) * Math.cos(angle);
    im -= at(ms) * Math.sin(angle);
  }
  return { re, im };
}

/**
 * Decrement and lag as the veranda's own sensor shows them: the sun under the eaves adds to the outdoor daily cycle,
 * so the room seems to answer less and sooner than it does.
 *
 * @param air    from `trueAir`
 * @param from   epoch ms
 * @param to     epoch ms
 * @param timeConstant h
 * @returns { decrementFactor, timeLagHours }
 */
export function throughSunnySensor(air, from, to, timeConstant) {
  const { start, stepHours } = air.axis;
  const heat = sunOnSensor(air);
  const o = dailyLine((ms) => air.veranda.t[Math.round((ms - start) / (stepHours * 3600000))], air, from, to);
  const s = dailyLine(heat, air, from, to);
  const { decrementFactor, timeLagHours } = dailyResponse(timeConstant);
  const [re, im] = [o.re + s.re, o.im + s.im];
  const later = ((Math.atan2(o.im, o.re) - Math.atan2(im, re)) * 24) / (2 * Math.PI);
  return {
    decrementFactor: rounded((decrementFactor * Math.hypot(o.re, o.im)) / Math.hypot(re, im), 4),
    timeLagHours: rounded(timeLagHours - later, 3),
  };
}
