import { defineConfig } from "vitest/config";

/** Notebooks run for real, compared with nbconvert, and their pages in a browser: minutes. Needs dist/, Chromium and Debian's python3-nbconvert. */
export default defineConfig({
  test: {
    root: new URL("../..", import.meta.url).pathname,
    include: ["test/notebooks/**/*.test.ts"],
    testTimeout: 120_000,
    hookTimeout: 180_000,
    fileParallelism: false,
  },
});
