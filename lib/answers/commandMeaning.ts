import { beatNeedsDays } from "../cycles/swings/swingSpectrum.js";
import { longestSpacing } from "../cycles/tide/tideFrame.js";
import { medianStep } from "../grid/step.js";
import { bandNeedsDays } from "../cycles/swings/swingBand.js";
import { leastDays as indoorDays } from "../indoors/pairNumbers.js";
import type { AirRecord } from "../record/airRecord.js";
import type { Consequence, Finding, LaterCommand } from "../trust/findings/finding.js";

/** What a record is good for, one later command. */
export interface CommandMeaning {
  readonly command: LaterCommand;
  /** Sentences without their full stops; the first begins with `safe`, `not safe` or `cannot be told`. */
  readonly says: readonly string[];
}

/** Days of record that a command asks for, those from which nothing is held back, and what is until then. */
interface Patience {
  readonly least: number;
  readonly enough: number;
  readonly until: string;
}

const patience: Readonly<Record<LaterCommand, Patience>> = {
  tides: { least: 3, enough: 20, until: "its intervals are wide and may be too narrow" },
  swings: { least: bandNeedsDays, enough: beatNeedsDays, until: "no regular beat can be told" },
  indoors: { least: indoorDays, enough: 20, until: "its intervals are wide and may be too narrow" },
  climate: { least: 1, enough: 28, until: "no month can be told" },
};

/**
 * What the findings mean for the commands that come after check.
 *
 * @param record   any record
 * @param findings from findingsOf
 * @returns        one entry a command, in the order in which people run them
 */
export function commandMeaning(record: AirRecord, findings: readonly Finding[]): readonly CommandMeaning[] {
  return (["tides", "swings", "indoors", "climate"] as const).map((command) => {
    const missing = missingFor(record, command);
    if (missing !== "") return { command, says: [`cannot be told: ${missing}`] };
    const own = findings.flatMap((f) => f.consequences.filter((c) => c.command === command));
    const once = (bears: Consequence["bears"]): readonly Consequence[] => own.filter((c, k) => c.bears === bears && own.findIndex((d) => d.how === c.how && d.when === c.when) === k);
    const spoilt = once("all").map(({ how }) => `not safe: ${how}`);
    const parts = once("part").map(({ when, how }) => `not safe ${when}: ${how}`);
    const short = shortFor(record, command);
    const notes = [...once("note").map(({ how }) => how), ...(short === "" ? [] : [short])];
    const rest = spoilt.length > 0 ? notes : [parts.length > 0 ? "otherwise safe" : "safe", ...notes];
    return { command, says: [...spoilt, ...parts, ...(rest.length === 0 ? [] : [rest.join("; ")])] };
  });
}

function missingFor(record: AirRecord, command: LaterCommand): string {
  const places = Object.values(record.places);
  const days = (record.to - record.from) / 86400000;
  const hasPressure = places.some(({ series }) => series.surface_air_pressure !== undefined || series.air_pressure_at_mean_sea_level !== undefined);
  if ((command === "tides" || command === "swings") && !hasPressure) return "no air pressure was logged";
  const steps = places.flatMap(({ series }) => [series.surface_air_pressure, series.air_pressure_at_mean_sea_level].flatMap((s) => (s === undefined ? [] : [medianStep(s.seconds)])));
  const step = Math.min(...steps);
  if (command === "tides" && step > longestSpacing) return `the pressure was read every ${Number((step / 3600).toFixed(1))} h, and every 3 h is needed`;
  if (command === "tides" && record.site === null) return "the description does not say where the site is";
  if (command === "indoors") {
    for (const exposure of ["outdoor", "indoor"]) {
      if (!places.some((p) => p.exposure === exposure && p.series.air_temperature !== undefined)) return `no ${exposure} place has an air temperature`;
    }
  }
  const { least } = patience[command];
  return days < least - 0.05 ? `the record is ${days.toFixed(1)} days long and ${least} are needed` : "";
}

function shortFor(record: AirRecord, command: LaterCommand): string {
  const days = (record.to - record.from) / 86400000;
  const { enough, until } = patience[command];
  return days < enough - 0.5 ? `${days.toFixed(0)} days are few: ${until} before ${enough}` : "";
}
