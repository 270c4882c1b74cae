import { describe, expect, it } from "vitest";
import { gatherOutputs } from "../../../../lib/door/runner/gatherOutputs.js";

const plain = (text: string): { readonly "text/plain": string } => ({ "text/plain": text });

describe("gatherOutputs", () => {
  it("joins what is printed on one stream, and keeps two streams apart in their order", () => {
    const gathering = gatherOutputs(1);
    for (const [name, text] of [["stdout", "a\n"], ["stdout", "b\n"], ["stderr", "c\n"], ["stdout", "d\n"]] as const) gathering.add(0, { kind: "stream", name, text });
    expect(gathering.of(0)).toEqual([
      { output_type: "stream", name: "stdout", text: "a\nb\n" },
      { output_type: "stream", name: "stderr", text: "c\n" },
      { output_type: "stream", name: "stdout", text: "d\n" },
    ]);
  });

  it("changes a shown thing in place, wherever its id stands, also in an earlier cell", () => {
    const gathering = gatherOutputs(2);
    gathering.add(0, { kind: "display", data: plain("waiting"), id: "one" });
    gathering.add(0, { kind: "stream", name: "stdout", text: "between\n" });
    gathering.add(1, { kind: "display", data: plain("again"), id: "one" });
    expect(gathering.of(0)[0]).toEqual({ output_type: "display_data", data: plain("again"), metadata: {} });
    gathering.add(1, { kind: "update", data: plain("done"), metadata: { wide: true }, id: "one" });
    for (const cell of [0, 1]) expect(gathering.of(cell)[0]).toEqual({ output_type: "display_data", data: plain("done"), metadata: { wide: true } });
    expect(gathering.of(0)).toHaveLength(2);
  });

  it("an update of an unknown id shows nothing", () => {
    const gathering = gatherOutputs(1);
    gathering.add(0, { kind: "update", data: plain("lost"), id: "none" });
    expect(gathering.of(0)).toEqual([]);
  });

  it("clears at once, or when something new comes", () => {
    const gathering = gatherOutputs(1);
    gathering.add(0, { kind: "display", data: plain("old"), id: "one" });
    gathering.add(0, { kind: "clear", wait: true });
    expect(gathering.of(0)).toHaveLength(1);
    gathering.add(0, { kind: "stream", name: "stdout", text: "new" });
    expect(gathering.of(0)).toEqual([{ output_type: "stream", name: "stdout", text: "new" }]);
    gathering.add(0, { kind: "update", data: plain("too late"), id: "one" });
    expect(gathering.of(0)).toEqual([{ output_type: "stream", name: "stdout", text: "new" }]);
    gathering.add(0, { kind: "clear", wait: false });
    expect(gathering.of(0)).toEqual([]);
  });

  it("keeps a result with its number and an error with its traceback", () => {
    const gathering = gatherOutputs(1);
    gathering.add(0, { kind: "result", data: plain("2"), count: 7 });
    gathering.add(0, { kind: "error", name: "RangeError", value: "too far", traceback: ["RangeError: too far"] });
    expect(gathering.of(0)).toEqual([
      { output_type: "execute_result", data: plain("2"), metadata: {}, execution_count: 7 },
      { output_type: "error", ename: "RangeError", evalue: "too far", traceback: ["RangeError: too far"] },
    ]);
  });
});
