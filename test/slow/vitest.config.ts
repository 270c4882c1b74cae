import { defineConfig } from "vitest/config";

/** Tests that need other programs (Debian's python3-pandas, -scipy, -xarray) or take long; they fail where a program is missing. */
export default defineConfig({
  test: {
    root: new URL("../..", import.meta.url).pathname,
    include: ["test/slow/**/*.test.ts"],
    testTimeout: 600_000,
    hookTimeout: 600_000,
  },
});
