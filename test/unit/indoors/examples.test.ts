import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import * as airtides from "../../../lib/index.js";

const room = new URL("../../../lib/indoors/", import.meta.url);

describe("examples in the documentation of lib/indoors", () => {
  for (const file of readdirSync(room).filter((f) => f.endsWith(".ts"))) {
    const text = readFileSync(new URL(file, room), "utf8");
    // Calls on a record's arrays show a shape; those that stand by themselves are run.
    for (const [, call, answer] of text.matchAll(/@example (.+) \/\/ (-?[\d.]+)$/gm) as Iterable<[string, string, string]>) {
      // Public ones are run by test/laws/publicNames.test.ts.
      if (call.split("(")[0] in airtides) continue;
      if (/\b(inside|outside|hourly|daily|before|after|hours|record|library|temperature,)\b/.test(call.replace(/"[^"]*"|\w+:/g, ""))) continue;
      it(`${call} is ${answer}`, async () => {
        const exported = (await import(new URL(file, room).href)) as Record<string, unknown>;
        const got = new Function(...Object.keys(exported), `return ${call}`)(...Object.values(exported)) as number;
        const digits = (answer.split(".")[1] ?? "").length;
        expect(Math.abs(Number(got) - Number(answer)), `got ${got}`).toBeLessThanOrEqual(0.501 * 10 ** -digits);
      });
    }
    it(`${file}: every exported function that tells what it returns has a source`, () => {
      for (const [block] of text.matchAll(/\/\*\*(?:(?!\*\/)[\s\S])*\*\/\nexport function/g)) if (block.includes("@returns") && block.includes("@param") && block.includes("@example")) expect(block, block.slice(0, 200)).toContain("@source");
    });
  }
});
