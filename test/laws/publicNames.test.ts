import { beforeAll, describe, expect, it } from "vitest";
import * as airtides from "../../lib/index.js";
import { answerDiffers } from "./exampleAnswer.js";
import { exampleFixtures } from "./exampleFixtures.js";
import { missingIn, publicDeclarations, publicFunctions } from "./publicNames.js";

const functions = publicFunctions();

describe("law 8: every public name is documented, and every example is run", () => {
  it("finds the names", () => {
    expect(functions.length).toBeGreaterThan(150);
    expect(publicDeclarations().filter((d) => d.text === "").map((d) => `${d.name} (${d.path})`)).toEqual([]);
  });

  it("a public function says what it gives, its arguments, its result and an example", () => {
    expect(functions.flatMap((f) => missingIn(f).map((what) => `${f.name} (lib/${f.path}) lacks ${what}`))).toEqual([]);
  });

  it("refuses documentation with parts left out", () => {
    const whole = { name: "f", text: "", first: "The mean of some values.", described: ["values", "options"], parameters: ["values", ""], isVoid: false, tags: ["param", "returns", "example"] };
    expect(missingIn(whole)).toEqual([]);
    expect(missingIn({ ...whole, first: "" })).toEqual(["a first sentence"]);
    expect(missingIn({ ...whole, described: ["values"] })).toHaveLength(1);
    expect(missingIn({ ...whole, described: ["value", "options"] })).toHaveLength(2);
    expect(missingIn({ ...whole, tags: ["returns"] })).toEqual(["@example"]);
    expect(missingIn({ ...whole, tags: ["example"] })).toEqual(["@returns"]);
    expect(missingIn({ ...whole, tags: ["example"], isVoid: true })).toEqual([]);
  });
});

/**
 * Examples that show a call and no answer: a figure's sentence is too long to be told twice. They are run and must give something.
 * The number may only fall.
 */
const mostWithoutAnswer = 22;

describe("examples of public functions", () => {
  let names: Record<string, unknown> = {};
  beforeAll(async () => {
    names = { ...airtides, ...(await exampleFixtures()) };
  }, 60_000);
  const all = functions.flatMap((f) => f.examples.map((text) => ({ f, ...parted(text) })));

  for (const { f, call, answer } of all) {
    it(`${f.name}: ${call}`, async () => {
      // An example speaks of nothing but public names and of exampleFixtures.
      const run = new Function(...Object.keys(names), `return (async () => (${call}))()`) as (...values: unknown[]) => Promise<unknown>;
      const got = await run(...Object.values(names));
      expect(answerDiffers(got, answer)).toBe("");
    });
  }

  it("nearly all tell their answer", () => {
    expect(all.length).toBeGreaterThanOrEqual(functions.length);
    expect(all.filter((e) => e.answer === "").length).toBeLessThanOrEqual(mostWithoutAnswer);
  });
});

/** An example's call, and its answer after the last ` // `. */
function parted(text: string): { call: string; answer: string } {
  const at = text.lastIndexOf(" // ");
  return at < 0 ? { call: text.replace(/\s+/g, " "), answer: "" } : { call: text.slice(0, at).trim(), answer: text.slice(at + 4).trim() };
}
