import { defineConfig } from "vitest/config";

/** The kernel as a process, and cells with their compiler: minutes, and software that not every machine has. */
export default defineConfig({
  test: {
    root: new URL("../..", import.meta.url).pathname,
    include: ["test/kernel/**/*.test.ts"],
    testTimeout: 120_000,
    hookTimeout: 120_000,
    // Cells print through the process's own console.
    disableConsoleIntercept: true,
    // One kernel at a time: their clocks are measured.
    fileParallelism: false,
  },
});
