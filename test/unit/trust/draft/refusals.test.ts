import { expect, it } from "vitest";
import { RecordError } from "../../../../lib/ground/complaint.js";
import { draftDescription } from "../../../../lib/trust/draft/draftDescription.js";
import { plainColumns, rowsOf, stamp } from "./shapes.js";

/** The complaint about one log. */
function complaint(file: string | Uint8Array, path = "card.txt"): { message: string; kind: string } {
  const head = typeof file === "string" ? new TextEncoder().encode(file) : file;
  try {
    draftDescription([{ path, head, tail: null, bytes: head.length }]);
  } catch (error) {
    expect(error).toBeInstanceOf(RecordError);
    return { message: (error as RecordError).message, kind: (error as RecordError).kind };
  }
  return { message: "nothing was thrown", kind: "" };
}

const { at, cells } = rowsOf({ seed: 300, columns: plainColumns, steps: 200 });
const csv = (row: (t: number, c: string[], i: number) => string, header = "time,temp,hum,press"): string => `${header}\n${at.map((t, i) => row(t, cells[i], i)).join("\n")}\n`;
const remedies = "convert it, and add a column with date and time such as 2024-03-01 09:05 first";
const count = "a count in column 1, time that begins anywhere); work out the time of each row from the moment the logger was started, and add a column with date and time such as 2024-03-01 09:05 first";
const tell = "card.txt must tell date and time in each row";

const data: readonly (readonly [string, string, string])[] = [
  ["milliseconds since the start, in ten digits", csv((_, c, i) => [1_500_000_000 + 600_000 * i, ...c].join(",")), `${tell} (got ${count}`],
  ["seconds of a clock that was never set", csv((_, c, i) => [600 * i + 17, ...c].join(",")), `${tell} (got ${count}`],
  ["seconds of a clock set to 1999", csv((_, c, i) => [946_684_799 - 600 * 200 + 600 * i, ...c].join(",")), `${tell} (got ${count}`],
  ["a spreadsheet's days", csv((_, c, i) => [(45000 + i / 144).toFixed(5), ...c].join(",")), `${tell} (got a spreadsheet's day numbers in column 1, time, which are not read); let the spreadsheet write date and time in full (2024-03-01 09:05) and save again`],
  ["Julian days", csv((_, c, i) => [(2460367.5 + i / 144).toFixed(5), ...c].join(",")), `${tell} (got Julian day numbers in column 1, time, which are not read); ${remedies}`],
  ["columns of the calendar", csv((t, c) => [...stamp(t, "%Y %m %d %H %M").split(" ").map(Number), ...c].join(","), "y,m,d,h,min,temp,hum,press"), `${tell} (got year, month and day in columns of their own, from column 1, y on, which are not read); join them into one column such as 2024-03-01 09:05`],
  ["no date", csv((t, c) => [stamp(t, "%H:%M"), ...c].join(",")), `${tell} (got a time of day alone in column 1, time); add a column with the date; a date in the file's name is not read`],
  ["two rows a day without time", csv((_, c, i) => [stamp(at[0] + 86_400_000 * (i >> 1), "%Y-%m-%d"), ...c].join(",")), `${tell} (got a date alone in column 1, time, and not one row a day); add a column with the time of day`],
  ["a row a week", csv((_, c, i) => [stamp(at[0] + 7 * 86_400_000 * i, "%Y-%m-%d"), ...c].join(",")), `${tell} (got a date alone in column 1, time, and not one row a day); add a column with the time of day`],
  ["no time, many rows a day", csv((t, c) => [stamp(t, "%d.%m.%Y"), ...c].join(",")), `${tell} (got a date alone in column 1, time, and not one row a day); add a column with the time of day`],
  ["a count", csv((_, c, i) => [i * 600, ...c].join(",")), `${tell} (got a count in column 1, time that begins anywhere); work out the time of each row from the moment the logger was started, and add a column with date and time such as 2024-03-01 09:05 first`],
  ["months of another language", csv((t, c) => [stamp(t, "%d. %b %Y %H:%M").replace("Feb", "fév"), ...c].join(",")), `${tell} (got names of months that are not English in column 1, time, "26. fév 2024 00:00"); write the month as a number or in English`],
  ["names of days", csv((t, c, i) => [`${["Mon", "Tue"][Math.floor(i / 144)]} ${stamp(t, "%d/%m/%Y %H:%M")}`, ...c].join(",")), `${tell} (got words before the date in column 1, time, "Mon 26/02/2024 00:00", which are not read); take the names of days away, or write ISO 8601`],
  ["a clock of twelve without halves", csv((t, c) => [stamp(t, "%Y-%m-%d %I:%M"), ...c].join(",")), `${tell} (got hours from 1 to 12 that come twice a day, with no AM or PM beside them); let the logger write 24 hours, or join AM and PM to the time in its column, such as 2:05 PM`],
  ["one value a row", csv((t, c) => ["temperature", "humidity"].map((q, k) => [stamp(t, "%Y-%m-%d %H:%M"), q, c[k]].join(",")).join("\n"), "time,name,value"), "card.txt must hold a column for each quantity (got one value a row, and column 2 says which quantity it is: temperature, humidity); turn it into one row a time with a column for each quantity"],
  ["commas for both", csv((t, c) => [stamp(t, "%Y-%m-%d %H:%M"), ...c.slice(0, 2).map((x) => x.replace(".", ","))].join(","), "time,temp,hum"), `card.txt must write decimals with another sign than the one between the cells (got commas for both, such as in 2024-02-26 00:00,${cells[0].slice(0, 2).join(",").replaceAll(".", ",")}); save it with semicolons or tabs between the cells, or with decimal points`],
  ["a header alone", "time,temp,hum\n", "card.txt must hold rows of readings (got no line with a number); is it a header alone, or another file?"],
  ["nothing of the air", csv((t) => `${stamp(t, "%Y-%m-%d %H:%M")},3.3`, "time,volts"), 'card.txt must hold temperature, humidity or air pressure (got none that could be told: column 2: its name is "volts", which is nothing that is read here)'],
];

it.each(data)("%s: one sentence, exit 1", (_, file, sentence) => {
  expect(complaint(file)).toEqual({ message: sentence, kind: "data" });
});

const bytes = (...list: readonly number[]): Uint8Array => Uint8Array.from([...list, ...Array.from({ length: 200 }, (_, i) => (i * 89) % 256)]);
const files: readonly (readonly [string, string | Uint8Array, string])[] = [
  ["empty", "", "card.txt must hold at least one row (got an empty file)"],
  ["blanks", "\n \n\t\n", "card.txt must hold at least one row (got nothing but blanks)"],
  ["a picture", bytes(0x89, 0x50, 0x4e, 0x47), "card.txt must be a text log (got a picture); save or copy the log as plain text, such as csv"],
  ["an archive or workbook", bytes(0x50, 0x4b, 3, 4), "card.txt must be a text log (got a packed archive or a workbook); save or copy the log as plain text, such as csv"],
  ["bytes", bytes(1, 2, 3, 4, 5), "card.txt must be a text log (got bytes that are no text); save or copy the log as plain text, such as csv"],
  ["an erased card", new Uint8Array(5000), "card.txt must be a text log (got hardly anything but NUL bytes); save or copy the log as plain text, such as csv"],
  ["JSON", '{ "t": 1 }', "card.txt must be a text log with one reading a line (got JSON); write the readings out as a table first"],
  ["a page", "<html><body>21 degrees</body></html>", "card.txt must be a text log with one reading a line (got a page of markup); write the readings out as a table first"],
];

it.each(files)("%s: one sentence, exit 2", (_, file, sentence) => {
  expect(complaint(file)).toEqual({ message: sentence, kind: "description" });
});

it("a log that cannot be described does not keep the others from it", () => {
  const good = new TextEncoder().encode(csv((t, c) => [stamp(t, "%Y-%m-%d %H:%M"), ...c].join(",")));
  const made = draftDescription([
    { path: "empty.txt", head: new Uint8Array(0), tail: null, bytes: 0 },
    { path: "card.txt", head: good, tail: null, bytes: good.length },
  ]);
  expect(made.draft.resources.map((r) => r.path)).toEqual(["card.txt"]);
  expect(made.failures.map((f) => f.message)).toEqual(["empty.txt must hold at least one row (got an empty file)"]);
});
