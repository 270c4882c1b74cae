import fc from "fast-check";
import { expect, it } from "vitest";
import { RecordError } from "../../lib/ground/complaint.js";
import { readRecord } from "../../lib/record/readRecord.js";
import { draftDescription } from "../../lib/trust/draft/draftDescription.js";
import { packageFaults } from "../unit/trust/draft/packageRules.js";
import { shapesOfLines } from "../unit/trust/draft/shapesOfLines.js";
import { shapesOfPlaces } from "../unit/trust/draft/shapesOfPlaces.js";

/** Drafts bytes: either a draft that keeps the rules and reads its own log, or one sentence. */
async function judged(files: Record<string, Uint8Array>): Promise<void> {
  const samples = Object.entries(files).map(([path, head]) => ({ path, head, tail: null, bytes: head.length }));
  let made: ReturnType<typeof draftDescription>;
  try {
    made = draftDescription(samples);
  } catch (error) {
    if (!(error instanceof RecordError)) throw error;
    expect(error.message).toMatch(/^\S+ must .* \(got .*\)/s);
    expect(error.message.split("\n")).toHaveLength(1);
    return;
  }
  expect(packageFaults(made.draft)).toEqual([]);
  for (const g of made.guesses) expect([g.path, g.because === ""]).toEqual([g.path, false]);
  const record = await readRecord(JSON.parse(JSON.stringify(made.draft)), (path) => [files[path]]);
  for (const f of record.files) expect(f.lines).toBe(f.accepted + f.skipped + f.rejected.length);
}

it("random bytes: no crash, one sentence or a draft that reads", async () => {
  await fc.assert(fc.asyncProperty(fc.uint8Array({ maxLength: 3000 }), (bytes) => judged({ "card.txt": bytes })), { seed: 1, numRuns: 300 });
});

it("random text of a log's signs: likewise", async () => {
  const sign = fc.constantFrom("0", "1", "2", "3", "9", "-", "/", ":", ".", ",", ";", "\t", " ", "|", "\n", "\n", '"', "'", "#", "T", "Z", "N", "A", "°", "%", "é", "\r");
  await fc.assert(fc.asyncProperty(fc.array(sign, { maxLength: 1500 }), (signs) => judged({ "card.txt": new TextEncoder().encode(signs.join("")) })), { seed: 2, numRuns: 400 });
});

it("logs of every shape, spoiled: cut, doubled, NUL, other bytes, lines exchanged", async () => {
  const shapes = [...shapesOfLines(), ...shapesOfPlaces()].map((s) => Object.fromEntries(Object.entries(s.files).map(([p, f]) => [p, typeof f === "string" ? new TextEncoder().encode(f) : f])));
  const change = fc.record({ at: fc.nat(), length: fc.integer({ min: 1, max: 400 }), kind: fc.constantFrom("cut", "double", "nul", "noise", "move"), byte: fc.integer({ min: 0, max: 255 }) });
  await fc.assert(
    fc.asyncProperty(fc.nat(shapes.length - 1), fc.array(change, { minLength: 1, maxLength: 12 }), fc.boolean(), async (k, changes, isShort) => {
      const files = Object.fromEntries(Object.entries(shapes[k]).map(([path, bytes]) => [path, spoiled(isShort ? bytes.subarray(0, 600) : bytes, changes)]));
      await judged(files);
    }),
    { seed: 3, numRuns: 250 },
  );
}, 120000);

function spoiled(bytes: Uint8Array, changes: readonly { at: number; length: number; kind: string; byte: number }[]): Uint8Array {
  let list = Array.from(bytes);
  for (const { at, length, kind, byte } of changes) {
    if (list.length === 0) break;
    const from = at % list.length;
    const part = list.slice(from, from + length);
    if (kind === "cut") list.splice(from, length);
    else if (kind === "double") list.splice(from, 0, ...part);
    else if (kind === "nul") list.splice(from, length, ...part.map(() => 0));
    else if (kind === "noise") list.splice(from, length, ...part.map((b, i) => (b * 31 + byte + i) % 256));
    else list = [...part, ...list.slice(0, from), ...list.slice(from + length)];
  }
  return Uint8Array.from(list);
}
