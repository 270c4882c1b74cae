import type { Position, ScatterTrace } from "./trace.js";

/**
 * A band between two lines as closed outlines, one for each run in which both are there.
 *
 * @param parts.x         places · [n]
 * @param parts.low, high ends of the band · [n] · null parts it
 * @example bandTrace({ name: "95 %", x: [0, 1], low: [1, 2], high: [3, 4], color: "#000", fillcolor: "rgba(0,0,0,0.2)" }).x // [0, 1, 1, 0]
 */
export function bandTrace(parts: {
  readonly name: string;
  readonly x: readonly Position[];
  readonly low: readonly (number | null)[];
  readonly high: readonly (number | null)[];
  readonly color: string;
  readonly fillcolor: string;
}): ScatterTrace {
  const { name, x, low, high, color, fillcolor } = parts;
  const outline: { x: (Position | null)[]; y: (number | null)[] } = { x: [], y: [] };
  const isThere = (i: number): boolean => i < x.length && low[i] !== null && high[i] !== null;
  for (let from = 0; from < x.length; from++) {
    if (!isThere(from)) continue;
    let to = from;
    while (isThere(to + 1)) to++;
    if (outline.x.length > 0) {
      outline.x.push(null);
      outline.y.push(null);
    }
    for (let i = from; i <= to; i++) {
      outline.x.push(x[i]);
      outline.y.push(high[i]);
    }
    for (let i = to; i >= from; i--) {
      outline.x.push(x[i]);
      outline.y.push(low[i]);
    }
    from = to;
  }
  return { type: "scatter", mode: "lines", name, x: outline.x, y: outline.y, line: { color, width: 0 }, fill: "toself", fillcolor, hoverinfo: "skip" };
}
