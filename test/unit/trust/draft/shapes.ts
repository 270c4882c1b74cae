import { instantText } from "../../../../lib/ground/instant.js";
import { type AirPlan, indoorAir, inventedAir } from "./inventedAir.js";

/** What a reader of the draft must find: by place, quantity and instant, values as planted within a tolerance. */
export type Planted = Record<string, Record<string, { at: number[]; values: number[]; within: number }>>;

/** An invented log of one shape. */
export interface Shape {
  readonly name: string;
  readonly files: Record<string, string | Uint8Array>;
  readonly planted: Planted;
  /** Further things that must hold of the draft. */
  readonly holds?: (draft: any, guesses: readonly { path: string; because: string }[], questions: readonly { path: string; ask: string }[]) => void;
}

export const start: number = Date.UTC(2024, 1, 26, 0, 0);
const two = (n: number): string => String(n).padStart(2, "0");

/** Parts of a civil time. */
export function parts(ms: number): { Y: string; y: string; m: string; d: string; H: string; M: string; S: string; I: string; p: string; b: string } {
  const iso = instantText(ms);
  const [Y, m, d, H, M, S] = [iso.slice(0, 4), iso.slice(5, 7), iso.slice(8, 10), iso.slice(11, 13), iso.slice(14, 16), iso.slice(17, 19)];
  const b = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"][Number(m) - 1];
  return { Y, y: Y.slice(2), m, d, H, M, S, b, I: two(Number(H) % 12 === 0 ? 12 : Number(H) % 12), p: Number(H) < 12 ? "AM" : "PM" };
}

/** A civil time by a strptime-like pattern. */
export function stamp(ms: number, pattern: string): string {
  const own = parts(ms) as unknown as Record<string, string>;
  return pattern.replace(/%([YymdHMSIpb])/g, (_, l: string) => own[l]);
}

/** A house value in another unit. */
export const into: Record<string, (v: number) => number> = {
  degC: (v) => v,
  degF: (v) => v * 1.8 + 32,
  K: (v) => v + 273.15,
  hPa: (v) => v,
  Pa: (v) => v * 100,
  kPa: (v) => v / 10,
  mmHg: (v) => v / 1.3332239,
  inHg: (v) => v / 33.863886,
  "%": (v) => v,
  "1": (v) => v / 100,
};
const houseStep: Record<string, number> = { degC: 1, degF: 5 / 9, K: 1, hPa: 1, Pa: 0.01, kPa: 10, mmHg: 1.3332239, inHg: 33.863886, "%": 1, "1": 100 };

/** One column of readings: what it holds, its unit and decimals. */
export interface Column {
  readonly place: string;
  readonly quantity: "t" | "rh" | "p";
  readonly unit: string;
  readonly decimals: number;
}

const cf = { t: "air_temperature", rh: "relative_humidity", p: "surface_air_pressure" } as const;

/** Options for rows of readings. */
export interface RowPlan {
  readonly seed: number;
  readonly steps?: number;
  readonly every?: number;
  readonly from?: number;
  readonly level?: number;
  readonly columns: readonly Column[];
  readonly mean?: number;
}

let seedShift = 0;

/** Makes shapes with other seeds than those they were built with. */
export function withSeeds<T>(shift: number, make: () => T): T {
  seedShift = shift;
  const made = make();
  seedShift = 0;
  return made;
}

/** Times, texts of the readings by column, and what was planted. */
export function rowsOf({ seed, steps = 288, every = 10, from = start, level, columns, mean }: RowPlan): { at: number[]; cells: string[][]; planted: Planted } {
  const at = Array.from({ length: steps }, (_, i) => from + i * every * 60_000);
  const plan: AirPlan = { seed: seed + seedShift, steps, every, from, ...(level === undefined ? {} : { level }) };
  const air = new Map<string, ReturnType<typeof inventedAir>>();
  const planted: Planted = {};
  const outdoors = inventedAir({ ...plan, ...(mean === undefined ? {} : { mean }) });
  const cells: string[][] = at.map(() => []);
  for (const c of columns) {
    if (!air.has(c.place)) air.set(c.place, air.size === 0 ? outdoors : { ...indoorAir({ ...plan, seed: seed + seedShift + 1000 * air.size }), p: outdoors.p.map((v) => v - 0.8 * air.size) });
    const series = (air.get(c.place) as ReturnType<typeof inventedAir>)[c.quantity];
    const written = series.map((v) => into[c.unit](v).toFixed(c.decimals));
    for (const [i, text] of written.entries()) cells[i].push(text);
    planted[c.place] ??= {};
    planted[c.place][cf[c.quantity]] = { at, values: series, within: 0.51 * 10 ** -c.decimals * houseStep[c.unit] + 1e-6 };
  }
  return { at, cells, planted };
}

/** The three readings of one place in plain units. */
export const plainColumns: readonly Column[] = [
  { place: "here", quantity: "t", unit: "degC", decimals: 1 },
  { place: "here", quantity: "rh", unit: "%", decimals: 1 },
  { place: "here", quantity: "p", unit: "hPa", decimals: 2 },
];

/** The same for two places, in the order of a wide row. */
export function twoPlaces(a: string, b: string): readonly Column[] {
  return [...plainColumns.map((c) => ({ ...c, place: a })), ...plainColumns.map((c) => ({ ...c, place: b }))];
}

/** Text in an encoding of two bytes. */
export function utf16(text: string, { mark, isBig = false }: { mark: boolean; isBig?: boolean }): Uint8Array {
  const units = [...(mark ? "\ufeff" : "")].concat(text.split(""));
  const bytes = new Uint8Array(2 * units.length);
  for (const [i, u] of units.entries()) {
    const code = u.charCodeAt(0);
    bytes[2 * i + (isBig ? 0 : 1)] = code >> 8;
    bytes[2 * i + (isBig ? 1 : 0)] = code & 255;
  }
  return bytes;
}

/** Text in an encoding of one byte, by its decoder turned round. */
export function oneByte(text: string, encoding: string): Uint8Array {
  const table = new Map<string, number>();
  const decoder = new TextDecoder(encoding);
  for (let b = 0; b < 256; b++) table.set(decoder.decode(Uint8Array.of(b)), b);
  return Uint8Array.from(text, (c) => table.get(c) ?? 63);
}
