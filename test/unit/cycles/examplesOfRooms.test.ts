import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import * as airtides from "../../../lib/index.js";

/** Examples of functions that are not public (test/laws/publicNames.test.ts runs those) whose answer is one number or word are run; the others show a call on data of the reader's own. */
const evaluable = /@example (.+) \/\/ (-?[\d.]+|null|"[^"]*")$/gm;

for (const room of ["swings", "climate"]) {
  const folder = new URL(`../../../lib/cycles/${room}/`, import.meta.url);
  const files = readdirSync(folder).filter((f) => f.endsWith(".ts"));
  describe(`examples and sources in lib/cycles/${room}`, async () => {
    const all: Record<string, unknown> = {};
    for (const file of files) Object.assign(all, await import(new URL(file, folder).href));
    let run = 0;
    for (const file of files) {
      const text = readFileSync(new URL(file, folder), "utf8");
      for (const [, call, answer] of text.matchAll(evaluable) as Iterable<[string, string, string]>) {
        if (call.split("(")[0] in airtides) continue;
        if (/\b(hours|readings|temperature|means|months|days, \{)\b/.test(call)) continue;
        run++;
        it(`${call} is ${answer}`, () => {
          const got: unknown = new Function(...Object.keys(all), `return ${call.replaceAll("NaN", "Number.NaN")}`)(...Object.values(all));
          const first = ArrayBuffer.isView(got) ? (got as Float64Array)[0] : got;
          if (!/^-?[\d.]+$/.test(answer)) return expect(first).toBe(JSON.parse(answer));
          const digits = (answer.split(".")[1] ?? "").length;
          expect(Math.abs(Number(first) - Number(answer)), `got ${first}`).toBeLessThanOrEqual(0.501 * 10 ** -digits);
        });
      }
    }
    it("are found", () => expect(run).toBeGreaterThan(0));
  });
}
