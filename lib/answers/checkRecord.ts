import { RecordError } from "../ground/complaint.js";
import { type Displayable, displayable } from "../ground/display.js";
import { instantText } from "../ground/instant.js";
import type { AirRecord, PlaceRecord } from "../record/airRecord.js";
import type { FlagName } from "../record/flag.js";
import { houseUnit, type Quantity } from "../record/quantity.js";
import { agreementOf } from "../trust/agreement.js";
import { type Altitude, altitudeOf, outdoorsOf } from "../trust/altitude.js";
import { clocksBetween } from "../trust/clock/clocksBetween.js";
import { isDrift, sunDrift } from "../trust/clock/sunDrift.js";
import { faultsOf, flagCounts } from "../trust/faults/faultsOf.js";
import { flagRecord } from "../trust/faults/flagRecord.js";
import { unfoldedWarmth } from "../trust/faults/unfoldedWarmth.js";
import { type PlaceCoverage, placeCoverage } from "../trust/placeCoverage.js";
import { type SolarCheck, solarCheck } from "../trust/solarCheck.js";
import { type Evidence, findingsOf, verdictOf } from "../trust/verdict.js";
import type { CheckFields, CheckPlace } from "./checkFields.js";
import { checkText, screenWords } from "./checkText.js";
import { tideOfPlace } from "./placeTide.js";
import { recordHead } from "./recordHead.js";
import { recordView } from "./recordView.js";

/** The trust report, with its text form. */
export type CheckAnswer = Displayable<CheckFields>;

/**
 * Can this record be trusted: every line accounted for, gaps, faults, clock, agreement, altitude, and a verdict in words.
 *
 * Nothing is dropped: lines = accepted + skipped + rejected for every file, and flagged readings stay in the series.
 *
 * @param record from a reader, or from plain arrays
 * @returns      see CheckFields
 * @example checkRecord(await openRecord("datasets/hill-school")).verdict.level // "usable"
 */
export function checkRecord(record: AirRecord): CheckAnswer {
  const flagged = flagRecord(record);
  const places = Object.values(flagged.places);
  const each = <T>(of: (place: PlaceRecord) => T): Record<string, T> => Object.fromEntries(places.map((p) => [p.name, of(p)]));
  const coverage = each(placeCoverage);
  const flags = each(flagCounts);
  const altitude = altitudes(flagged);
  const agreement = agreementOf(flagged);
  const { solar, tideWarnings } = solarOf(flagged);
  const offsets = clocksBetween(flagged);
  const drift = sunDrift(flagged);
  const evidence: Evidence = { record: flagged, coverage, flags, altitude, agreement, solar, offsets, tideWarnings };
  const answer: CheckFields = {
    record: recordHead(flagged),
    files: record.files,
    places: Object.freeze(each((p) => checkPlace(p, flagged, coverage[p.name], flags[p.name]))),
    clock: Object.freeze({
      zone: record.zone,
      corrections: record.corrections,
      jumps: record.jumps.map((j) => ({ place: j.place, at: instantText(j.at), seconds: j.seconds })),
      skippedHours: flagged.zoneChanges.filter((z) => z.seconds > 0).map((z) => instantText(z.at)),
      repeatedHours: flagged.zoneChanges.filter((z) => z.seconds < 0).map((z) => instantText(z.at)),
      betweenPlaces: offsets.map(({ a, b, offset, drift }) => Object.freeze({ a, b, offset, drift })),
      solar,
      ...(drift === null || !isDrift(drift) ? {} : { solarDrift: drift.estimate }),
    }),
    agreement: agreement.map(({ a, b, quantity, basis, bias, limits, drift }) => Object.freeze({ a, b, quantity, basis, bias, limits, drift })),
    altitude: Object.freeze(altitude),
    verdict: verdictOf(evidence),
    ...(record.questions === undefined ? {} : { questions: record.questions }),
  };
  const view = {
    ...recordView(flagged),
    unitOf: (quantity: string): string => houseUnit[quantity as Quantity] ?? "",
    agreementWarnings: agreement.map(({ warnings }) => warnings),
  };
  return displayable(answer, (columns) => checkText(answer, findingsOf(evidence, screenWords(view)), flagged, view, columns));
}

function checkPlace(place: PlaceRecord, record: AirRecord, coverage: PlaceCoverage, flags: Readonly<Record<FlagName, number>>): CheckPlace {
  const instant = (seconds: number): string => instantText(place.start + 1000 * seconds);
  const aside = (record.setAside ?? []).filter((s) => s.place === place.name);
  return Object.freeze({
    readings: place.readings + aside.reduce((n, s) => n + s.readings, 0),
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
    ...(aside.length === 0 ? {} : { setAside: aside.map(({ from, to, readings }) => ({ from: instantText(from), to: instantText(to), readings })) }),
  });
}

function altitudes(record: AirRecord): Record<string, Altitude> {
  const found: Record<string, Altitude> = {};
  if (record.site === null) return found;
  const outdoors = outdoorsOf(record);
  for (const place of Object.values(record.places)) {
    const altitude = altitudeOf(place, record.site, outdoors);
    if (altitude !== null) found[place.name] = altitude;
  }
  return found;
}

/** The tide of the outdoor barometer, or of the first there is, against the sun; null where no tide can be fitted. */
function solarOf(record: AirRecord): { readonly solar: SolarCheck | null; readonly tideWarnings: readonly string[] } {
  const none = { solar: null, tideWarnings: [] };
  if (record.site === null) return none;
  const places = Object.values(record.places);
  const outdoor = places.find((p) => p.exposure === "outdoor");
  for (const place of new Set(outdoor === undefined ? places : [outdoor, ...places])) {
    const pressure = place.series.surface_air_pressure ?? place.series.air_pressure_at_mean_sea_level;
    if (pressure === undefined) continue;
    try {
      const fit = tideOfPlace(record, pressure, [], { months: false, moves: false });
      return { solar: solarCheck(fit, record.site.latitude, unfoldedWarmth(record, outdoor ?? place)), tideWarnings: fit.warnings };
    } catch (error) {
      if (!(error instanceof RecordError)) throw error;
    }
  }
  return none;
}
