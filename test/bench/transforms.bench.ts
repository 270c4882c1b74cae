/**
 * What a real transform costs, as ratios inside one run: `npx tsx test/bench/transforms.bench.ts`.
 *
 * Routines of one row take turns, and the best of many turns counts: absolute times depend on the machine and its other work.
 */
import FFT from "fft.js";
import { fourierPlan } from "../../lib/cycles/spectrum/fourier.js";

function noise(n: number): Float64Array {
  let state = 12345;
  return Float64Array.from({ length: n }, () => {
    state = (state * 16807) % 2147483647;
    return state / 2147483647 - 0.5;
  });
}

/** Best time of each routine, ms, the routines taking turns. */
function bestTimes(routines: readonly (() => void)[], turns: number): number[] {
  const best = routines.map(() => Infinity);
  for (let turn = 0; turn < turns + 5; turn++) {
    routines.forEach((routine, i) => {
      const started = performance.now();
      routine();
      if (turn >= 5) best[i] = Math.min(best[i], performance.now() - started);
    });
  }
  return best;
}

function ours(n: number): () => void {
  const plan = fourierPlan(n);
  const values = noise(n);
  const into = new Float64Array(2 * n);
  return () => void plan.forward(values, into);
}

function direct(n: number): () => void {
  const fft = new FFT(n);
  const values = noise(n);
  const into = new Float64Array(2 * n);
  return () => fft.realTransform(into, values);
}

console.log("real transform against fft.js's own realTransform (goal: at most 1.1)");
for (const power of [10, 12, 14, 16, 18, 20]) {
  const n = 2 ** power;
  const [a, b] = bestTimes([ours(n), direct(n)], power > 16 ? 30 : 200);
  console.log(`  2^${power}  ${a.toFixed(4)} ms  ${b.toFixed(4)} ms  ratio ${(a / b).toFixed(3)}`);
}

console.log("cost a sample against a power of two (goals: 52 560 at most 3, 525 600 at most 5)");
for (const [n, power] of [[8760, 13], [28800, 15], [28801, 15], [52560, 16], [105120, 17], [525600, 19], [525601, 19]] as const) {
  const [a, b] = bestTimes([ours(n), direct(2 ** power)], n > 200000 ? 25 : 100);
  console.log(`  ${n}  ${fourierPlan(n).method.padEnd(8)} ${a.toFixed(3)} ms  2^${power} ${b.toFixed(3)} ms  a sample ${(a / n / (b / 2 ** power)).toFixed(2)}`);
}
