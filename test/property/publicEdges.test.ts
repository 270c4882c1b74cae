import fc from "fast-check";
import { describe, expect, it } from "vitest";
import * as airtides from "../../lib/index.js";
import { documentedNaN, edgeArguments } from "./edgeArguments.js";
import { drawnCall, edgeCalls, fault } from "./edgeHarness.js";
import { edgeRecords, recordRoutines } from "./edgeRecords.js";

type Routine = (...args: readonly unknown[]) => unknown;
const routines = Object.entries(airtides as unknown as Record<string, unknown>).filter((e): e is [string, Routine] => typeof e[1] === "function");

/** Public routines without numbers, lists or records, and where they are tried instead. */
const elsewhere: Readonly<Record<string, string>> = {
  recordPaths: "takes a description: test/property/fuzz, spoiled descriptions",
  recordSchema: "takes nothing",
  readRecord: "takes a description and bytes: test/property/fuzz, spoiled cards",
  RecordReader: "takes a description and bytes: test/property/readerTwin",
  RecordError: "a class of errors",
  draftDescription: "takes bytes: test/property/draft",
  describeLogs: "takes bytes: test/property/draft",
  openQuestions: "takes a description: test/property/draft",
  columnNames: "takes words",
  paletteOf: "takes a word",
  figure: "takes a finished picture",
};

describe("every public routine at the edges of its arguments", () => {
  it("is in a table, or stands elsewhere for a reason", () => {
    const told = [...Object.keys(edgeArguments), ...Object.keys(recordRoutines), ...Object.keys(elsewhere)];
    expect(routines.map(([name]) => name).filter((name) => !told.includes(name))).toEqual([]);
    expect(told.filter((name) => !routines.some(([n]) => n === name))).toEqual([]);
    expect(Object.keys(documentedNaN).filter((name) => !(name in edgeArguments))).toEqual([]);
  });

  for (const [name, args] of Object.entries(edgeArguments)) {
    it(`${name}: a documented error or a documented answer, in bounded time`, () => {
      const routine = (airtides as unknown as Record<string, Routine>)[name];
      const faults = edgeCalls(args).flatMap((call) => {
        const wrong = fault(name, () => routine(...call.args), call.args, documentedNaN[name]);
        return wrong === "" ? [] : [`${call.what}: ${wrong}`];
      });
      expect(faults).toEqual([]);
      fc.assert(
        fc.property(drawnCall(args), (call) => {
          const wrong = fault(name, () => routine(...call.args), call.args, documentedNaN[name]);
          if (wrong !== "") throw new Error(wrong);
        }),
        { seed: 4201, numRuns: 12 },
      );
    });
  }
});

describe("every question and picture of a record whose readings stand at an edge", () => {
  for (const [what, recordOf] of Object.entries(edgeRecords)) {
    it(`${what}: an answer without nonsense, or a refusal in a sentence`, () => {
      expect(recordFaults(recordOf)).toEqual([]);
    });
  }
});

/** Faults of all routines that take a record; none when the record itself is refused in a sentence. */
function recordFaults(recordOf: () => airtides.AirRecord): string[] {
  let record: airtides.AirRecord;
  try {
    record = recordOf();
  } catch (error) {
    return /^(recordFromSeries|series): .* must .* \(got /.test((error as Error).message) ? [] : [`record: ${String(error)}`];
  }
  return Object.entries(recordRoutines).flatMap(([name, { run, documented }]) => {
    const wrong = fault(name, () => run(record), [Number.NaN], documented);
    return wrong === "" ? [] : [`${name}: ${wrong}`];
  });
}
