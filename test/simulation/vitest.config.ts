import { defineConfig } from "vitest/config";

/** Simulations: minutes, not seconds; `SIMULATE=long` runs the counts behind the tables in the rooms' READMEs. */
export default defineConfig({
  test: {
    root: new URL("../..", import.meta.url).pathname,
    include: ["test/simulation/**/*.test.ts"],
    testTimeout: 7_200_000,
    disableConsoleIntercept: true,
  },
});
