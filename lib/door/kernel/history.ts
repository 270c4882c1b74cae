/** What was run in this session, for the clients' arrow keys and searches. */
export interface History {
  add(count: number, code: string): void;
  /** Content of a history_reply for the content of a history_request. */
  answer(request: Readonly<Record<string, unknown>>): { readonly status: "ok"; readonly history: readonly HistoryLine[] };
}

/** Session, count, and the input (with its output where that was asked for; outputs are not kept). */
export type HistoryLine = readonly [session: number, count: number, input: string | readonly [string, null]];

/**
 * Keeps the session's cells in memory.
 *
 * @source Jupyter messaging protocol 5.4, "History": tail, range, search with * and ?, unique, n
 */
export function history(): History {
  const cells: { readonly count: number; readonly code: string }[] = [];
  const select = (request: Readonly<Record<string, unknown>>): typeof cells => {
    const n = typeof request.n === "number" && request.n >= 0 ? request.n : Number.POSITIVE_INFINITY;
    const lastOf = (some: typeof cells): typeof cells => (n === 0 ? [] : some.slice(-Math.min(n, some.length)));
    if (request.hist_access_type === "range") {
      // 0 is this session; an earlier one is not known here.
      if (request.session !== undefined && request.session !== 0) return [];
      const start = typeof request.start === "number" ? request.start : 0;
      const stop = typeof request.stop === "number" ? request.stop : Number.POSITIVE_INFINITY;
      return cells.filter(({ count }) => count >= start && count < stop);
    }
    if (request.hist_access_type === "search") {
      const pattern = patternOf(typeof request.pattern === "string" ? request.pattern : "*");
      const found = cells.filter(({ code }) => pattern.test(code));
      const kept = request.unique === true ? found.filter(({ code }, i) => found.findLastIndex((other) => other.code === code) === i) : found;
      return lastOf(kept);
    }
    return lastOf(cells);
  };
  return {
    add: (count, code) => {
      cells.push({ count, code });
      if (cells.length > 10_000) cells.shift();
    },
    answer: (request) => ({ status: "ok", history: select(request).map(({ count, code }) => [0, count, request.output === true ? [code, null] : code]) }),
  };
}

/** A pattern with `*` (any text) and `?` (one character) for the whole of a cell. */
function patternOf(text: string): RegExp {
  const escaped = text.replace(/[.+^${}()|[\]\\]/g, "\\$&").replace(/\*/g, ".*").replace(/\?/g, ".");
  return new RegExp(`^${escaped}$`, "s");
}
