import { BaseSequencer } from "vitest/node";
import { defineConfig } from "vitest/config";
import { rooms } from "./rooms.mjs";

const room = process.env.MUTATED_ROOM ?? "air";
const last = rooms[room].last ?? [];
/** Slow test files that are left out for once: a lower score in less time. */
const named = (list) => (list ?? "").split(",").filter((name) => name !== "");
const without = named(process.env.MUTATE_WITHOUT);
/** These test files of the room alone: a test of one routine is often a hundred times as quick as one of the whole. */
const only = named(process.env.MUTATE_ONLY);
const placeOf = ({ moduleId }) => last.findIndex((name) => moduleId.endsWith(`${name}.test.ts`));

/** Quick files first: Stryker leaves a mutant at the first test that notices it. */
class QuickFirst extends BaseSequencer {
  async sort(files) {
    return files.toSorted((a, b) => placeOf(a) - placeOf(b) || (a.moduleId < b.moduleId ? -1 : 1));
  }
}

export default defineConfig({
  test: {
    root: new URL("../..", import.meta.url).pathname,
    include: only.length === 0 ? rooms[room].tests : only.map((name) => `test/**/${name}.test.ts`),
    exclude: ["**/examples.test.ts", ...without.map((name) => `**/${name}.test.ts`)],
    sequence: { sequencer: QuickFirst },
    isolate: false,
    testTimeout: 60000,
    passWithNoTests: false,
  },
});
