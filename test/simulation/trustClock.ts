import { clockOffset } from "../../lib/trust/clock/clockOffset.js";
import { pressureRecord } from "./pressureRecord.js";

/**
 * Coverage and error of the clock offset by the step of the readings, for offsets of any part of a step.
 * Run: node --import tsx test/simulation/trustClock.ts [first seed] [count]
 */
const first = Number(process.argv[2] ?? 50000);
const count = Number(process.argv[3] ?? 40);

console.log(`seeds ${first}…${first + count - 1}\n\n| step | days | interval holds the truth | mean half width | root mean square error |\n|---|---|---|---|---|`);
for (const [step, days] of [[300, 10], [300, 30], [600, 30], [900, 30], [1800, 30], [3600, 40], [3600, 90]]) {
  let [held, answered, width, square] = [0, 0, 0, 0];
  for (let k = 0; k < count; k++) {
    const truth = ((k * 0.61803) % 1) * step;
    const [a, b] = pressureRecord(first + k, { days, step, fast: k % 2 === 0 ? 0.12 : 0.06, noise: 0.05 }, [() => truth, () => 0]);
    const found = clockOffset(a, b);
    if (found === null) continue;
    answered++;
    if (found.offset.low <= truth && truth <= found.offset.high) held++;
    width += (found.offset.high - found.offset.low) / 2;
    square += (found.offset.value - truth) ** 2;
  }
  console.log(`| ${step / 60} min | ${days} | ${held} of ${answered} | ${Math.round(width / answered)} s | ${Math.round(Math.sqrt(square / answered))} s |`);
}
