import { describe, expect, it } from "vitest";
import { type Estimate, estimate } from "../../../lib/ground/estimate.js";
import { humidityClass } from "../../../lib/indoors/humidityClass.js";
import { type ChangeSide, changesAt } from "../../../lib/indoors/pairChanges.js";
import { type PairHours, type PairNumbers, type PairWorkings, pairNumbers } from "../../../lib/indoors/pairNumbers.js";
import { leftAlone } from "../../../lib/indoors/leftAlone.js";
import { timeConstant } from "../../../lib/indoors/timeConstant.js";
import { inventedRoom, roomPlans } from "../../simulation/indoorsRoom.js";
import { expectClose } from "../../close.js";
import { madeInside, madeOutside } from "./madeRecord.js";

const _ = Number.NaN;
const n = 24 * 30;
const outside = madeOutside(n, 31);
const inside = madeInside(outside, 9, 32);
const flat = (v: number, length = n): Float64Array => new Float64Array(length).fill(v);
const hoursOf = (parts: Partial<PairHours> = {}): PairHours => ({ insideTemperature: inside, outsideTemperature: outside, insideHumidity: flat(_), outsideHumidity: flat(_), ...parts });
const plain = { factor: 0.7, lagCorrection: 0, sensorMoisture: 0 };
const only = (values: Float64Array, keep: (h: number) => boolean): Float64Array => values.map((v, h) => (keep(h) ? v : _));

describe("pairNumbers", () => {
  // Asked in each test: what breaks while the tests are gathered fails none of them.
  const whole = () => pairNumbers(hoursOf(), plain);

  it("describes what both places share", () => {
    const { numbers, workings } = whole();
    const { numbers: few } = pairNumbers(hoursOf({ insideTemperature: Float64Array.of(1, 3, _, 9), outsideTemperature: Float64Array.of(2, 2, 50, _), insideHumidity: flat(_, 4), outsideHumidity: flat(_, 4) }), plain);
    expect(few.days).toBe(2 / 24);
    expectClose(few.spread.inside, Math.SQRT2, { absolute: 1e-14 });
    expect([few.spread.outside, few.spread.unit]).toEqual([0, "degC"]);
    expect([few.meanDifference, few.varianceRatio, few.decrementFactor, few.timeLag, few.timeConstant, few.maxCorrelation.value, few.maxCorrelation.lag, few.maxCorrelation.raw, few.response]).toEqual([null, null, null, null, null, null, null, null, []]);
    expect(few.comfort).not.toBe(null);
    const none = pairNumbers(hoursOf({ outsideTemperature: flat(_) }), plain).numbers;
    expect([none.days, none.comfort]).toEqual([0, null]);
    expect([numbers, workings, numbers.spread, numbers.maxCorrelation, numbers.response, numbers.response[0], few.response].every(Object.isFrozen)).toBe(true);
  });

  it("fits from six days on", () => {
    const cut = (days: number): PairNumbers => pairNumbers(hoursOf({ insideTemperature: inside.slice(0, 24 * days), outsideTemperature: outside.slice(0, 24 * days), insideHumidity: flat(_, 24 * days), outsideHumidity: flat(_, 24 * days) }), plain).numbers;
    expect([cut(5).varianceRatio, cut(5).response.length]).toEqual([null, 0]);
    expect([cut(6).varianceRatio === null, cut(6).response.length]).toEqual([false, 6]);
  });

  it("an hour of the day that is shared on fewer than three days cannot be fitted", () => {
    const rare = (days: number) => pairNumbers(hoursOf({ insideTemperature: only(inside, (h) => h % 24 !== 5 || h < 24 * days) }), plain);
    expect([rare(2).workings.hoursNeverShared, rare(2).numbers.response.length, rare(2).workings.line, rare(2).workings.room]).toEqual([1, 0, null, null]);
    expect([rare(3).workings.hoursNeverShared, rare(3).numbers.response.length]).toEqual([0, 6]);
    expect(pairNumbers(hoursOf({ insideTemperature: only(inside, (h) => h % 24 < 12) }), plain).workings.hoursNeverShared).toBe(12);
  });

  it("moves every lag by what the readings' minutes differ, and nothing else", () => {
    const { numbers } = whole();
    const later = pairNumbers(hoursOf(), { ...plain, lagCorrection: 0.5 }).numbers;
    const pairs: readonly (readonly [Estimate | null, Estimate | null])[] = [
      [numbers.timeLag, later.timeLag],
      [numbers.maxCorrelation.lag, later.maxCorrelation.lag],
      ...numbers.response.map((b, i) => [b.lagHours, later.response[i].lagHours] as const),
    ];
    expect(pairs.filter(([a]) => a !== null).length).toBeGreaterThanOrEqual(4);
    for (const [a, b] of pairs) {
      if (a === null || b === null) expect(a).toBe(b);
      else {
        for (const key of ["value", "low", "high"] as const) expectClose(b[key] - a[key], 0.5, { absolute: 1e-12 }, key);
        expect([b.standardError, Object.isFrozen(b)]).toEqual([a.standardError, true]);
      }
    }
    expect(later.decrementFactor).toEqual(numbers.decrementFactor);
    expect(later.maxCorrelation.value).toEqual(numbers.maxCorrelation.value);
  });

  it("the room's constant is found at the readings' own instants, from a two-hundredth of an hour between them on", () => {
    const constant = (lagCorrection: number) => pairNumbers(hoursOf(), { ...plain, lagCorrection }).workings.room!.timeConstant;
    const at = (later: number): Float64Array => inside.map((v, h) => (1 - Math.abs(later)) * v + Math.abs(later) * (inside[h + (later > 0 ? -1 : 1)] ?? _));
    for (const later of [0.25, -0.25, 0.005]) expect(constant(later)).toEqual(timeConstant(at(later), outside).timeConstant);
    for (const little of [0.0049, -0.0049]) expect(constant(little)).toEqual(constant(0));
    expect(constant(0.005)).not.toEqual(constant(0));
  });

  it("held for weeks of the rest: what answers the weather is that of the days left alone, all else of all", () => {
    const { inside: room, outside: air } = inventedRoom(roomPlans.middle, 120, 31_007);
    const held = room.map((v, h) => (h < 24 * 60 && !Number.isNaN(v) ? 20 + 0.1 * Math.sin(h * h) : v));
    const nothing = flat(_, held.length);
    const of = (values: Float64Array) => pairNumbers({ insideTemperature: values, outsideTemperature: air, insideHumidity: nothing, outsideHumidity: nothing }, plain);
    const alone = leftAlone(held, air)!;
    const [all, some] = [of(held), of(held.map((v, h) => (alone.hours[h] === 1 ? v : _)))];
    expect([all.numbers.daysLeftAlone, all.workings.alone, all.workings.isHeld]).toEqual([alone.days, alone, false]);
    for (const key of ["varianceRatio", "decrementFactor", "timeLag", "timeConstant", "maxCorrelation", "response"] as const) expect(all.numbers[key], key).toEqual(some.numbers[key]);
    expect("daysLeftAlone" in some.numbers).toBe(false);
    expect(all.numbers.days).toBeGreaterThan(some.numbers.days + 40);
    expect(all.numbers.meanDifference).not.toEqual(some.numbers.meanDifference);
    // An hour of the day that is hardly there in them: then all days answer.
    const rare = of(held.map((v, h) => (h % 24 === 7 && h >= 24 * 60 && h < 24 * 118 ? _ : v)));
    expect([rare.workings.hoursNeverShared, rare.workings.alone, "daysLeftAlone" in rare.numbers]).toEqual([0, null, false]);
  });

  it("a lag of the largest correlation only where that stands out of chance", () => {
    const stranger = pairNumbers(hoursOf({ insideTemperature: madeOutside(n, 77) }), plain).numbers.maxCorrelation;
    expect(stranger.value).not.toBe(null);
    expect(stranger.lag).toBe(null);
    const own = whole().numbers.maxCorrelation;
    expect([own.value!.value < 1, own.lag === null]).toEqual([true, false]);
    const same = pairNumbers(hoursOf({ insideTemperature: outside }), plain).numbers.maxCorrelation;
    expect(same.value!.value).toBeGreaterThan(1 - 1e-9);
    expectClose(same.lag!.value, 0, { absolute: 1e-9 });
  });

  it("is held where inside neither follows nor moves within a day", () => {
    const { workings } = whole();
    const held = flat(20).map((v, h) => v + 0.01 * Math.sin(h * h));
    expect(pairNumbers(hoursOf({ insideTemperature: held }), plain).workings.isHeld).toBe(true);
    // Not following, but moving by a degree within the day.
    expect(pairNumbers(hoursOf({ insideTemperature: held.map((v, h) => v + 100 * (held[h] - 20)) }), plain).workings.isHeld).toBe(false);
    expect(workings.isHeld).toBe(false);
  });

  it("a held house has a decrement factor from 0 up and no lag; a surface the factor that was told; a refusal the routine's name", () => {
    const held = pairNumbers(hoursOf({ insideTemperature: outside.map((_v, h) => 20 + 0.3 * Math.cos((2 * Math.PI * (h - 9)) / 24) + 0.02 * Math.sin(h * h)) }), plain);
    expect(held.workings.isHeld).toBe(true);
    expect(held.numbers.decrementFactor).toEqual({ ...held.workings.line!.decrementFactor!, low: 0 });
    expect(held.workings.line!.decrementFactor!.low).toBeGreaterThan(0);
    expect([held.numbers.timeLag, Object.isFrozen(held.numbers.decrementFactor)]).toEqual([null, true]);
    expect(pairNumbers(hoursOf({ insideHumidity: flat(60) }), { ...plain, factor: 0.55 }).numbers.mould!.factor).toBe(0.55);
    expect(() => pairNumbers(hoursOf({ outsideTemperature: flat(1, 5) }), plain)).toThrow("pairNumbers: outside must have the length of inside, 720 h (got 5 h)");
  });

  it("the humidity class is that of the moisture, the sensors' own part beside its interval", () => {
    const { numbers } = whole();
    const damp = hoursOf({ insideHumidity: flat(60), outsideHumidity: flat(70) });
    const got = pairNumbers(damp, { ...plain, sensorMoisture: 0.4 });
    const excess = got.numbers.moistureExcess!;
    expect(excess.unit).toBe("g m-3");
    expect(got.numbers.vaporPressureExcess!.unit).toBe("hPa");
    expect(got.numbers.humidityClass).toEqual(humidityClass(got.workings.moisture.daily, got.workings.outdoorDaily, (excess.high - excess.low) / 2 + 0.4));
    got.workings.outdoorDaily.forEach((v, k) => {
      expectClose(v, outside.slice(24 * k, 24 * k + 24).reduce((s, w) => s + w, 0) / 24, { absolute: 1e-12 }, `day ${k}`);
    });
    expect([got.numbers.condensation === null, got.numbers.mould === null]).toEqual([false, false]);
    // One hour without humidity leaves the others.
    expect(pairNumbers(hoursOf({ insideHumidity: flat(60).fill(_, 5, 6) }), plain).numbers.mould).not.toBe(null);
    // Humidity inside, but no hour to judge.
    const blind = pairNumbers(hoursOf({ insideHumidity: flat(60), outsideTemperature: only(outside, (h) => h < 10) }), plain).numbers;
    expect([blind.condensation, blind.mould, blind.humidityClass]).toEqual([null, null, null]);
    expect([numbers.condensation, numbers.mould, numbers.humidityClass]).toEqual([null, null, null]);
  });
});

describe("changesAt", () => {
  const around = (value: number, half: number, unit = "1"): Estimate => estimate({ value, standardError: half / 2, low: value - half, high: value + half, unit });
  const side = (fromHour: number, toHour: number, parts: Partial<PairNumbers> = {}): ChangeSide => ({
    fromHour, toHour,
    numbers: { days: (toHour - fromHour) / 24, decrementFactor: around(0.3, 0.1), timeLag: around(4, 1, "h"), timeConstant: around(12, 2, "h"), ...parts } as PairNumbers,
    workings: { line: { degreesOfFreedom: 8 }, room: { swings: { degreesOfFreedom: 5 } } } as unknown as PairWorkings,
  });
  const days = 40;
  const daily = Float64Array.from({ length: days }, (_v, k) => Math.sin(k * k) + (k >= 20 ? 3 : 0));
  const air = Float64Array.from({ length: days }, (_v, k) => 10 + Math.cos(1.7 * k * k));
  const whole = { difference: { daily }, moisture: { daily: daily.map((v) => 2 * v) }, vapor: { daily: flat(_, days) }, outdoorDaily: air } as unknown as PairWorkings;
  const before = side(0, 18 * 24);
  const after = side(22 * 24, 40 * 24, { decrementFactor: around(0.6, 0.1), timeLag: around(2, 1, "h"), timeConstant: around(6, 2, "h") });
  const all = () => changesAt({ title: "windows", at: "2024-01-21T00:00:00Z" }, before, after, whole);
  const of = (quantity: string) => all().find((c) => c.quantity === quantity)!;

  it("tells each quantity in its order and unit", () => {
    const found = all();
    expect(found.map((c) => [c.event, c.quantity, c.change?.unit ?? null, c.ratio === null, c.says])).toEqual([
      ["windows", "meanDifference", "K", true, null],
      ["windows", "decrementFactor", "1", false, null],
      ["windows", "timeLag", "h", true, null],
      ["windows", "timeConstant", "h", false, null],
      ["windows", "moistureExcess", "g m-3", true, null],
      ["windows", "vaporPressureExcess", null, true, 'No change told for "windows": a side has no such number.'],
    ]);
    expect([found, found[0]].every(Object.isFrozen)).toBe(true);
  });

  it("a heater's own daily program is no answer to the weather: its change is not told, that of the mean is", () => {
    const driven = (of: ChangeSide, explained: number): ChangeSide => ({ ...of, workings: { ...of.workings, room: { swings: { degreesOfFreedom: 5, explained } } } as unknown as PairWorkings });
    const told = (a: number, b: number): (boolean | null)[] => changesAt({ title: "windows", at: "2024-01-21T00:00:00Z" }, driven(before, a), driven(after, b), whole).slice(0, 4).map((c) => c.change !== null);
    expect([told(0.3, 0.9), told(0.29, 0.9), told(0.9, -2)]).toEqual([[true, true, true, true], [true, false, false, true], [true, false, false, true]]);
    const [, factor] = changesAt({ title: "windows", at: "2024-01-21T00:00:00Z" }, before, driven(after, 0), whole);
    expect(factor.says).toBe('No change told for "windows": on a side the inside hardly follows the weather (heating, cooling, people), and its daily cycle is their own.');
  });

  it("differences by Welch, ratios on the scale of the logarithm", () => {
    expectClose(of("decrementFactor").change!.value, 0.3, { absolute: 1e-14 });
    expectClose(of("decrementFactor").change!.standardError!, Math.hypot(0.05, 0.05), { absolute: 1e-14 });
    expectClose(of("timeConstant").change!.value, -6, { absolute: 1e-14 });
    const ratio = of("decrementFactor").ratio!;
    expectClose(ratio.value, 2, { absolute: 1e-12 });
    const error = Math.hypot(0.05 / 0.3, 0.05 / 0.6);
    expectClose(ratio.standardError!, 2 * error, { absolute: 1e-12 });
    expectClose(ratio.low * ratio.high, 4, { absolute: 1e-10 });
    // Two logarithms with 8 degrees of freedom each: Welch gives 11.76, t between those of 11 and 12 (2.2010 and 2.1788 in printed tables).
    const t = Math.log(ratio.high / 2) / error;
    expect(t > 2.1788 && t < 2.201).toBe(true);
    // The time constant has its own degrees of freedom, 5 a side of equal errors: 10, t = 2.2281.
    const tau = of("timeConstant").change!;
    expectClose((tau.high - tau.value) / tau.standardError!, 2.228139, { absolute: 1e-5 });
    const lag = of("timeLag").change!;
    expectClose((lag.high - lag.value) / lag.standardError!, 2.119905, { absolute: 1e-5 });
  });

  it("means count the days of the two sides only", () => {
    const found = all();
    expectClose(of("meanDifference").change!.value, 3, { absolute: 0.6 });
    expectClose(of("moistureExcess").change!.value, 2 * of("meanDifference").change!.value, { relative: 1e-6 });
    const wild = { ...whole, difference: { daily: daily.map((v, k) => (k >= 18 && k < 22 ? 1e6 : v)) } } as unknown as PairWorkings;
    expect(changesAt({ title: "windows", at: "2024-01-21T00:00:00Z" }, before, after, wild)[0]).toEqual(found[0]);
    const edge = { ...whole, difference: { daily: daily.map((v, k) => (k === 17 || k === 22 ? 50 : v)) } } as unknown as PairWorkings;
    expect(changesAt({ title: "windows", at: "2024-01-21T00:00:00Z" }, before, after, edge)[0]).not.toEqual(found[0]);
  });

  it("says why there is none: too few days, or no such number", () => {
    const short = changesAt({ title: "windows", at: "2024-01-21T00:00:00Z" }, side(0, 9.9 * 24), after, whole);
    expect(short.every((c) => c.change === null && c.ratio === null && c.says === 'No change told for "windows": fewer than 10 days on a side of the event.')).toBe(true);
    expect(changesAt({ title: "windows", at: "2024-01-21T00:00:00Z" }, before, side(22 * 24, 31.9 * 24), whole)[1].says).toMatch(/fewer than 10 days/);
    expect(changesAt({ title: "windows", at: "2024-01-21T00:00:00Z" }, side(0, 240), after, whole)[1].says).toBe(null);
    const bound = changesAt({ title: "windows", at: "2024-01-21T00:00:00Z" }, side(0, 18 * 24, { decrementFactor: around(0.1, 0.1), timeConstant: null }), after, whole);
    expect(bound.filter((c) => c.says !== null).map((c) => c.quantity)).toEqual(["decrementFactor", "timeConstant", "vaporPressureExcess"]);
    expect(bound[1].says).toBe('No change told for "windows": a side has no such number.');
    const gone = changesAt({ title: "windows", at: "2024-01-21T00:00:00Z" }, before, side(22 * 24, 40 * 24, { decrementFactor: null }), whole);
    expect([gone[1].change, gone[1].says]).toEqual([null, 'No change told for "windows": a side has no such number.']);
    const vapor = changesAt({ title: "windows", at: "2024-01-21T00:00:00Z" }, before, after, { ...whole, vapor: { daily } } as unknown as PairWorkings);
    expect([vapor[5].change!.unit, vapor[5].change!.value === vapor[0].change!.value, vapor[1].ratio!.unit]).toEqual(["hPa", true, "1"]);
    // A lag may have an end at 0 or below.
    expect(changesAt({ title: "windows", at: "2024-01-21T00:00:00Z" }, side(0, 18 * 24, { timeLag: around(0.5, 1, "h") }), after, whole)[2].change).not.toBe(null);
  });
});
