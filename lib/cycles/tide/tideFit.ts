import type { Estimate } from "../../ground/estimate.js";

/** One line of the tide as it is reported. */
export interface Constituent {
  readonly name: string;
  readonly cyclesPerDay: number;
  /**
   * From mean to crest · unit of the fit. The value is the fitted amplitude, detected or not; it runs high near zero.
   * The interval reaches 0 exactly when the line is not detected; then quote `detectionLimit` beside it.
   */
  readonly amplitude: Estimate;
  /**
   * First crest · h · value in [0, 24/n), low and high unwrapped · null where not detected.
   * Hours of local mean solar time for S1, S2, S3, S4; lunar hours after the moon's mean upper transit for L2;
   * hours of the line's own day (see `argumentAtEpoch`) for the others.
   */
  readonly maximumAt: Estimate | null;
  /** Whether a 5 % test finds the line. */
  readonly detected: boolean;
  /** The true amplitude that a record like this would detect with 95 % chance · unit of the fit. */
  readonly detectionLimit: number;
  /** Noise at the line, one-sided · unit² per cpd. */
  readonly noiseDensity: number;
}

/** What another program needs of one fitted line: cosine·cos 2πf(t − epoch) + sine·sin 2πf(t − epoch), t in days. */
export interface LineCoefficients {
  readonly name: string;
  readonly cyclesPerDay: number;
  /** Crests a day of the line's own clock: 1 for S1, 2 for S2 and L2. */
  readonly species: number;
  readonly cosine: number;
  readonly sine: number;
  /** Variance of cosine, variance of sine, and their covariance, noise beside the line included. */
  readonly varianceOfCosine: number;
  readonly varianceOfSine: number;
  readonly covariance: number;
  /** Noise found beside the line over noise of the model; the variances are already multiplied by it. */
  readonly noiseRatio: number;
  /** Degrees of freedom of that ratio, and so of the intervals. */
  readonly degreesOfFreedom: number;
}

/** The fitted weather and sensor noise: spectrum ∝ whiteRatio + g(4π)/g(ω), g(ω) = (λ² + ω²)(1 + ω²/μ²), ω in 1/d. */
export interface TideNoise {
  /** White sensor noise of one hour over the weather's density at 2 cpd: ρ. */
  readonly whiteRatio: number;
  /** Rate at which the weather forgets · 1/d: λ. */
  readonly slowRate: number;
  /** Rate above which the weather is smooth · 1/d: μ. */
  readonly fastRate: number;
  /** Scale · unit of the fit: σ. */
  readonly sigma: number;
  /** Share of white noise in the density at 3 cpd · 0…1. */
  readonly whiteShare: number;
}

/** The tide of one calendar month (local mean solar time), all years of the record together. */
export interface MonthTide {
  /** 1…12. */
  readonly month: number;
  /** Covered days that went into it. */
  readonly days: number;
  readonly constituents: readonly Constituent[];
}

/** Whether the tide itself changes with the season. */
export interface Seasonal {
  /** null when the record is shorter than 300 days. */
  readonly changes: boolean | null;
  /** One sentence for a reader. */
  readonly says: string;
  /** Chance of so large a yearly change in a steady tide, smallest over the lines tested · null when not tested. */
  readonly pValue: number | null;
  readonly lines: readonly { readonly name: string; readonly pValue: number }[];
}

/** The tide of one series, with everything needed to judge it, to draw it and to take it out. */
export interface TideFit {
  readonly place: string;
  readonly quantity: string;
  readonly unit: string;
  /** Degrees east. */
  readonly longitude: number;
  /** How it was made, in one sentence. */
  readonly method: string;
  /** How hours were made of readings: `hourly` (one or no reading an hour), `bridged` or `plain`. */
  readonly means: "hourly" | "bridged" | "plain";
  /** First and last hour of the fit · epoch ms, UTC. */
  readonly from: number;
  readonly to: number;
  /** Length of the record from first to last hour, gaps included · d. */
  readonly days: number;
  /** Hours that carried a reading and were fitted. */
  readonly hours: number;
  /** Share of the span that was observed · 0…1. */
  readonly coverage: number;
  /** Readings that were fitted, and those left out (missing, flagged, or on a line between their neighbors). */
  readonly readings: number;
  readonly leftOut: number;
  /** Level of the record, the mean over its parts if a jump split it · unit. */
  readonly mean: number;
  /** Seconds over which each reading was averaged by the logger. */
  readonly averagedOver: number;
  /** Zero of the coefficients' phase · epoch ms, UTC (2000-01-01T00:00Z). */
  readonly epoch: number;
  readonly constituents: readonly Constituent[];
  /** All fitted lines, those not reported (S4) and not detected too. */
  readonly coefficients: readonly LineCoefficients[];
  readonly noise: TideNoise;
  readonly climatology: readonly MonthTide[];
  readonly seasonal: Seasonal;
  /** Instants at which the level jumped and the fit was split · epoch ms, UTC, with after minus before · unit · null for an event that was told. */
  readonly jumps: readonly { readonly at: number; readonly size: number | null }[];
  /** Plain sentences. */
  readonly warnings: readonly string[];
}

/** What the caller of `fitTides` may say. */
export interface TideOptions {
  /** Degrees east, −180…180: turns UTC to local mean solar time. */
  readonly longitude: number;
  /** Lines to report, by name; S1, S2, S3 always are. Default none beside them. */
  readonly lines?: readonly string[];
  /** Seconds over which the logger averaged each reading, stamped in the middle; 0 (default) is instantaneous. */
  readonly averagedOver?: number;
  /** Known instants at which the level changed (station moved) · epoch ms, UTC. */
  readonly events?: readonly number[];
  /** Whether to fit calendar months too. Default: when the record is longer than 60 days. */
  readonly climatology?: boolean;
}
