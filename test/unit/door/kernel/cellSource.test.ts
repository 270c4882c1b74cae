import { describe, expect, it } from "vitest";
import fc from "fast-check";
import { loadCompiler } from "../../../../lib/door/kernel/compiler.js";
import { applyEdits, offsetOf, placeOf } from "../../../../lib/door/kernel/edits.js";
import { isComplete } from "../../../../lib/door/kernel/isComplete.js";
import { guardLoops } from "../../../../lib/door/kernel/loopGuards.js";
import { tidyCell } from "../../../../lib/door/kernel/tidy.js";

const { parser } = loadCompiler(process.cwd(), { root: "", name: "airtides", version: "0", entries: new Map() });
const tidy = (code: string): string => tidyCell(parser, code).text;
const guard = (code: string, awaits: boolean): string => guardLoops(parser, code, awaits).text.replace(/^let \$airtidesTicks = 0; const \$airtidesCheck = __tslab__.check; /, "").replaceAll("$airtidesCheck();", "LOOK;").replaceAll("if (($airtidesTicks = ($airtidesTicks + 1) & 4095) === 0)", "SOMETIMES");

describe("edits", () => {
  it("each kept character finds its place in the old text", () => {
    fc.assert(
      fc.property(fc.string(), fc.array(fc.tuple(fc.nat(40), fc.nat(3), fc.string({ maxLength: 4 })), { maxLength: 4 }), (text, raw) => {
        let end = 0;
        const edits = raw.sort((a, b) => a[0] - b[0]).flatMap(([at, remove, insert]) => {
          if (at < end || at + remove > text.length) return [];
          end = at + remove;
          return [{ at, remove, insert }];
        });
        const { text: made, back } = applyEdits(text, edits);
        const kept = [...text].length >= 0 ? Array.from({ length: text.length }, (_, i) => i).filter((i) => !edits.some((e) => i >= e.at && i < e.at + e.remove)) : [];
        let from = 0;
        for (const i of kept) {
          const before = edits.filter((e) => e.at <= i);
          const now = i + before.reduce((sum, e) => sum + e.insert.length - e.remove, 0);
          expect(made[now]).toBe(text[i]);
          expect(back(now)).toBe(i);
          from = now;
        }
        expect(back(made.length)).toBe(text.length);
        expect(from).toBeLessThanOrEqual(made.length);
      }),
      { seed: 11, numRuns: 300 },
    );
  });

  it("line and column there and back", () => {
    const text = "ab\n\ncde";
    expect(placeOf(text, 5)).toEqual({ line: 2, column: 1 });
    expect(offsetOf(text, 2, 1)).toBe(5);
    expect(offsetOf(text, 0, 9)).toBe(2);
    expect(offsetOf(text, 9, 0)).toBe(7);
  });
});

describe("tidying a cell", () => {
  it("writes shorthand properties and renamed bindings out, elsewhere nothing", () => {
    expect(tidy("f({ a, b: 1, c })")).toBe('f({ "a": a, b: 1, "c": c })');
    expect(tidy("const { a: x, b } = o; const { c: { d: y = 1 } } = o")).toBe('const { "a": x, b } = o; const { "c": { "d": y = 1 } } = o');
    expect(tidy("({ a, b = 2 } = o)")).toBe('({ "a": a, "b": b = 2 } = o)');
    for (const same of ["const a = 1", "class A { a = 1; b() { return this.a } }", "o.a.b()", "", "   // nothing"]) expect(tidy(same)).toBe(same);
  });
  it("blanks export, keeping lines and columns", () => {
    expect(tidy("export const a = 1")).toBe("       const a = 1");
    expect(tidy("export { a };\nb")).toBe("             \nb");
    expect(tidy("export default a")).toBe("               a");
    expect(tidy("export default function () {}")).toBe("export default function () {}");
    expect(tidy("export * from 'x'")).toBe("export * from 'x'");
  });
  it("sees for await outside functions only", () => {
    expect(tidyCell(parser, "for await (const a of b) c(a)").awaitsInLoop).toBe(true);
    expect(tidyCell(parser, "async () => { for await (const a of b) c(a) }").awaitsInLoop).toBe(false);
    expect(tidyCell(parser, "for (const a of b) c(a)").awaitsInLoop).toBe(false);
  });
});

describe("guards in loops", () => {
  it("stand in asynchronous code only, on the loop's own line", () => {
    expect(guard("while (a) { b() }", false)).toBe("while (a) { b() }");
    expect(guard("while (a) { b() }", true)).toBe("while (a) { SOMETIMES LOOK; b() }");
    expect(guard("for (;;) await b();", true)).toBe("for (;;) { LOOK; await b(); }");
    expect(guard("do x++; while (x < 9)", true)).toBe("do { SOMETIMES LOOK; x++; } while (x < 9)");
    expect(guard("async function f() { for (const a of b) c(a) } function g() { for (;;) {} }", false)).toBe("async function f() { for (const a of b) { SOMETIMES LOOK; c(a) } } function g() { for (;;) {} }");
    expect(guard("for (const a of b) { const f = async () => { await 1; } }", true)).toBe("for (const a of b) { SOMETIMES LOOK; const f = async () => { await 1; } }");
    expect(guard("for (;;) for (;;) await 1;", true)).toBe("for (;;) { LOOK; for (;;) { LOOK; await 1; } }");
  });
});

describe("is it a whole cell", () => {
  const rows: [string, string][] = [["1", "complete"], ["const a = {", "incomplete"], ["`open", "incomplete"], ["/* open", "incomplete"], ["let 1a", "invalid"], ["<number>x", "complete"], ["'open", "invalid"], ["1 +\n", "incomplete"], ["if (a) {\n  b()\n}", "complete"]];
  for (const [code, status] of rows) it(`${JSON.stringify(code)} is ${status}`, () => expect(isComplete(parser, code).status).toBe(status));
  it("indents after an opening bracket", () => {
    expect(isComplete(parser, "if (a) {\n  for (;;) {")).toEqual({ status: "incomplete", indent: "    " });
    expect(isComplete(parser, "const a = [\n  1,")).toEqual({ status: "incomplete", indent: "  " });
  });
});
