import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";

const room = new URL("../../../../lib/cycles/spectrum/", import.meta.url);
const files = readdirSync(room).filter((f) => f.endsWith(".ts"));
const exported: Record<string, unknown> = Object.assign({}, ...(await Promise.all(files.map((f) => import(new URL(f, room).href)))));

/** The record that the examples speak of: ten days of hours with a twice-daily line of 1.16 hPa. */
const tenDaysHourly = Float64Array.from({ length: 240 }, (_, j) => 861 + 1.16 * Math.cos((2 * Math.PI * 2 * j) / 24 + 1.2));

describe("examples in the documentation of lib/cycles/spectrum", () => {
  let seen = 0;
  for (const file of files) {
    const text = readFileSync(new URL(file, room), "utf8");
    for (const [, call, told] of text.matchAll(/@example (.+?) \/\/ (.+)$/gm) as Iterable<[string, string, string]>) {
      seen++;
      it(`${call} is ${told}`, () => {
        const names = { ...exported, tenDaysHourly };
        const got = new Function(...Object.keys(names), `return ${call}`)(...Object.values(names)) as number | string | ArrayLike<number>;
        const answer = told.replace(/ \(.*\)$/, "");
        if (typeof got === "string") return expect(JSON.stringify(got)).toBe(answer);
        const wanted = answer.split(", ");
        const values = typeof got === "number" ? [got] : Array.from(got);
        expect(values.length).toBe(wanted.length);
        // As near as the printed digits say.
        wanted.forEach((w, i) => void expect(Math.abs(values[i] - Number(w)), `got ${values[i]}`).toBeLessThanOrEqual(0.501 * 10 ** -(w.split(".")[1] ?? "").length * (w.includes(".") ? 1 : 1e-9)));
      });
    }
    it(`${file}: every exported function with parameters to explain says what it gives or when it fails`, () => {
      for (const [block] of text.matchAll(/\/\*\*(?:(?!\*\/)[\s\S])*\*\/\nexport function/g)) if (block.includes("@returns") && block.includes("@throws")) expect(block).toContain("@source");
    });
  }
  it("finds the examples it runs", () => expect(seen).toBeGreaterThan(18));
});
