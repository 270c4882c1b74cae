import { genericStage, type PairTransform, type Stage, twiddles } from "./primeStage.js";
import { raderStage } from "./raderStage.js";
import { plainCost, raderCost, radices } from "./radices.js";

function stageOfTwo(m: number, s: number, turn: Float64Array): Stage {
  return (x, y) => {
    for (let q = 0; q < m; q++) {
      const c = turn[2 * q];
      const d = turn[2 * q + 1];
      let i = 2 * s * q;
      let o = 4 * s * q;
      const far = 2 * s * m;
      for (let r = 0; r < s; r++, i += 2, o += 2) {
        const re = x[i] - x[i + far];
        const im = x[i + 1] - x[i + far + 1];
        y[o] = x[i] + x[i + far];
        y[o + 1] = x[i + 1] + x[i + far + 1];
        y[o + 2 * s] = re * c - im * d;
        y[o + 2 * s + 1] = re * d + im * c;
      }
    }
  };
}

function stageOfThree(m: number, s: number, turn: Float64Array): Stage {
  const sine = Math.sqrt(3) / 2;
  return (x, y) => {
    const far = 2 * s * m;
    for (let q = 0, w = 0; q < m; q++, w += 4) {
      const [c1, d1, c2, d2] = [turn[w], turn[w + 1], turn[w + 2], turn[w + 3]];
      let i = 2 * s * q;
      let o = 6 * s * q;
      for (let r = 0; r < s; r++, i += 2, o += 2) {
        const sr = x[i + far] + x[i + 2 * far];
        const si = x[i + far + 1] + x[i + 2 * far + 1];
        const dr = sine * (x[i + far] - x[i + 2 * far]);
        const di = sine * (x[i + far + 1] - x[i + 2 * far + 1]);
        const mr = x[i] - sr / 2;
        const mi = x[i + 1] - si / 2;
        y[o] = x[i] + sr;
        y[o + 1] = x[i + 1] + si;
        y[o + 2 * s] = (mr + di) * c1 - (mi - dr) * d1;
        y[o + 2 * s + 1] = (mr + di) * d1 + (mi - dr) * c1;
        y[o + 4 * s] = (mr - di) * c2 - (mi + dr) * d2;
        y[o + 4 * s + 1] = (mr - di) * d2 + (mi + dr) * c2;
      }
    }
  };
}

function stageOfFour(m: number, s: number, turn: Float64Array): Stage {
  return (x, y) => {
    const far = 2 * s * m;
    for (let q = 0, w = 0; q < m; q++, w += 6) {
      const c1 = turn[w];
      const d1 = turn[w + 1];
      const c2 = turn[w + 2];
      const d2 = turn[w + 3];
      const c3 = turn[w + 4];
      const d3 = turn[w + 5];
      let i = 2 * s * q;
      let o = 8 * s * q;
      for (let r = 0; r < s; r++, i += 2, o += 2) {
        const ar = x[i] + x[i + 2 * far];
        const ai = x[i + 1] + x[i + 2 * far + 1];
        const br = x[i] - x[i + 2 * far];
        const bi = x[i + 1] - x[i + 2 * far + 1];
        const cr = x[i + far] + x[i + 3 * far];
        const ci = x[i + far + 1] + x[i + 3 * far + 1];
        const dr = x[i + far] - x[i + 3 * far];
        const di = x[i + far + 1] - x[i + 3 * far + 1];
        y[o] = ar + cr;
        y[o + 1] = ai + ci;
        y[o + 2 * s] = (br + di) * c1 - (bi - dr) * d1;
        y[o + 2 * s + 1] = (br + di) * d1 + (bi - dr) * c1;
        y[o + 4 * s] = (ar - cr) * c2 - (ai - ci) * d2;
        y[o + 4 * s + 1] = (ar - cr) * d2 + (ai - ci) * c2;
        y[o + 6 * s] = (br - di) * c3 - (bi + dr) * d3;
        y[o + 6 * s + 1] = (br - di) * d3 + (bi + dr) * c3;
      }
    }
  };
}

function stageOfFive(m: number, s: number, turn: Float64Array): Stage {
  const c1 = Math.cos((2 * Math.PI) / 5);
  const c2 = Math.cos((4 * Math.PI) / 5);
  const d1 = Math.sin((2 * Math.PI) / 5);
  const d2 = Math.sin((4 * Math.PI) / 5);
  return (x, y) => {
    const far = 2 * s * m;
    const row = 2 * s;
    for (let q = 0, w = 0; q < m; q++, w += 8) {
      let i = 2 * s * q;
      let o = 10 * s * q;
      for (let r = 0; r < s; r++, i += 2, o += 2) {
        const ar = x[i + far] + x[i + 4 * far];
        const ai = x[i + far + 1] + x[i + 4 * far + 1];
        const br = x[i + 2 * far] + x[i + 3 * far];
        const bi = x[i + 2 * far + 1] + x[i + 3 * far + 1];
        const er = x[i + far] - x[i + 4 * far];
        const ei = x[i + far + 1] - x[i + 4 * far + 1];
        const fr = x[i + 2 * far] - x[i + 3 * far];
        const fi = x[i + 2 * far + 1] - x[i + 3 * far + 1];
        const gr = x[i] + c1 * ar + c2 * br;
        const gi = x[i + 1] + c1 * ai + c2 * bi;
        const hr = x[i] + c2 * ar + c1 * br;
        const hi = x[i + 1] + c2 * ai + c1 * bi;
        const ur = d1 * er + d2 * fr;
        const ui = d1 * ei + d2 * fi;
        const vr = d2 * er - d1 * fr;
        const vi = d2 * ei - d1 * fi;
        y[o] = x[i] + ar + br;
        y[o + 1] = x[i + 1] + ai + bi;
        y[o + row] = (gr + ui) * turn[w] - (gi - ur) * turn[w + 1];
        y[o + row + 1] = (gr + ui) * turn[w + 1] + (gi - ur) * turn[w];
        y[o + 2 * row] = (hr + vi) * turn[w + 2] - (hi - vr) * turn[w + 3];
        y[o + 2 * row + 1] = (hr + vi) * turn[w + 3] + (hi - vr) * turn[w + 2];
        y[o + 3 * row] = (hr - vi) * turn[w + 4] - (hi + vr) * turn[w + 5];
        y[o + 3 * row + 1] = (hr - vi) * turn[w + 5] + (hi + vr) * turn[w + 4];
        y[o + 4 * row] = (gr - ui) * turn[w + 6] - (gi + ur) * turn[w + 7];
        y[o + 4 * row + 1] = (gr - ui) * turn[w + 7] + (gi + ur) * turn[w + 6];
      }
    }
  };
}

/**
 * A complex transform that splits a length into its prime factors, one pass a factor.
 *
 * Self-sorting: each pass writes in the order the next one reads, so nothing is shuffled at the end. It suits lengths
 * whose primes are small, or one more than a product of small ones: whole days of minutes are 2, 3, 5 and, through the
 * year's 365 days, 73 = 8 · 9 + 1.
 *
 * @param length     whole number from 2
 * @param sideBySide how many sequences lie interleaved, sample by sample; each is transformed for itself
 * @returns          the transform, forward (e^{−2πijk/n}, no scaling); its workspace lives inside
 * @source Stockham's self-sorting form, as in C. Van Loan, "Computational Frameworks for the Fast Fourier Transform" (1992), section 1.7 (from memory); held by the naive transform of the tests
 */
export function mixedRadix(length: number, sideBySide = 1): PairTransform {
  const stages: Stage[] = [];
  let n = length;
  let s = sideBySide;
  for (const p of radices(length)) {
    const m = n / p;
    const turn = twiddles(n, p);
    if (p === 2) stages.push(stageOfTwo(m, s, turn));
    else if (p === 3) stages.push(stageOfThree(m, s, turn));
    else if (p === 4) stages.push(stageOfFour(m, s, turn));
    else if (p === 5) stages.push(stageOfFive(m, s, turn));
    else if (p >= 17 && raderCost(p) < plainCost(p)) stages.push(raderStage(p, m, s, turn, mixedRadix));
    else stages.push(genericStage(p, m, s, turn));
    n = m;
    s *= p;
  }
  const spare: Float64Array = new Float64Array(2 * length * sideBySide);
  return (pairs, into) => {
    // The last pass must land in `into`: count back from there. The first reads `pairs`, which is never written.
    let from = pairs;
    for (let k = 0; k < stages.length; k++) {
      const to = (stages.length - k) % 2 === 1 ? into : spare;
      stages[k](from, to);
      from = to;
    }
  };
}
