import { random } from "../../lib/ground/random.js";
import { flagBit, flagNames, type FlagName } from "../../lib/record/flag.js";
import type { AirRecord } from "../../lib/record/airRecord.js";
import { flagRecord } from "../../lib/trust/faults/flagRecord.js";
import { type HousePlan, inventedHouse, recordOf, rewritten } from "./inventedHouse.js";
import { type Planted, plantSpikes, plantStep, plantStuck, plantSun, plantSwap } from "./plantedFaults.js";

/**
 * False alarms on clean invented houses and hits on planted faults, as two tables.
 * Run: npx tsx test/simulation/trustFaults.ts [first seed] [count]. Seeds below 500 were used while building; judge on others.
 */
const first = Number(process.argv[2] ?? 9001);
const count = Number(process.argv[3] ?? 10);

const houses: Readonly<Record<string, HousePlan>> = {
  "tropics, 5 min, 0.1 °C 0.1 % 0.01 hPa": { days: 60, step: 300, climate: "tropics", room: "free", digits: [0.1, 0.1, 0.01] },
  "middle, 5 min, 0.1 °C 1 % 0.1 hPa, thermostat": { days: 60, step: 300, climate: "middle", room: "thermostat", digits: [0.1, 1, 0.1] },
  "middle, 10 min, 0.5 °C 1 % 1 hPa, thermostat": { days: 60, step: 600, climate: "middle", room: "thermostat", digits: [0.5, 1, 1] },
  "tropics, 15 min, 0.1 °C 1 % 1 mmHg": { days: 60, step: 900, climate: "tropics", room: "free", digits: [0.1, 1, 1.33322] },
  "middle, hourly, 0.1 °F 1 % 0.01 inHg": { days: 120, step: 3600, climate: "middle", room: "free", digits: [0.0555556, 1, 0.338639] },
  "middle, 1 min, all digits, no offset": { days: 20, step: 60, climate: "middle", room: "free", digits: [0, 0, 0], offset: 0 },
};

const record = ({ site, outside, inside }: ReturnType<typeof inventedHouse>, { digits }: HousePlan): AirRecord =>
  recordOf(site, {
    outside: { exposure: "outdoor", readings: rewritten(outside, digits) },
    inside: { exposure: "indoor", readings: rewritten(inside, digits) },
  });

function hits(flagged: AirRecord, planted: readonly Planted[]): Map<string, [number, number]> {
  const tally = new Map<string, [number, number]>();
  for (const { flag, kind, place, quantity, first: a, last: b } of planted) {
    const flags = flagged.places[place].series[quantity]?.flags ?? new Uint16Array(0);
    let marked = 0;
    for (let i = a; i <= b; i++) if ((flags[i] & flagBit[flag]) !== 0) marked++;
    const key = `${flag} ${flag === "spike" || flag === "stuck" ? `${quantity} ` : ""}${kind}`;
    const [hit, all] = tally.get(key) ?? [0, 0];
    tally.set(key, [hit + (2 * marked >= b - a + 1 ? 1 : 0), all + 1]);
  }
  return tally;
}

/** Readings flagged that were not planted, by flag. */
function strays(flagged: AirRecord, planted: readonly Planted[]): Record<FlagName, number> {
  const out = Object.fromEntries(flagNames.map((f) => [f, 0])) as Record<FlagName, number>;
  for (const [name, place] of Object.entries(flagged.places)) {
    for (const s of Object.values(place.series)) {
      for (let i = 0; i < s.flags.length; i++) {
        for (const f of flagNames) {
          if ((s.flags[i] & flagBit[f]) === 0) continue;
          const isMeant = planted.some((p) => p.flag === f && i >= p.first - 1 && i <= p.last + 1 && (f === "swapped" || (p.place === name && p.quantity === s.quantity)));
          if (!isMeant) out[f]++;
        }
      }
    }
  }
  return out;
}

const add = (sum: Map<string, [number, number]>, more: Map<string, [number, number]>): void => {
  for (const [key, [a, b]] of more) sum.set(key, [(sum.get(key)?.[0] ?? 0) + a, (sum.get(key)?.[1] ?? 0) + b]);
};

const shownFlags = flagNames.filter((f) => f !== "range" && f !== "saturated");
console.log(`seeds ${first}…${first + count - 1}\n\n| clean house | readings | ${shownFlags.join(" | ")} | records with any |\n|---|---|${shownFlags.map(() => "---|").join("")}---|`);
for (const [title, plan] of Object.entries(houses)) {
  const sum: Record<string, number> = {};
  let any = 0;
  let readings = 0;
  for (let k = 0; k < count; k++) {
    const flagged = flagRecord(record(inventedHouse(first + k, plan), plan));
    const wrong = strays(flagged, []);
    for (const f of shownFlags) sum[f] = (sum[f] ?? 0) + wrong[f];
    if (shownFlags.some((f) => wrong[f] > 0)) any++;
    for (const p of Object.values(flagged.places)) readings += 3 * p.readings;
  }
  console.log(`| ${title} | ${readings} | ${shownFlags.map((f) => sum[f]).join(" | ")} | ${any} of ${count} |`);
}

console.log("\n| house | found of planted | flagged by mistake |\n|---|---|---|");
for (const [title, plan] of Object.entries(houses)) {
  const tally = new Map<string, [number, number]>();
  const wrong: Record<string, number> = {};
  for (let k = 0; k < count; k++) {
    const seed = first + 5000 + k;
    const plants: ((h: ReturnType<typeof inventedHouse>) => Planted[])[] = [
      (h) => plantSpikes(random(seed), h, plan.step),
      (h) => plantStuck(random(seed), h, plan.step),
      (h) => plantStep(random(seed), h, 0.6),
      (h) => plantStep(random(seed), h, -1.4),
      (h) => plantSwap(random(seed), h, plan.step),
      (h) => (plan.step <= 1200 && plan.days >= 60 ? plantSun(random(seed), h, plan.step, { minutes: 100, peak: 4.5, count: 10 }) : []),
      (h) => (plan.step <= 1200 && plan.days >= 60 ? plantSun(random(seed), h, plan.step, { minutes: 60, peak: 3, count: 6 }) : []),
    ];
    for (const plant of plants) {
      const house = inventedHouse(seed, plan);
      const planted = plant(house);
      const flagged = flagRecord(record(house, plan));
      add(tally, hits(flagged, planted));
      const stray = strays(flagged, planted);
      for (const f of shownFlags) wrong[f] = (wrong[f] ?? 0) + stray[f];
    }
    const lone = inventedHouse(seed, plan);
    const planted = plantStep(random(seed), lone, 8 * Math.ceil(Math.sqrt(Math.max(1, plan.step / 600))));
    const flagged = flagRecord(recordOf(lone.site, { inside: { exposure: "indoor", readings: rewritten(lone.inside, plan.digits) } }));
    add(tally, new Map([...hits(flagged, planted)].map(([key, v]) => [`${key} alone`, v])));
  }
  const text = [...tally].map(([key, [a, b]]) => `${key} ${a}/${b}`).join(" · ");
  console.log(`| ${title} | ${text} | ${shownFlags.filter((f) => wrong[f] > 0).map((f) => `${f} ${wrong[f]}`).join(" · ")} |`);
}
