import { monthNames, zoneText } from "../answers/headText.js";
import { civilText } from "./axisTime.js";
import type { Axis } from "./layout.js";

/** Where an axis begins and ends, and its ticks. */
export type Scale = Pick<Axis, "type" | "range" | "tickvals" | "ticktext" | "hoverformat">;

/**
 * Round numbers in a range: 1, 2 or 5 times a power of ten apart.
 *
 * @param low, high ends of the range
 * @param most      how many at most · from 2
 * @returns         values inside the range, and the decimals that tell them apart
 * @example roundTicks(0, 10, 6) // { values: [0, 2, 4, 6, 8, 10], step: 2, decimals: 0 }
 */
export function roundTicks(low: number, high: number, most = 6): { readonly values: readonly number[]; readonly step: number; readonly decimals: number } {
  const rough = (high - low) / Math.max(1, most - 1);
  const power = 10 ** Math.floor(Math.log10(rough));
  const countOf = (s: number): number => Math.floor(high / s + 1e-9) - Math.ceil(low / s - 1e-9) + 1;
  const steps = [0.5, 1, 2, 5, 10, 20].map((m) => m * power);
  const found = steps.findIndex((s, i) => i > 0 && countOf(s) <= most);
  // One tick alone tells no scale: then rather one or two more than asked.
  const step = steps[countOf(steps[found]) < 2 ? found - 1 : found];
  const first = Math.ceil(low / step - 1e-9);
  const count = Math.floor(high / step + 1e-9) - first + 1;
  const decimals = Math.min(6, Math.max(0, -Math.floor(Math.log10(step) + 1e-9)));
  return { values: Array.from({ length: Math.max(0, count) }, (_, i) => Number(((first + i) * step).toFixed(decimals))), step, decimals };
}

/**
 * An axis for numbers, a little wider than what it must hold.
 *
 * @param values        what it must hold · NaN and null do not count
 * @param options.least span it has at least, about the middle · default 0
 * @param options.zero  whether 0 must be on it
 * @param options.most  ticks at most · default 5
 * @param options.pad   share of the span added at both ends · default 0.04
 * @example numberScale([1.2, 8.7]).tickvals // [2, 4, 6, 8]
 */
export function numberScale(values: Iterable<number | null>, options: { least?: number; zero?: boolean; most?: number; pad?: number } = {}): Scale {
  const { least = 0, zero = false, most = 5, pad = 0.04 } = options;
  let [low, high] = zero ? [0, 0] : [Infinity, -Infinity];
  for (const v of values) {
    if (v === null || Number.isNaN(v)) continue;
    if (v < low) low = v;
    if (v > high) high = v;
  }
  if (!(low <= high)) [low, high] = [0, 1];
  // One value alone gets a unit's space; seven digits of a range must tell its ends apart.
  const smallest = Math.max(least, low === high ? 1 : 0, 1e-5 * Math.max(Math.abs(low), Math.abs(high)));
  if (high - low < smallest) {
    const grow = (smallest - (high - low)) / 2;
    // What stands on zero keeps standing on it.
    [low, high] = zero && low === 0 ? [0, high + 2 * grow] : [low - grow, high + grow];
  }
  const space = pad * (high - low);
  const range: [number, number] = [zero && low === 0 ? 0 : low - space, zero && high === 0 ? 0 : high + space];
  return fixedScale(range, most);
}

/** An axis for numbers between given ends. */
export function fixedScale(range: readonly [number, number], most = 5): Scale {
  const { values, decimals } = roundTicks(Math.min(...range), Math.max(...range), most);
  return { type: "linear", range: [tidy(range[0]), tidy(range[1])], tickvals: values, ticktext: values.map((v) => v.toFixed(decimals).replace("-", "−")) };
}

/** Numbers of an axis to six digits: more cannot be seen. */
function tidy(v: number): number {
  return Number(v.toPrecision(7));
}

/** An axis with named ticks between given ends. */
export function namedScale(range: readonly [number, number], ticks: readonly (readonly [number, string])[]): Scale {
  return { type: "linear", range, tickvals: ticks.map(([v]) => v), ticktext: ticks.map(([, t]) => t) };
}

/** A logarithmic axis with named ticks between given ends (data values, all above 0). */
export function logScale(low: number, high: number, ticks: readonly (readonly [number, string])[]): Scale {
  const inside = ticks.filter(([v]) => v >= low * (1 - 1e-9) && v <= high * (1 + 1e-9));
  return { type: "log", range: [tidy(Math.log10(low)), tidy(Math.log10(high))], tickvals: inside.map(([v]) => v), ticktext: inside.map(([, t]) => t) };
}

/** Powers of ten between given ends as named ticks, with 2 and 5 where there are few. */
export function decades(low: number, high: number): (readonly [number, string])[] {
  const found: (readonly [number, string])[] = [];
  const few = high / low < 150;
  for (let p = Math.floor(Math.log10(low)); p <= Math.ceil(Math.log10(high)); p++) {
    for (const m of few ? [1, 2, 5] : [1]) {
      const v = m * 10 ** p;
      if (v >= low && v <= high) found.push([v, Number(v.toPrecision(3)).toString()]);
    }
  }
  return found;
}

/** Hours of a day from 0 to 24, a tick every three, named every six. */
export function hourScale(): Scale {
  return namedScale([0, 24], Array.from({ length: 9 }, (_, i) => [3 * i, i % 2 === 0 ? `${String(3 * i).padStart(2, "0")} h` : ""] as const));
}

const dayMs = 86_400_000;

/** Names of the twelve months, three letters. */
export function monthName(month: number): string {
  return monthNames[(((month - 1) % 12) + 12) % 12];
}

/**
 * A time axis in the record's standard time, with at most six named ticks at beginnings of hours, days, months or years.
 *
 * @param from, to    instants · epoch ms, UTC · drawn two hours apart at least
 * @param offsetHours standard time less UTC · h
 * @example timeScale(Date.UTC(2024, 3, 20), Date.UTC(2024, 6, 20), 7).ticktext // ["May<br>2024", "Jun", "Jul"]
 */
export function timeScale(from: number, to: number, offsetHours: number): Scale {
  const [a, b] = [from, Math.max(to, from + 2 * 3_600_000)].map((t) => t + offsetHours * 3_600_000);
  const ticks = civilTicks(a, b);
  let year = Number.NaN;
  const ticktext = ticks.map(({ at, text }) => {
    if (text === "") return text;
    const isNew = new Date(at).getUTCFullYear() !== year;
    year = new Date(at).getUTCFullYear();
    return isNew && text !== String(year) ? `${text}<br>${year}` : text;
  });
  return { type: "date", range: [civilText(a), civilText(b)], tickvals: ticks.map(({ at }) => civilText(at)), ticktext, hoverformat: "%-d %b %Y %H:%M" };
}

/** How a time axis names its clock: `Date (standard time, UTC+07:00)`. */
export function timeTitle(offsetHours: number, what = "Date"): string {
  return `${what} (standard time, ${zoneText(offsetHours)})`;
}

interface CivilTick {
  /** Civil time · epoch ms as if UTC. */
  readonly at: number;
  readonly text: string;
}

function civilTicks(a: number, b: number): CivilTick[] {
  const span = b - a;
  const shortName = (at: number): string => `${new Date(at).getUTCDate()} ${monthName(new Date(at).getUTCMonth() + 1)}`;
  const every = (step: number, text: (at: number) => string): CivilTick[] => {
    const first = Math.ceil(a / step);
    return Array.from({ length: Math.max(0, Math.floor(b / step) - first + 1) }, (_, i) => ({ at: (first + i) * step, text: text((first + i) * step) }));
  };
  for (const hours of [1, 3, 6, 12]) {
    if (span <= 6 * hours * 3_600_000) return every(hours * 3_600_000, (at) => (at % dayMs === 0 ? shortName(at) : `${String(new Date(at).getUTCHours()).padStart(2, "0")} h`));
  }
  if (span <= 6 * dayMs) return every(dayMs, shortName);
  for (const dates of [[1, 3, 5, 7, 9, 11, 13, 15, 17, 19, 21, 23, 25, 27, 29], [1, 6, 11, 16, 21, 26], [1, 11, 21]]) {
    const found = every(dayMs, shortName).filter(({ at }) => dates.includes(new Date(at).getUTCDate()));
    if (found.length <= 6) return found;
  }
  for (const months of [1, 2, 3, 6, 12, 24, 60, 120, 240]) {
    const found = monthStarts(a, b).filter(({ at }) => (12 * new Date(at).getUTCFullYear() + new Date(at).getUTCMonth()) % months === 0);
    if (months === 1 && found.length <= 4) return [...found, ...every(dayMs, () => "").filter(({ at }) => [11, 21].includes(new Date(at).getUTCDate()))].sort((x, y) => x.at - y.at);
    if (found.length <= 6) return months < 12 ? found : found.map(({ at }) => ({ at, text: String(new Date(at).getUTCFullYear()) }));
  }
  return [];
}

function monthStarts(a: number, b: number): CivilTick[] {
  const found: CivilTick[] = [];
  const first = new Date(a);
  for (let m = 0; ; m++) {
    const at = Date.UTC(first.getUTCFullYear(), first.getUTCMonth() + m, 1);
    if (at > b) return found;
    if (at >= a) found.push({ at, text: monthName(new Date(at).getUTCMonth() + 1) });
  }
}
