/** A doubt about the clock, and of what kind it is. */
export interface ClockDoubt {
  readonly kind: "jump" | "summer time" | "against another" | "drift";
  /** A sentence without its full stop. */
  readonly says: string;
}
