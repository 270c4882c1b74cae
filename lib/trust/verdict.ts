import type { AirRecord } from "../record/airRecord.js";
import type { FlagName } from "../record/flag.js";
import type { Agreement } from "./agreement.js";
import type { Altitude } from "./altitude.js";
import type { ClockOffset } from "./clock/clockOffset.js";
import { faultsOf } from "./faults/faultsOf.js";
import { clockFindings } from "./findings/clockFindings.js";
import { coverageFindings } from "./findings/coverageFindings.js";
import { faultFindings } from "./findings/faultFindings.js";
import { type Finding, type FindingWords, plainWords } from "./findings/finding.js";
import { missingCodes } from "./findings/missingCodes.js";
import { questionFindings } from "./findings/questionFindings.js";
import { samplingFindings } from "./findings/samplingFindings.js";
import { lineFindings } from "./findings/lineFindings.js";
import { sensorFindings } from "./findings/sensorFindings.js";
import type { PlaceCoverage } from "./placeCoverage.js";
import type { SolarCheck } from "./solarCheck.js";

/** Whether a record can be trusted, and why. */
export interface Verdict {
  readonly level: "good" | "usable" | "poor";
  readonly reasons: readonly string[];
}

/** What a verdict is made from. */
export interface Evidence {
  readonly record: AirRecord;
  readonly coverage: Readonly<Record<string, PlaceCoverage>>;
  readonly flags: Readonly<Record<string, Readonly<Record<FlagName, number>>>>;
  readonly altitude: Readonly<Record<string, Altitude>>;
  readonly agreement: readonly Agreement[];
  readonly solar: SolarCheck | null;
  /** Offsets between the places' clocks, from clockOffset; none where there is one place. */
  readonly offsets?: readonly ClockOffset[];
  /** What the fit behind `solar` warned of. */
  readonly tideWarnings?: readonly string[];
}

/**
 * Everything that was found out about a record, what is fine first, then by how much it matters.
 *
 * @param evidence see Evidence
 * @param words    how places and times are named; default as in the description, in UTC
 */
export function findingsOf(evidence: Evidence, words: FindingWords = plainWords): readonly Finding[] {
  const { record, coverage, flags, altitude, agreement, solar, offsets = [], tideWarnings = [] } = evidence;
  const faults = Object.entries(flags).map(([place, counts]) => ({
    place,
    faults: faultsOf(record, place),
    counts,
    values: Object.values(coverage[place].quantities).reduce((n, q) => n + q.values, 0),
  }));
  const all = [
    ...lineFindings(record, words),
    ...questionFindings(record),
    ...coverageFindings(record, coverage, words),
    ...faultFindings(faults, words),
    ...clockFindings(record, solar, offsets, words),
    ...sensorFindings(record, altitude, agreement, words),
    ...missingCodes(record, words),
    ...samplingFindings(tideWarnings, Object.values(flags).some(({ step }) => step > 0)),
  ];
  return Object.freeze(all.sort((a, b) => a.weight - b.weight).map((f) => Object.freeze(f)));
}

/**
 * The verdict on a record: poor when something spoils it, usable when something must be known, good otherwise.
 *
 * @param evidence see Evidence
 * @returns        what is fine first, then what is not
 * @source limits of this project: 95 % and 50 % coverage, 1 % and 20 % of lines or readings spoiled (common practice, no source)
 */
export function verdictOf(evidence: Evidence): Verdict {
  const found = findingsOf(evidence);
  const worst = Math.max(...found.map(({ weight }) => weight));
  return Object.freeze({ level: worst === 2 ? "poor" : worst === 1 ? "usable" : "good", reasons: Object.freeze(found.map(({ says }) => says)) });
}
