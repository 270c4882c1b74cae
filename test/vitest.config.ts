import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    root: new URL("..", import.meta.url).pathname,
    include: ["test/{unit,property,published,laws,reference,cli}/**/*.test.ts"],
    testTimeout: 30000,
    // Nothing happens at import and no module keeps a state that answers depend on (law 6), so files share what is loaded: half the time.
    isolate: false,
    maxWorkers: "100%",
    passWithNoTests: false,
  },
});
