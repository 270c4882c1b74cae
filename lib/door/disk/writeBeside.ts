import { randomBytes } from "node:crypto";
import { link, mkdir, open, rename, stat, unlink } from "node:fs/promises";
import { dirname } from "node:path";
import { RecordError } from "../../ground/complaint.js";
import { dropUnfinished, heedingInterrupts } from "./interrupts.js";

const reasons: Readonly<Record<string, string>> = {
  ENOENT: "no folder can be made there",
  EACCES: "writing there is not permitted",
  EPERM: "writing there is not permitted",
  EROFS: "the disk is read-only",
  ENOSPC: "the disk is full",
  EDQUOT: "the disk quota is used up",
  EFBIG: "the file would be larger than the disk or this account allows",
  EIO: "the disk or card could not be written",
  ENOTDIR: "a part of its path is not a folder",
  EISDIR: "it is a folder",
};

/**
 * Makes a folder with those above it. Node's own way, `recursive`, never ends where a file system lets no folder be made and says that
 * there is none, as /proc does.
 */
async function makeFolder(folder: string): Promise<void> {
  const make = (): Promise<void> =>
    mkdir(folder).catch(async (error: NodeJS.ErrnoException) => {
      if (error.code !== "EEXIST" || !(await stat(folder)).isDirectory()) throw error;
    });
  try {
    await make();
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== "ENOENT" || dirname(folder) === folder) throw error;
    await makeFolder(dirname(folder));
    await make();
  }
}

/** The sentence for a name that is taken. */
function taken(path: string): RecordError {
  return new RecordError(`${path} exists already and is not written over; name another file or move it away`, "description", { file: path });
}

/**
 * Refuses a name that is taken before long work is done for it; `writeBeside` looks again when it writes.
 *
 * @throws RecordError when there is something of that name
 */
export async function requireFree(path: string): Promise<void> {
  if (await stat(path).then(() => true, () => false)) throw taken(path);
}

/** Gives a finished file its name unless the name is taken. */
async function nameIfFree(beside: string, path: string): Promise<void> {
  try {
    // A hard link refuses an existing name in one step, where a look followed by a rename could lose a race.
    await link(beside, path);
    await unlink(beside);
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code ?? "";
    if (!["EPERM", "ENOTSUP", "EOPNOTSUPP", "ENOSYS"].includes(code)) throw error;
    // Cards formatted as FAT know no hard links: look, then rename.
    if (await stat(path).then(() => true, () => false)) throw Object.assign(new Error("exists"), { code: "EEXIST" });
    await rename(beside, path);
  }
}

/**
 * Writes a file so that it is there whole or not at all: beside the target first, then given its name.
 *
 * @param path            the file to make; its folder is made if missing
 * @param content         text (UTF-8) or bytes, whole or in pieces that are made as they are written
 * @param options.replace true puts it in the place of an existing file; default false refuses
 * @returns               bytes written
 * @throws RecordError    when the target exists and may not be replaced, or writing fails; nothing is left behind, after an interrupt either
 */
export async function writeBeside(path: string, content: string | Uint8Array | Iterable<string | Uint8Array>, options: { replace?: boolean } = {}): Promise<number> {
  const pieces = typeof content === "string" || content instanceof Uint8Array ? [content] : content;
  let written = 0;
  const beside = `${path}.${randomBytes(6).toString("hex")}.part`;
  try {
    await makeFolder(dirname(path));
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code ?? "";
    const why = code === "EEXIST" ? "a part of its path is not a folder" : (reasons[code] ?? (error as Error).message);
    throw new RecordError(`${path} could not be written: ${why}`, "description", { file: path });
  }
  const write = async (): Promise<void> => {
    const handle = await open(beside, "wx");
    try {
      for (const piece of pieces) {
        const bytes = typeof piece === "string" ? Buffer.from(piece, "utf8") : piece;
        await handle.writeFile(bytes);
        written += bytes.length;
      }
      await handle.sync();
    } finally {
      await handle.close();
    }
    if (options.replace === true) await rename(beside, path);
    else await nameIfFree(beside, path);
  };
  try {
    await heedingInterrupts(`stopped: ${path} was not written`, write, () => dropUnfinished(beside));
    return written;
  } catch (error) {
    await unlink(beside).catch(() => undefined);
    const code = (error as NodeJS.ErrnoException | null)?.code ?? "";
    if (code === "EEXIST") throw taken(path);
    // A mistake of our own while a piece was made is no fault of the disk.
    if (code === "") throw error;
    const why = reasons[code] ?? (error instanceof Error ? error.message : String(error));
    throw new RecordError(`${path} could not be written: ${why}`, "description", { file: path });
  }
}
