import { expect } from "vitest";

/** How close two numbers must be; a difference within either bound is enough. */
export interface Closeness {
  readonly absolute?: number;
  readonly relative?: number;
}

/** Two-sided closeness with its bounds named; NaN is close to nothing. */
export function isClose(got: number, wanted: number, { absolute = 0, relative = 0 }: Closeness): boolean {
  return Math.abs(got - wanted) <= Math.max(absolute, relative * Math.abs(wanted));
}

/** Fails with got, wanted, difference and the bound. */
export function expectClose(got: number, wanted: number, bounds: Closeness, what = "value"): void {
  const bound = Math.max(bounds.absolute ?? 0, (bounds.relative ?? 0) * Math.abs(wanted));
  expect(isClose(got, wanted, bounds), `${what}: got ${got}, wanted ${wanted} within ${bound} (off by ${got - wanted})`).toBe(true);
}
