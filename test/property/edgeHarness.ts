import vm from "node:vm";
import fc from "fast-check";
import * as airtides from "../../lib/index.js";
import type { Series } from "../../lib/index.js";

/** A value that only another routine makes (a fit, a filter, a list of days): not taken apart, but exchanged for its like. */
export class Made {
  constructor(
    readonly value: unknown,
    readonly likes: readonly unknown[] = [],
  ) {}
}

/** One set of arguments, with what was done to it. */
export interface EdgeCall {
  readonly what: string;
  readonly args: readonly unknown[];
}

const numberEdges: readonly number[] = [Number.NaN, Infinity, -Infinity, 0, -0, -1, 0.5, 5e-324, -5e-324, 1e300, -1e300, 1e15, Number.MAX_SAFE_INTEGER, -1e9];
const mixed: readonly number[] = [1, Number.NaN, Infinity, 1e300, 5e-324, 0, -1, -Infinity, -1e300];

const arrayEdges: Readonly<Record<string, (v: readonly number[]) => number[]>> = {
  empty: () => [],
  one: (v) => v.slice(0, 1),
  two: (v) => v.slice(0, 2),
  constant: (v) => v.map(() => v[0]),
  zeros: (v) => v.map(() => 0),
  "all NaN": (v) => v.map(() => Number.NaN),
  "one NaN": (v) => v.map((x, i) => (i === v.length >> 1 ? Number.NaN : x)),
  "all NaN but one": (v) => v.map((x, i) => (i === v.length >> 1 ? x : Number.NaN)),
  "one Infinity": (v) => v.map((x, i) => (i === v.length >> 1 ? Infinity : x)),
  "one -Infinity": (v) => v.map((x, i) => (i === v.length - 1 ? -Infinity : x)),
  "huge, alternating": (v) => v.map((_, i) => (i % 2 === 0 ? 1e300 : -1e300)),
  "huge, constant": (v) => v.map(() => 1e300),
  "large, alternating": (v) => v.map((_, i) => (i % 2 === 0 ? 1e50 : -1e50)),
  "one large": (v) => v.map((x, i) => (i === v.length >> 1 ? 1e50 : x)),
  "one huge": (v) => v.map((x, i) => (i === v.length >> 1 ? 1e300 : x)),
  denormal: (v) => v.map((_, i) => (i % 2 === 0 ? 5e-324 : 1e-310)),
  "constant but for the last digit": (v) => v.map((_, i) => (i % 2 === 0 ? v[0] : v[0] * (1 + Number.EPSILON))),
  mixed: (v) => v.map((_, i) => mixed[i % mixed.length]),
  reversed: (v) => v.toReversed(),
  "each twice": (v) => v.map((_, i) => v[i >> 1]),
};

const isNumbers = (v: unknown): v is Float64Array | number[] => v instanceof Float64Array || (Array.isArray(v) && v.length > 0 && v.every((x) => typeof x === "number"));
const isSeries = (v: unknown): v is Series => typeof v === "object" && v !== null && "quantity" in v && "seconds" in v && "flags" in v;
const sameKind = (like: Float64Array | number[], v: number[]): Float64Array | number[] => (like instanceof Float64Array ? Float64Array.from(v) : v);

/** A series whose times or values stand at an edge, made as a caller makes one. */
export function seriesEdges(s: Series): Readonly<Record<string, () => Series>> {
  const times = Array.from(s.seconds, (x) => s.start + 1000 * x);
  const values = Array.from(s.values);
  const from = (t: readonly number[], v: readonly number[]): Series => airtides.series({ times: t, values: v, quantity: s.quantity, place: s.place });
  // Values stand in as they are: series() itself would refuse some.
  const raw = (v: readonly number[]): Series => Object.freeze({ ...s, seconds: s.seconds.slice(0, v.length), values: Float64Array.from(v), flags: s.flags.slice(0, v.length) });
  return {
    ...Object.fromEntries(Object.entries(arrayEdges).map(([what, of]) => [`values ${what}`, () => raw(of(values))])),
    "times unsorted": () => from(times.toReversed(), values),
    "times twice": () => from(times.map((_, i) => times[i >> 1]), values),
    "one instant": () => from(times.map(() => times[0]), values),
    "one gap of two months": () => from(times.map((t, i) => (i < times.length / 2 ? t : t + 5.2e9)), values),
    "a nanosecond apart": () => from(times.map((_, i) => times[0] + i * 1e-3), values),
    "before 1970": () => from(times.map((t) => t - 3e12), values),
  };
}

/** Leaves of an argument that an edge can stand in for: numbers, lists of numbers, series, made values. */
function leavesOf(value: unknown, path: readonly (string | number)[] = []): { path: readonly (string | number)[]; value: unknown }[] {
  if (typeof value === "number" || (path.length > 0 && isNumbers(value)) || isSeries(value) || value instanceof Made) return [{ path, value }];
  if (Array.isArray(value)) return value.flatMap((v, i) => leavesOf(v, [...path, i]));
  if (typeof value === "object" && value !== null && Object.getPrototypeOf(value) === Object.prototype) return Object.entries(value).flatMap(([k, v]) => leavesOf(v, [...path, k]));
  return [];
}

/** The same arguments with the leaves at some paths exchanged. */
function exchanged(value: unknown, by: ReadonlyMap<string, unknown>, path: readonly (string | number)[] = []): unknown {
  const key = path.join(".");
  if (by.has(key)) return by.get(key);
  if (value instanceof Made) return value.value;
  if ((path.length > 0 && isNumbers(value)) || isSeries(value)) return value;
  if (Array.isArray(value)) return value.map((v, i) => exchanged(v, by, [...path, i]));
  if (typeof value === "object" && value !== null && Object.getPrototypeOf(value) === Object.prototype) return Object.fromEntries(Object.entries(value).map(([k, v]) => [k, exchanged(v, by, [...path, k])]));
  return value;
}

/** Arguments with each leaf in turn at each of its edges; and all lists of one length at the same edge. */
export function edgeCalls(plausible: readonly unknown[]): EdgeCall[] {
  const leaves = leavesOf(plausible);
  const calls: EdgeCall[] = [{ what: "as it is", args: exchanged(plausible, new Map()) as unknown[] }];
  const add = (what: string, by: ReadonlyMap<string, unknown>): number => calls.push({ what, args: exchanged(plausible, by) as unknown[] });
  for (const { path, value } of leaves) {
    const key = path.join(".");
    const at = `argument ${key}`;
    if (typeof value === "number") for (const edge of numberEdges) add(`${at} = ${Object.is(edge, -0) ? "-0" : edge}`, new Map([[key, edge]]));
    else if (isNumbers(value)) for (const [what, of] of Object.entries(arrayEdges)) add(`${at} ${what}`, new Map([[key, sameKind(value, of(Array.from(value)))]]));
    else if (isSeries(value)) for (const [what, of] of Object.entries(seriesEdges(value))) add(`${at} ${what}`, new Map([[key, of()]]));
    else if (value instanceof Made) for (const [k, like] of value.likes.entries()) add(`${at} like ${k}`, new Map([[key, like]]));
  }
  const lists = leaves.filter((l): l is { path: (string | number)[]; value: Float64Array | number[] } => isNumbers(l.value));
  for (const length of new Set(lists.map((l) => l.value.length))) {
    const same = lists.filter((l) => l.value.length === length);
    if (same.length < 2) continue;
    for (const [what, of] of Object.entries(arrayEdges)) add(`lists of ${length} ${what}`, new Map(same.map((l) => [l.path.join("."), sameKind(l.value, of(Array.from(l.value)))])));
  }
  return calls;
}

const anyNumber = fc.oneof({ weight: 2, arbitrary: fc.double() }, fc.constantFrom(...numberEdges), fc.double({ min: -50, max: 1100, noNaN: true }));

/** Arguments with every leaf left, set to an edge, or drawn: the harness's mixed cases. */
export function drawnCall(plausible: readonly unknown[]): fc.Arbitrary<EdgeCall> {
  const leaves = leavesOf(plausible);
  const drawn = leaves.map(({ value }): fc.Arbitrary<unknown> => {
    if (typeof value === "number") return fc.oneof(fc.constant(value), anyNumber);
    if (isNumbers(value)) {
      const own = Array.from(value);
      const touched = fc.array(fc.tuple(fc.nat(), anyNumber), { maxLength: 6 }).map((spots) => {
        const v = own.slice();
        for (const [i, x] of spots) v[i % v.length] = x;
        return sameKind(value, v);
      });
      return fc.oneof(touched, fc.constantFrom(...Object.values(arrayEdges)).map((of) => sameKind(value, of(own))));
    }
    if (isSeries(value)) return fc.constantFrom(...Object.values(seriesEdges(value))).map((of) => of());
    return fc.constantFrom((value as Made).value, ...(value as Made).likes);
  });
  return fc.tuple(...drawn).map((values) => ({ what: "drawn", args: exchanged(plausible, new Map(leaves.map((l, i) => [l.path.join("."), values[i]]))) as unknown[] }));
}

/** Longest that one call on a small argument may take · ms. */
const longest = 3000;

/** Runs a call and stops it when it does not end. */
export function bounded(run: () => unknown): unknown {
  (globalThis as { edgeRun?: () => unknown }).edgeRun = run;
  return new vm.Script("edgeRun()").runInThisContext({ timeout: longest });
}

/** Whether an argument holds NaN anywhere. */
export function holdsNaN(value: unknown): boolean {
  if (typeof value === "number") return Number.isNaN(value);
  if (value instanceof Float64Array) return value.some(Number.isNaN);
  return typeof value === "object" && value !== null && Object.values(value).some(holdsNaN);
}

/** Paths of an answer's numbers that are NaN or infinite, list places as []; and of Estimates whose value lies outside of their interval. */
export function oddNumbersIn(value: unknown, path = "answer", found: Map<string, number> = new Map()): Map<string, number> {
  if (typeof value === "number") {
    if (!Number.isFinite(value) && !found.has(path)) found.set(path, value);
  } else if (ArrayBuffer.isView(value) || Array.isArray(value)) {
    for (const v of value as Float64Array) oddNumbersIn(v, `${path}[]`, found);
  } else if (typeof value === "object" && value !== null) {
    const { low, value: middle, high } = value as { low?: unknown; value?: unknown; high?: unknown };
    // NaN in an Estimate is never documented: what cannot be said is null.
    if (typeof low === "number" && typeof middle === "number" && typeof high === "number" && !(low <= middle && middle <= high)) found.set(`${path}: ${low} ≤ ${middle} ≤ ${high}`, middle);
    for (const [key, v] of Object.entries(value)) oddNumbersIn(v, `${path}.${key}`, found);
  }
  return found;
}

/** Where an answer may hold a number that is none: as the routine's documentation says. */
export interface Documented {
  /** Paths that may be NaN whatever was given. */
  readonly nan?: RegExp;
  /** Paths that may be NaN when an argument holds NaN. */
  readonly nanForNaN?: RegExp;
  /** Paths that may be infinite. */
  readonly infinite?: RegExp;
}

/** What is wrong with how a routine answered or refused; "" when nothing is. */
export function fault(name: string, run: () => unknown, args: readonly unknown[], documented: Documented = {}): string {
  let answer: unknown;
  try {
    answer = bounded(run);
  } catch (error) {
    const { code, message, stack } = error as NodeJS.ErrnoException;
    if (code === "ERR_SCRIPT_EXECUTION_TIMEOUT") return `did not end in ${longest} ms`;
    // An error of the engine is of the realm of the script; those of the library are of this one, or bear its name.
    if (!["TypeError", "RangeError", "RecordError"].includes((error as Error).name)) return `threw ${String(error)}`;
    // Our own broken promise, seen from outside, is a fault.
    if (message.startsWith("estimate:") && name !== "estimate") return `threw ${message}`;
    if ((error as Error).name === "RecordError" || message.startsWith(`${name}: `) || / must .* \(got /.test(message)) return "";
    return `threw ${String(error)} ${(stack ?? "").split("\n").slice(1, 3).join(" ")}`;
  }
  const isGiven = holdsNaN(args);
  for (const [path, value] of oddNumbersIn(answer)) {
    if (Number.isNaN(value) && (documented.nan?.test(path) || (isGiven && documented.nanForNaN?.test(path)))) continue;
    if (Math.abs(value) === Infinity && documented.infinite?.test(path)) continue;
    return `${path} is ${value}`;
  }
  return "";
}
