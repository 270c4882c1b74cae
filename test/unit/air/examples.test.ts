import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import * as airtides from "../../../lib/index.js";

const room = new URL("../../../lib/air/", import.meta.url);

describe("examples in the documentation of lib/air", () => {
  for (const file of readdirSync(room).filter((f) => f.endsWith(".ts"))) {
    const text = readFileSync(new URL(file, room), "utf8");
    for (const [, call, answer] of text.matchAll(/@example (.+) \/\/ (-?[\d.]+)$/gm) as Iterable<[string, string, string]>) {
      // Public ones are run by test/laws/publicNames.test.ts.
      if (call.split("(")[0] in airtides) continue;
      it(`${call} is ${answer}`, async () => {
        const exported = (await import(new URL(file, room).href)) as Record<string, unknown>;
        const got = new Function(...Object.keys(exported), `return ${call}`)(...Object.values(exported)) as number;
        // As near as the printed digits say.
        const digits = (answer.split(".")[1] ?? "").length;
        expect(Math.abs(got - Number(answer)), `got ${got}`).toBeLessThanOrEqual(0.501 * 10 ** -digits);
      });
    }
    it(`${file}: every exported function that has @param has a source`, () => {
      for (const [block] of text.matchAll(/\/\*\*[\s\S]*?\*\/\nexport function/g)) if (block.includes("@returns")) expect(block).toContain("@source");
    });
  }
});
