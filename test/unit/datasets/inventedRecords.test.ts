import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";

const folder = new URL("../../../datasets/", import.meta.url);
const read = (name: string): string => readFileSync(new URL(name, folder), "utf8");

interface FileTruth {
  readonly path: string;
  readonly lines: number;
  readonly accepted: number;
  readonly skipped: number;
  readonly rejected: number;
  readonly kinds: Readonly<Record<string, number>>;
}

interface Truth {
  readonly files: readonly FileTruth[];
  readonly places: Readonly<Record<string, { readings: number; repeated: number; conflicting: number; values: Record<string, number>; humidityFrom100To105: number }>>;
  readonly clock: { readonly skipped: readonly string[]; readonly repeated: readonly string[] };
  readonly faults: readonly { flag: string; place: string; quantity: string; from: string; to: string; readings: number; size: number | null }[];
}

/** The scripts are plain JavaScript without declarations, so they are loaded by address. */
async function load<T>(name: string): Promise<T> {
  return (await import(/* @vite-ignore */ new URL(name, folder).href)) as T;
}

const linesOf = (text: string): string[] => {
  const lines = text.split(/\r?\n/);
  return lines[lines.length - 1] === "" ? lines.slice(0, -1) : lines;
};

describe.each(["hill-school", "harbor-loft"])("%s", (name) => {
  it("is made again byte for byte", async () => {
    const { make } = await load<{ make(): Record<string, string> }>(`${name}/make.mjs`);
    const made = make();
    expect(Object.keys(made)).toContain("truth.json");
    for (const [file, text] of Object.entries(made)) expect(read(`${name}/${file}`) === text, file).toBe(true);
  });

  it("says that it is invented, and its description names the files that are there", () => {
    const description = JSON.parse(read(`${name}/datapackage.json`)) as { name: string; title: string; resources: { path: string[] }[] };
    const truth = JSON.parse(read(`${name}/truth.json`)) as Truth;
    expect(description.name).toBe(name);
    expect(description.title).toContain("invented");
    expect(read(`${name}/README.md`).split("\n")[0]).toContain("INVENTED");
    expect(description.resources[0].path).toEqual(truth.files.map(({ path }) => path));
  });
});

describe("hill-school: a plain count agrees with truth.json", () => {
  const truth = JSON.parse(read("hill-school/truth.json")) as Truth;
  const header = "date,time,who,temp,hum,press";
  const isNumber = (field: string): boolean => field === "" || field === "NA" || /^-?\d+\.\d+$/.test(field);
  const kindOf = (line: string): string => {
    if (line === "") return "blank";
    if (line.startsWith("#")) return "comment";
    if (line === header) return "header";
    const fields = line.split(",");
    if (fields.length < 6) return "cut";
    if (fields.length > 6) return "glued";
    if (line.startsWith("1970")) return "unset";
    return fields.slice(3).every(isNumber) ? "row" : "garbled";
  };
  const files = truth.files.map((file) => ({ file, lines: linesOf(read(`hill-school/${file.path}`)) }));

  it.each(files)("lines of each kind in $file.path", ({ file, lines }) => {
    const kinds: Record<string, number> = Object.fromEntries(Object.keys(file.kinds).map((kind) => [kind, 0]));
    for (const line of lines) kinds[kindOf(line)]++;
    expect(kinds).toEqual(file.kinds);
    expect(lines.length).toBe(file.lines);
    expect(kinds.row).toBe(file.accepted);
    expect(kinds.comment + kinds.header + kinds.blank).toBe(file.skipped);
    expect(file.lines).toBe(file.accepted + file.skipped + file.rejected);
  });

  it("readings, repeated and conflicting rows of each place; accepted = their sum", () => {
    let sum = 0;
    for (const [letter, place] of [["V", "veranda"], ["L", "library"]]) {
      const first = new Map<string, string>();
      let repeated = 0;
      let conflicting = 0;
      for (const line of files.flatMap(({ lines }) => lines).filter((l) => kindOf(l) === "row" && l.split(",")[2] === letter)) {
        const stamp = line.slice(0, 19);
        const before = first.get(stamp);
        if (before === undefined) first.set(stamp, line);
        else if (before === line) repeated++;
        else conflicting++;
      }
      const fields = [...first.values()].map((line) => line.split(",").slice(3).map((f) => (f === "" || f === "NA" ? Number.NaN : Number(f))));
      const told = truth.places[place];
      expect({ readings: first.size, repeated, conflicting }).toEqual({ readings: told.readings, repeated: told.repeated, conflicting: told.conflicting });
      expect(fields.filter(([t]) => !Number.isNaN(t)).length).toBe(told.values.air_temperature);
      expect(fields.filter(([, rh]) => rh >= 100 && rh <= 105).length).toBe(told.humidityFrom100To105);
      sum += first.size + repeated + conflicting;
    }
    expect(sum).toBe(truth.files.reduce((total, file) => total + file.accepted, 0));
  });

  it("plants every flag, and no impossible value stands outside a planted fault", () => {
    expect([...new Set(truth.faults.map(({ flag }) => flag))].sort()).toEqual(["range", "saturated", "spike", "step", "stuck", "swapped", "warmed"]);
    const impossible = files.flatMap(({ lines }) => lines).filter((l) => kindOf(l) === "row" && l.split(",").slice(3).some((f, k) => {
      const x = Number.parseFloat(f);
      return [x < -80 || x > 60, x < 0 || x > 105, x < 500 || x > 1100][k];
    }));
    const planted = truth.faults.filter(({ flag }) => flag === "range").reduce((total, { readings }) => total + readings, 0);
    expect(impossible.length).toBe(planted);
  });
});

describe("harbor-loft: a plain count agrees with truth.json", () => {
  const truth = JSON.parse(read("harbor-loft/truth.json")) as Truth;
  const rows = truth.files.flatMap((file) => linesOf(read(`harbor-loft/${file.path}`)).slice(1));

  it("lines, and values of each column", () => {
    for (const file of truth.files) expect(linesOf(read(`harbor-loft/${file.path}`)).length).toBe(file.lines);
    expect(rows.length).toBe(truth.files.reduce((total, file) => total + file.accepted, 0));
    const column = (k: number): number => rows.filter((line) => line.split(",")[k] !== "").length;
    const order = ["air_temperature", "relative_humidity", "surface_air_pressure"];
    expect([1, 2, 3].map(column)).toEqual(order.map((q) => truth.places.harbor.values[q]));
    expect([4, 5, 6].map(column)).toEqual(order.map((q) => truth.places.loft.values[q]));
  });

  it("its civil clock is that of Europe/London on this machine, around each change", async () => {
    const { offsetHours } = await load<{ offsetHours(ms: number): number }>("harbor-loft/civilClock.mjs");
    const hour = new Intl.DateTimeFormat("en-GB", { timeZone: "Europe/London", hour: "2-digit", hourCycle: "h23" });
    for (const instant of [...truth.clock.skipped, ...truth.clock.repeated]) {
      for (let k = -30; k <= 30; k++) {
        const ms = Date.parse(instant) + k * 3600000;
        expect((new Date(ms).getUTCHours() + offsetHours(ms)) % 24, new Date(ms).toISOString()).toBe(Number(hour.format(ms)));
      }
    }
  });

  it("the repeated hours stand twice in the log, the skipped one not at all", () => {
    const times = (start: string): number => rows.filter((line) => line.startsWith(start)).length;
    expect([times("29/10/2023 01:00"), times("27/10/2024 01:00"), times("31/03/2024 01:00"), times("31/03/2024 02:00")]).toEqual([2, 2, 0, 1]);
  });
});
