import { rooms } from "./rooms.mjs";

const room = process.env.MUTATED_ROOM ?? "air";
const files = process.env.MUTATED_FILES?.split(",") ?? rooms[room].mutate;

/** @type {import("@stryker-mutator/api/core").PartialStrykerOptions} */
export default {
  testRunner: "vitest",
  plugins: ["@stryker-mutator/vitest-runner"],
  vitest: { configFile: "test/mutation/vitest.config.mjs", related: false },
  mutate: [...files, "!lib/**/*.d.ts"],
  coverageAnalysis: "perTest",
  // A second run tries again only what changed, and what new tests might notice; `MUTATE_AFRESH=1` tries all.
  incremental: true,
  incrementalFile: `.mutation/incremental/${room}.json`,
  force: process.env.MUTATE_AFRESH === "1",
  concurrency: Number(process.env.MUTATE_CONCURRENCY ?? 1),
  timeoutMS: 4000,
  timeoutFactor: 1.5,
  dryRunTimeoutMinutes: 10,
  tempDirName: ".mutation/sandboxes",
  ignorePatterns: ["dist", "notebooks", "node_modules", "coverage", "airtides-out", ".mutation", "*.cpuprofile"],
  checkers: [],
  reporters: ["progress-append-only", "clear-text", "json"],
  clearTextReporter: { allowColor: false, allowEmojis: false, logTests: false, reportTests: false, reportMutants: false, reportScoreTable: true },
  jsonReporter: { fileName: `.mutation/reports/${room}.json` },
  allowEmpty: false,
  disableTypeChecks: false,
  thresholds: { high: 95, low: 85, break: null },
};
