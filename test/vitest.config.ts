import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    root: new URL("..", import.meta.url).pathname,
    include: ["test/{unit,property,published,laws,reference,cli}/**/*.test.ts"],
    testTimeout: 30000,
    passWithNoTests: false,
  },
});
