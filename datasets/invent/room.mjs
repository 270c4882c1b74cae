/**
 * A room with one time constant: dT/dt = (outdoor + warmer − T)/τ + heating.
 *
 * `warmer` is what steady gains (people, lamps, walls warmed by the sun) hold the room above the outdoor air, K.
 * The heater, if there is one, gives gain · (setPoint − T) K/h, never less than 0 nor more than its power.
 * Within a step outdoor air runs straight from one value to the next and T follows exactly; with a heater on, the
 * step is cut into short ones.
 *
 * @param outdoor    °C · [n]
 * @param stepHours  h
 * @param at         (i) → { timeConstant h, warmer K, heater: { setPoint °C, gain 1/h, power K/h } | null } in step i
 * @returns Float64Array [n], °C; begins at outdoor[0] + warmer
 */
export function room(outdoor, stepHours, at) {
  const n = outdoor.length;
  const out = new Float64Array(n);
  let t = outdoor[0] + at(0).warmer;
  out[0] = t;
  for (let i = 1; i < n; i++) {
    const { timeConstant, warmer, heater } = at(i);
    const pieces = heater === null ? 1 : 5;
    const h = stepHours / pieces;
    const a = Math.exp(-h / timeConstant);
    // Weights of the value at the end and at the beginning of a straight run.
    const last = 1 - ((1 - a) * timeConstant) / h;
    const first = 1 - a - last;
    for (let k = 0; k < pieces; k++) {
      const x0 = outdoor[i - 1] + ((outdoor[i] - outdoor[i - 1]) * k) / pieces + warmer;
      const x1 = outdoor[i - 1] + ((outdoor[i] - outdoor[i - 1]) * (k + 1)) / pieces + warmer;
      const heat = heater === null ? 0 : Math.min(heater.power, Math.max(0, heater.gain * (heater.setPoint - t)));
      t = a * t + first * x0 + last * x1 + (1 - a) * timeConstant * heat;
    }
    out[i] = t;
  }
  return out;
}

/**
 * What a room of one time constant does to a daily cycle: gain 1/√(1 + ω²τ²) and delay atan(ωτ)/ω, ω = 2π/24 per hour.
 *
 * @param timeConstant h
 * @returns { decrementFactor, timeLagHours }
 */
export function dailyResponse(timeConstant) {
  const turn = (2 * Math.PI * timeConstant) / 24;
  return { decrementFactor: 1 / Math.sqrt(1 + turn * turn), timeLagHours: (Math.atan(turn) * 24) / (2 * Math.PI) };
}
