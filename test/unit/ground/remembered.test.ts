import { describe, expect, it } from "vitest";
import { remembered } from "../../../lib/ground/remembered.js";

describe("remembered", () => {
  it("makes a result once for an object and its words, and hands out the same one", () => {
    const ask = remembered<object, number[]>();
    let made = 0;
    const make = (): number[] => [++made];
    const series = Object.freeze({});
    const first = ask(series, "mean", make);
    expect(first).toEqual([1]);
    expect(ask(series, "mean", make)).toBe(first);
    expect(made).toBe(1);
  });

  it("keeps words, objects and routines apart", () => {
    const ask = remembered<object, string>();
    const other = remembered<object, string>();
    const a = {};
    const b = {};
    expect(ask(a, "x", () => "ax")).toBe("ax");
    expect(ask(a, "y", () => "ay")).toBe("ay");
    expect(ask(b, "x", () => "bx")).toBe("bx");
    expect(other(a, "x", () => "elsewhere")).toBe("elsewhere");
    const never = (): string => { throw new Error("made twice"); };
    expect([ask(a, "x", never), ask(a, "y", never), ask(b, "x", never), other(a, "x", never)]).toEqual(["ax", "ay", "bx", "elsewhere"]);
  });

  it("remembers that there is no answer, too", () => {
    const ask = remembered<object, number | undefined>();
    let made = 0;
    const key = {};
    for (let i = 0; i < 3; i++) expect(ask(key, "", () => void made++)).toBeUndefined();
    expect(made).toBe(1);
  });

  it("keeps nothing of a making that failed", () => {
    const ask = remembered<object, number>();
    const key = {};
    expect(() => ask(key, "a", () => { throw new RangeError("no"); })).toThrow("no");
    expect(ask(key, "a", () => 7)).toBe(7);
  });

  it("may be asked for one result while it makes another of the same object", () => {
    const ask = remembered<object, number>();
    const key = {};
    expect(ask(key, "sum", () => 1 + ask(key, "part", () => 2))).toBe(3);
    expect(ask(key, "part", () => Number.NaN)).toBe(2);
  });
});
