import { readRecord } from "../../../../lib/record/readRecord.js";
import { draftDescription, type Draft } from "../../../../lib/trust/draft/draftDescription.js";
import { expect } from "vitest";
import type { Shape } from "./shapes.js";

const bytesOf = (file: string | Uint8Array): Uint8Array => (typeof file === "string" ? new TextEncoder().encode(file) : file);

/** Drafts a shape's description, reads its files by it with our own reader, and expects the planted readings and nothing else. */
export async function expectPlanted(shape: Shape): Promise<Draft> {
  const files = Object.fromEntries(Object.entries(shape.files).map(([path, file]) => [path, bytesOf(file)]));
  const made = draftDescription(Object.entries(files).map(([path, head]) => ({ path, head, tail: null, bytes: head.length })));
  expect(made.failures).toEqual([]);
  const record = await readRecord(JSON.parse(JSON.stringify(made.draft)), (path) => [files[path]]);
  expect(Object.keys(record.places).sort()).toEqual(Object.keys(shape.planted).sort());
  for (const [place, quantities] of Object.entries(shape.planted)) {
    const found = record.places[place].series as Record<string, any>;
    expect([place, Object.keys(found).sort()]).toEqual([place, Object.keys(quantities).sort()]);
    for (const [q, { at, values, within }] of Object.entries(quantities)) {
      const s = found[q];
      const read = new Map<number, number>();
      for (const [i, v] of s.values.entries()) if (!Number.isNaN(v)) read.set(s.start + 1000 * s.seconds[i], v);
      expect([place, q, read.size]).toEqual([place, q, values.filter((v) => !Number.isNaN(v)).length]);
      for (const [i, v] of values.entries()) if (!Number.isNaN(v) && !(Math.abs((read.get(at[i]) ?? Number.NaN) - v) <= within)) expect([place, q, i, read.get(at[i])]).toEqual([place, q, i, v]);
    }
  }
  expect(record.questions?.map((q) => q.path)).toEqual(made.questions.map((q) => q.path));
  return made;
}
