import { bridgeGaps } from "../../grid/gapRule.js";
import { fourierPlan } from "../spectrum/fourier.js";

/**
 * Draws records of irregular weather: Gaussian, with a given spectrum, and with the gaps of a real record bridged as there.
 *
 * Each transform is four times as long as the record, so that a drawn record's ends do not know each other, and gives two
 * records: its real and its imaginary part. The scale is arbitrary.
 *
 * @param gaps     values of the real record, NaN where it has a gap · [n]
 * @param spectrum density at so many cycles a step, 0…0.5 · any unit
 * @param normals  standard normal numbers, one a call
 * @param count    how many records
 * @yields         one record · [n] · the same memory each time
 * @example for (const record of drawnRecords(values, () => 1, normals, 2)) record.length
 * @source spectral synthesis (common practice, no source)
 */
export function* drawnRecords(gaps: ArrayLike<number>, spectrum: (cycles: number) => number, normals: () => number, count: number): Generator<Float64Array> {
  const n = gaps.length;
  const long = 4 * n;
  const plan = fourierPlan(long);
  const size: Float64Array = Float64Array.from({ length: long }, (_, j) => Math.sqrt(spectrum(Math.min(j, long - j) / long) / 2));
  const hasGap = Array.prototype.some.call(gaps, Number.isNaN);
  const bins: Float64Array = new Float64Array(2 * long);
  const room: Float64Array = new Float64Array(2 * long);
  const record: Float64Array = new Float64Array(n);
  for (let drawn = 0; drawn < count; drawn += 2) {
    for (let j = 0; j < long; j++) {
      bins[2 * j] = size[j] * normals();
      bins[2 * j + 1] = size[j] * normals();
    }
    const pairs = plan.complexInverse(bins, room);
    for (let part = 0; part < Math.min(2, count - drawn); part++) {
      for (let i = 0; i < n; i++) record[i] = hasGap && Number.isNaN(gaps[i]) ? Number.NaN : pairs[2 * i + part];
      if (hasGap) record.set(bridgeGaps(record, n).values);
      yield record;
    }
  }
}
