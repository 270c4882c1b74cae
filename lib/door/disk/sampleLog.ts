import { type FileHandle, open, stat } from "node:fs/promises";
import { RecordError } from "../../ground/complaint.js";
import type { LogSample } from "../../trust/draft/logSample.js";
import { fileTrouble } from "./openLog.js";

/** How much of the beginning of a log is looked at at most and at least, and of the beginnings of all together · bytes. */
const mostHead = 2_000_000;
const leastHead = 64_000;
const allHeads = 6_000_000;
/** Of the end of a log a quarter of that is looked at. */
const tailShare = 0.25;

/**
 * Reads the beginning and the end of an ordinary file, for reading only.
 *
 * @param path file to look at
 * @param name what a description is to call it
 * @param logs how many logs are looked at together: of many, less of each
 * @throws RecordError when it is missing, not ordinary, not permitted, or fails while being read
 */
export async function sampleLog(path: string, name: string, logs: number): Promise<LogSample> {
  const headSize = Math.round(Math.max(leastHead, Math.min(mostHead, allHeads / logs)));
  const tailSize = Math.round(tailShare * headSize);
  let size: number;
  try {
    const found = await stat(path);
    if (!found.isFile()) throw new RecordError(`${path} must be an ordinary file (got ${found.isDirectory() ? "a folder; name the logs in it" : "a device or pipe; copy the log to a file first"})`, "description", { file: path });
    size = found.size;
  } catch (error) {
    throw error instanceof RecordError ? error : fileTrouble(path, error);
  }
  let handle: FileHandle | null = null;
  try {
    handle = await open(path, "r");
    const isWhole = size <= headSize + tailSize;
    const head = await readAt(handle, 0, isWhole ? size : headSize);
    const tail = isWhole ? null : await readAt(handle, size - tailSize, tailSize);
    return { path: name, head, tail, bytes: isWhole ? head.length : size };
  } catch (error) {
    throw fileTrouble(path, error);
  } finally {
    await handle?.close();
  }
}

async function readAt(handle: FileHandle, from: number, length: number): Promise<Uint8Array> {
  const buffer = new Uint8Array(length);
  let filled = 0;
  while (filled < length) {
    const { bytesRead } = await handle.read(buffer, filled, length - filled, from + filled);
    if (bytesRead === 0) break;
    filled += bytesRead;
  }
  return buffer.subarray(0, filled);
}
