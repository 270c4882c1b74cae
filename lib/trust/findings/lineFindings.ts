import type { AirRecord, FileAccount } from "../../record/airRecord.js";
import { type Finding, type FindingWords, fine } from "./finding.js";

/** Shares of lines that are worth knowing, and that spoil a log. */
const worthKnowing = 0.01;
const spoilt = 0.2;

/**
 * What became of the lines of the logs, and of rows that came twice.
 *
 * @param record any record
 * @param words  names of places
 * @source limits: common practice, no source
 */
export function lineFindings(record: AirRecord, words: FindingWords): Finding[] {
  return [linesRead(record.files), ...contradictions(record, words)];
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
