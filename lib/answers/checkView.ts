import type { RecordView } from "./recordView.js";

/** What the trust report's text needs besides the answer. */
export interface CheckView extends RecordView {
  /** House unit of a quantity, UDUNITS spelling. */
  readonly unitOf: (quantity: string) => string;
  /** Warnings of each entry of the answer's agreement, in its order. */
  readonly agreementWarnings: readonly (readonly string[])[];
}
