import type { PairChange } from "./pairChanges.js";
import type { PairNumbers } from "./pairNumbers.js";
import type { SensorOffset } from "./sensorOffset.js";

/** The numbers of one stretch between events. */
export interface PairPeriod extends PairNumbers {
  readonly title: string;
  /** ISO 8601, UTC; the end is not part of it. */
  readonly from: string;
  readonly to: string;
  readonly warnings: readonly string[];
}

/** One place inside against one outside; differences are inside minus outside. */
export interface HousePair extends PairNumbers {
  /** Names of the two places. */
  readonly inside: string;
  readonly outside: string;
  /** What the sensors themselves may add, beside every interval and never inside it. */
  readonly sensorOffset: SensorOffset;
  readonly periods: readonly PairPeriod[];
  readonly changes: readonly PairChange[];
  readonly warnings: readonly string[];
}

/** How a house is judged. */
export interface HouseOptions {
  /** Temperature factor f_Rsi of the surface judged for condensation and mould · 0…1 · default 0.70. */
  readonly factor?: number;
  /**
   * How far the inside's clock is ahead of the outside's · s. A number holds for every pair; an object gives how far each place's
   * clock is ahead of the true time, and what it leaves out is 0; a function tells each pair, null where nobody knows. Where it is not
   * known the two clocks are taken as equal and that is said.
   */
  readonly clockOffsetSeconds?: number | Readonly<Record<string, number>> | ((inside: string, outside: string) => number | null);
  /** Standard time of the record minus UTC · h · −14…14. */
  readonly offsetHours: number;
}
