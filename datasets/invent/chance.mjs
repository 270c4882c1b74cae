import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";

/** FNV-1a over the characters: turns the name of a stream into a 32-bit whole number. */
function hash(name) {
  let h = 0x811c9dc5;
  for (let i = 0; i < name.length; i++) h = Math.imul(h ^ name.charCodeAt(i), 0x01000193);
  return h | 0;
}

/**
 * A seeded stream of random numbers with a name of its own.
 *
 * Each purpose (weather, one sensor, one fault) draws from its own stream, so that adding a fault
 * leaves the weather as it was. Same seed and name: same numbers, on every machine.
 *
 * @param seed whole number of the record
 * @param name what the numbers are for
 * @returns uniform() in [0, 1), normal() standard Gaussian, within(a, b) uniform in [a, b),
 *          whole(a, b) a whole number a…b with both ends, oneOf(list)
 */
export function chance(seed, name) {
  const generator = xoroshiro128plus(Math.imul(seed, 0x9e3779b1) ^ hash(name));
  // The first draws of nearby seeds resemble one another.
  for (let i = 0; i < 100; i++) generator.next();
  const uniform = () => uniformFloat64(generator);
  let spare = null;
  /** Box and Muller's pair, one given now and one kept. */
  const normal = () => {
    if (spare !== null) {
      const kept = spare;
      spare = null;
      return kept;
    }
    const radius = Math.sqrt(-2 * Math.log(1 - uniform()));
    const angle = 2 * Math.PI * uniform();
    spare = radius * Math.sin(angle);
    return radius * Math.cos(angle);
  };
  const within = (a, b) => a + (b - a) * uniform();
  const whole = (a, b) => a + Math.floor((b - a + 1) * uniform());
  return { uniform, normal, within, whole, oneOf: (list) => list[whole(0, list.length - 1)] };
}
