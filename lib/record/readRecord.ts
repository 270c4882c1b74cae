import type { AirRecord } from "./airRecord.js";
import { RecordReader } from "./recordReader.js";

/** Bytes of a log in chunks of any size; a chunk need be valid only until the next one is asked for. `size`: all bytes, where known. */
export type Chunks = (AsyncIterable<Uint8Array> | Iterable<Uint8Array>) & { readonly size?: number };

/**
 * Reads a record: one pass over its logs, every line accounted for.
 *
 * @param description the parsed datapackage.json · unchanged
 * @param open        gives the bytes of a log by its path in the description; called once a path, in order
 * @returns           the record, frozen, in house units and UTC
 * @throws RecordError kind `description` when the description is faulty (all faults in `others`) or a header does not
 *                     fit it; kind `data` when no row was accepted
 * @example await readRecord(description, (path) => [bytesOf(path)])
 */
export async function readRecord(description: unknown, open: (path: string) => Chunks | Promise<Chunks>): Promise<AirRecord> {
  const reader = new RecordReader(description);
  for (const path of reader.paths) {
    const chunks = await open(path);
    reader.begin(path, chunks.size);
    for await (const chunk of chunks) reader.push(chunk);
    reader.end();
  }
  return reader.finish();
}
