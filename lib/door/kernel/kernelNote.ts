import { writeSync } from "node:fs";

/**
 * Writes a sentence of the kernel itself where its process was started; the process's own streams belong to the cells.
 *
 * @param sentence without a line end
 */
export function kernelNote(sentence: string): void {
  try {
    writeSync(2, `airtides kernel: ${sentence}\n`);
  } catch {
    // Nobody reads it: the kernel goes on.
  }
}
