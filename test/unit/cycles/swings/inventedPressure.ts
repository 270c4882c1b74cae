import { random } from "../../../../lib/ground/random.js";

/**
 * Invented hourly pressure of passing weather without a tide: two poles of `memory` hours, standard deviation `size`, plus white noise.
 *
 * @param options.cycle a wave of so many days and hPa on top
 */
export function inventedPressure(
  days: number,
  seed: number,
  options: { memory?: number; size?: number; white?: number; cycle?: { days: number; size: number } } = {},
): Float64Array {
  const { memory = 20, size = 8, white = 0.05, cycle } = options;
  const { normal } = random(seed);
  const a = Math.exp(-1 / memory);
  const spin = Math.ceil(20 * memory);
  const scale = size * Math.sqrt((1 - a * a) ** 3 / (1 + a * a));
  let [x, y] = [0, 0];
  const out: Float64Array = new Float64Array(Math.round(24 * days));
  for (let i = -spin; i < out.length; i++) {
    const next = 2 * a * x - a * a * y + scale * normal();
    y = x;
    x = next;
    if (i >= 0) out[i] = 1010 + x + white * normal() + (cycle === undefined ? 0 : cycle.size * Math.sin((2 * Math.PI * i) / 24 / cycle.days));
  }
  return out;
}
