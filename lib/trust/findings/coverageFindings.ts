import type { AirRecord } from "../../record/airRecord.js";
import type { PlaceCoverage, RecordGap } from "../placeCoverage.js";
import { spanInWords } from "../../ground/spanInWords.js";
import { consequence, type Finding, type FindingWords, fine, type LaterCommand } from "./finding.js";

/** Shares of its time that a place should be covered for, and that it must be. */
const good = 0.95;
const least = 0.5;

/**
 * How much of its time each place has readings for.
 *
 * @param record   any record
 * @param coverage from placeCoverage, by place
 * @param words    names and dates
 * @source limits of this project: 95 % and 50 % (common practice, no source)
 */
export function coverageFindings(record: AirRecord, coverage: Readonly<Record<string, PlaceCoverage>>, words: FindingWords): Finding[] {
  return Object.entries(coverage).flatMap(([name, c]): Finding[] => {
    const place = words.place(name);
    if (record.places[name].readings === 0) return [{ weight: 2, says: `${place} has no reading`, remedy: `look at the marker or the column that the description gives for ${place}`, consequences: [] }];
    const share = `${(100 * c.coverage).toFixed(1)} %`;
    const longest = [...c.gaps].sort((a, b) => b.hours - a.hours)[0];
    const gap = longest === undefined ? "" : `; its longest gap is ${longest.hours.toFixed(1)} h from ${words.day(longest.from)}`;
    const change = intervalChange(c.gaps);
    if (change !== null) {
      return [
        {
          weight: 1,
          says: `${place} was logged every ${spanInWords(change.seconds)} from ${words.day(change.from)} to ${words.day(change.to)} and every ${spanInWords(c.medianStepSeconds)} otherwise: against the shorter interval it is covered for ${share} of its time${gap}`,
          remedy: "keep one interval where you can; --since and --until judge a part by its own",
          consequences: [],
        },
      ];
    }
    if (c.coverage >= good) return [fine(`${place} is covered for ${share} of its time${gap}`)];
    const thin = c.coverage < least;
    const commands: readonly LaterCommand[] = thin ? ["swings", "climate"] : ["climate"];
    return [
      {
        weight: thin ? 2 : 1,
        says: `${place} is covered for ${share} of its time only${gap}`,
        remedy: "look at power, card and battery on those days; long gaps are never filled in",
        consequences: consequence(commands, "note", `${place} has readings for ${share} of its time only`),
      },
    ];
  });
}

/** So many long steps of one length, one after the other, are no gaps but another interval. */
const leastSteps = 24;

/** The longest stretch logged at a longer interval than most of the record, if there is one. */
function intervalChange(gaps: readonly RecordGap[]): { readonly from: number; readonly to: number; readonly seconds: number } | null {
  let [best, first] = [0, 0];
  let found: { from: number; to: number; seconds: number } | null = null;
  for (let i = 0; i < gaps.length; i++) {
    const isNext = i > 0 && gaps[i].from === gaps[i - 1].to && Math.abs(gaps[i].hours / gaps[i - 1].hours - 1) < 0.05;
    if (!isNext) first = i;
    if (i - first + 1 <= Math.max(best, leastSteps - 1)) continue;
    best = i - first + 1;
    found = { from: gaps[first].from, to: gaps[i].to, seconds: Math.round(((gaps[i].to - gaps[first].from) / 1000 / best)) };
  }
  return found;
}
