import { random } from "../../lib/ground/random.js";
import { civilTime, offsetAt, zoneNamed } from "../../lib/ground/zone.js";
import type { AirRecord } from "../../lib/record/airRecord.js";
import { readRecord } from "../../lib/record/readRecord.js";
import { seasonHouse } from "./seasonHouse.js";

/** A log of a station outdoors, written by a civil clock and read as a fixed offset. */
export interface CivilPlan {
  readonly lat: number;
  readonly lon: number;
  /** Zone of the logger's civil clock. */
  readonly rule: string;
  /** What the description says. */
  readonly off: string;
  readonly step: number;
  readonly days: number;
  readonly start: number;
  /** Standard time, whole or with gaps of an hour and longer; civil time, with its repeated hour, or without the rows of instants that are there;
   * standard time described by the zone, and civil time described by it. */
  readonly mode: "clean" | "gappy" | "keeps" | "drops" | "standard" | "iana";
}

/** Writes the log of a season house as its clock would, and reads it as its description says. */
export async function civilLog(seed: number, { lat, lon, rule, off, step, days, start, mode }: CivilPlan): Promise<AirRecord> {
  const zone = zoneNamed(rule);
  if (zone === null) throw new Error(`no zone ${rule}`);
  const house = seasonHouse(seed, { days, step, start, latitude: lat, longitude: lon });
  const standard = Math.min(...[0, 180].map((d) => offsetAt(zone, Date.UTC(2023, 0, 15 + d))));
  const dice = random(seed + 7);
  const lines = ["time,t,rh,p"];
  const seen = new Set<string>();
  let pause = 0;
  house.times.forEach((at, i) => {
    // Gaps as they come in real logs: some of an hour, some longer.
    if (mode === "gappy" && pause <= 0 && dice.uniform() < step / 86_400 / 6) pause = dice.uniform() < 0.4 ? 3600 : 3600 * 24 * dice.uniform();
    pause -= step;
    if (mode === "gappy" && pause > -step && pause >= 0) return;
    const isCivil = mode === "keeps" || mode === "drops" || mode === "iana";
    const stamp = new Date(isCivil ? civilTime(zone, at) : at + standard).toISOString().slice(0, 19);
    if (mode === "drops" && seen.has(stamp)) return;
    seen.add(stamp);
    lines.push(`${stamp},${house.air_temperature[i].toFixed(1)},${house.relative_humidity[i].toFixed(0)},${house.surface_air_pressure[i].toFixed(1)}`);
  });
  return readLog(lines, { lat, lon, off: mode === "standard" || mode === "iana" ? rule : off });
}

/** A log of one place outdoors, from its lines with the header time,t,rh,p. */
export async function readLog(lines: readonly string[], { lat, lon, off }: { readonly lat: number; readonly lon: number; readonly off: string }): Promise<AirRecord> {
  const number = (name: string, quantity: string, unit: string): object => ({ name, type: "number", quantity, unit, place: "outside" });
  const description = {
    name: "invented", title: "Invented", site: { latitude: lat, longitude: lon, elevation: 30 },
    places: { outside: { title: "outside", exposure: "outdoor" } },
    resources: [{ name: "log", path: "log.csv", schema: { fields: [{ name: "time", type: "datetime", format: "default", zone: off }, number("t", "air_temperature", "degC"), number("rh", "relative_humidity", "%"), number("p", "surface_air_pressure", "hPa")] } }],
  };
  return readRecord(description, () => [new TextEncoder().encode(`${lines.join("\n")}\n`)]);
}
