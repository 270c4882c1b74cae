import type { ClockShape, Description, FieldShape, ResourceShape } from "./description.js";
import type { Faults } from "./faults.js";

/** A resource of the description; what is of the wrong shape is absent. */
export type ResourceDescription = Partial<ResourceShape>;
/** A field of a schema, likewise. */
export type FieldDescription = Partial<FieldShape>;

/** What a resource must know of the rest of the description. */
export interface Surroundings {
  /** Names of the described places; none when the description names none. */
  readonly places: readonly string[];
  /** Whose rows they are when nothing in them tells. */
  readonly lonePlace: string;
  readonly clock: Description["clock"];
  /** Of the places that have a clock of their own. */
  readonly placeClocks: Readonly<Record<string, ClockShape>>;
  readonly faults: Faults;
  readonly notes: string[];
}
