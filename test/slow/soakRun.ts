import { checkRecord, recordFromSeries, series, tidesOf, type AirRecord, type Quantity } from "../../lib/index.js";

/**
 * Asks check and tides many times in one process and writes the heap after each hundred runs as a line of JSON.
 *
 * Run with `--expose-gc`. Each run has a record of its own: flags are remembered by record, so that one record asked again would test nothing.
 */
const runs = Number(process.argv[2] ?? 1000);
const each = Number(process.argv[3] ?? 100);
const steps = 12 * 144;
const collect = (globalThis as { gc?: () => void }).gc;
if (collect === undefined) throw new Error("soakRun: node must be started with --expose-gc");

const wave = (i: number, run: number, mean: number, size: number, at: number): number => mean + size * Math.cos((2 * Math.PI * (i / 6 - at)) / 24) + 0.3 * size * Math.sin(i / 100 + run) + 0.05 * size * Math.sin(97 * i + run);

function recordOf(run: number): AirRecord {
  const times = Array.from({ length: steps }, (_, i) => Date.UTC(2024, 2, 1) + 600_000 * i);
  const one = (quantity: Quantity, mean: number, size: number, at: number): ReturnType<typeof series> =>
    series({ times, values: times.map((_, i) => wave(i, run, mean, size, at)), quantity, place: "yard" });
  return recordFromSeries([one("surface_air_pressure", 861, 1.5, 10), one("air_temperature", 22, 4, 14), one("relative_humidity", 70, 9, 5)], { site: { latitude: -7.1, longitude: 110.2, elevation: 1380 }, zone: "+07:00", places: { yard: { exposure: "outdoor" } } });
}

let kept = 0;
for (let run = 1; run <= runs; run++) {
  const record = recordOf(run);
  kept += checkRecord(record).places.yard.readings + tidesOf(record).places.yard.constituents.length;
  if (run % each !== 0) continue;
  // Twice: what weak maps hold is let go in the second round.
  collect();
  collect();
  const { heapUsed, arrayBuffers } = process.memoryUsage();
  process.stdout.write(`${JSON.stringify({ run, bytes: heapUsed + arrayBuffers, heapUsed, arrayBuffers })}\n`);
}
if (!(kept > runs * steps)) throw new Error("soakRun: the answers were empty");
