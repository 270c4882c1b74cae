import { expect } from "vitest";
import { oneByte, plainColumns, rowsOf, type Shape, stamp, start, utf16 } from "./shapes.js";

const field = (draft: any, k: number, r = 0): any => draft.resources[r].schema.fields[k];
const dialect = (draft: any): any => draft.resources[0].dialect;
const lines = (header: string | null, rows: readonly string[], end = "\n"): string => [...(header === null ? [] : [header]), ...rows].join(end) + end;

/** Logs of one place that differ in lines, stamps and numbers. */
export const shapesOfLines = (): readonly Shape[] => [
  simple("commas, ISO with T, header", 1, (t, c) => [stamp(t, "%Y-%m-%dT%H:%M:%S"), ...c].join(","), "time,temperature,humidity,pressure"),
  simple("commas, ISO with blank, no header", 2, (t, c) => [stamp(t, "%Y-%m-%d %H:%M:%S"), ...c].join(","), null, (d) => expect(dialect(d).header).toBe(false)),
  simple("commas and blanks", 3, (t, c) => [stamp(t, "%Y-%m-%d %H:%M"), ...c].join(", "), "Time, Temp, RH, Baro"),
  simple("semicolons, decimal commas, trailing delimiter, German", 4, (t, c) => `${[stamp(t, "%d.%m.%Y %H:%M"), ...c.map((x) => x.replace(".", ","))].join(";")};`, "Datum;Temperatur [°C];Luftfeuchte [%];Luftdruck [hPa];", (d) => {
    expect(dialect(d).delimiter).toBe(";");
    expect(field(d, 1).decimalChar).toBe(",");
    expect(field(d, 0).format).toBe("%d.%m.%Y %H:%M");
  }),
  encoded("Latin-1 with degree signs", 5, "iso-8859-1", "Datum;Temperatur außen °C;Feuchte %;Luftdruck hPa", (t, c) => [stamp(t, "%d.%m.%Y %H:%M:%S"), ...c].join(";")),
  encoded("Cyrillic of one byte", 6, "windows-1251", "Дата;Температура;Влажность;Давление", (t, c) => [stamp(t, "%d.%m.%Y %H:%M"), ...c].join(";")),
  encoded("Cyrillic of another", 7, "koi8-r", "Дата;Температура;Влажность;Давление", (t, c) => [stamp(t, "%d.%m.%Y %H:%M"), ...c].join(";")),
  simple("Japanese header", 8, (t, c) => [stamp(t, "%Y/%m/%d %H:%M"), ...c].join(","), "日時,気温,湿度,気圧"),
  simple("tabs, French", 9, (t, c) => [stamp(t, "%d/%m/%Y"), stamp(t, "%H:%M:%S"), ...c].join("\t"), "Date\tHeure\tTempérature\tHumidité\tPression", (d) => expect(dialect(d).delimiter).toBe("\t"), 2),
  simple("columns of blanks, no header", 10, (t, c) => `${stamp(t, "%Y-%m-%d %H:%M")}  ${c[0].padStart(6)} ${c[1].padStart(6)}  ${c[2].padStart(8)}`, null, (d) => expect(dialect(d)).toMatchObject({ delimiter: " ", skipInitialSpace: true }), 2),
  simple("upright strokes", 11, (t, c) => [stamp(t, "%Y-%m-%d %H:%M"), ...c].join(" | "), "when | temp | hum | press"),
  simple("clock of twelve, month first", 12, (t, c) => [stamp(t, "%m/%d/%Y %I:%M:%S %p"), ...c].join(","), "Date,Temp,Humidity,Pressure", (d) => expect(field(d, 0).format).toBe("%m/%d/%Y %I:%M:%S %p")),
  simple("two-digit year, day first", 13, (t, c) => [stamp(t, "%d/%m/%y"), stamp(t, "%H:%M"), ...c].join(","), "date,time,temp,hum,press", (d) => expect(field(d, 0).format).toBe("%d/%m/%y"), 2),
  simple("two-digit year first", 14, (t, c) => [stamp(t, "%y-%m-%d %H:%M"), ...c].join(","), "t,temp,hum,press", (d) => expect(field(d, 0).format).toBe("%y-%m-%d %H:%M")),
  simple("packed date and time", 15, (t, c) => [stamp(t, "%Y%m%d"), stamp(t, "%H%M"), ...c].join(","), null, undefined, 2),
  simple("one packed stamp", 16, (t, c) => [stamp(t, "%Y%m%d%H%M%S"), ...c].join(","), "stamp,temp,hum,press"),
  simple("names of months", 17, (t, c) => [stamp(t, "%d-%b-%Y %H:%M:%S"), ...c].join(","), "when,temp,hum,press", (d) => expect(field(d, 0).format).toBe("%d-%b-%Y %H:%M:%S")),
  simple("time before date", 18, (t, c) => [stamp(t, "%H:%M:%S %d.%m.%Y"), ...c].join(";"), "zeit;temp;hum;press"),
  simple("seconds with fraction and an offset", 19, (t, c) => [stamp(t, "%Y-%m-%dT%H:%M:%S.250+00:00"), ...c].join(","), "time,temp,hum,press", (d, _g, q) => {
    expect(field(d, 0).zone).toBeUndefined();
    expect(q.some((x) => x.path.endsWith(".zone"))).toBe(false);
  }, 1, 250),
  counted("seconds since 1970", 39, (t) => String(t / 1000), "%s"),
  counted("seconds since 1970 with a fraction", 40, (t) => (t / 1000).toFixed(3), "%s"),
  counted("milliseconds since 1970", 41, (t) => String(t), "%Q"),
  ...["%s", "%Y-%m-%d %H:%M:%S"].map((pattern, k) =>
    simple(`a clock that is set in the third row, ${pattern}`, 48 + k, (t, c) => [(k === 0 ? String(t / 1000) : stamp(t, pattern)), ...c].join(","), ["time,temp,hum,press", ...[12, 72].map((s) => `${k === 0 ? s : stamp(1000 * s, pattern)},20.1,50.2,1001.30`)].join("\n"), (d) => {
      expect([dialect(d).header, dialect(d).commentRows, field(d, 0).name]).toEqual([true, undefined, "time"]);
    }),
  ),
  simple("seconds since 1970 behind date and time", 42, (t, c) => [stamp(t, "%Y-%m-%d %H:%M:%S"), String(t / 1000), ...c].join(","), "time,unix,temp,hum,press", (d) => {
    expect(field(d, 0).type).toBe("datetime");
    expect(field(d, 1)).toEqual({ name: "unix", type: "number" });
  }),
  ...["%Y-%m-%d", "%d.%m.%Y", "%m/%d/%Y", "%Y%m%d", "%d-%b-%y"].map((pattern, k) =>
    simple(`a row a day, ${pattern}`, 43 + k, (t, c) => [stamp(t, pattern), ...c].join(","), "date,temp,hum,press", (d, g, q) => {
      expect(field(d, 0)).toEqual({ name: "date", type: "date", ...(k === 0 ? {} : { format: pattern }), zone: "Z" });
      expect(g.find((x) => x.path === `resources[0].schema.fields[0].${k === 0 ? "type" : "format"}`)?.because).toMatch(/one row a day/);
      expect(q.find((x) => x.path === "resources[0].sampling")?.ask).toMatch(/mean of its civil day/);
      expect(q.some((x) => x.path.endsWith("fields[0].zone"))).toBe(true);
    }, 1, 12 * 3_600_000, 1440),
  ),
  simple("hours in a column", 20, (t, c) => [stamp(t, "%Y-%m-%d"), String(Number(stamp(t, "%H"))), ...c].join(","), "date,hour,temp,hum,press", (d) => expect(field(d, 1).format).toBe("%H"), 2, 0, 60),
  simple("a literal UTC behind the time", 21, (t, c) => [stamp(t, "%Y-%m-%d %H:%M:%S UTC"), ...c].join(","), "time,temp,hum,press", (d, _g, q) => {
    expect(field(d, 0).zone).toBe("Z");
    expect(q.some((x) => x.path.endsWith(".zone"))).toBe(false);
  }),
  simple("quotes and thousands", 22, (t, c) => [stamp(t, "%Y-%m-%d %H:%M:%S"), ...c].map((x, k) => `"${k === 3 ? x.replace(/^(\d)(\d{3}\.)/, "$1,$2") : x}"`).join(","), '"time","temp","hum","press"', (d) => expect(field(d, 3).groupChar).toBe(",")),
  simple("single quotes", 23, (t, c) => [stamp(t, "%Y-%m-%d %H:%M:%S"), ...c].map((x) => `'${x}'`).join(","), "'time','temp','hum','press'", (d) => expect(dialect(d).quoteChar).toBe("'")),
  simple("units in the cells", 24, (t, c) => [stamp(t, "%Y-%m-%d %H:%M:%S"), `${c[0]} °C`, `${c[1]}%`, `${c[2]} hPa`].join(","), null, (d) => expect(field(d, 1)).toMatchObject({ bareNumber: false, unit: "degC" })),
  simple("names in the cells", 25, (t, c) => `${stamp(t, "%Y-%m-%d %H:%M:%S")} T=${c[0]} RH=${c[1]} P=${c[2]}`, null, undefined, 2),
  textShape("a title, names, units and how each was taken", 126, (rows) => lines('"logger","roof"\n"when","AirTC_Avg","RH","BP_mbar_Avg"\n"","Deg C","%","mbar"\n"","Avg","Smp","Avg"', rows.map((r) => r.map((c, k) => (k === 0 ? JSON.stringify(c) : c)).join(","))), (d) => expect([field(d, 0).name, field(d, 1).name, dialect(d).headerRows]).toEqual(["when", "AirTC_Avg", [2]])),
  textShape("a line of units", 26, (rows) => lines("time;temp;hum;press\nyyyy-mm-dd hh:mm;°C;%;hPa", rows.map((r) => r.join(";")))),
  textShape("title lines before the header", 27, (rows) => lines("My logger 12, firmware 3\nSerial: 4711\n\nInterval;10 min\ntime;temp;hum;press", rows.map((r) => r.join(";")))),
  textShape("names in a comment", 28, (rows) => lines("# logger started\n# time,temp,hum,press", rows.map((r) => r.join(","))), (d) => expect(dialect(d)).toMatchObject({ header: false, commentChar: "#" })),
  textShape("comments and a header again in the middle", 29, (rows) => lines("// card\ntime,temp,hum,press", rows.flatMap((r, i) => (i === 100 ? ["// power back", "time,temp,hum,press", r.join(",")] : [r.join(",")])))),
  textShape("doubled names of columns", 30, (rows) => lines("time,value,value,value", rows.map((r) => r.join(",")))),
  textShape("lone CR", 31, (rows) => lines("time,temp,hum,press", rows.map((r) => r.join(",")), "\r")),
  textShape("CRLF with a mark", 32, (rows) => `\ufeff${lines("time,temp,hum,press", rows.map((r) => r.join(",")), "\r\n")}`),
  bytesShape("UTF-16 with a mark", 33, (text) => utf16(text, { mark: true })),
  bytesShape("UTF-16 without a mark", 34, (text) => utf16(text, { mark: false })),
  bytesShape("UTF-16, large end first, without a mark", 35, (text) => utf16(text, { mark: false, isBig: true })),
  textShape("newest first", 36, (rows) => lines("time,temp,hum,press", [...rows].reverse().map((r) => r.join(",")))),
  textShape("a row number before and a battery behind", 37, (rows) => lines(null, rows.map((r, i) => [String(i + 1), ...r, (4.15 - i * 0.0011).toFixed(3)].join(","))), (d) => {
    expect(field(d, 0).quantity).toBeUndefined();
    expect(field(d, 5).quantity).toBeUndefined();
  }),
  textShape("wind, light and carbon dioxide beside", 38, (rows) => lines("time,temp,CO2,hum,Wind,press,Lux", rows.map((r, i) => [r[0], r[1], String(450 + (i % 37)), r[2], (i % 7).toFixed(1), r[3], String((i * 37) % 900)].join(","))), (d) => {
    for (const k of [2, 4, 6]) expect(field(d, k).quantity).toBeUndefined();
  }),
];

type Row = (at: number, cells: string[]) => string;

function simple(name: string, seed: number, row: Row, header: string | null, holds?: Shape["holds"], _stamps = 1, shift = 0, every = 10): Shape {
  const { at, cells, planted } = rowsOf({ seed, columns: plainColumns, every });
  for (const q of Object.values(planted.here)) q.at = q.at.map((t) => t + shift);
  return { name, files: { "card.txt": lines(header, at.map((t, i) => row(t, cells[i]))) }, planted, ...(holds === undefined ? {} : { holds }) };
}

/** A stamp that is an instant already: no zone is drafted, and none is asked. */
function counted(name: string, seed: number, write: (at: number) => string, format: string): Shape {
  return simple(name, seed, (t, c) => [write(t), ...c].join(","), "ts,temp,hum,press", (d, _g, q) => {
    expect(field(d, 0)).toEqual({ name: "ts", type: "datetime", format });
    expect(q.some((x) => x.path.endsWith(".zone"))).toBe(false);
  });
}

function encoded(name: string, seed: number, encoding: string, header: string, row: Row): Shape {
  const plain = simple(name, seed, row, header);
  const place = header.includes("außen") ? "here" : "here";
  return { name, files: { "card.txt": oneByte(plain.files["card.txt"] as string, encoding) }, planted: { [place]: plain.planted.here }, holds: (d) => expect(d.resources[0].encoding).toBe(encoding) };
}

function textShape(name: string, seed: number, text: (rows: string[][]) => string, holds?: Shape["holds"]): Shape {
  const { at, cells, planted } = rowsOf({ seed, columns: plainColumns });
  return { name, files: { "card.txt": text(at.map((t, i) => [stamp(t, "%Y-%m-%d %H:%M"), ...cells[i]])) }, planted, ...(holds === undefined ? {} : { holds }) };
}

function bytesShape(name: string, seed: number, bytes: (text: string) => Uint8Array): Shape {
  const { at, cells, planted } = rowsOf({ seed, columns: plainColumns, from: start + 3600_000 });
  return { name, files: { "card.txt": bytes(lines("время,температура,humidity °,pressure", at.map((t, i) => [stamp(t, "%Y-%m-%d %H:%M"), ...cells[i]].join(",")))) }, planted };
}
