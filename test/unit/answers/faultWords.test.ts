import { describe, expect, it } from "vitest";
import { checkRecord } from "../../../lib/answers/checkRecord.js";
import { faultWords } from "../../../lib/answers/faultWords.js";
import { reportAnswers } from "../../../lib/door/page/reportAnswers.js";
import { trustPart } from "../../../lib/door/page/trustPart.js";
import { trustFigure } from "../../../lib/figure/trustFigure.js";
import type { AirRecord } from "../../../lib/record/airRecord.js";
import { type FlagName, flagBit, flagNames, leftOut } from "../../../lib/record/flag.js";
import { recordFromSeries } from "../../../lib/record/recordFromSeries.js";
import { series } from "../../../lib/record/series.js";

/** Two days in which one reading carries each flag. */
function marked(): AirRecord {
  const times = Array.from({ length: 96 }, (_, i) => Date.UTC(2024, 2, 1) + 1_800_000 * i);
  const flags = times.map((_, i) => (i % 10 === 5 && i < 70 ? flagBit[flagNames[(i - 5) / 10]] : 0));
  const values = times.map((_, i) => 20 + Math.sin(i / 7) + (i % 3) / 10);
  return recordFromSeries([series({ times, values, flags, quantity: "air_temperature", place: "porch" })], { name: "marked", places: { porch: { exposure: "outdoor" } } });
}

describe("faultWords", () => {
  it("has every flag, in the order of flagNames, and says of each whether an analysis leaves it out", () => {
    expect(Object.keys(faultWords)).toEqual(flagNames);
    for (const flag of flagNames) expect(faultWords[flag].use.startsWith("left out"), flag).toBe((flagBit[flag] & leftOut) !== 0);
  });

  it("text, page and figure tell each fault by the same words", () => {
    const record = marked();
    const answers = reportAnswers(record);
    const text = String((checkRecord(record) as { [key: symbol]: () => Record<string, string> })[Symbol.for("Jupyter.display")]()["text/plain"]);
    const rows = trustPart(answers, []).tables.find((t) => t.caption.startsWith("Faulty readings"))?.rows ?? [];
    const labels = (trustFigure(answers.record, answers.check).table?.rows ?? []).map((row) => row[1]);
    for (const flag of Object.keys(faultWords) as FlagName[]) {
      const { what, use } = faultWords[flag];
      expect(text, flag).toContain(`  ${what}: `);
      expect(text.replace(/\s+/g, " "), flag).toContain(`(${use})`);
      expect(rows.some((row) => row[3] === what && row[6] === use), flag).toBe(true);
      expect(labels, flag).toContain(what);
    }
  });
});
