import { expect, it } from "vitest";
import { type Closeness, isClose } from "../close.js";

/** One outside truth: how we get the number, what it must be, how near and why, and who says so. */
export interface PublishedRow {
  readonly given: string;
  readonly got: () => number;
  readonly expected: number;
  readonly tolerance: Closeness;
  readonly why: string;
  /** Begins with how the number came here: `read`, `computed`, `from memory`, `common practice, no source`. */
  readonly source: string;
}

/** Runs every row as a test of its own; a failure tells got, expected, bound, reason and source. */
export function checkRows(rows: readonly PublishedRow[]): void {
  for (const { given, got, expected, tolerance, why, source } of rows) {
    it(`${given} is ${expected}`, () => {
      const value = got();
      expect(isClose(value, expected, tolerance), `got ${value}, expected ${expected} within ${JSON.stringify(tolerance)} (${why}); ${source}`).toBe(true);
      expect(source).toMatch(/^(read|computed|from memory|common practice, no source)/);
    });
  }
}
