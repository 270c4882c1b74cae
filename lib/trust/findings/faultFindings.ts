import { type FlagName, flagNames } from "../../record/flag.js";
import { quantityWords } from "../../record/quantity.js";
import type { Fault } from "../faults/faultsOf.js";
import { consequence, type Finding, type FindingWords, fine } from "./finding.js";

/** The faults of a place and what they are measured against. */
export interface PlaceFaults {
  readonly place: string;
  readonly faults: readonly Fault[];
  readonly counts: Readonly<Record<FlagName, number>>;
  /** Values of all quantities together. */
  readonly values: number;
}

/** Shares of values that are worth knowing, and that spoil a place. */
const worthKnowing = 0.01;
const spoilt = 0.2;
const mostTold = 3;
/** Stuck for so long, the days' means and extremes lack something · h. */
const longStuck = 6;

/**
 * What is faulty at each place, kind by kind: when, how large, and what to do about it.
 *
 * @param places from faultsOf and flagCounts
 * @param words  names and times
 * @source limits of 1 % and 20 % of values: common practice, no source
 */
export function faultFindings(places: readonly PlaceFaults[], words: FindingWords): Finding[] {
  return [...places.flatMap((p) => [soundShare(p, words), ...flagNames.flatMap((flag) => kindFinding(flag, p, words))]), ...swaps(places, words)].filter((f) => f !== null);
}

function soundShare({ place, counts, values }: PlaceFaults, words: FindingWords): Finding | null {
  const spoiled = counts.range + counts.spike + counts.stuck + counts.swapped;
  if (values === 0) return null;
  const name = words.place(place);
  // What is kept though it is marked is told kind by kind.
  const isMarked = counts.step + counts.warmed + counts.saturated > 0;
  if (spoiled === 0) return fine(isMarked ? `no reading at ${name} is so faulty that it is left out` : `no faulty reading was found at ${name}`);
  const share = spoiled / values;
  const text = `${spoiled} of ${values} values at ${name} (${share < 0.001 ? "under 0.1" : (100 * share).toFixed(1)} %) are faulty and left out of every analysis`;
  // A few faulty values are told kind by kind; their number by itself is no complaint.
  if (share <= spoilt) return { weight: share > worthKnowing ? 1 : 0, says: text, remedy: "", consequences: [] };
  const consequences = consequence(["tides", "swings", "indoors", "climate"], "note", `${(100 * share).toFixed(0)} % of the values of ${name} are left out`);
  return { weight: 2, says: text, remedy: "look at the kinds of fault told for this place, and at units and columns in the description", consequences };
}

function kindFinding(flag: FlagName, { place, faults, counts }: PlaceFaults, words: FindingWords): Finding[] {
  const runs = faults.filter((f) => f.flag === flag);
  if (runs.length === 0 || flag === "swapped") return [];
  const name = words.place(place);
  if (flag === "saturated") return [fine(`${counts.saturated} humidities at ${name} read 100 to 105 %, as a hygrometer does in fog or with a wet element: kept, counted as 100 %`)];
  const [first] = runs;
  const longest = [...runs].sort((a, b) => b.to - b.from - (a.to - a.from))[0];
  const largest = [...runs].sort((a, b) => Math.abs(b.size ?? 0) - Math.abs(a.size ?? 0))[0];
  const size = (f: Fault): string => `${(f.size ?? 0) > 0 ? "+" : "−"}${Math.abs(f.size ?? 0).toFixed(1)} ${unitOf[f.quantity] ?? ""}`.trim();
  const told = runs.slice(0, mostTold).map((f) => `${quantityWords[f.quantity]} ${words.span(f.from, f.to)}`).join("; ");
  const more = runs.length > mostTold ? `; ${runs.length - mostTold} times more` : "";
  if (flag === "range") return [note(1, `${counted(counts.range, "reading", "readings")} at ${name} cannot be (${told}${more}): left out`, "look at the sensor's plug, cable and power if it comes back")];
  if (flag === "spike") {
    return [note(1, `${counted(runs.length, "spike", "spikes")} at ${name}, the largest ${size(largest)} of ${quantityWords[largest.quantity]} on ${words.day(largest.from)}: left out`, "nothing, while they are few; many of them point to a cable or the power supply")];
  }
  if (flag === "stuck") {
    const hours = (longest.to - longest.from) / 3600000;
    const consequences = hours < longStuck ? [] : consequence(["indoors", "climate"], "note", `the ${quantityWords[longest.quantity]} of ${name} is left out from ${words.span(longest.from, longest.to)}`);
    return [{ weight: 1, says: `a sensor of ${name} stood still ${runs.length === 1 ? "once" : `${runs.length} times`} (${told}${more}), for ${hours.toFixed(1)} h at most: left out`, remedy: "restart the logger if it comes back, and change the sensor if that does not help", consequences }];
  }
  if (flag === "step") {
    const sizes = runs.map((f) => `by ${size(f)} on ${words.day(f.from)}`).join(", ");
    return [
      {
        weight: 1,
        says: `the barometer of ${name} jumps to another level, first on ${words.day(first.from)} (${sizes}): compare levels on either side only`,
        remedy: `if it was moved or changed on that day, add an event with "kind": "station moved" and the date to the description; if not, watch whether it jumps again`,
        consequences: [
          ...consequence(["tides"], "note", `the jump of ${name} is fitted with the tide`),
          ...consequence(["swings"], "part", `what is left of the jump of ${name} may look like a low or a high`, `within some days of ${words.day(first.from)}`),
          ...consequence(["climate"], "part", `mean pressure of ${name} before and after must not be compared`, `across ${words.day(first.from)}`),
        ],
      },
    ];
  }
  const days = new Set(runs.map((f) => words.day(f.from))).size;
  return [
    {
      weight: 1,
      says: `the sensor of ${name} is warmed at times, first on ${words.day(first.from)} (on ${counted(days, "day", "days")}, by up to ${size(largest)}, such as ${words.span(largest.from, largest.to)}): its highest temperatures are too high, and gains against it too low`,
      remedy: "move it, or shade it from the sun that reaches it at that hour",
      consequences: [
        ...consequence(["indoors"], "note", `gains and lags against ${name} are those of a sensor that the sun reaches on ${counted(days, "day", "days")}`),
        ...consequence(["climate"], "part", `the highest temperatures of ${name} are too high`, `on ${counted(days, "day", "days")} from ${words.day(first.from)}`),
      ],
    },
  ];
}

/** Exchanged places are told once for each span, with all the places that have it. */
function swaps(places: readonly PlaceFaults[], words: FindingWords): Finding[] {
  const spans = new Map<string, { from: number; to: number; names: string[] }>();
  for (const { place, faults } of places) {
    for (const { flag, from, to } of faults) {
      if (flag !== "swapped") continue;
      const span = [...spans.values()].find((s) => from <= s.to && to >= s.from);
      if (span === undefined) spans.set(`${from}`, { from, to, names: [words.place(place)] });
      else {
        span.from = Math.min(span.from, from);
        span.to = Math.max(span.to, to);
        if (!span.names.includes(words.place(place))) span.names.push(words.place(place));
      }
    }
  }
  return [...spans.values()].map(({ from, to, names }) => ({
    weight: 1,
    says: `the readings of ${names.join(" and ")} were exchanged, ${words.span(from, to)}: left out`,
    remedy: "find out which marker, plug or file changed its place then, and correct the file if you are sure",
    consequences: consequence(["indoors", "climate"], "note", `nothing is told of ${names.join(" and ")} from ${words.span(from, to)}, when they were exchanged`),
  }));
}

const unitOf: Readonly<Record<string, string>> = {
  air_temperature: "K",
  dew_point_temperature: "K",
  relative_humidity: "%",
  surface_air_pressure: "hPa",
  air_pressure_at_mean_sea_level: "hPa",
  mass_concentration_of_water_vapor_in_air: "g/m³",
};

const counted = (n: number, one: string, many: string): string => `${n} ${n === 1 ? one : many}`;
const note = (weight: 0 | 1 | 2, says: string, remedy: string): Finding => ({ weight, says, remedy, consequences: [] });
