import { mustSentence, requireReadings, shown } from "../ground/complaint.js";
import { houseUnit, type Quantity } from "./quantity.js";

/** Last instant of a calendar in ECMAScript · epoch ms. */
const latestInstant = 8.64e15;

/**
 * One quantity of one place as it was logged: irregular, in time order, in house units.
 *
 * Instants are `start` (epoch ms, UTC) plus `seconds[i]`, non-decreasing. A missing value is NaN.
 * `flags[i]` holds the bits of `flagBit`; 0 is clean. All three arrays have the same length [n].
 */
export interface Series {
  readonly place: string;
  readonly quantity: Quantity;
  readonly unit: string;
  /** Epoch milliseconds, UTC. */
  readonly start: number;
  /** Seconds since `start` · [n] · non-decreasing. */
  readonly seconds: Float64Array;
  /** House units · [n] · NaN where missing. */
  readonly values: Float64Array;
  /** Bits of `flagBit` · [n]. */
  readonly flags: Uint16Array;
}

/**
 * Makes a Series from plain arrays, so that the library can be used without any file or description.
 *
 * Rows are sorted by time (stable); the caller's arrays are not changed. Values must already be in house units.
 *
 * @param parts.times    instants · epoch ms · [n]
 * @param parts.values   house units · [n] · NaN or null is missing
 * @param parts.quantity CF standard name
 * @param parts.place    name of the place, default "here"
 * @param parts.flags    bits of `flagBit` · [n], default all 0
 * @returns              a frozen Series whose `start` is the first instant
 * @throws RangeError    when lengths differ, a time is no instant (±8.64e15 ms), or a value is infinite or beyond ±1e60
 * @throws TypeError     when the quantity is unknown
 * @example series({ times: [0, 300000], values: [861.2, 861.1], quantity: "surface_air_pressure" }).seconds[1] // 300
 */
export function series(parts: {
  times: ArrayLike<number>;
  values: ArrayLike<number | null>;
  quantity: Quantity;
  place?: string;
  flags?: ArrayLike<number>;
}): Series {
  const { times, values, quantity, place = "here", flags } = parts;
  const n = times.length;
  if (!(quantity in houseUnit)) {
    throw new TypeError(mustSentence("series", "quantity", `be one of ${Object.keys(houseUnit).join(", ")}`, shown(quantity)));
  }
  if (values.length !== n) throw new RangeError(mustSentence("series", "values", `have the length of times, ${n}`, String(values.length)));
  if (flags !== undefined && flags.length !== n) {
    throw new RangeError(mustSentence("series", "flags", `have the length of times, ${n}`, String(flags.length)));
  }
  requireReadings("series", "values", values as ArrayLike<number>);
  let sorted = true;
  for (let i = 0; i < n; i++) {
    const t = times[i] as number;
    if (!(Math.abs(t) <= latestInstant)) throw new RangeError(mustSentence("series", "times", Number.isFinite(t) ? "be instants, epoch milliseconds within ±8.64e15" : "be finite epoch milliseconds", `${t} at index ${i}`));
    if (i > 0 && t < (times[i - 1] as number)) sorted = false;
  }
  const order = Uint32Array.from({ length: n }, (_, i) => i);
  if (!sorted) order.sort((a, b) => (times[a] as number) - (times[b] as number) || a - b);
  const start = n === 0 ? 0 : (times[order[0] as number] as number);
  const seconds: Float64Array = new Float64Array(n);
  const out: Float64Array = new Float64Array(n);
  const bits: Uint16Array = new Uint16Array(n);
  for (let i = 0; i < n; i++) {
    const k = order[i] as number;
    seconds[i] = ((times[k] as number) - start) / 1000;
    out[i] = values[k] ?? Number.NaN;
    bits[i] = flags === undefined ? 0 : (flags[k] as number);
  }
  return Object.freeze({ place, quantity, unit: houseUnit[quantity], start, seconds, values: out, flags: bits });
}
