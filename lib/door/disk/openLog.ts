import type { Stats } from "node:fs";
import { type FileHandle, open, stat } from "node:fs/promises";
import { RecordError } from "../../ground/complaint.js";

/** Size of the one buffer a log is read through. */
const chunkBytes = 1 << 20;

/** Why a file could not be opened, in plain words, by the system's code. */
const reasons: Readonly<Record<string, string>> = {
  ENOENT: "there is no such file",
  EACCES: "reading it is not permitted",
  EPERM: "reading it is not permitted",
  ELOOP: "it is a link that leads back to itself",
  EISDIR: "it is a folder",
  ENOTDIR: "a part of its path is not a folder",
  ENAMETOOLONG: "its name is too long",
  EIO: "the disk or card could not be read",
  EMFILE: "too many files are open",
};

/** One sentence for a failed file operation: never a stack, never a system code alone. */
export function fileTrouble(path: string, error: unknown): RecordError {
  const code = (error as NodeJS.ErrnoException | null)?.code ?? "";
  const why = reasons[code] ?? (error instanceof Error ? error.message : String(error));
  return new RecordError(`${path} could not be read: ${why}`, "description", { file: path });
}

/** Refuses what is not an ordinary file before it is opened: a pipe would wait for ever. */
async function requireOrdinary(path: string): Promise<void> {
  let found: Awaited<ReturnType<typeof stat>>;
  try {
    found = await stat(path);
  } catch (error) {
    throw fileTrouble(path, error);
  }
  if (found.isFile()) return;
  const what = found.isDirectory() ? "a folder" : found.isFIFO() ? "a pipe" : found.isSocket() ? "a socket" : "a device";
  throw new RecordError(`${path} must be an ordinary file (got ${what}); copy the log to a file first`, "description", { file: path });
}

async function statOf(handle: FileHandle, path: string): Promise<Stats> {
  try {
    return await handle.stat();
  } catch (error) {
    throw fileTrouble(path, error);
  }
}

/**
 * Reads an ordinary file in chunks, opened for reading only.
 *
 * A chunk is valid until the next one is asked for: one buffer serves the whole file.
 *
 * @throws RecordError when the file is missing, not ordinary, not permitted, fails while being read, or is cut or written anew meanwhile
 */
export async function* openLog(path: string): AsyncGenerator<Uint8Array> {
  await requireOrdinary(path);
  let handle: FileHandle;
  try {
    handle = await open(path, "r");
  } catch (error) {
    throw fileTrouble(path, error);
  }
  try {
    const buffer = Buffer.allocUnsafe(chunkBytes);
    const before = await statOf(handle, path);
    let total = 0;
    for (;;) {
      let bytesRead: number;
      try {
        ({ bytesRead } = await handle.read(buffer, 0, chunkBytes, null));
      } catch (error) {
        throw fileTrouble(path, error);
      }
      if (bytesRead === 0) break;
      total += bytesRead;
      yield buffer.subarray(0, bytesRead);
    }
    // A log that only grew was read up to where it ended; one that was cut or written anew is a mixture of two.
    const after = await statOf(handle, path);
    if (after.size < total || (after.mtimeMs !== before.mtimeMs && after.size <= before.size)) {
      throw new RecordError(`${path} must stay as it is while it is read (got a file that was cut or written anew meanwhile); wait until nothing writes to it, then run this again`, "description", { file: path });
    }
  } finally {
    await handle.close();
  }
}

/**
 * Reads a small text file whole, as UTF-8.
 *
 * @param most largest size taken · bytes
 * @throws RecordError when it cannot be read, is larger than `most`, or is not UTF-8
 */
export async function readText(path: string, most: number): Promise<string> {
  const parts: Buffer[] = [];
  let size = 0;
  for await (const chunk of openLog(path)) {
    size += chunk.length;
    if (size > most) throw new RecordError(`${path} must be at most ${most} bytes (got more); is it the description?`, "description", { file: path });
    parts.push(Buffer.from(chunk));
  }
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(Buffer.concat(parts));
  } catch {
    throw new RecordError(`${path} must be UTF-8 text (got other bytes)`, "description", { file: path });
  }
}
