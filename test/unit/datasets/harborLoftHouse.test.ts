import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { indoorsOf } from "../../../lib/answers/indoorsOf.js";
import { openRecord } from "../../../lib/door/disk/openRecord.js";
import type { Estimate } from "../../../lib/ground/estimate.js";

const folder = new URL("../../../datasets/harbor-loft", import.meta.url).pathname;
interface Planted {
  readonly from: string;
  readonly to: string;
  readonly heated: boolean;
  readonly timeConstantHours: number;
  readonly decrementFactor: number;
  readonly timeLagHours: number;
}
const { periods: planted } = (JSON.parse(readFileSync(`${folder}/truth.json`, "utf8")) as { response: { periods: Planted[] } }).response;

/** Each interval of an answer must hold what was planted. */
function holds(what: string, e: Estimate | null, truth: number): void {
  expect(e !== null && e.low <= truth && truth <= e.high, `${what}: ${e?.low} to ${e?.high}, planted ${truth}`).toBe(true);
}

describe("harbor-loft, heated from October to April, insulated in July", () => {
  it("tells the loft of the warm months, before and after, and what the insulation did", async () => {
    const [pair] = indoorsOf(await openRecord(folder)).pairs;
    const [before, after] = [planted[2], planted[3]];
    const unheated = planted.filter((p) => !p.heated).reduce((days, p) => days + (Date.parse(p.to) - Date.parse(p.from)) / 86_400_000, 0);
    expect(pair.daysLeftAlone).toBeLessThan(unheated);
    expect(pair.daysLeftAlone).toBeGreaterThan(unheated - 25);
    for (const [side, truth] of [[pair.periods[0], before], [pair.periods[1], after]] as const) {
      holds(`decrement factor, ${side.title}`, side.decrementFactor, truth.decrementFactor);
      holds(`lag, ${side.title}`, side.timeLag, truth.timeLagHours);
      holds(`time constant, ${side.title}`, side.timeConstant, truth.timeConstantHours);
    }
    const change = (quantity: string): Estimate | null => pair.changes.find((c) => c.quantity === quantity)?.change ?? null;
    holds("change of the decrement factor", change("decrementFactor"), after.decrementFactor - before.decrementFactor);
    holds("change of the lag", change("timeLag"), after.timeLagHours - before.timeLagHours);
    holds("change of the time constant", change("timeConstant"), after.timeConstantHours - before.timeConstantHours);
    expect(change("timeConstant")?.low).toBeGreaterThan(0);
    expect(pair.warnings.join(" ")).toMatch(/left alone \(2023-09-15 to 2023-09-\d\d, 2024-05-\d\d to 2024-09-\d\d\)/);
  });
});
