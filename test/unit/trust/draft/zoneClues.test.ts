import { expect, it } from "vitest";
import type { LogTable } from "../../../../lib/trust/draft/logTable.js";
import { zoneClues } from "../../../../lib/trust/draft/zoneClues.js";

const hour = 3_600_000;
/** A log of civil stamps around the end of March, when Europe's clocks went on from 01:00 UTC on 2019-03-31. */
const logged = (step: number, skips: boolean): LogTable => {
  const times = Float64Array.from({ length: Math.round((20 * 24) / step) }, (_, i) => {
    const utc = Date.UTC(2019, 2, 20) + i * step * hour;
    return utc + hour + (skips && utc >= Date.UTC(2019, 2, 31, 1) ? hour : 0);
  });
  return { times } as LogTable;
};

it("an hour that is skipped tells a rule of summer time", () => {
  expect(zoneClues([logged(1, true)], []).zone).toBe("Europe/Berlin");
  expect(zoneClues([logged(0.25, true)], []).zone).toBe("Europe/Berlin");
});

it("an hour in which no reading stands on other days either tells nothing", () => {
  expect(zoneClues([logged(3, false)], [])).toMatchObject({ zone: "Z", isTold: false });
  expect(zoneClues([logged(6, false)], []).zone).toBe("Z");
});
