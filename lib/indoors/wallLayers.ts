import { mustSentence, requireWithin } from "../ground/complaint.js";

/** One layer of a wall, flat and even. */
export interface WallLayer {
  /** m. */
  readonly thickness: number;
  /** Conductivity λ · W m-1 K-1. */
  readonly conductivity: number;
  /** Density ρ · kg m-3. */
  readonly density: number;
  /** Specific heat c · J kg-1 K-1. */
  readonly heatCapacity: number;
}

/** What a wall makes of a daily cycle outside, with the room held at one temperature. */
export interface WallResponse {
  /** Heat flow in steady weather · W m-2 K-1. */
  readonly transmittance: number;
  /** Swing of the heat flow over what steady weather of that swing would drive · 1. */
  readonly decrementFactor: number;
  /** h. */
  readonly timeLag: number;
}

/** Beyond this e^depths leaves the numbers; a wall has 1 to 10. */
const mostDepths = 300;

/**
 * Depth at which a daily temperature wave in a thick material has shrunk to 1/e (0.37): √(λT/(πρc)).
 *
 * @param layer              λ, ρ, c · see WallLayer
 * @param options.periodHours default 24
 * @returns                  m
 * @throws RangeError        when a property is not positive, or outside 1e-6…1e9
 * @example penetrationDepth({ conductivity: 1.8, density: 2400, heatCapacity: 1000 }) // 0.1436
 * @source periodic penetration depth, ISO 13786 (from memory)
 */
export function penetrationDepth({ conductivity, density, heatCapacity }: Omit<WallLayer, "thickness">, { periodHours = 24 }: { periodHours?: number } = {}): number {
  for (const [name, v] of Object.entries({ conductivity, density, heatCapacity, periodHours })) {
    if (!(v > 0 && v < Infinity)) throw new RangeError(mustSentence("penetrationDepth", name, "be positive", String(v)));
    requireWithin("penetrationDepth", name, v, 1e-6, 1e9);
  }
  return Math.sqrt((conductivity * periodHours * 3600) / (Math.PI * density * heatCapacity));
}

/** A complex number and the two by two matrices of heat through layers. */
type Complex = readonly [number, number];
type Transfer = readonly [Complex, Complex, Complex, Complex];

const times = (a: Complex, b: Complex): Complex => [a[0] * b[0] - a[1] * b[1], a[0] * b[1] + a[1] * b[0]];
const plus = (a: Complex, b: Complex): Complex => [a[0] + b[0], a[1] + b[1]];
const product = (a: Transfer, b: Transfer): Transfer => [
  plus(times(a[0], b[0]), times(a[1], b[2])),
  plus(times(a[0], b[1]), times(a[1], b[3])),
  plus(times(a[2], b[0]), times(a[3], b[2])),
  plus(times(a[2], b[1]), times(a[3], b[3])),
];

/**
 * What a wall of layers makes of the daily cycle: what theory expects of its materials, to lay beside what was measured.
 *
 * A house is more than a wall: air change, windows, sun and furniture answer too, so the house's own numbers differ.
 *
 * @param layers       from inside to outside · at least one
 * @param options.inner, outer surface resistances · m² K W-1 · default 0.13 and 0.04
 * @returns            see WallResponse, frozen
 * @throws RangeError  when there is no layer, a property is not positive, or the layers are so thick that no wave comes through (over 300 penetration
 *                     depths together)
 * @example wallResponse([{ thickness: 0.2, conductivity: 1.8, density: 2400, heatCapacity: 1000 }]).timeLag // 5.676
 * @source transfer matrices of ISO 13786 (from memory): Y₁₂ = −1/Z₁₂, f = |Y₁₂|/U, lag = T arg(Y₁₂)/2π
 */
export function wallResponse(layers: readonly WallLayer[], { inner = 0.13, outer = 0.04 }: { inner?: number; outer?: number } = {}): WallResponse {
  if (layers.length === 0) throw new RangeError(mustSentence("wallResponse", "layers", "hold at least one layer", "none"));
  requireWithin("wallResponse", "inner", inner, 0, 10, "m² K/W");
  requireWithin("wallResponse", "outer", outer, 0, 10, "m² K/W");
  const film = (resistance: number): Transfer => [[1, 0], [resistance, 0], [0, 0], [1, 0]];
  let matrix = film(inner);
  let depths = 0;
  let resistance = inner + outer;
  for (const layer of layers) {
    if (!(layer.thickness > 0 && layer.thickness < Infinity)) throw new RangeError(mustSentence("wallResponse", "thickness", "be positive", `${layer.thickness} m`));
    depths += layer.thickness / penetrationDepth(layer);
    if (!(depths <= mostDepths)) throw new RangeError(mustSentence("wallResponse", "layers", `be at most ${mostDepths} penetration depths thick`, `${depths.toPrecision(3)}`, "thickness is in m"));
    matrix = product(matrix, slab(layer));
    resistance += layer.thickness / layer.conductivity;
  }
  const [, [re, im]] = product(matrix, film(outer));
  const size = Math.hypot(re, im);
  // The heat flow answers as 1/Z₁₂: behind the air outside by the argument of Z₁₂, unwrapped to a whole day.
  const angle = Math.atan2(im, re);
  const timeLag = ((angle < 0 ? angle + 2 * Math.PI : angle) * 24) / (2 * Math.PI);
  return Object.freeze({ transmittance: 1 / resistance, decrementFactor: resistance / size, timeLag });
}

/** cosh and sinh of (1 + i) d/δ, with unit determinant. */
function slab(layer: WallLayer): Transfer {
  const depth = penetrationDepth(layer);
  const x = layer.thickness / depth;
  const cosh: Complex = [Math.cosh(x) * Math.cos(x), Math.sinh(x) * Math.sin(x)];
  const sinh: Complex = [Math.sinh(x) * Math.cos(x), Math.cosh(x) * Math.sin(x)];
  // k λ with k = (1 + i)/δ, and its inverse.
  const stiff: Complex = [layer.conductivity / depth, layer.conductivity / depth];
  const soft: Complex = [depth / (2 * layer.conductivity), -depth / (2 * layer.conductivity)];
  return [cosh, times(sinh, soft), times(sinh, stiff), cosh];
}
