import { expect } from "vitest";
import { plainColumns, rowsOf, type Shape, stamp, start, twoPlaces } from "./shapes.js";

const field = (draft: any, k: number, r = 0): any => draft.resources[r].schema.fields[k];
const text = (...rows: readonly string[][]): string => `${rows.map((r) => r.join(",")).join("\n")}\n`;
const iso = (t: number): string => stamp(t, "%Y-%m-%d %H:%M:%S");
const half = (rows: string[], k: number): string[] => rows.slice(3 * k, 3 * k + 3);

function long(name: string, seed: number, [a, b]: readonly [string, string], [pa, pb]: readonly [string, string], late: number, header: string[] | null): Shape {
  const { at, cells, planted } = rowsOf({ seed, columns: twoPlaces(pa, pb) });
  const rows = at.flatMap((t, i) => [[iso(t), a, ...half(cells[i], 0)], [iso(t + late), b, ...half(cells[i], 1)]]);
  for (const q of Object.values(planted[pb])) q.at = q.at.map((t) => t + late);
  return {
    name,
    files: { "card.txt": text(...(header === null ? [] : [header]), ...rows) },
    planted,
    holds: (d) => {
      expect(field(d, 1)).toMatchObject({ role: "place" });
      expect(d.places[pa].exposure).toBe("outdoor");
      expect(d.places[pb].exposure).toBe("indoor");
    },
  };
}

function wide(name: string, seed: number, header: string[] | null, [a, b]: readonly [string, string], order: readonly number[] = [0, 1, 2, 3, 4, 5], holds?: Shape["holds"]): Shape {
  const { at, cells, planted } = rowsOf({ seed, columns: twoPlaces(a, b) });
  return { name, files: { "card.txt": text(...(header === null ? [] : [header]), ...at.map((t, i) => [iso(t), ...order.map((k) => cells[i][k])])) }, planted, ...(holds === undefined ? {} : { holds }) };
}

/** Logs that differ in places, units, files and faults. */
export const shapesOfPlaces = (): readonly Shape[] => [
  long("long, letters", 101, ["V", "L"], ["v", "l"], 0, ["when", "who", "temp", "hum", "press"]),
  long("long, numbers, by turns, no header", 102, ["1", "2"], ["sensor-1", "sensor-2"], 180_000, null),
  long("long, whole names, no header", 103, ["Back porch", "Kitchen"], ["back-porch", "kitchen"], 60_000, null),
  wide("wide, no header", 104, null, ["sensor-1", "sensor-2"]),
  wide("wide, quantities side by side", 105, null, ["sensor-1", "sensor-2"], [0, 3, 1, 4, 2, 5]),
  wide("wide, outdoor and indoor", 106, ["time", "Outdoor Temperature(°C)", "Outdoor Humidity(%)", "Outdoor Pressure(hPa)", "Indoor Temperature(°C)", "Indoor Humidity(%)", "Indoor Pressure(hPa)"], ["outdoor", "indoor"], undefined, (d, _g, q) => {
    expect(d.places).toMatchObject({ outdoor: { exposure: "outdoor" }, indoor: { exposure: "indoor" } });
    expect(q.some((x) => x.path.startsWith("places"))).toBe(false);
  }),
  wide("wide, grown together", 107, ["time", "tempout", "humout", "pressout", "tempin", "humin", "pressin"], ["out", "in"]),
  wide("wide, numbered", 108, ["time", "T1", "RH1", "P1", "T2", "RH2", "P2"], ["sensor-1", "sensor-2"]),
  wide("wide, German", 109, ["Zeit", "Außentemperatur", "Außenfeuchte", "Außendruck", "Innentemperatur", "Innenfeuchte", "Innendruck"], ["aussen", "innen"]),
  units("names that are units alone", 116, ["degC", "%", "hPa"], [1, 0, 1], 1004, ["time", "°C", "%", "hPa"], (d) => expect([1, 2, 3].map((k) => field(d, k).quantity)).toEqual(["air_temperature", "relative_humidity", "surface_air_pressure"])),
  units("units alone, where humidity could be taken for °F", 117, ["degC", "%", "inHg"], [1, 0, 2], 1004, ["time", "C", "%RH", "inHg"], (d) => expect(field(d, 1)).toMatchObject({ quantity: "air_temperature", unit: "degC" })),
  wide("wide, places and units alone", 118, ["time", "Porch (°C)", "Porch (%)", "Porch (hPa)", "Den (°C)", "Den (%)", "Den (hPa)"], ["porch", "den"]),
  sixHours(),
  units("a cool week in °F, as hot as a box in the sun in °C", 120, ["degF", "%", "hPa"], [1, 0, 1], 1004, ["time", "temp", "hum", "press"], (d, _g, q) => {
    expect(field(d, 1).unit).toBe("degF");
    expect(q.find((x) => x.path.endsWith("fields[1].unit"))?.ask).toMatch(/is the temperature in °F, or in °C of a sensor that the sun heats to 5\d/);
  }, 5),
  units("Fahrenheit and inches of mercury, no header", 110, ["degF", "%", "inHg"], [1, 0, 3], 1012, null),
  units("kelvin, share, pascal", 111, ["K", "1", "Pa"], [2, 3, 0], 955, null),
  units("kilopascal", 112, ["degC", "%", "kPa"], [1, 1, 3], 990, null),
  units("612 is millimetres of mercury, high up", 113, ["degC", "%", "mmHg"], [1, 1, 1], 612 * 1.3332239, ["time", "temp", "hum", "pressure"], (d, g) => {
    expect(field(d, 3).unit).toBe("mmHg");
    expect(g.find((x) => x.path.endsWith("fields[3].unit"))?.because).toMatch(/mmHg; in hPa it would be that at about 4\d\d0 m/);
  }),
  units("68 is Fahrenheit", 114, ["degF", "%", "hPa"], [0, 0, 1], 1004, ["time", "temp", "hum", "press"], undefined, 20),
  units("a header that is wrong about its unit", 115, ["degC", "%", "inHg"], [1, 0, 3], 1010, ["time", "temp", "hum", "press (hPa)"], (d, g, q) => {
    expect(field(d, 3).unit).toBe("inHg");
    expect(g.find((x) => x.path.endsWith("fields[3].unit"))?.because).toContain("the header says hPa");
    expect(q.some((x) => x.path.endsWith("fields[3].unit"))).toBe(true);
  }),
  winter(),
  missing(),
  overlapping(),
  twoLoggers(),
  twoShapes(),
  damaged(),
  ambiguous(),
  resolved(),
  summerTime(),
  emptyColumn(),
];

/** Six hours at two places tell nothing of which stands outside. */
function sixHours(): Shape {
  const { at, cells, planted } = rowsOf({ seed: 119, columns: twoPlaces("sensor-1", "sensor-2"), steps: 36, from: start + 9 * 3_600_000 });
  const rows = at.flatMap((t, i) => [[iso(t), "1", ...half(cells[i], 0)], [iso(t), "2", ...half(cells[i], 1)]]);
  return {
    name: "six hours of two places",
    files: { "card.txt": text(["when", "who", "temp", "hum", "press"], ...rows) },
    planted,
    holds: (d, _g, q) => {
      expect([d.places["sensor-1"].exposure, d.places["sensor-2"].exposure]).toEqual([undefined, undefined]);
      expect(q.find((x) => x.path === "places.sensor-1.exposure")?.ask).toMatch(/It has no day of temperatures that could tell/);
    },
  };
}

function units(name: string, seed: number, [t, h, p]: readonly string[], [dt, dh, dp]: readonly number[], level: number, header: string[] | null, holds?: Shape["holds"], mean?: number): Shape {
  const columns = [
    { place: "here", quantity: "t", unit: t, decimals: dt },
    { place: "here", quantity: "rh", unit: h, decimals: dh },
    { place: "here", quantity: "p", unit: p, decimals: dp },
  ] as const;
  const { at, cells, planted } = rowsOf({ seed, columns, level, ...(mean === undefined ? {} : { mean }) });
  return {
    name,
    files: { "card.txt": text(...(header === null ? [] : [header]), ...at.map((x, i) => [iso(x), ...cells[i]])) },
    planted,
    holds: (d, g, q) => {
      expect([1, 2, 3].map((k) => field(d, k).unit)).toEqual([t, h, p]);
      holds?.(d, g, q);
    },
  };
}

function winter(): Shape {
  // −9 to 1 °C outside are 16 to 34 °F, which could be a warm summer in °C, were it not for 68 °F inside.
  const columns = (["garden", "study"] as const).map((place) => ({ place, quantity: "t", unit: "degF", decimals: 1 }) as const);
  const { at, cells, planted } = rowsOf({ seed: 116, columns, mean: -4 });
  return {
    name: "a winter in Fahrenheit, told by the warm room",
    files: { "card.txt": text(["time", "garden temp", "study temp"], ...at.map((x, i) => [iso(x), ...cells[i]])) },
    planted,
    holds: (d, g) => {
      expect([field(d, 1).unit, field(d, 2).unit]).toEqual(["degF", "degF"]);
      expect(g.find((x) => x.path.endsWith("fields[1].unit"))?.because).toContain("column 3 can only be in °F");
    },
  };
}

function missing(): Shape {
  const { at, cells, planted } = rowsOf({ seed: 120, columns: plainColumns });
  const marks = ["-999.9", "NA", "---", ""];
  for (let i = 5; i < at.length; i += 17) {
    const c = i % 3;
    cells[i][c] = marks[i % 4];
    planted.here[["air_temperature", "relative_humidity", "surface_air_pressure"][c]].values[i] = Number.NaN;
  }
  // −9 is a code of the humidity and a true temperature of a cold morning.
  for (const i of [20, 60, 140, 200]) {
    cells[i][1] = "-9";
    planted.here.relative_humidity.values[i] = Number.NaN;
  }
  return { name: "codes and marks of missing values", files: { "card.txt": text(["time", "temp", "hum", "press"], ...at.map((x, i) => [iso(x), ...cells[i]])) }, planted, holds: (d) => expect(d.resources[0].schema.missingValues).toEqual(expect.arrayContaining(["", "NA", "---", "-999.9", "-9"])) };
}

function overlapping(): Shape {
  const { at, cells, planted } = rowsOf({ seed: 121, columns: plainColumns });
  const rows = at.map((x, i) => [iso(x), ...cells[i]]);
  const head = ["time", "temp", "hum", "press"];
  return {
    name: "three cards that overlap, given out of order, one without header",
    files: { "card-3.txt": text(...rows.slice(190)), "card-1.txt": text(head, ...rows.slice(0, 110)), "card-2.txt": text(head, ...rows.slice(100, 200)) },
    planted,
    holds: (d, g) => {
      expect(d.resources).toHaveLength(1);
      expect(d.resources[0].path).toEqual(["card-1.txt", "card-2.txt", "card-3.txt"]);
      expect(g.find((x) => x.path === "resources[0].path")?.because).toContain("card-2.txt begins at");
    },
  };
}

function twoLoggers(): Shape {
  const { at, cells, planted } = rowsOf({ seed: 122, columns: twoPlaces("garden", "bedroom") });
  const head = ["time", "temp", "hum", "press"];
  const card = (k: number, from: number, to: number): string => text(head, ...at.slice(from, to).map((x, i) => [iso(x), ...half(cells[from + i], k)]));
  return {
    name: "two loggers, each with cards of its own",
    files: { "garden-1.txt": card(0, 0, 150), "bedroom-1.txt": card(1, 0, 160), "garden-2.txt": card(0, 150, 288), "bedroom-2.txt": card(1, 160, 288) },
    planted,
    holds: (d, g) => {
      expect(d.resources.map((r: any) => r.path)).toEqual(expect.arrayContaining([["garden-1.txt", "garden-2.txt"], ["bedroom-1.txt", "bedroom-2.txt"]]));
      expect(g.some((x) => x.because.includes("different values at the same times"))).toBe(true);
    },
  };
}

function twoShapes(): Shape {
  const { at, cells, planted } = rowsOf({ seed: 123, columns: plainColumns });
  return {
    name: "a barometer's log beside another of temperature and humidity",
    files: { "air.csv": text(["time", "temp", "hum"], ...at.map((x, i) => [iso(x), cells[i][0], cells[i][1]])), "baro.txt": `${at.map((x, i) => `${stamp(x, "%d.%m.%Y %H:%M")};${cells[i][2].replace(".", ",")}`).join("\n")}\n` },
    planted,
    holds: (d) => expect(d.resources).toHaveLength(2),
  };
}

function damaged(): Shape {
  const { at, cells, planted } = rowsOf({ seed: 124, columns: plainColumns });
  const rows = at.map((x, i) => [iso(x), ...cells[i]].join(","));
  const lost = (i: number): void => {
    for (const q of Object.values(planted.here)) q.values[i] = Number.NaN;
  };
  for (const i of [10, 50, 51, 200]) lost(i);
  rows[10] = rows[10].slice(0, 20);
  rows[50] = `${rows[50]}${rows[51]}`;
  rows[51] = "";
  rows[200] = "\0\0\0\0\0\0\0\0\0\0";
  return { name: "cut lines, doubled lines, NULs", files: { "card.txt": `time,temp,hum,press\n${rows.join("\n")}\n` }, planted };
}

function ambiguous(): Shape {
  const { at, cells, planted } = rowsOf({ seed: 125, columns: plainColumns, from: Date.UTC(2024, 4, 6, 1), steps: 120 });
  return {
    name: "one day in which day and month cannot be told apart",
    files: { "card.txt": text(["time", "temp", "hum", "press"], ...at.map((x, i) => [stamp(x, "%d/%m/%Y %H:%M"), ...cells[i]])) },
    planted,
    holds: (d, _g, q) => {
      const open = q.find((x) => x.path === "resources[0].schema.fields[0].format");
      expect(open?.ask).toContain("%m/%d/%Y %H:%M");
      expect(d.questions.find((x: any) => x.path === open?.path).drafted).toBe("%d/%m/%Y %H:%M");
    },
  };
}

function resolved(): Shape {
  const { at, cells, planted } = rowsOf({ seed: 126, columns: plainColumns, from: Date.UTC(2024, 4, 6, 1), steps: 300 });
  return {
    name: "two nights tell day from month, though no number passes twelve",
    files: { "card.txt": text(["time", "temp", "hum", "press"], ...at.map((x, i) => [stamp(x, "%m/%d/%Y %H:%M"), ...cells[i]])) },
    planted,
    holds: (d, g, q) => {
      expect(field(d, 0).format).toBe("%m/%d/%Y %H:%M");
      expect(q.some((x) => x.path.endsWith(".format"))).toBe(false);
      expect(g.find((x) => x.path.endsWith("fields[0].format"))?.because).toContain("jump by months");
    },
  };
}

function summerTime(): Shape {
  // The civil clock of central Europe goes back from 03:00 to 02:00 on 27 October 2024, at 01:00 UTC.
  const { at, cells, planted } = rowsOf({ seed: 127, columns: plainColumns, from: Date.UTC(2024, 9, 26, 0), steps: 300 });
  const change = Date.UTC(2024, 9, 27, 1);
  return {
    name: "an hour written twice when summer time ends",
    files: { "card.txt": text(["time", "temp", "hum", "press"], ...at.map((x, i) => [iso(x + (x < change ? 7_200_000 : 3_600_000)), ...cells[i]])) },
    planted,
    holds: (d, _g, q) => {
      expect(field(d, 0).zone).toBe("Europe/Berlin");
      expect(q.some((x) => x.path.endsWith(".zone"))).toBe(true);
    },
  };
}

function emptyColumn(): Shape {
  const { at, cells, planted } = rowsOf({ seed: 128, columns: plainColumns, from: start });
  delete planted.here.relative_humidity;
  return {
    name: "a column of nothing but a code",
    files: { "card.txt": text(["time", "temp", "hum", "press"], ...at.map((x, i) => [iso(x), cells[i][0], "-999.9", cells[i][2]])) },
    planted,
    holds: (d) => expect(field(d, 2).quantity).toBe("relative_humidity"),
  };
}
