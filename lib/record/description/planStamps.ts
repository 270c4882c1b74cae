import { isoClock, readIsoDate, readIsoDatetime, readIsoTime } from "../line/isoStamp.js";
import type { ClockFinder, StampReader } from "../line/stamp.js";
import { compileFormat } from "../line/strptime.js";
import type { Faults } from "./faults.js";
import type { StampPlan } from "./plan.js";
import type { FieldDescription } from "./surroundings.js";

type StampKind = "datetime" | "date" | "time";

const isoReaders: Readonly<Record<StampKind, readonly [StampReader, string, ClockFinder]>> = Object.freeze({
  datetime: [readIsoDatetime, "YYYY-MM-DD HH:MM:SS", isoClock(11)],
  date: [readIsoDate, "YYYY-MM-DD", isoClock(-1)],
  time: [readIsoTime, "HH:MM:SS", isoClock(0)],
});

/** The stamp of a resource's rows and where its zone stands. */
export interface PlannedStamps {
  readonly stamps: readonly StampPlan[];
  readonly zoneText: string | undefined;
  readonly zonePath: string;
  /** Every value carries its own offset, or may. */
  readonly hasOwnOffset: boolean;
}

/**
 * Checks that a schema has one datetime field, one date and one time field, or a date field alone, and compiles their formats.
 *
 * @param at          path of the list of fields
 * @param hasSampling the description tells where in its averaging time a stamp stands; else a date alone is the noon of its day
 */
export function planStamps(fields: readonly FieldDescription[], at: string, hasSampling: boolean, faults: Faults): PlannedStamps {
  const of = (kind: StampKind): number[] => fields.flatMap((f, k) => (f.type === kind ? [k] : []));
  const [datetimes, dates, times] = [of("datetime"), of("date"), of("time")];
  const isPair = datetimes.length === 0 && dates.length === 1 && times.length === 1;
  const isOne = datetimes.length === 1 && dates.length + times.length === 0;
  const isDay = dates.length === 1 && datetimes.length + times.length === 0;
  if (!isPair && !isOne && !isDay && fields.length > 0) {
    faults.say(at, "hold one datetime field, one date and one time field, or a date field alone", `${datetimes.length} datetime, ${dates.length} date, ${times.length} time`, "give type string to the fields that are not needed");
  }
  const used = isPair ? [dates[0], times[0]] : isOne ? [datetimes[0]] : isDay ? [dates[0]] : [];
  let letters: ReadonlySet<string> = new Set();
  let isIso = false;
  const stamps = used.map((k): StampPlan => {
    const f = fields[k];
    const kind = f.type as StampKind;
    const format = (f.format ?? "default").replace(/^fmt:/, "");
    const [iso, form, isoSpots] = isoReaders[kind];
    if (format === "default") {
      if (kind !== "date") isIso = true;
      return { name: f.name ?? "", field: k, read: iso, clock: isoSpots, form };
    }
    const compiled = format === "any" || format === "" ? { fault: "be a pattern, or absent for ISO 8601" } : compileFormat(kind, format);
    if ("fault" in compiled) {
      faults.add(`${at}[${k}].format`, compiled.fault, f.format);
      return { name: f.name ?? "", field: k, read: iso, clock: isoSpots, form };
    }
    letters = new Set([...letters, ...compiled.letters]);
    return { name: f.name ?? "", field: k, read: compiled.read, clock: compiled.clock, form: format };
  });
  const zoneField = used[used.length - 1] ?? 0;
  const zonePath = `${at}[${zoneField}].zone`;
  if (isDay && !hasSampling) stamps[0] = { ...stamps[0], read: noonOf(stamps[0].read) };
  return { stamps, zoneText: fields[zoneField]?.zone, zonePath, hasOwnOffset: used.length === 0 || isIso || ["z", "s", "Q"].some((l) => letters.has(l)) };
}

/** Noon of the day that is read: the middle of what a value of that day stands for. */
function noonOf(read: StampReader): StampReader {
  return (text, from, to, into) => {
    const isRead = read(text, from, to, into);
    if (isRead) into.ofDay = 43_200_000;
    return isRead;
  };
}
