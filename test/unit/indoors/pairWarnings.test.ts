import { describe, expect, it } from "vitest";
import { type Estimate, estimate } from "../../../lib/ground/estimate.js";
import type { BandResponse } from "../../../lib/indoors/bandResponse.js";
import type { PairNumbers, PairWorkings } from "../../../lib/indoors/pairNumbers.js";
import { type PairCircumstances, pairWarnings } from "../../../lib/indoors/pairWarnings.js";
import type { RiskHours } from "../../../lib/indoors/surfaceRisk.js";

const around = (value: number, half: number, unit: string): Estimate => estimate({ value, standardError: half / 2, low: value - half, high: value + half, unit });
const band = (says: string | null, gain: Estimate | null): BandResponse => ({
  from: 0.08, to: 0.16, cyclesPerDay: 0.1, gain, lagHours: null, coherence: null, coherenceLimit: null, segments: 0, degreesOfFreedom: 0, says,
});
const mould = (hours: number, others: readonly number[], readings: readonly number[] = []): RiskHours => ({ hours, share: null, factor: 0.7, atOtherFactors: others.map((h, i) => ({ factor: 0.65 + i / 10, hours: h })), atOtherReadings: readings.map((h, i) => ({ humidity: 6 * i - 3, hours: h })) });

interface Parts {
  readonly numbers?: Partial<PairNumbers>;
  readonly workings?: { isHeld?: boolean; alone?: object; hoursNeverShared?: number; line?: object | null; room?: object | null; difference?: object };
  readonly circumstances?: Partial<PairCircumstances>;
}

/** A year of a house about which there is nothing to say but what is always said. */
function warningsOf({ numbers, workings, circumstances }: Parts = {}): readonly string[] {
  const calm = { days: 365, timeLag: around(4, 1, "h"), decrementFactor: around(0.4, 0.1, "1"), response: [band(null, around(1, 0.1, "1"))], mould: null };
  const room = { reasons: [], says: [] };
  const work = { room, difference: { isShort: false, memoryDays: 2, daysUsed: 365 }, isHeld: false, alone: null, hoursNeverShared: 0, line: { decrementFactor: calm.decrementFactor, daysUsed: 300 } };
  return pairWarnings({ ...calm, ...numbers } as unknown as PairNumbers, { ...work, ...workings } as unknown as PairWorkings, { inside: "Library", outside: "Veranda", warmed: 0, hasHumidity: { inside: true, outside: true }, isClockKnown: true, dateOf: (hour: number) => `day ${Math.floor(hour / 24)}`, ...circumstances });
}

const always = "Decrement factor, lag and time constant are apparent: sun through windows, heating, and windows opened at the same hours every day are in them and cannot be told apart.";
const loud = "Sun through windows, heating or opened windows plainly share in these numbers: decrement factor and lag are apparent, they describe how the house is lived in and do not identify its walls.";

describe("warnings of a pair", () => {
  it("a calm year has the one that always stands, frozen", () => {
    expect(warningsOf()).toEqual([always]);
    expect(Object.isFrozen(warningsOf())).toBe(true);
    expect(Object.isFrozen(warningsOf({ numbers: { days: 1 } }))).toBe(true);
  });

  it("under 6 days says that alone", () => {
    const short = (days: number): readonly string[] => warningsOf({ numbers: { days }, circumstances: { isClockKnown: false, hasHumidity: { inside: false, outside: false } } });
    expect(short(4.04)).toEqual(["Too little to infer anything: Library and Veranda share 4.0 days, 6 are needed; log about 2 more days."]);
    expect(short(5.99)).toEqual(["Too little to infer anything: Library and Veranda share 5.9 days, 6 are needed; log about 1 more day."]);
    expect(short(6)[0]).toBe("Only 6 days: the intervals are wide and may still be too narrow; log about 14 more days.");
  });

  it("under 20 days, and in a difference that changes slowly from there on", () => {
    const slow = { difference: { isShort: true, memoryDays: 30.4, daysUsed: 365 } };
    expect(warningsOf({ numbers: { days: 19.5 }, workings: slow })[0]).toBe("Only 20 days: the intervals are wide and may still be too narrow; log about 1 more day.");
    expect(warningsOf({ numbers: { days: 20 }, workings: slow })[0]).toBe("The difference changes slowly (memory about 30 days): its interval may be too narrow; log about 91 more days.");
    expect(warningsOf({ workings: { difference: { isShort: true, memoryDays: 2, daysUsed: 365 } } })[0]).toBe("The difference changes slowly (memory about 2 days): its interval may be too narrow; log about 1 more day.");
    expect(warningsOf({ numbers: { days: 20 } }).some((s) => s.startsWith("Only"))).toBe(false);
  });

  it("held for weeks: which days the numbers come from", () => {
    const alone = { days: 81.4, spans: [{ from: 0, to: 480 }, { from: 2400, to: 3888 }] };
    expect(warningsOf({ workings: { alone } })).toEqual([
      "Library is held by something for weeks (thermostat, cooling, people): decrement factor, lags, time constant, ratio and correlation are those of the 81 days it was left alone (day 0 to day 19, day 100 to day 161), all else is of the whole time.",
      always,
    ]);
  });

  it("a season: until 300 days", () => {
    const season = "The mean difference is that of these days: another season has another one, compare like with like.";
    expect(warningsOf({ numbers: { days: 299.9 } })).toEqual([always, season]);
    expect(warningsOf({ numbers: { days: 300 } })).toEqual([always]);
  });

  it("hours of the day that are never shared, readings that were warmed, a clock that is not known", () => {
    expect(warningsOf({ workings: { hoursNeverShared: 1 } })[0]).toBe("1 of the 24 hours of the day are shared on fewer than 3 days, so the daily cycle cannot be taken out: log day and night.");
    expect(warningsOf({ circumstances: { warmed: 1 } })).toEqual([always, "1 readings of Veranda look heated by sun or electronics: every gain changes by what that sensor adds."]);
    expect(warningsOf({ circumstances: { uneven: ["Library"] } })).toEqual([always, "Library logs at steps of all lengths, as a sensor does that reports changes: lines were drawn between the readings, and lags may be off by some minutes beyond their intervals."]);
    expect(warningsOf({ circumstances: { uneven: ["Library", "Veranda"] } })[1]).toMatch(/^Library and Veranda log at/);
    expect(warningsOf({ circumstances: { isClockKnown: false } })).toEqual([always, "The two clocks were taken as equal: a difference between them moves every lag by as much."]);
  });

  it("a house that is held says so once, and not that it hardly follows", () => {
    const held = "Library is held by something (thermostat, cooling, people): the decrement factor is an upper bound, lag and time constant cannot be told; log with the heating off, or in summer.";
    const room = { reasons: ["unexplained", "short"], says: ["No time constant: inside hardly follows outside.", "No time constant: too short."] };
    expect(warningsOf({ numbers: { timeLag: null }, workings: { isHeld: true, room } })).toEqual([held, "No time constant: too short.", always]);
    expect(warningsOf({ workings: { room } })).toEqual([...room.says, always]);
    expect(warningsOf({ workings: { room: null } })).toEqual([always]);
  });

  it("no decrement factor, or no lag, with the reason", () => {
    expect(warningsOf({ numbers: { decrementFactor: null, timeLag: null }, workings: { line: { decrementFactor: null, daysUsed: 4 } } })).toEqual([
      "No decrement factor: only 4 days are whole in both places with half a day on each side, and the air outside must vary; mend the gaps.",
      always,
    ]);
    expect(warningsOf({ numbers: { timeLag: null } })).toEqual(["No time lag: no daily cycle can be seen in Library above its own scatter.", always]);
    expect(warningsOf({ numbers: { decrementFactor: null, timeLag: null }, workings: { line: null } })).toEqual([always]);
  });

  it("sun or heating that shows, by the reasons against a time constant", () => {
    for (const reason of ["daily line", "variants"]) expect(warningsOf({ workings: { room: { reasons: [reason], says: [] } } })).toEqual([loud]);
    expect(warningsOf({ workings: { room: { reasons: ["edge"], says: [] } } })).toEqual([always]);
  });

  it("a lag that no room of one constant has: later than 6 h, or before the air outside", () => {
    const late = "The daily cycle comes more than 6 h late: no room of one constant can do that, heavy walls can.";
    const early = "Library leads the air outside in its daily cycle: sun on windows, or an outdoor sensor that warms late.";
    expect(warningsOf({ numbers: { timeLag: around(7.5, 1, "h") } })).toEqual([always, late]);
    expect(warningsOf({ numbers: { timeLag: around(7, 1, "h") } })).toEqual([always]);
    expect(warningsOf({ numbers: { timeLag: around(-2, 1, "h") } })).toEqual([always, early]);
    expect(warningsOf({ numbers: { timeLag: around(-1, 1, "h") } })).toEqual([always]);
  });

  it("the last band without an answer speaks for all", () => {
    const response = [band("slow: log longer", null), band("fast: log longer", null), band("no answer here", around(0, 0.1, "1")), band(null, null)];
    expect(warningsOf({ numbers: { response } })).toEqual([always, "fast: log longer"]);
  });

  it("mould: the least and the most of all factors; nothing without humidity", () => {
    const rule = "hours of risk, as the surface's factor is 0.05 lower or higher, or the hygrometer 3 % off. The 80 % rule is a rule of thumb; decisions about mould, structure or energy defer to local codes and licensed practice.";
    expect(warningsOf({ numbers: { mould: mould(30, [75, 4]) } })).toEqual([always, `Mould: between 4 and 75 ${rule}`]);
    expect(warningsOf({ numbers: { mould: mould(3, [9]) } })).toEqual([always, `Mould: between 3 and 9 ${rule}`]);
    expect(warningsOf({ numbers: { mould: mould(0, [0, 0]) } })).toEqual([always, `Mould: 0 ${rule.replace("as the", "also where the")}`]);
    expect(warningsOf({ numbers: { mould: mould(30, [20, 40], [5, 90]) } })).toEqual([always, `Mould: between 5 and 90 ${rule}`]);
    expect(warningsOf({ numbers: { mould: mould(3, [9]) }, circumstances: { hasHumidity: { inside: false, outside: false } } })).toEqual([always, "No humidity in Library or Veranda: nothing is said about moisture, condensation or mould."]);
    expect(warningsOf({ circumstances: { hasHumidity: { inside: false, outside: true } } })[1]).toBe("No humidity in Library: nothing is said about moisture, condensation or mould.");
    // Condensation and mould need no hygrometer outdoors: what is told is not denied.
    expect(warningsOf({ numbers: { mould: mould(3, [9]) }, circumstances: { hasHumidity: { inside: true, outside: false } } })).toEqual([
      always,
      "No humidity in Veranda: how much more moisture Library holds than outside cannot be told; condensation and mould are judged by its own humidity and the temperature outside.",
      `Mould: between 3 and 9 ${rule}`,
    ]);
  });

  it("a place that does what the outside does may stand outdoors", () => {
    const porch = { decrementFactor: around(1, 0.02, "1"), timeLag: around(0, 0.1, "h"), meanDifference: around(0.1, 0.2, "K") };
    const says = "Library follows the air of Veranda as a second outdoor place would: if it stands outdoors, its `exposure` in the description is wrong.";
    expect(warningsOf({ numbers: porch })).toEqual([always, says]);
    for (const other of [{ decrementFactor: around(0.85, 0.02, "1") }, { decrementFactor: around(1.2, 0.02, "1") }, { timeLag: around(1, 0.1, "h") }, { timeLag: null }, { meanDifference: around(3, 0.2, "K") }]) {
      expect(warningsOf({ numbers: { ...porch, ...other } }).includes(says)).toBe(false);
    }
  });
});
