import { random } from "../../lib/ground/random.js";

/** Ways in which rows of a log come out of order, and ways in which its clock does, which are not the same. */
export const disorders = ["two days", "all days", "rows", "halves", "days reversed", "twenty rows"] as const;
export const resets = ["clock back 3 d", "clock back 5 h", "clock reset"] as const;
export type Disorder = (typeof disorders)[number] | (typeof resets)[number] | "none";

/**
 * Lines of a log in another order, or with stamps of a clock that was set back in the middle.
 *
 * @param lines  `2023-04-03T00:00:00,…`, without the header · in order
 * @param perDay lines of a day
 */
export function disorderedLog(lines: readonly string[], perDay: number, kind: Disorder, seed: number): string[] {
  const dice = random(seed);
  const days: string[][] = [];
  for (let i = 0; i < lines.length; i += perDay) days.push(lines.slice(i, i + perDay));
  if (kind === "two days") {
    const i = 2 + dice.integer(days.length - 8);
    const j = i + 1 + dice.integer(4);
    [days[i], days[j]] = [days[j], days[i]];
    return days.flat();
  }
  if (kind === "all days") return permuted(days, dice.integer).flat();
  if (kind === "rows") return permuted([...lines], dice.integer);
  if (kind === "halves") return [...days.slice(days.length >> 1), ...days.slice(0, days.length >> 1)].flat();
  if (kind === "days reversed") return days.reverse().flat();
  if (kind === "twenty rows") {
    const out = [...lines];
    for (let k = 0; k < 20; k++) {
      const i = 5 + dice.integer(out.length - 50);
      const [row] = out.splice(i, 1);
      out.splice(i + 2 + dice.integer(30), 0, row);
    }
    return out;
  }
  if (kind === "none") return [...lines];
  const at = Math.floor(lines.length * (0.3 + 0.4 * dice.uniform()));
  const stamp = (line: string): number => Date.parse(`${line.slice(0, 19)}Z`);
  const step = stamp(lines[1]) - stamp(lines[0]);
  const told = (line: string, i: number): number => (kind === "clock reset" ? Date.UTC(2000, 0, 1) + (i - at) * step : stamp(line) - (kind === "clock back 3 d" ? 72 : 5) * 3_600_000);
  return lines.map((line, i) => (i < at ? line : `${new Date(told(line, i)).toISOString().slice(0, 19)}${line.slice(19)}`));
}

function permuted<T>(list: T[], integer: (below: number) => number): T[] {
  for (let i = list.length - 1; i > 0; i--) {
    const j = integer(i + 1);
    [list[i], list[j]] = [list[j], list[i]];
  }
  return list;
}
