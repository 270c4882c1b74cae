import { describe, expect, it } from "vitest";
import { plainJson } from "../../../lib/ground/plainJson.js";

describe("plainJson", () => {
  it("lists for typed arrays, null for what is not finite, at every depth; keys keep their order", () => {
    const given = Object.freeze({ z: Float64Array.of(861.2, Number.NaN, -0.5), a: [Infinity, { n: -Infinity, ok: 3 }], flags: Uint8Array.of(1, 0), none: new Float64Array(0) });
    const plain = plainJson(given);
    expect(plain).toEqual({ z: [861.2, null, -0.5], a: [null, { n: null, ok: 3 }], flags: [1, 0], none: [] });
    expect(Object.keys(plain as object)).toEqual(["z", "a", "flags", "none"]);
    expect(JSON.stringify(plain)).toBe('{"z":[861.2,null,-0.5],"a":[null,{"n":null,"ok":3}],"flags":[1,0],"none":[]}');
    expect(given.z[2]).toBe(-0.5);
  });

  it("other plain values as they are, and the bytes of a DataView are no list of numbers", () => {
    for (const value of ["NaN", "", true, false, null, undefined, 0, -3.5]) expect(plainJson(value)).toBe(value);
    expect(plainJson(Number.NaN)).toBe(null);
    expect(plainJson({ gone: undefined, no: null })).toEqual({ gone: undefined, no: null });
    expect(plainJson(new DataView(new ArrayBuffer(2)))).toEqual({});
  });
});
