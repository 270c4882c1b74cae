import { random } from "../../../../lib/ground/random.js";
import { type Column, oneByte, type Planted, rowsOf, type Shape, stamp, utf16 } from "./shapes.js";

type Words = Readonly<Record<"t" | "rh" | "p" | "time" | "date" | "out" | "in", string>>;

const languages: readonly Words[] = [
  { t: "Temperature", rh: "Humidity", p: "Pressure", time: "Time", date: "Date", out: "outside", in: "inside" },
  { t: "temp", rh: "rh", p: "baro", time: "t_stamp", date: "day", out: "out", in: "in" },
  { t: "Temperatur", rh: "Luftfeuchtigkeit", p: "Luftdruck", time: "Uhrzeit", date: "Datum", out: "außen", in: "innen" },
  { t: "Température", rh: "Humidité", p: "Pression", time: "Heure", date: "Date", out: "extérieur", in: "intérieur" },
  { t: "Temperatura", rh: "Humedad", p: "Presión", time: "Hora", date: "Fecha", out: "exterior", in: "interior" },
  { t: "Lämpötila", rh: "Kosteus", p: "Ilmanpaine", time: "Aika", date: "Päivä", out: "ulko", in: "sisä" },
  { t: "Температура", rh: "Влажность", p: "Давление", time: "Время", date: "Дата", out: "улица", in: "комната" },
  { t: "温度", rh: "湿度", p: "気圧", time: "時刻", date: "日付", out: "室外", in: "室内" },
  { t: "T", rh: "H", p: "P", time: "time", date: "date", out: "out", in: "in" },
];

const dates = ["%Y-%m-%d", "%d.%m.%Y", "%d/%m/%Y", "%m/%d/%Y", "%Y/%m/%d", "%d-%m-%y", "%d-%b-%Y", "%Y%m%d", "%m/%d/%y"] as const;
const times = ["%H:%M", "%H:%M:%S", "%I:%M %p", "%I:%M:%S %p"] as const;

/** A log with everything drawn at random: signs, stamps, numbers, language, layout, units, places, missing values, other columns. */
export function randomShape(seed: number): Shape {
  const chance = random(seed);
  const pick = <T>(list: readonly T[]): T => list[chance.integer(list.length)];
  const words = pick(languages);
  const delimiter = pick([",", ";", "\t", " ", "|"]);
  const isComma = delimiter !== "," && chance.uniform() < 0.4;
  const hasHeader = chance.uniform() < 0.7;
  const hasTwoStamps = chance.uniform() < 0.4;
  const layout = pick(["one", "one", "wide", "long"] as const);
  const unitOf = { t: pick(["degC", "degC", "degF", "K"]), rh: pick(["%", "%", "%", "1"]), p: pick(["hPa", "hPa", "Pa", "kPa", "inHg", "mmHg"]) };
  const decimals = { degC: 1, degF: 1, K: 2, "%": chance.integer(2), "1": 3, hPa: 1 + chance.integer(2), Pa: 0, kPa: 3, inHg: 3, mmHg: 1 } as Record<string, number>;
  const quantities = pick([["t", "rh", "p"], ["t", "rh", "p"], ["t", "rh"], ["p", "t", "rh"], ["t", "p"]] as const);
  const date = delimiter === " " ? pick(["%Y-%m-%d", "%d.%m.%Y", "%d-%b-%Y", "%m/%d/%Y"]) : pick(dates);
  const time = delimiter === " " ? pick(["%H:%M", "%H:%M:%S"]) : pick(times);
  const every = pick([1, 5, 10, 15, 30, 60]);
  const steps = Math.max(160, Math.min(2000, Math.round(2880 / every)));
  const from = Date.UTC(2019 + chance.integer(6), chance.integer(12), 1 + chance.integer(28), chance.integer(24));
  const hasUnitsInHeader = hasHeader && delimiter !== " " && chance.uniform() < 0.5;
  const names = layout === "one" ? ["here"] : layout === "long" ? ["a", "b"] : hasHeader ? ["o", "i"] : ["sensor-1", "sensor-2"];
  const columns: Column[] = names.flatMap((place) => quantities.map((quantity) => ({ place, quantity, unit: unitOf[quantity], decimals: decimals[unitOf[quantity]] })));
  const { at, cells, planted } = rowsOf({ seed: seed + 7, steps, every, from, columns, level: pick([1012, 1003, 870, 930]) });
  const mark = pick(["", "NA", "---", "-9999"]);
  if (delimiter !== " " || mark !== "") {
    for (let k = 0; k < steps / 40; k++) {
      const [i, c] = [chance.integer(steps), chance.integer(columns.length)];
      cells[i][c] = mark;
      const q = { t: "air_temperature", rh: "relative_humidity", p: "surface_air_pressure" }[columns[c].quantity];
      planted[columns[c].place][q].values[i] = Number.NaN;
    }
  }
  const written = cells.map((row) => row.map((x) => (isComma ? x.replace(".", ",") : x)));
  const stampCells = (t: number): string[] => (hasTwoStamps || delimiter === " " ? [stamp(t, date), stamp(t, time)] : [`${stamp(t, date)} ${stamp(t, time)}`]);
  const battery = chance.uniform() < 0.3;
  const extra = (i: number): string[] => (battery ? [isComma ? (4.2 - i * 0.001).toFixed(3).replace(".", ",") : (4.2 - i * 0.001).toFixed(3)] : []);
  const rows: string[][] = [];
  const n = quantities.length;
  for (const [i, t] of at.entries()) {
    if (layout === "long") for (const [k, marker] of ["A", "B"].entries()) rows.push([...stampCells(t), marker, ...written[i].slice(k * n, k * n + n), ...extra(i)]);
    else rows.push([...stampCells(t), ...written[i], ...extra(i)]);
  }
  const unitShown: Record<string, string> = { degC: "°C", degF: "°F", K: "K", "%": "%", "1": "1", hPa: "hPa", Pa: "Pa", kPa: "kPa", inHg: "inHg", mmHg: "mmHg" };
  const title = (q: "t" | "rh" | "p", side: string): string => `${words[q]}${side === "" ? "" : `_${side}`}${hasUnitsInHeader ? ` [${unitShown[unitOf[q]]}]` : ""}`;
  const readings = layout === "wide" ? ["out", "in"].flatMap((s) => quantities.map((q) => title(q, words[s as "out" | "in"]))) : quantities.map((q) => title(q, ""));
  const header = [...(stampCells(0).length === 2 ? [words.date, words.time] : [words.time]), ...(layout === "long" ? ["Sensor"] : []), ...readings, ...(battery ? ["Battery"] : [])];
  const end = pick(["\n", "\r\n"]);
  const text = [...(chance.uniform() < 0.3 ? ["# begun by hand"] : []), ...(hasHeader ? [header.join(delimiter)] : []), ...rows.map((r) => r.join(delimiter))].join(end) + end;
  const isLatin = !/[^\u0000-\u00ff]/.test(text);
  const encoding = pick(["utf-8", "utf-8", isLatin ? "iso-8859-1" : "utf-16", "utf-16"]);
  const bytes = encoding === "utf-8" ? text : encoding === "utf-16" ? utf16(text, { mark: true }) : oneByte(text, encoding);
  return { name: `random ${seed}: ${JSON.stringify({ delimiter, isComma, hasHeader, layout, unitOf, date, time, every, battery, mark, encoding, quantities, language: words.t })}`, files: { "card.txt": bytes }, planted: named(planted, layout, hasHeader, words) };
}

/** The places as a draft names them: sides of a wide header, letters of a marker. */
function named(planted: Planted, layout: string, hasHeader: boolean, words: Words): Planted {
  if (layout !== "wide" || !hasHeader) return planted;
  const plain = (text: string): string => text.normalize("NFD").replace(/\p{M}/gu, "").replace("ß", "ss");
  return { [plain(words.out)]: planted.o, [plain(words.in)]: planted.i };
}
