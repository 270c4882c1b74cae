import type { LastTendency } from "../cycles/swings/pressureTendency.js";
import type { SwingEvent } from "../cycles/swings/swingEvents.js";
import type { SwingSpectrum } from "../cycles/swings/swingSpectrum.js";
import type { VarianceShares } from "../cycles/swings/varianceShares.js";
import type { Estimate } from "../ground/estimate.js";
import type { Quantity } from "../record/quantity.js";

/** The band of multi-day swings of one place. */
export interface SwingsBand {
  readonly shortestDays: number;
  readonly longestDays: number;
  /** hPa. */
  readonly standardDeviation: Estimate;
  /** The swings' part of all variance · 0…1 · a description; its interval is that of `shares.swings`. */
  readonly share: number;
  /** All variance parted in four that add up to 1 · null where nothing varies. */
  readonly shares: VarianceShares | null;
  readonly slowBy: "15-day filter" | "straight line";
}

/** The multi-day swings of one place, and what is coming. */
export interface SwingsPlace {
  readonly quantity: Quantity;
  /** From first to last hour that was used · d. */
  readonly days: number;
  /** null under 8 days. */
  readonly band: SwingsBand | null;
  readonly events: readonly (Omit<SwingEvent, "at"> & { readonly at: string })[];
  readonly spectrum: Pick<SwingSpectrum, "background" | "peaks" | "says">;
  readonly tendency: {
    /** Every 3 hours back from the newest reading · hPa in 3 h · NaN beside a gap. */
    readonly series: { readonly at: readonly string[]; readonly raw: Float64Array; readonly tideFree: Float64Array };
    readonly last: (Omit<LastTendency, "at"> & { readonly at: string }) | null;
  };
  readonly warnings: readonly string[];
}
