/**
 * The order of rows by time; rows of one instant stay in the order in which they were read.
 *
 * Logs are stretches that are in order already (files, copies, stretches after a clock was set back), so the stretches
 * are merged two by two; a stretch that runs strictly backwards is turned round.
 *
 * @param times [n]
 * @returns     indices into `times` · [n]; null when it is in order as it is
 */
export function timeOrder(times: Float64Array): Uint32Array | null {
  const n = times.length;
  let rising = 1;
  while (rising < n && times[rising] >= times[rising - 1]) rising++;
  if (rising >= n) return null;
  let order: Uint32Array = new Uint32Array(n);
  const ends: number[] = [];
  for (let i = 0; i < n; ) {
    let end = i + 1;
    const isBack = end < n && times[end] < times[i];
    if (isBack) while (end < n && times[end] < times[end - 1]) end++;
    else while (end < n && times[end] >= times[end - 1]) end++;
    for (let k = i; k < end; k++) order[k] = isBack ? i + end - 1 - k : k;
    ends.push(end);
    i = end;
  }
  let spare: Uint32Array = new Uint32Array(n);
  let stretches = ends;
  while (stretches.length > 1) {
    const merged: number[] = [];
    let from = 0;
    for (let k = 0; k < stretches.length; k += 2) {
      const middle = stretches[k];
      const to = stretches[k + 1] ?? middle;
      mergeStretches(times, order, spare, from, middle, to);
      merged.push(to);
      from = to;
    }
    [order, spare] = [spare, order];
    stretches = merged;
  }
  return order;
}

function mergeStretches(times: Float64Array, from: Uint32Array, into: Uint32Array, start: number, middle: number, end: number): void {
  let a = start;
  let b = middle;
  for (let k = start; k < end; k++) {
    const takesFirst = a < middle && (b >= end || times[from[a]] <= times[from[b]]);
    into[k] = takesFirst ? from[a++] : from[b++];
  }
}
