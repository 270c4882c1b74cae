import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { openRecord } from "../../lib/door/disk/openRecord.js";
import { fitTides, flagRecord } from "../../lib/index.js";
import { root } from "../laws/sources.js";

describe("the library's ten lines in README.md", () => {
  const text = readFileSync(join(root, "README.md"), "utf8");

  it("name only what is public", async () => {
    const names = /import \{ ([^}]+) \} from "airtides";/.exec(text)?.[1].split(", ") ?? [];
    const all = await import("../../lib/index.js");
    expect(names.length).toBeGreaterThan(1);
    expect(names.filter((n) => !(n in all))).toEqual([]);
    expect(Object.keys(await import("../../lib/door/disk/disk.js"))).toContain("openRecord");
  });

  it("mark the faults, and so give the planted tide; without the mark the fit is as wrong as the page says", async () => {
    const raw = await openRecord(join(root, "datasets", "hill-school"));
    const s2 = (record: typeof raw) => fitTides(record.places.veranda.series.surface_air_pressure!, { longitude: raw.site!.longitude, climatology: false }).constituents[1].amplitude;
    const marked = s2(flagRecord(raw));
    expect(marked.low <= 1.08 && 1.08 <= marked.high).toBe(true);
    expect(Math.abs(s2(raw).value - 1.32)).toBeLessThan(0.01);
    expect(text).toContain("flagRecord(await openRecord(");
  });
});
