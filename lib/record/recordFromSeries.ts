import { mustSentence, requireReadings, requireWithin, shown } from "../ground/complaint.js";
import { changesBetween, zoneFault, zoneNamed } from "../ground/zone.js";
import type { AirRecord, Exposure, PlaceRecord, RecordEvent, Site } from "./airRecord.js";
import { placeRecord, spanOf } from "./placeRecord.js";
import { quantities } from "./quantity.js";
import { mergeRows } from "./rows/mergeRows.js";
import { RowStore } from "./rows/rowStore.js";
import type { Series } from "./series.js";

/** What plain arrays cannot say of themselves. */
export interface SeriesSurroundings {
  readonly name?: string;
  readonly title?: string;
  readonly site?: Site;
  /** Zone of civil days: `Z`, `+07:00`, or an IANA name; default `Z`. */
  readonly zone?: string;
  /** By name of the place; a place that is not told keeps its name as title. */
  readonly places?: Readonly<Record<string, { readonly title?: string; readonly exposure?: Exposure; readonly elevation?: number }>>;
  readonly events?: readonly RecordEvent[];
  /** Seconds over which a reading is averaged; default 0, instantaneous. */
  readonly averagedOver?: number;
}

/**
 * Makes a record from series in memory, so that every question can be asked without a file or a description.
 *
 * The series of a place are laid on one time axis, the union of theirs; where a series has no reading it is NaN. Two
 * readings of one quantity at one instant are `repeated` or `conflicting`, the first is kept. Flags are carried along.
 *
 * @param list  series in house units, as `series({…})` makes them · at least one with a reading · unchanged
 * @param about see SeriesSurroundings
 * @returns     a frozen record without files
 * @throws RangeError when there is no reading, the zone is none, a value is infinite, or the site or the averaging
 *                    lies outside of what a record can hold
 * @example recordFromSeries([series({ times: [0, 3600000], values: [861.2, 861.1], quantity: "surface_air_pressure" })]).to // 3600000
 */
export function recordFromSeries(list: readonly Series[], about: SeriesSurroundings = {}): AirRecord {
  const count = list.reduce((n, s) => n + s.values.length, 0);
  if (count === 0) throw new RangeError(mustSentence("recordFromSeries", "list", "hold a series with a reading", list.length === 0 ? "no series" : `${list.length} empty series`));
  requireSurroundings(about);
  for (const s of list) requireReadings("recordFromSeries", "values", s.values, Number.MAX_VALUE);
  const zoneText = about.zone ?? "Z";
  const zone = zoneNamed(zoneText);
  if (zone === null) throw new RangeError(`recordFromSeries: ${zoneFault("zone", zoneText)}`);
  const unknown = Object.keys(about.places ?? {}).find((name) => list.every((s) => s.place !== name));
  if (unknown !== undefined) throw new RangeError(mustSentence("recordFromSeries", "places", "be places of the series", shown(unknown)));
  const places: Record<string, PlaceRecord> = {};
  for (const name of new Set(list.map((s) => s.place))) {
    const told = about.places?.[name];
    const own = list.filter((s) => s.place === name);
    const plan = { name, title: told?.title ?? name, exposure: told?.exposure ?? null, elevation: told?.elevation ?? null };
    places[name] = withFlags(placeRecord(plan, mergeRows(name, own.map(storeOf))), own);
  }
  const span = spanOf(places);
  return Object.freeze({
    name: about.name ?? "record",
    title: about.title ?? about.name ?? "record",
    site: about.site === undefined ? null : Object.freeze({ ...about.site }),
    zone: zoneText,
    places: Object.freeze(places),
    events: Object.freeze((about.events ?? []).map((e) => Object.freeze({ ...e }))),
    files: Object.freeze([]),
    jumps: Object.freeze([]),
    zoneChanges: Object.freeze(changesBetween(zone, span.from, span.to)),
    corrections: 0,
    averagedOver: about.averagedOver ?? 0,
    ...span,
    notes: Object.freeze([]),
  });
}

/** Elevations that a description may tell, too · m. */
const lowest = -430;
const highest = 9000;

function requireSurroundings({ site, averagedOver = 0, places = {} }: SeriesSurroundings): void {
  const at = "recordFromSeries";
  if (site !== undefined) {
    requireWithin(at, "site.latitude", site.latitude, -90, 90, "degrees");
    requireWithin(at, "site.longitude", site.longitude, -180, 180, "degrees");
    if (site.elevation !== null && site.elevation !== undefined) requireWithin(at, "site.elevation", site.elevation, lowest, highest, "m");
  }
  for (const { elevation } of Object.values(places)) if (elevation !== undefined) requireWithin(at, "places.elevation", elevation, lowest, highest, "m");
  requireWithin(at, "averagedOver", averagedOver, 0, 86_400, "s");
}

function storeOf(s: Series): RowStore {
  const store = new RowStore([s.quantity]);
  store.beginFile();
  for (let i = 0; i < s.values.length; i++) {
    const row = store.add(s.start + 1000 * s.seconds[i], true);
    store.columns[0][row] = s.values[i];
  }
  return store;
}

/** Gives the flags of the series to their readings; both run in order of time. */
function withFlags(place: PlaceRecord, own: readonly Series[]): PlaceRecord {
  for (const q of quantities) {
    const flags = place.series[q]?.flags;
    if (flags === undefined) continue;
    // The series given first is the one that was kept, so it is written last.
    for (const s of own.filter((o) => o.quantity === q).reverse()) {
      let k = 0;
      for (let i = 0; i < s.values.length; i++) {
        const at = s.start + 1000 * s.seconds[i];
        while (k < place.readings && place.start + 1000 * place.seconds[k] < at) k++;
        const isAgain = i > 0 && s.seconds[i] === s.seconds[i - 1];
        if (!isAgain) flags[k] = s.flags[i];
      }
    }
  }
  return place;
}
