import { dayText } from "../ground/instant.js";
import type { AirRecord, FileAccount } from "../record/airRecord.js";
import { type FlagName, flagBit } from "../record/flag.js";
import type { Agreement } from "./agreement.js";
import type { Altitude } from "./altitude.js";
import { clockDoubts } from "./clock/clockDoubts.js";
import type { ClockOffset } from "./clock/clockOffset.js";
import type { PlaceCoverage } from "./placeCoverage.js";
import { type SolarCheck, soundHours } from "./solarCheck.js";
import { unitDoubts } from "./unitDoubt.js";

/** Whether a record can be trusted, and why. */
export interface Verdict {
  readonly level: "good" | "usable" | "poor";
  readonly reasons: readonly string[];
}

/** What a verdict is made from. */
export interface Findings {
  readonly record: AirRecord;
  readonly coverage: Readonly<Record<string, PlaceCoverage>>;
  readonly flags: Readonly<Record<string, Readonly<Record<FlagName, number>>>>;
  readonly altitude: Readonly<Record<string, Altitude>>;
  readonly agreement: readonly Agreement[];
  readonly solar: SolarCheck | null;
  /** Offsets between the places' clocks, from clockOffset; none where there is one place. */
  readonly offsets?: readonly ClockOffset[];
}

/** From this offset on two clocks must be set right before inside is compared with outside · s: five minutes of a delay of hours. */
const offsetWorthTelling = 300;

/** A finding: how much it matters (0 fine, 1 to be known, 2 spoils something) and its sentence. */
type Weighed = readonly [0 | 1 | 2, string];

/**
 * The verdict on a record: poor when something spoils it, usable when something must be known, good otherwise.
 *
 * @param findings see Findings
 * @returns        what is fine first, then what is not
 * @source limits of this project: 95 % and 50 % coverage, 1 % and 20 % of lines or readings spoiled (common practice, no source)
 */
export function verdictOf(findings: Findings): Verdict {
  const weighed: Weighed[] = [
    ...lines(findings.record.files),
    ...coverage(findings),
    ...faults(findings),
    ...clock(findings),
    ...unitDoubts(findings.record).map((says): Weighed => [2, says]),
    ...Object.entries(findings.altitude).map(([name, a]): Weighed => [a.plausible ? 0 : 2, a.plausible ? `the barometer of ${name} fits the height: ${a.median.toFixed(1)} hPa where ${a.expected.toFixed(1)} hPa is usual` : `the barometer of ${name} does not fit the height (${a.median.toFixed(1)} hPa where ${a.expected.toFixed(1)} hPa is usual)`]),
  ];
  const worst = Math.max(...weighed.map(([weight]) => weight));
  const inOrder = [...weighed].sort((a, b) => a[0] - b[0]).map(([, says]) => says);
  return Object.freeze({ level: worst === 2 ? "poor" : worst === 1 ? "usable" : "good", reasons: Object.freeze(inOrder) });
}

function lines(files: readonly FileAccount[]): Weighed[] {
  const total = files.reduce((n, f) => n + f.lines, 0);
  const rejected = files.reduce((n, f) => n + f.rejected.length, 0);
  if (rejected === 0) return [[0, "every line could be read or was meant to be skipped"]];
  const share = rejected / total;
  return [[share > 0.2 ? 2 : share > 0.01 ? 1 : 0, `${rejected} of ${total} lines could not be read and are listed with their reasons`]];
}

function coverage({ record, coverage }: Findings): Weighed[] {
  return Object.entries(coverage).map(([name, c]): Weighed => {
    if (record.places[name].readings === 0) return [2, `${name} has no reading`];
    const share = `${(100 * c.coverage).toFixed(1)} %`;
    const longest = [...c.gaps].sort((a, b) => b.hours - a.hours)[0];
    const gap = longest === undefined ? "" : `; its longest gap is ${longest.hours.toFixed(1)} h from ${dayText(longest.from)}`;
    if (c.coverage >= 0.95) return [0, `${name} is covered for ${share} of its time${gap}`];
    return [c.coverage < 0.5 ? 2 : 1, `${name} is covered for ${share} of its time only${gap}`];
  });
}

function faults({ record, coverage, flags }: Findings): Weighed[] {
  const found: Weighed[] = [];
  for (const [name, counts] of Object.entries(flags)) {
    const values = Object.values(coverage[name].quantities).reduce((n, q) => n + q.values, 0);
    const spoiled = counts.range + counts.spike + counts.stuck + counts.swapped;
    if (values === 0) continue;
    const share = spoiled / values;
    if (spoiled === 0) found.push([0, `no faulty reading was found at ${name}`]);
    else found.push([share > 0.2 ? 2 : 1, `${spoiled} of ${values} values at ${name} (${share < 0.001 ? "under 0.1" : (100 * share).toFixed(1)} %) are faulty and left out of every analysis`]);
    if (counts.step > 0) found.push([1, `the barometer of ${name} jumps to another level${firstDay(record, name, "step")}: compare levels on either side only`]);
    if (counts.warmed > 0) found.push([1, `the sensor of ${name} is warmed at times${firstDay(record, name, "warmed")}: its highest temperatures are too high, and gains against it too low`]);
  }
  return found;
}

/** `, first on 2024-07-01`, from the first reading of a place with a flag. */
function firstDay(record: AirRecord, name: string, flag: FlagName): string {
  const firsts = Object.values(record.places[name].series).flatMap((s) => {
    const i = s.flags.findIndex((bits) => (bits & flagBit[flag]) !== 0);
    return i < 0 ? [] : [s.start + 1000 * s.seconds[i]];
  });
  return firsts.length === 0 ? "" : `, first on ${dayText(Math.min(...firsts))}`;
}

function clock({ record, solar, offsets = [] }: Findings): Weighed[] {
  const found: Weighed[] = [];
  const { jumps } = record;
  if (jumps.length > 0) {
    const sizes = jumps.slice(0, 4).map(({ at, seconds, place }) => `${seconds > 0 ? "forward" : "back"} by ${Math.round(Math.abs(seconds) / 60)} min on ${dayText(at)} (${place})`);
    const more = jumps.length > 4 ? ` and ${jumps.length - 4} times more` : "";
    found.push([1, `the clock jumps ${sizes.join(", ")}${more}: times between a jump and its repair are wrong by that much`]);
  }
  found.push(...clockDoubts(record, offsets).map((says): Weighed => [1, says]));
  for (const { a, b, offset } of offsets) {
    const far = offset.low > 0 ? offset.low : offset.high < 0 ? -offset.high : 0;
    const half = Math.round((offset.high - offset.low) / 2);
    const size = `${Math.abs(Math.round(offset.value))} ± ${half} s`;
    if (far === 0) found.push([0, `the clocks of ${a} and ${b} agree by their barometers (${Math.round(offset.value)} ± ${half} s)`]);
    else found.push([far > offsetWorthTelling ? 1 : 0, `the clock of ${a} is ${size} ${offset.value > 0 ? "ahead of" : "behind"} that of ${b}, by their barometers`]);
  }
  if (solar !== null) found.push([solar.plausible ? 0 : isSizeAlone(solar) ? 1 : 2, solar.says]);
  return found;
}

/** Whether the tide's size alone is odd: real places differ from the formula by −20 to +60 %, so that is context, never a verdict. */
function isSizeAlone({ maximumAt, amplitude, expected }: SolarCheck): boolean {
  const isOddSize = amplitude.high < expected.low || amplitude.low > expected.high;
  return isOddSize && maximumAt !== null && maximumAt.high >= soundHours.low && maximumAt.low <= soundHours.high;
}
