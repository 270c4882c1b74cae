import type { AirRecord } from "../../record/airRecord.js";
import type { PlaceCoverage } from "../placeCoverage.js";
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
