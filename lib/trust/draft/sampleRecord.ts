import type { AirRecord } from "../../record/airRecord.js";
import { decoderFor } from "../../record/line/encoding.js";
import { RecordReader } from "../../record/recordReader.js";
import type { LogSample } from "./logSample.js";

/**
 * Reads what was looked at of the logs by the draft itself: the proof that it validates and that the logs can be read by it.
 *
 * @param draft   a description
 * @param samples the logs it names
 * @throws RecordError when the draft is faulty, or no row of them can be read
 */
export function sampleRecord(draft: unknown, samples: readonly LogSample[]): AirRecord {
  const reader = new RecordReader(draft);
  for (const path of reader.paths) {
    const sample = samples.find((s) => s.path === path);
    reader.begin(path);
    if (sample !== undefined) for (const part of wholeLines(sample)) reader.push(part);
    reader.end();
  }
  return reader.finish();
}

/** Head up to its last line end, and tail from its first one on. */
function wholeLines({ head, tail, bytes }: LogSample): Uint8Array[] {
  if (tail === null) return [head];
  const encoding = decoderFor(head, null).encoding;
  const unit = encoding.startsWith("utf-16") ? 2 : 1;
  const low = encoding === "utf-16be" ? 1 : 0;
  const isEnd = (b: Uint8Array, i: number): boolean => b[i + low] === 10 && (unit === 1 || b[i + 1 - low] === 0);
  const isCr = (b: Uint8Array, i: number): boolean => b[i + low] === 13 && (unit === 1 || b[i + 1 - low] === 0);
  const hasLf = firstEnd(head, 0, unit, isEnd) >= 0;
  const ends = hasLf ? isEnd : isCr;
  let to = head.length - (head.length % unit);
  while (to > 0 && !ends(head, to - unit)) to -= unit;
  const odd = unit === 2 && (bytes - tail.length) % 2 === 1 ? 1 : 0;
  const from = firstEnd(tail, odd, unit, ends);
  return [head.subarray(0, to), tail.subarray(from < 0 ? tail.length : from + unit)];
}

function firstEnd(bytes: Uint8Array, start: number, unit: number, isEnd: (b: Uint8Array, i: number) => boolean): number {
  for (let i = start; i + unit <= bytes.length; i += unit) if (isEnd(bytes, i)) return i;
  return -1;
}
