import type { AirRecord, FileAccount } from "../../record/airRecord.js";
import { type Finding, type FindingWords, fine } from "./finding.js";

/** Shares of lines that are worth knowing, and that spoil a log. */
const worthKnowing = 0.01;
const spoilt = 0.2;
/** How the reader's reason for such a line begins. */
const yearReason = "the year is not between 1990 and 2100";

/**
 * What became of the lines of the logs, and of rows that came twice.
 *
 * @param record any record
 * @param words  names of places
 * @source limits: common practice, no source
 */
export function lineFindings(record: AirRecord, words: FindingWords): Finding[] {
  return [linesRead(record.files), ...unsetClock(record.files), ...contradictions(record, words), ...disorders(record, words)];
}

function linesRead(files: readonly FileAccount[]): Finding {
  const total = files.reduce((n, f) => n + f.lines, 0);
  const rejected = files.reduce((n, f) => n + f.rejected.length, 0);
  if (rejected === 0) return fine("every line could be read or was meant to be skipped");
  const share = rejected / total;
  return {
    weight: share > spoilt ? 2 : share > worthKnowing ? 1 : 0,
    says: `${rejected} of ${total} lines could not be read and are listed with their reasons`,
    remedy: "look at the lines listed below; lines cut short or run together come from a card pulled while the logger wrote, a whole file of them from a wrong delimiter or field in the description",
    consequences: [],
  };
}

/** Lines whose year no reading of this record can have: a clock that fell back to its zero, such as 1970. */
function unsetClock(files: readonly FileAccount[]): Finding[] {
  const told = files.flatMap(({ path, rejected }) => rejected.filter(({ reason }) => reason.startsWith(yearReason)).map((r) => ({ path, ...r })));
  if (told.length === 0) return [];
  const [{ path, line, reason }] = told;
  const got = / \(got (.*)\)$/.exec(reason)?.[1] ?? "";
  return [
    {
      weight: 1,
      says: `the clock was not set: ${told.length} ${told.length === 1 ? "line carries" : "lines carry"} a year before 1990 or after 2100, the first on line ${line} of ${path}${got === "" ? "" : ` (${got})`}, and ${told.length === 1 ? "is" : "are"} no ${told.length === 1 ? "reading" : "readings"}`,
      remedy: "set the clock; if you know when they were made, write the true times into a copy of that file",
      consequences: [],
    },
  ];
}

/** Rows that say something else of an instant that was read already: files that overlap, or an hour that a clock lived through twice. */
function contradictions(record: AirRecord, words: FindingWords): Finding[] {
  return Object.values(record.places).flatMap((place) => {
    if (place.readings === 0 || place.conflicting <= worthKnowing * place.readings) return [];
    return [
      {
        weight: 1,
        says: `${place.conflicting} rows of ${words.place(place.name)} contradict a row of the same instant; the first was kept`,
        remedy: "find out whether two loggers write under one name, or whether a clock that was set back wrote the same hours twice",
        consequences: [],
      } as const,
    ];
  });
}

/** Rows that stand out of order in the log: put in place by their stamps, which are believed. */
function disorders({ disorder = [], places, from: begin, to: end }: AirRecord, words: FindingWords): Finding[] {
  // Behind a stray stamp, which is told by itself, everything stands out of order; and days that were not asked about are nobody's.
  const own = disorder.filter(({ place, from, to, after }) => place in places && from >= begin && Math.max(to, after) <= end);
  return own.map(({ place, rows, stretches, from, to, after }) => {
    const share = rows / Math.max(1, places[place]?.readings ?? 0);
    const first = `${stretches === 1 ? "" : "the first of "}${stretches === 1 ? "" : `${stretches} stretches `}${words.span(from, to)}, behind ${words.span(after, after)}`;
    return {
      weight: share > worthKnowing ? 1 : 0,
      says: `${rows} ${rows === 1 ? "row" : "rows"} of ${words.place(place)} ${rows === 1 ? "stands" : "stand"} out of order in the log (${first}) and ${rows === 1 ? "was" : "were"} put in place by ${rows === 1 ? "its stamp" : "their stamps"}: no jump of the clock, as they fit between the others`,
      remedy: "nothing, where files or days were joined in another order; if the log was sorted by something else, sort it by time once and compare",
      consequences: [],
    };
  });
}
