import { expect, it } from "vitest";
import { openQuestions } from "../../../../lib/record/description/openQuestions.js";
import { planRecord } from "../../../../lib/record/description/planRecord.js";
import { column, type Loose } from "../card.js";

const open = (d: Loose): string[] => openQuestions(d).map((q) => q.path);
const draft = (): Loose => column("Z", (_, d) => {
  d.places = { "by the door": { exposure: "outdoor" } };
  d.questions = [
    { path: "site", ask: "where?" },
    { path: "resources[0].schema.fields[0].zone", drafted: "Z", ask: "which clock?" },
    { path: 'places["by the door"].exposure', drafted: "outdoor", ask: "outside?" },
  ];
});

it("a question is open until the value at its path is another than the drafted one", () => {
  const d = draft();
  expect(open(d)).toEqual(["site", "resources[0].schema.fields[0].zone", 'places["by the door"].exposure']);
  d.site = { latitude: 1, longitude: 2, elevation: 3 };
  d.resources[0].schema.fields[0].zone = "+01:00";
  expect(open(d)).toEqual(['places["by the door"].exposure']);
  d.places["by the door"].exposure = "indoor";
  expect(open(d)).toEqual([]);
});

it("or until its entry is taken out", () => {
  const d = draft();
  d.questions = d.questions.slice(1, 2);
  expect(open(d)).toEqual(["resources[0].schema.fields[0].zone"]);
  delete d.questions;
  expect(openQuestions(d)).toEqual([]);
});

it("one whose path leads nowhere stays open", () => {
  const d = draft();
  d.questions = [{ path: "resources[7].name", ask: "?" }, { path: "", ask: "?" }, { path: "a.b[", drafted: "x", ask: "?" }];
  expect(open(d)).toEqual(["resources[7].name", "", "a.b["]);
});

it("the plan of a record carries them, and a question of the wrong shape is a fault with its path", () => {
  expect(planRecord(draft()).questions).toHaveLength(3);
  const d = draft();
  d.questions[1] = { path: 5, ask: "" };
  expect(() => planRecord(d)).toThrow("questions[1].path must be text (got 5)");
});
