import { fitTides } from "../cycles/tide/fitTides.js";
import { RecordError } from "../ground/complaint.js";
import { type Displayable, displayable } from "../ground/display.js";
import type { Estimate } from "../ground/estimate.js";
import { instantText } from "../ground/instant.js";
import { standardOffsetHours } from "../ground/standardTime.js";
import { zoneNamed } from "../ground/zone.js";
import type { AirRecord, FileAccount, PlaceRecord } from "../record/airRecord.js";
import type { FlagName } from "../record/flag.js";
import { houseUnit, type Quantity } from "../record/quantity.js";
import { type Agreement, agreementOf } from "../trust/agreement.js";
import { type Altitude, altitudeOf } from "../trust/altitude.js";
import { faultsOf, flagCounts } from "../trust/faults/faultsOf.js";
import { flagRecord } from "../trust/faults/flagRecord.js";
import { type PlaceCoverage, placeCoverage, type QuantitySummary } from "../trust/placeCoverage.js";
import { type SolarCheck, solarCheck } from "../trust/solarCheck.js";
import { type Verdict, verdictOf } from "../trust/verdict.js";
import { checkText } from "./checkText.js";
import { type RecordHead, recordHead } from "./recordHead.js";

/** A run of readings with one fault; instants ISO 8601 UTC. */
export interface CheckFault {
  readonly flag: FlagName;
  readonly quantity: Quantity;
  readonly from: string;
  readonly to: string;
  readonly readings: number;
  readonly size: number | null;
}

/** One place in the trust report. */
export interface CheckPlace {
  readonly readings: number;
  readonly from: string | null;
  readonly to: string | null;
  readonly medianStepSeconds: number;
  readonly coverage: number;
  readonly repeated: number;
  readonly conflicting: number;
  readonly gaps: readonly { readonly from: string; readonly to: string; readonly hours: number }[];
  readonly quantities: Readonly<Partial<Record<Quantity, QuantitySummary>>>;
  readonly faults: readonly CheckFault[];
  readonly flags: Readonly<Record<FlagName, number>>;
}

/** The clock in the trust report. */
export interface CheckClock {
  readonly zone: string;
  readonly corrections: number;
  readonly jumps: readonly { readonly place: string; readonly at: string; readonly seconds: number }[];
  readonly skippedHours: readonly string[];
  readonly repeatedHours: readonly string[];
  readonly betweenPlaces: readonly { readonly a: string; readonly b: string; readonly offset: Estimate; readonly drift: Estimate | null }[];
  readonly solar: SolarCheck | null;
}

/** The fields of the trust report, as `check --json` writes them. */
export interface CheckFields {
  readonly record: RecordHead;
  readonly files: readonly FileAccount[];
  readonly places: Readonly<Record<string, CheckPlace>>;
  readonly clock: CheckClock;
  readonly agreement: readonly Agreement[];
  readonly altitude: Readonly<Record<string, Altitude>>;
  readonly verdict: Verdict;
}

export type CheckAnswer = Displayable<CheckFields>;

/**
 * Can this record be trusted: every line accounted for, gaps, faults, clock, agreement, altitude, and a verdict in words.
 *
 * Nothing is dropped: lines = accepted + skipped + rejected for every file, and flagged readings stay in the series.
 *
 * @param record from a reader, or from plain arrays
 * @returns      see CheckFields
 * @example checkRecord(await openRecord("datasets/hill-school")).verdict.level // usable
 */
export function checkRecord(record: AirRecord): CheckAnswer {
  const flagged = flagRecord(record);
  const places = Object.values(flagged.places);
  const each = <T>(of: (place: PlaceRecord) => T): Record<string, T> => Object.fromEntries(places.map((p) => [p.name, of(p)]));
  const coverage = each(placeCoverage);
  const flags = each(flagCounts);
  const altitude = altitudes(flagged);
  const agreement = agreementOf(flagged);
  const solar = solarOf(flagged);
  const answer: CheckFields = {
    record: recordHead(record),
    files: record.files,
    places: Object.freeze(each((p) => checkPlace(p, flagged, coverage[p.name], flags[p.name]))),
    clock: Object.freeze({
      zone: record.zone,
      corrections: record.corrections,
      jumps: record.jumps.map((j) => ({ place: j.place, at: instantText(j.at), seconds: j.seconds })),
      skippedHours: record.zoneChanges.filter((z) => z.seconds > 0).map((z) => instantText(z.at)),
      repeatedHours: record.zoneChanges.filter((z) => z.seconds < 0).map((z) => instantText(z.at)),
      betweenPlaces: [],
      solar,
    }),
    agreement,
    altitude: Object.freeze(altitude),
    verdict: verdictOf({ record: flagged, coverage, flags, altitude, agreement, solar }),
  };
  const zone = zoneNamed(record.zone);
  const view = {
    offsetHours: zone === null ? 0 : standardOffsetHours(zone, record.from),
    titles: Object.fromEntries(places.map((p) => [p.name, p.title])),
    unitOf: (quantity: string) => houseUnit[quantity as Quantity] ?? "",
  };
  return displayable(answer, (columns) => checkText(answer, view, columns));
}

function checkPlace(place: PlaceRecord, record: AirRecord, coverage: PlaceCoverage, flags: Readonly<Record<FlagName, number>>): CheckPlace {
  const instant = (seconds: number): string => instantText(place.start + 1000 * seconds);
  return Object.freeze({
    readings: place.readings,
    from: place.readings === 0 ? null : instant(place.seconds[0]),
    to: place.readings === 0 ? null : instant(place.seconds[place.readings - 1]),
    medianStepSeconds: coverage.medianStepSeconds,
    coverage: coverage.coverage,
    repeated: place.repeated,
    conflicting: place.conflicting,
    gaps: coverage.gaps.map((g) => ({ from: instantText(g.from), to: instantText(g.to), hours: g.hours })),
    quantities: coverage.quantities,
    faults: faultsOf(record, place.name).map((f) => ({ ...f, from: instantText(f.from), to: instantText(f.to) })),
    flags,
  });
}

function altitudes(record: AirRecord): Record<string, Altitude> {
  const found: Record<string, Altitude> = {};
  if (record.site === null) return found;
  for (const place of Object.values(record.places)) {
    const altitude = altitudeOf(place, record.site);
    if (altitude !== null) found[place.name] = altitude;
  }
  return found;
}

/** The tide of the outdoor barometer, or of the first there is, against the sun; null where no tide can be fitted. */
function solarOf(record: AirRecord): SolarCheck | null {
  if (record.site === null) return null;
  const places = Object.values(record.places);
  const outdoor = places.find((p) => p.exposure === "outdoor");
  for (const place of outdoor === undefined ? places : [outdoor, ...places]) {
    const pressure = place.series.surface_air_pressure ?? place.series.air_pressure_at_mean_sea_level;
    if (pressure === undefined) continue;
    try {
      const fit = fitTides(pressure, { longitude: record.site.longitude, averagedOver: record.averagedOver, climatology: false });
      return solarCheck(fit, record.site.latitude, (outdoor ?? place).series.air_temperature ?? null);
    } catch (error) {
      if (!(error instanceof RecordError)) throw error;
    }
  }
  return null;
}
