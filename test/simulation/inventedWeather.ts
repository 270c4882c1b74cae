import { random } from "../../lib/ground/random.js";

/** Weather as a sum of processes: poles of so many hours (two equal ones make it smoother), standard deviation in hPa. */
export interface Weather {
  readonly name: string;
  readonly parts: readonly { readonly hours: number; readonly poles: 1 | 2; readonly size: number }[];
}

const isLong = process.env.SIMULATE === "long";

/** Records of a row: the count behind the printed tables with SIMULATE=long, a sixth of it otherwise. */
export const runs = (long: number): number => (isLong ? long : Math.ceil(long / 6));

/** What chance alone may add to a bound when fewer records are run. */
export const slack = (records: number): number => (isLong ? 0 : 2.5 * Math.sqrt((0.06 * 0.94) / records));

/** Two places to judge by: invented, not fitted to stations. */
export const middleLatitude: Weather = { name: "middle latitude", parts: [{ hours: 20, poles: 2, size: 8 }, { hours: 192, poles: 1, size: 3 }] };
export const tropics: Weather = { name: "tropics", parts: [{ hours: 30, poles: 2, size: 1 }, { hours: 192, poles: 1, size: 0.7 }] };

/** Variance of a process with one or two equal poles per unit of its noise. */
const gainOf = (a: number, poles: 1 | 2): number => (poles === 1 ? 1 / (1 - a * a) : (1 + a * a) / (1 - a * a) ** 3);

/** Hourly pressure about 0 · hPa · no tide. */
export function weatherHours(weather: Weather, hours: number, normal: () => number): Float64Array {
  const out: Float64Array = new Float64Array(hours);
  for (const { hours: memory, poles, size } of weather.parts) {
    const a = Math.exp(-1 / memory);
    const scale = size / Math.sqrt(gainOf(a, poles));
    const [first, second] = poles === 1 ? [a, 0] : [2 * a, -a * a];
    let [x, y] = [0, 0];
    for (let i = -Math.ceil(12 * memory); i < hours; i++) {
      [x, y] = [first * x + second * y + scale * normal(), x];
      if (i >= 0) out[i] += x;
    }
  }
  return out;
}

/** Variance of the weather behind a filter: the integral of its spectrum times the squared response. */
export function varianceBehind(weather: Weather, response: (periodDays: number) => number): number {
  const n = 20000;
  let sum = 0;
  for (let k = 0; k < n; k++) {
    // Logarithmic steps in frequency: the slow part is narrow.
    const w = Math.PI * Math.exp(((k + 0.5) / n - 1) * 14);
    const dw = (w * 14) / n;
    let density = 0;
    for (const { hours, poles, size } of weather.parts) {
      const a = Math.exp(-1 / hours);
      density += (size * size) / gainOf(a, poles) / (1 - 2 * a * Math.cos(w) + a * a) ** poles / Math.PI;
    }
    sum += density * response((2 * Math.PI) / w / 24) ** 2 * dw;
  }
  return sum;
}

/** Takes a few gaps of so many hours out, apart from each other and from the ends. */
export function withGaps(values: Float64Array, count: number, hours: number, integer: (below: number) => number): Float64Array {
  const out = values.slice();
  const stretch = Math.floor(values.length / count);
  for (let k = 0; k < count; k++) {
    const from = k * stretch + 24 + integer(stretch - hours - 48);
    out.fill(Number.NaN, from, from + hours);
  }
  return out;
}

/** Share in % with its two-sigma error, as text. */
export const percent = (hits: number, of: number): string => {
  const share = hits / of;
  return `${(100 * share).toFixed(1)} ± ${(200 * Math.sqrt(Math.max(share * (1 - share), 0.25 / of) / of)).toFixed(1)}`;
};

/** A table for people on the screen of whoever runs the simulations. */
export function printed(title: string, rows: readonly (readonly (string | number)[])[]): void {
  const texts = rows.map((row) => row.map(String));
  const widths = texts[0].map((_, c) => Math.max(...texts.map((row) => (row[c] ?? "").length)));
  process.stdout.write(`\n${title}\n${texts.map((row) => row.map((cell, c) => cell.padEnd(widths[c])).join("  ").trimEnd()).join("\n")}\n`);
}

/** A stream for one judging run; building used other seeds. */
export const judge = (seed: number): ReturnType<typeof random> => random(seed);
