import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import * as airtides from "../../../lib/index.js";
import { isClose } from "../../close.js";

const room = new URL("../../../lib/ground/", import.meta.url);
const files = ["distributions", "leastSquares", "matrixFactors", "longRunVariance", "regressionAr1", "summary", "lag1Autocorrelation", "random", "sun", "sunPosition", "solarTime", "minimum", "bandedSolver"];
const exported: Record<string, unknown> = Object.assign({}, ...(await Promise.all(files.map((f) => import(new URL(`${f}.ts`, room).href)))));

/** Numbers as told, each with half of its last digit; an instant counts in ms, to the 20 s promised for the sun. */
function told(text: string): { wanted: number; within: number }[] {
  if (text.endsWith(" UTC")) return [{ wanted: Date.parse(`${text.slice(0, -4).replace(" ", "T")}Z`), within: 20000 }];
  return text.split(", ").map((w) => {
    const digits = w.replace(/ .*/, "").split(".")[1]?.length;
    return { wanted: Number.parseFloat(w), within: digits === undefined ? 1e-9 : 0.501 * 10 ** -digits };
  });
}

describe("examples in the documentation of the numbers of lib/ground", () => {
  let seen = 0;
  for (const file of files) {
    const text = readFileSync(new URL(`${file}.ts`, room), "utf8");
    for (const [, call, answer] of text.matchAll(/@example (.+?) \/\/ (.+)$/gm)) {
      // Public ones are run by test/laws/publicNames.test.ts.
      if (call.split("(")[0] in airtides) continue;
      seen++;
      it(`${call} is ${answer}`, () => {
        const got = new Function(...Object.keys(exported), `return ${call}`)(...Object.values(exported)) as number | boolean | ArrayLike<number>;
        if (typeof got === "boolean") return expect(String(got)).toBe(answer);
        const values = typeof got === "number" ? [got] : Array.from(got);
        const all = told(answer);
        expect(values.length).toBe(all.length);
        for (const [i, { wanted, within }] of all.entries()) expect(isClose(values[i], wanted, { absolute: within }), `got ${values[i]}`).toBe(true);
      });
    }
  }
  it("finds the examples it runs", () => expect(seen).toBeGreaterThan(9));
});
