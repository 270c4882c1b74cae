import { defineConfig } from "vitest/config";
import { rooms } from "./rooms.mjs";

const room = process.env.MUTATED_ROOM ?? "air";

export default defineConfig({
  test: {
    root: new URL("../..", import.meta.url).pathname,
    include: rooms[room].tests,
    exclude: ["**/examples.test.ts"],
    isolate: false,
    testTimeout: 60000,
    passWithNoTests: false,
  },
});
