import { randomBytes } from "node:crypto";
import { link, mkdir, open, rename, stat, unlink } from "node:fs/promises";
import { dirname } from "node:path";
import { RecordError } from "../../ground/complaint.js";

const reasons: Readonly<Record<string, string>> = {
  EACCES: "writing there is not permitted",
  EPERM: "writing there is not permitted",
  EROFS: "the disk is read-only",
  ENOSPC: "the disk is full",
  EDQUOT: "the disk quota is used up",
  ENOTDIR: "a part of its path is not a folder",
  EISDIR: "it is a folder",
};

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
 * @param content         text (UTF-8) or bytes
 * @param options.replace true puts it in the place of an existing file; default false refuses
 * @returns               bytes written
 * @throws RecordError    when the target exists and may not be replaced, or writing fails; nothing is left behind
 */
export async function writeBeside(path: string, content: string | Uint8Array, options: { replace?: boolean } = {}): Promise<number> {
  const bytes = typeof content === "string" ? Buffer.from(content, "utf8") : content;
  const beside = `${path}.${randomBytes(6).toString("hex")}.part`;
  try {
    await mkdir(dirname(path), { recursive: true });
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code ?? "";
    const why = code === "EEXIST" ? "a part of its path is not a folder" : (reasons[code] ?? (error as Error).message);
    throw new RecordError(`${path} could not be written: ${why}`, "description", { file: path });
  }
  try {
    const handle = await open(beside, "wx");
    try {
      await handle.writeFile(bytes);
      await handle.sync();
    } finally {
      await handle.close();
    }
    if (options.replace === true) await rename(beside, path);
    else await nameIfFree(beside, path);
    return bytes.length;
  } catch (error) {
    await unlink(beside).catch(() => undefined);
    const code = (error as NodeJS.ErrnoException | null)?.code ?? "";
    if (code === "EEXIST") throw new RecordError(`${path} exists already and is not written over; name another file or move it away`, "description", { file: path });
    const why = reasons[code] ?? (error instanceof Error ? error.message : String(error));
    throw new RecordError(`${path} could not be written: ${why}`, "description", { file: path });
  }
}
