import { spanInWords } from "../../ground/spanInWords.js";
import type { AirRecord, ClockJump } from "../../record/airRecord.js";
import { clockDoubts, summerLimit } from "../clock/clockDoubts.js";
import { isDrift, sunDrift, unseenDrift } from "../clock/sunDrift.js";
import type { ClockOffset } from "../clock/clockOffset.js";
import type { SolarCheck } from "../solarCheck.js";
import { isResetJump, resetFindings } from "./resetFindings.js";
import { type Consequence, consequence, type Finding, type FindingWords, fine } from "./finding.js";

/** From this offset on two clocks must be set right before inside is compared with outside · s: five minutes of a delay of hours. */
const offsetWorthTelling = 300;
/** A drift that makes five minutes within a month · s d-1. */
const driftWorthTelling = 10;
const mostJumps = 4;
/** In so few days no clock drifts far · d. */
const leastDriftDays = 15;
/** A limit beyond this asks for another witness · min. */
const hardlyTold = 30;
const dayMs = 86_400_000;

/**
 * What is known of the clocks: resets, jumps, summer time, one logger against the other, all of them against the sun.
 *
 * @param record  flagged
 * @param solar   from solarCheck, or null
 * @param offsets from clocksBetween
 * @param words   names and times
 * @source limits: common practice, no source
 */
export function clockFindings(record: AirRecord, solar: SolarCheck | null, offsets: readonly ClockOffset[], words: FindingWords): Finding[] {
  const told = record.jumps.filter((j) => !isResetJump(j, record.setAside));
  const doubted = doubts(record, offsets, words);
  const limit = doubted.length > 0 ? null : summerLimit(record, words);
  return [...resetFindings(record, words), ...jumps(told, words), ...doubted, ...(limit === null ? [] : [fine(limit)]), ...offsets.flatMap((o) => between(o, words)), ...uncompared(record, offsets, words), ...sun(record, solar), ...unseen(record, words)];
}

function jumps(all: readonly ClockJump[], words: FindingWords): Finding[] {
  if (all.length === 0) return [];
  const sizes = all.slice(0, mostJumps).map(({ at, seconds, place }) => `${seconds > 0 ? "forward" : "back"} by ${spanInWords(seconds)} on ${words.day(at)} (${words.place(place)})`);
  const more = all.length > mostJumps ? ` and ${all.length - mostJumps} times more` : "";
  return [
    {
      weight: 1,
      says: `the clock jumps ${sizes.join(", ")}${more}: times between a jump and its repair are wrong by that much`,
      remedy: "write what you know into clock.corrections of the description, or of the place where only its logger is meant (its time, and how far the clock was ahead, before and after), or leave those days out with --since and --until",
      consequences: wrongSpans(all, words),
    },
  ];
}

/** The time between a jump and the one that takes it back, for what compares hours; a jump without repair is open to its end. */
function wrongSpans(all: readonly ClockJump[], words: FindingWords): Consequence[] {
  const told: Consequence[] = [];
  for (const place of new Set(all.map((j) => j.place))) {
    const own = all.filter((j) => j.place === place);
    for (let i = 0; i < own.length && told.length < 2 * mostJumps; i++) {
      const repair = own.findIndex((j, k) => k > i && Math.sign(j.seconds) !== Math.sign(own[i].seconds) && Math.abs(j.seconds + own[i].seconds) < 600);
      const when = repair < 0 ? `after ${words.day(own[i].at)}` : `from ${words.span(own[i].at, own[repair].at)}`;
      if (repair >= 0) own.splice(repair, 1);
      told.push(...consequence(["indoors", "climate"], "part", `hours of ${words.place(place)} are wrong by ${spanInWords(own[i].seconds)}`, when));
    }
  }
  return told;
}

function doubts(record: AirRecord, offsets: readonly ClockOffset[], words: FindingWords): Finding[] {
  return clockDoubts(record, offsets, words).map(({ kind, says }) => ({
    weight: 1,
    says,
    remedy: kind === "drift" ? "set the clock each month, noting the time it showed, and write it into clock.corrections" : "check the zone in the description, and whether the logger or the computer behind it changes to summer time by itself",
    consequences: consequence(["tides", "indoors", "climate"], "part", "hours of the day may be wrong, see the clock", "in a part of the record"),
  }));
}

function between({ a, b, offset, drift }: ClockOffset, words: FindingWords): Finding[] {
  const [first, second] = [words.place(a), words.place(b)];
  const far = offset.low > 0 ? offset.low : offset.high < 0 ? -offset.high : 0;
  const half = Math.round((offset.high - offset.low) / 2);
  const size = `${Math.abs(Math.round(offset.value))} ± ${half} s`;
  const found: Finding[] = [];
  if (far === 0) found.push(fine(`the clocks of ${first} and ${second} agree by their barometers (${Math.round(offset.value)} ± ${half} s)`));
  else {
    found.push({
      weight: far > offsetWorthTelling ? 1 : 0,
      says: `the clock of ${first} is ${size} ${offset.value > 0 ? "ahead of" : "behind"} that of ${second}, by their barometers`,
      remedy: `set both clocks by one good clock; until then write how far the wrong one is ahead into the description, under places.${offset.value > 0 ? a : b}.clock.corrections if it is that of ${offset.value > 0 ? first : second} ("at" any time of its own, "ahead" ${Math.round(Math.abs(offset.value))}): which of the two is wrong the barometers cannot tell`,
      consequences: far > offsetWorthTelling ? consequence(["indoors"], "note", `the clocks of ${first} and ${second} are set to each other by their barometers, to ± ${half} s`) : [],
    });
  }
  if (drift !== null && (drift.low > 0 || drift.high < 0) && Math.min(Math.abs(drift.low), Math.abs(drift.high)) >= driftWorthTelling) {
    found.push({
      weight: 1,
      says: `the clock of ${first} ${drift.value > 0 ? "gains" : "loses"} ${Math.abs(drift.value).toFixed(0)} ± ${((drift.high - drift.low) / 2).toFixed(0)} s a day against that of ${second}`,
      remedy: "set the clocks each month, noting the time they showed, and write it into clock.corrections of each place",
      consequences: consequence(["indoors"], "note", "the offset of the clocks changes through the record, and only its mean is taken off"),
    });
  }
  return found;
}

/** Two barometers whose clocks could not be set against each other: said, so that nobody takes silence for agreement. */
function uncompared({ places }: AirRecord, offsets: readonly ClockOffset[], words: FindingWords): Finding[] {
  const names = Object.values(places).flatMap(({ name, series }) => (series.surface_air_pressure?.values.some((v) => !Number.isNaN(v)) ? [name] : []));
  return names.flatMap((a, i) =>
    names.slice(i + 1).flatMap((b) =>
      offsets.some((o) => o.a === a && o.b === b)
        ? []
        : [fine(`the barometers of ${words.place(a)} and ${words.place(b)} cannot tell whether their clocks agree: that takes a week logged by both without long gaps, a reading an hour or more, pressure written finely, and air that changes within hours or a twice-daily tide that both see`)],
    ),
  );
}

function sun(record: AirRecord, solar: SolarCheck | null): Finding[] {
  if (solar === null) return [];
  if (solar.plausible) return [fine(solar.says)];
  // Real places differ from the formula by −20 to +60 %: the size of the tide is context, never a verdict.
  if (solar.suspect === "size") return [{ weight: 1, says: solar.says, remedy: "compare the barometer with another one for some days", consequences: consequence(["tides"], "part", "the size of the tide may be the barometer's own", "in its amplitudes") }];
  const isClock = solar.suspect === "clock";
  return [
    {
      weight: 2,
      says: solar.says,
      remedy: isClock ? `check the zone in the description and the date, hour and am or pm of the logger${mayLackSigns(record) ? "; and whether temperatures below zero lost their minus sign, as none is below it" : ""}` : "check that the barometer is open to the air, keeps away from the sun, and logs the pressure at the station",
      consequences: isClock
        ? [...consequence(["tides"], "all", "every hour of the day may be wrong, see the clock"), ...consequence(["indoors", "climate"], "part", "every hour may be wrong, see the clock", "by the hour of the day")]
        : consequence(["tides", "swings"], "all", "the barometer does not follow the air"),
    },
  ];
}

/** Whether frost outdoors would be no wonder, and there is none: the lowest reading is from 0 to 5 °C, 30° and more from the equator. */
function mayLackSigns({ places, site }: AirRecord): boolean {
  if (site === null || Math.abs(site.latitude) < 30) return false;
  return Object.values(places).some(({ exposure, series }) => {
    const values = series.air_temperature?.values;
    return exposure === "outdoor" && values !== undefined && values.some((v) => v < 5) && !values.some((v) => v < 0);
  });
}

/** How large a steady drift would have stayed unseen: an honest limit, where the sun tells of none. */
function unseen(record: AirRecord, words: FindingWords): Finding[] {
  const drift = sunDrift(record);
  if (drift === null) return record.site === null || record.to - record.from < leastDriftDays * dayMs ? [] : [fine("whether the clock gains or loses steadily cannot be told here: neither a tide nor the warmth of the day outdoors shows the sun")];
  if (isDrift(drift)) return [];
  const { secondsADay, minutes } = unseenDrift(drift);
  const size = `a steady gain or loss of up to ${minutes < 90 ? `${Math.ceil(minutes)} min` : `${(minutes / 60).toFixed(1)} h`} over the record (${Math.ceil(secondsADay)} s a day) would have stayed unseen`;
  const name = words.place(drift.place);
  return [fine(minutes > hardlyTold ? `the sun can hardly tell whether the clock of ${name} drifts: ${size}; note what it shows beside a good clock whenever you collect the log` : `by the sun the clock of ${name} does not drift: ${size}`)];
}
