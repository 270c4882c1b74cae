import { defineConfig } from "vitest/config";

/** Pages in a real Chromium: one browser and one report for all files, one after another. */
export default defineConfig({
  test: {
    root: new URL("../..", import.meta.url).pathname,
    include: ["test/browser/**/*.test.ts"],
    testTimeout: 180_000,
    hookTimeout: 180_000,
    fileParallelism: false,
    isolate: false,
    maxWorkers: 1,
  },
});
