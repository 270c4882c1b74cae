import type { ResourcePlan } from "../description/plan.js";
import type { RowStore } from "./rowStore.js";

/** Where the numbers of one place go. */
export interface Target {
  readonly store: RowStore;
  /** Number k of the plan goes to column c of the store: pairs [k, c] one after the other. */
  readonly pairs: Int32Array;
}

/** The places of a resource, ready to take the numbers of a row. */
export class RowTargets {
  /** Offset of the first stamp that carried its own · minutes east of UTC; NaN when none did. */
  firstOffset: number = Number.NaN;
  readonly byPlace: ReadonlyMap<string, Target>;
  /** The only place of a resource that neither names places in its rows nor is wide. */
  readonly lone: Target | null;
  private readonly all: readonly Target[];

  constructor(plan: ResourcePlan, stores: ReadonlyMap<string, RowStore>) {
    const target = (place: string): Target => {
      const store = stores.get(place) as RowStore;
      const own = plan.numbers.flatMap((n, k) => (n.place === null || n.place === place ? [k, store.quantities.indexOf(n.quantity)] : []));
      return { store, pairs: Int32Array.from(own) };
    };
    this.byPlace = new Map(plan.places.map((place) => [place, target(place)]));
    this.all = [...this.byPlace.values()];
    this.lone = plan.who === null && !plan.isWide ? this.all[0] : null;
  }

  /**
   * Puts a row away: at its place, or in a wide layout at every place that has a value in it.
   *
   * @param target        the row's place; null in a wide layout
   * @param civil         what the stamp says, as if it were UTC · ms
   * @param offsetMinutes what it says of its offset; NaN for nothing
   * @param values        one a number of the plan · NaN is missing
   */
  put(target: Target | null, civil: number, offsetMinutes: number, values: Float64Array): void {
    const isInstant = !Number.isNaN(offsetMinutes);
    if (isInstant && Number.isNaN(this.firstOffset)) this.firstOffset = offsetMinutes;
    const time = isInstant ? civil - offsetMinutes * 60_000 : civil;
    if (target !== null) store(target, time, isInstant, values);
    else for (const own of this.all) if (hasValue(own, values)) store(own, time, isInstant, values);
  }
}

/** In a wide row a place whose every value is missing has no reading. */
function hasValue({ pairs }: Target, values: Float64Array): boolean {
  for (let p = 0; p < pairs.length; p += 2) if (!Number.isNaN(values[pairs[p]])) return true;
  return false;
}

function store({ store: rows, pairs }: Target, time: number, isInstant: boolean, values: Float64Array): void {
  const row = rows.add(time, isInstant);
  for (let p = 0; p < pairs.length; p += 2) rows.columns[pairs[p + 1]][row] = values[pairs[p]];
}
