import { afterAll, describe, expect, it } from "vitest";
import { addOutcome, binomialError, empty, firstSeed, missedBars, oneRecord, percent, roomFor, sizes, tableHead, tableRow } from "./tideRun.js";
import { scenarios, shortScenarios, type TideScenario } from "./tideScenarios.js";

// The short run. The long one shares all of this and is run by `tideLong.ts`, which can be stopped and gone on with.
const long = process.env.SIMULATE === "long";
const table: string[] = [];

/** Lets the test runner speak to its worker between records: one that is silent for a minute is taken for dead. */
const breathe = (): Promise<void> => new Promise((done) => setImmediate(done));

function judge(scenario: TideScenario, index: number, pooled: ReturnType<typeof empty>, slack = 0): void {
  const records = long ? scenario.long : scenario.short;
  if (records === 0) return;
  it(`${scenario.name}: ${records} records`, async () => {
    const own = empty();
    for (let r = 0; r < records; r++) {
      oneRecord(scenario, firstSeed + 10_000 * index + r, own);
      if (r % 10 === 9) await breathe();
    }
    table.push(tableRow(scenario.name, own));
    addOutcome(pooled, own);
    expect(missedBars(own, slack + roomFor(records))).toEqual([]);
  });
}

describe(`coverage and efficiency of the tide fit, ${long ? "long" : "short"} run, seeds from ${firstSeed}`, () => {
  const pooled = empty();
  for (const [index, scenario] of scenarios.entries()) judge(scenario, index, pooled);

  it("pooled: 93.5 to 96.5 % of the intervals hold the truth", () => {
    const { amplitude, time, found } = pooled;
    table.push(tableRow("**pooled, 20 days and more**", pooled, false));
    for (const [j, size] of sizes.entries()) {
      expect(Math.abs(percent(amplitude[j]) - 95), `amplitude at ${size}`).toBeLessThan(1.5);
      if (size >= 1.5) expect(Math.abs(percent(time[j]) - 95), `time at ${size}`).toBeLessThan(1.5);
    }
    expect(percent(time[1])).toBeGreaterThan(93.5);
    expect(Math.abs(percent(found[0]) - 5)).toBeLessThan(1.5);
    // A line of four standard errors is just above the detection limit of 3.93: found in about 95 %.
    expect(Math.abs(percent(found[3]) - 95)).toBeLessThan(3);
    for (const t of pooled.plantedAmplitude) expect(Math.abs(percent(t) - 95)).toBeLessThan(1.5 + 2 * binomialError(t.asked));
  });
});

describe("records under 20 days", () => {
  const pooled = empty();
  // Under five days nothing stands beside a line and 4 T degrees of freedom stand in: 3 days of white noise hold 98 %, too much.
  for (const [index, scenario] of shortScenarios.entries()) judge(scenario, 100 + index, pooled, scenario.days < 5 ? 3 : 1);
});

afterAll(() => {
  if (table.length > 0) console.log(`\n${[...tableHead, ...table].join("\n")}\n`);
});
