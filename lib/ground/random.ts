import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import { mustSentence, shown } from "./complaint.js";

/** A stream of random numbers that is the same every time for the same seed. */
export interface Random {
  /** Evenly spread in [0, 1). */
  uniform(): number;
  /** Standard normal: mean 0, standard deviation 1. */
  normal(): number;
  /** A whole number from 0 to `below` − 1, each as likely. */
  integer(below: number): number;
}

/** The generator's first numbers are little more than its seed (1, 2, 3 … all begin near 1): these are thrown away. */
const warmUp = 24;

/**
 * A seeded stream of random numbers, for simulations and bootstraps; chance enters the library nowhere else.
 *
 * Every call of a method moves the stream on. Neighboring seeds give unlike streams: the seed is stirred first.
 *
 * @param seed whole number · −2⁵³…2⁵³ · say it beside every result that used it
 * @returns    see Random
 * @throws RangeError when the seed is not a whole number, or `below` of integer() not one from 1 to 2³²
 * @example random(1).integer(6) === random(1).integer(6) // true
 * @source xoroshiro128+ by the package pure-rand; normal law by Box and Muller
 */
export function random(seed: number): Random {
  if (!Number.isSafeInteger(seed)) throw new RangeError(mustSentence("random", "seed", "be a whole number", shown(seed)));
  const source = xoroshiro128plus(stirred(stirred(seed | 0) ^ Math.floor(seed / 2 ** 32)));
  for (let i = 0; i < warmUp; i++) source.next();
  let spare = Number.NaN;
  const uniform = (): number => uniformFloat64(source);
  const normal = (): number => {
    if (!Number.isNaN(spare)) {
      const kept = spare;
      spare = Number.NaN;
      return kept;
    }
    const radius = Math.sqrt(-2 * Math.log(1 - uniform()));
    const angle = 2 * Math.PI * uniform();
    spare = radius * Math.sin(angle);
    return radius * Math.cos(angle);
  };
  const integer = (below: number): number => {
    if (!(Number.isInteger(below) && below >= 1 && below <= 2 ** 32)) {
      throw new RangeError(mustSentence("random", "below", "be a whole number from 1 to 4294967296", shown(below)));
    }
    return Math.floor(uniform() * below);
  };
  return Object.freeze({ uniform, normal, integer });
}

/** Spreads every bit of a 32-bit number over all of them (Murmur3's last step). */
function stirred(bits: number): number {
  let h = bits | 0;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return h ^ (h >>> 16);
}
