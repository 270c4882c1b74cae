import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { readRecord } from "../../../../lib/record/readRecord.js";
import { draftDescription } from "../../../../lib/trust/draft/draftDescription.js";
import { packageFaults } from "./packageRules.js";

const root = new URL("../../../../datasets/", import.meta.url).pathname;

/** The true description of a dataset, the draft made without it, and both as our reader reads them. */
async function both(name: string): Promise<{ truth: any; made: ReturnType<typeof draftDescription>; read: (description: any) => ReturnType<typeof readRecord> }> {
  const truth = JSON.parse(readFileSync(join(root, name, "datapackage.json"), "utf8"));
  const paths: string[] = [truth.resources[0].path].flat();
  const bytes = Object.fromEntries(paths.map((p) => [p, new Uint8Array(readFileSync(join(root, name, p)))]));
  const made = draftDescription(paths.map((path) => ({ path, head: bytes[path], tail: null, bytes: bytes[path].length })), { name });
  expect(packageFaults(made.draft)).toEqual([]);
  return { truth, made, read: (d) => readRecord(d, (path) => [bytes[path]]) };
}

it("hill-school: all but what only its owner knows is as its true description has it", async () => {
  const { truth, made, read } = await both("hill-school");
  const [own, drafted] = [truth.resources[0], made.draft.resources[0]];
  expect(made.draft.name).toBe("hill-school");
  expect([drafted.path, drafted.dialect, drafted.schema.missingValues]).toEqual([own.path, own.dialect, own.schema.missingValues]);
  for (const k of [3, 4, 5]) expect(drafted.schema.fields[k]).toEqual(own.schema.fields[k]);
  expect(drafted.schema.fields[2]).toMatchObject({ name: "who", type: "string", role: "place", values: { V: "v", L: "l" } });
  expect(made.draft.places).toMatchObject({ v: { exposure: "outdoor" }, l: { exposure: "indoor" } });
  expect(made.questions.map((q) => q.path)).toEqual(["title", "site", "places.l.exposure", "places.v.exposure", "resources[0].schema.fields[1].zone", "resources[0].sampling"]);
  expect(made.questions[1].ask).toMatch(/usual at 13\d0 ± 1\d0 m/);
  // Answered, it reads what the true description reads.
  const answered = structuredClone(made.draft) as any;
  answered.resources[0].schema.fields[1].zone = "+07:00";
  answered.clock = truth.clock;
  const [a, b] = [await read(answered), await read(truth)];
  expect(a.files).toEqual(b.files);
  expect(a.places.v.series.air_temperature?.values).toEqual(b.places.veranda.series.air_temperature?.values);
  expect(a.places.l.series.surface_air_pressure?.values).toEqual(b.places.library.series.surface_air_pressure?.values);
  expect(a.places.l.seconds).toEqual(b.places.library.seconds);
}, 60000);

it("harbor-loft: fields, units, places, zone and exposures are those of its true description", async () => {
  const { truth, made } = await both("harbor-loft");
  expect(made.draft.resources[0].schema).toEqual(truth.resources[0].schema);
  expect(made.draft.resources[0].path).toEqual(truth.resources[0].path);
  expect(Object.fromEntries(Object.entries(made.draft.places ?? {}).map(([p, x]) => [p, x.exposure]))).toEqual({ harbor: "outdoor", loft: "indoor" });
  // Europe/London is told by its skipped and repeated hours, and asked all the same.
  expect(made.questions.map((q) => q.path)).toContain("resources[0].schema.fields[0].zone");
}, 60000);

it("puget-normals: as its true description, but that pressure near sea level may be reduced is asked", async () => {
  const { truth, made } = await both("puget-normals");
  const [own, drafted] = [truth.resources[0].schema.fields, made.draft.resources[0].schema.fields];
  expect(drafted[0]).toEqual({ ...own[0], zone: "Z" });
  expect(drafted[1]).toEqual({ ...own[1], quantity: "surface_air_pressure" });
  expect(drafted[2]).toEqual(own[2]);
  expect(drafted[3]).toEqual(own[3]);
  expect(made.questions.find((q) => q.path === "resources[0].schema.fields[1].quantity")?.ask).toContain("air_pressure_at_mean_sea_level");
}, 60000);
