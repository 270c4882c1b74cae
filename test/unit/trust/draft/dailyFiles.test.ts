import { describe, expect, it } from "vitest";
import type { LogSample } from "../../../../lib/trust/draft/logSample.js";
import { draftDescription } from "../../../../lib/trust/draft/draftDescription.js";

const two = (n: number): string => String(n).padStart(2, "0");
/** A file a day from 4 March 2023 on, of one logger or of two: most days alone do not tell day from month. */
function dailyFiles(order: "day first" | "month first", loggers: readonly string[], days: number): LogSample[] {
  return loggers.flatMap((who, w) =>
    Array.from({ length: days }, (_, d): LogSample => {
      const rows = Array.from({ length: 48 }, (_, k) => {
        const t = new Date(Date.UTC(2023, 2, 4 + d) + k * 1_800_000);
        const [day, month] = [two(t.getUTCDate()), two(t.getUTCMonth() + 1)];
        const hour = k / 2;
        return `${order === "day first" ? `${day}/${month}` : `${month}/${day}`}/2023,${two(t.getUTCHours())}:${two(t.getUTCMinutes())},${(20 - (5 - 3 * w) * Math.cos((hour - 3) / 3.82) + 0.1 * d).toFixed(1)},${(860 + Math.sin(d) + 0.01 * k).toFixed(1)}`;
      });
      const head = new TextEncoder().encode(`date,time,temp,press\n${rows.join("\n")}\n`);
      return { path: `${who}${d + 1}.csv`, head, tail: null, bytes: head.length };
    }),
  );
}

describe.each([["day first", "%d/%m/%Y"], ["month first", "%m/%d/%Y"]] as const)("a file a day, %s", (order, format) => {
  it("of one logger: one later file tells the order for all, and they stand in order of time", () => {
    const { draft, record, questions } = draftDescription(dailyFiles(order, ["log"], 14));
    expect(draft.resources.map((r) => [r.path].flat())).toEqual([Array.from({ length: 14 }, (_, d) => `log${d + 1}.csv`)]);
    expect(draft.resources[0].schema.fields[0].format).toBe(format);
    expect(questions.filter(({ path }) => path.endsWith(".format"))).toEqual([]);
    expect(Object.values(record.places)[0].readings).toBe(14 * 48);
  });

  it("of two loggers: each by its own files", () => {
    const { draft, questions } = draftDescription(dailyFiles(order, ["porch", "den"], 14));
    expect(draft.resources.map((r) => [[r.path].flat().length, r.schema.fields[0].format])).toEqual([[14, format], [14, format]]);
    expect(questions.filter(({ path }) => path.endsWith(".format"))).toEqual([]);
  });

  it("while none tells, by the order in which they follow each other", () => {
    for (const loggers of [["log"], ["porch", "den"]]) {
      const { draft, guesses, questions } = draftDescription(dailyFiles(order, loggers, 6));
      expect(draft.resources.map((r) => [[r.path].flat(), r.schema.fields[0].format])).toEqual(loggers.map((l) => [Array.from({ length: 6 }, (_, d) => `${l}${d + 1}.csv`), format]));
      expect(guesses.find(({ path }) => path === "resources[0].schema.fields[0].format")?.because).toMatch(/the files follow each other/);
      expect(questions.filter(({ path }) => path.endsWith(".format"))).toEqual([]);
    }
  });

  it("of one day alone, the order is asked", () => {
    const { questions } = draftDescription(dailyFiles(order, ["log"], 1));
    expect(questions.filter(({ path }) => path.endsWith(".format")).length).toBe(1);
  });
});
