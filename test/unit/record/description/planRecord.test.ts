import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { RecordError } from "../../../../lib/ground/complaint.js";
import { planRecord, recordPaths } from "../../../../lib/record/description/planRecord.js";
import { recordSchema } from "../../../../lib/record/description/recordSchema.js";
import { card, column, type Loose } from "../card.js";

/** Every fault of a description, first and others. */
function faults(d: Loose): string[] {
  try {
    planRecord(d);
  } catch (error) {
    expect(error).toBeInstanceOf(RecordError);
    expect((error as RecordError).kind).toBe("description");
    return [(error as Error).message, ...(error as RecordError).others];
  }
  return [];
}

const f = "resources[0].schema.fields";
const wide = (d: Loose): void => {
  d.resources[0].schema.fields = [
    { name: "when", type: "datetime", zone: "Z" },
    { name: "a", type: "number", quantity: "air_temperature", unit: "degC", place: "veranda" },
    { name: "b", type: "number", quantity: "air_temperature", unit: "degC", place: "library" },
  ];
};
const zoneRemedy = 'write the offset of the logger\'s clock, such as "+07:00", or an IANA name such as "Europe/London"';
const zoneRule = "must be Z, a fixed offset such as +07:00, or an IANA name such as Europe/London";

const refusals: readonly (readonly [string, (d: Loose) => void, string])[] = [
  ["no resources", (d) => { delete d.resources; }, "resources must be a list (got nothing)"],
  ["an empty list of them", (d) => { d.resources = []; }, "resources must not be empty (got a list of 0)"],
  ["a resource without a name", (d) => { delete d.resources[0].name; }, "resources[0].name must be text (got nothing)"],
  ["two of one name", (d) => { d.resources.push({ ...d.resources[0], path: "b.txt" }); }, 'resources[1].name must be unlike those before it (got "card")'],
  ["another type", (d) => { d.resources[0].type = "json"; }, 'resources[0].type must be "table" (got "json")'],
  ["no path", (d) => { delete d.resources[0].path; }, "resources[0].path must name the log (got nothing)"],
  ["a path that is none", (d) => { d.resources[0].path = 5; }, "resources[0].path must be a path or a list of paths (got 5)"],
  ["a parent path", (d) => { d.resources[0].path = "logs/../../card.txt"; }, 'resources[0].path must be inside the record\'s folder, not a path that leads above it (got "logs/../../card.txt")'],
  ["an absolute path", (d) => { d.resources[0].path = ["a.txt", "/card.txt"]; }, 'resources[0].path[1] must be inside the record\'s folder, not an absolute path (got "/card.txt")'],
  ["a drive", (d) => { d.resources[0].path = "C:\\card.txt"; }, 'resources[0].path must be inside the record\'s folder, not an absolute path (got "C:\\card.txt")'],
  ["a URL", (d) => { d.resources[0].path = "https://example.org/card.txt"; }, 'resources[0].path must be inside the record\'s folder, not a URL, and nothing is fetched (got "https://example.org/card.txt")'],
  ["a hidden part", (d) => { d.resources[0].path = ".logs/card.txt"; }, 'resources[0].path must be inside the record\'s folder, not a path with a part that begins with a point (got ".logs/card.txt")'],
  ["a path twice", (d) => { d.resources[0].path = ["a.txt", "a.txt"]; }, 'resources[0].path[1] must be unlike those before it (got "a.txt")'],
  ["inline data", (d) => { delete d.resources[0].path; d.resources[0].data = [[1]]; }, "resources[0].data must not be used (got a list of 1); put the rows in a file and name it in path"],
  ["compression", (d) => { d.resources[0].compression = "gz"; }, 'resources[0].compression must not be used (got "gz"); unpack the file first'],
  ["a format that is no text", (d) => { d.resources[0].format = "xlsx"; }, 'resources[0].format must be delimited text such as csv (got "xlsx"); write the table out as text first'],
  ["an unknown encoding", (d) => { d.resources[0].encoding = "utf-9"; }, 'resources[0].encoding must be one that this machine can read (got "utf-9"); write utf-8, utf-16le, iso-8859-1, windows-1252 or another name of the Encoding Standard'],
  ["an empty delimiter", (d) => { d.resources[0].dialect.delimiter = ""; }, 'resources[0].dialect.delimiter must not be empty (got "")'],
  ["a quote of two characters", (d) => { d.resources[0].dialect.quoteChar = "''"; }, 'resources[0].dialect.quoteChar must be one character (got "\'\'")'],
  ["a quote like the delimiter", (d) => { d.resources[0].dialect.quoteChar = ","; }, 'resources[0].dialect.quoteChar must be unlike the delimiter (got ",")'],
  ["two header rows", (d) => { d.resources[0].dialect.headerRows = [1, 2]; }, "resources[0].dialect.headerRows must name one row (got a list of 2)"],
  ["an escape character", (d) => { d.resources[0].dialect.escapeChar = "\\"; }, 'resources[0].dialect.escapeChar must not be used, because it is not supported here (got "\\")'],
  ["a null sequence", (d) => { d.resources[0].dialect.nullSequence = "-"; }, 'resources[0].dialect.nullSequence must not be used, because it is not supported here (got "-")'],
  ["a line end of its own", (d) => { d.resources[0].dialect.lineTerminator = ";"; }, 'resources[0].dialect.lineTerminator must be one of "\\n", "\\r\\n", "\\r" (got ";")'],
  ["a schema elsewhere", (d) => { d.resources[0].schema = "schema.json"; }, 'resources[0].schema must be an object (got "schema.json")'],
  ["no unit", (d) => { delete d.resources[0].schema.fields[3].unit; }, `${f}[3].unit must be degC, degF or K, because the field is air_temperature (got nothing)`],
  ["coulomb", (d) => { d.resources[0].schema.fields[3].unit = "C"; }, `${f}[3].unit must be degC, degF or K (got "C"); write degC`],
  ["farad", (d) => { d.resources[0].schema.fields[3].unit = "F"; }, `${f}[3].unit must be degC, degF or K (got "F"); write degF`],
  ["an odd unit", (d) => { d.resources[0].schema.fields[4].unit = "furlong"; }, `${f}[4].unit must be hPa, mbar, Pa, kPa, mmHg or inHg (got "furlong"); units read are degC, degF, K, hPa, mbar, Pa, kPa, mmHg, inHg, %, 1`],
  ["a unit of another kind", (d) => { d.resources[0].schema.fields[3].unit = "hPa"; }, `${f}[3].unit must be degC, degF or K, because the field is air_temperature (got "hPa")`],
  ["a quantity on text", (d) => { d.resources[0].schema.fields[3].type = "string"; }, `${f}[3].type must be number or integer, because the field has a quantity (got "string")`],
  ["a quantity without type", (d) => { delete d.resources[0].schema.fields[3].type; }, `${f}[3].type must be number or integer, because the field has a quantity (got nothing)`],
  ["an unknown quantity", (d) => { d.resources[0].schema.fields[3].quantity = "wind_speed"; }, `${f}[3].quantity must be one of air_temperature, relative_humidity, surface_air_pressure, air_pressure_at_mean_sea_level, dew_point_temperature (got "wind_speed")`],
  ["one quantity twice", (d) => { d.resources[0].schema.fields[4] = { ...d.resources[0].schema.fields[3], name: "t2" }; }, `${f}[4].quantity must be unlike that of t (got "air_temperature")`],
  ["no quantity", (d) => { d.resources[0].schema.fields.length = 3; }, "resources[0].schema.fields must hold a number field with a quantity (got none)"],
  ["two fields of one name", (d) => { d.resources[0].schema.fields[4].name = "t"; }, `${f}[4].name must be unlike those before it (got "t")`],
  ["missing values twice", (d) => { d.resources[0].schema.missingValues = ["", "NA", { value: "NA", label: "none" }]; }, 'resources[0].schema.missingValues must hold each text once (got "NA" twice)'],
  ["a field's own twice", (d) => { d.resources[0].schema.fields[3].missingValues = ["-", "-"]; }, `${f}[3].missingValues must hold each text once (got "-" twice)`],
  ["groups like decimals", (d) => { d.resources[0].schema.fields[3].groupChar = "."; }, `${f}[3].groupChar must be unlike the decimal character, "." (got ".")`],
  ["no zone", (d) => { delete d.resources[0].schema.fields[1].zone; d.resources[0].schema.fields[1].format = "%H:%M"; }, `${f}[1].zone must be given, because the values carry no offset (got nothing); ${zoneRemedy}`],
  ["an unknown zone", (d) => { d.resources[0].schema.fields[1].zone = "Mars/Base"; }, `${f}[1].zone ${zoneRule} (got "Mars/Base")`],
  ["a zone by its distance", (d) => { d.resources[0].schema.fields[1].zone = "UTC+7"; }, `${f}[1].zone ${zoneRule} (got "UTC+7"); write +07:00`],
  ["date and datetime", (d) => { d.resources[0].schema.fields[2].type = "datetime"; }, "resources[0].schema.fields must hold one datetime field, one date and one time field, or a date field alone (got 1 datetime, 1 date, 1 time); give type string to the fields that are not needed"],
  ["a time alone", (d) => { d.resources[0].schema.fields.splice(0, 1); }, "resources[0].schema.fields must hold one datetime field, one date and one time field, or a date field alone (got 0 datetime, 0 date, 1 time); give type string to the fields that are not needed"],
  ["any format", (d) => { d.resources[0].schema.fields[0].format = "any"; }, `${f}[0].format must be a pattern, or absent for ISO 8601 (got "any")`],
  ["an unknown letter", (d) => { d.resources[0].schema.fields[0].format = "%Y-%U"; }, `${f}[0].format must use only %Y %y %m %d %H %I %p %M %S %f %z %j %b %B %%, or %s or %Q alone, not %U (got "%Y-%U")`],
  ["seconds since 1970 beside other letters", (d) => { d.resources[0].schema.fields[0].format = "%Y %s"; }, `${f}[0].format must hold %s alone, because it tells day and time (got "%Y %s")`],
  ["milliseconds since 1970 on a date", (d) => { d.resources[0].schema.fields[0].format = "%Q"; }, `${f}[0].format must stand on a field of type datetime, because %Q tells day and time (got "%Q")`],
  ["a date alone without zone", (d) => { d.resources[0].schema.fields.splice(1, 1); }, `${f}[0].zone must be given, because the values carry no offset (got nothing); ${zoneRemedy}`],
  ["a format without a day", (d) => { d.resources[0].schema.fields[0].format = "%Y-%m"; }, `${f}[0].format must tell year, month and day (got "%Y-%m")`],
  ["a clock of twelve without its half", (d) => { d.resources[0].schema.fields[1].format = "%I:%M"; }, `${f}[1].format must use %I and %p together (got "%I:%M")`],
  ["two hours", (d) => { d.resources[0].schema.fields[1].format = "%H %I %p"; }, `${f}[1].format must use one of %H and %I, not both (got "%H %I %p")`],
  ["long and wide", (d) => { d.resources[0].schema.fields[4].place = "veranda"; }, `${f}[4].place must not be used beside a field with role place: a resource is long or wide, not both (got "veranda")`],
  ["nobody's rows", (d) => { d.resources[0].schema.fields[2] = { name: "who", type: "string" }; }, "resources[0].schema.fields must say whose rows these are, because the record has 2 places (got no field with role place and no place on a number field)"],
  ["an unknown place in values", (d) => { d.resources[0].schema.fields[2].values.X = "attic"; }, `${f}[2].values.X must be one of the places, veranda, library (got "attic")`],
  ["an unknown place in categories", (d) => { delete d.resources[0].schema.fields[2].values; d.resources[0].schema.fields[2].categories = [{ value: "V", label: "porch" }]; }, `${f}[2].categories[0] must be one of the places, veranda, library (got "porch")`],
  ["an unknown place of a number", (d) => { wide(d); d.resources[0].schema.fields[2].place = "attic"; }, `${f}[2].place must be one of the places, veranda, library (got "attic")`],
  ["a number that is nobody's", (d) => { wide(d); delete d.resources[0].schema.fields[2].place; }, `${f}[2].place must be given, because other number fields have one (got nothing)`],
  ["two fields with role place", (d) => { d.resources[0].schema.fields.push({ name: "who2", type: "string", role: "place" }); }, `${f}[5].role must stand on one field (got on who too)`],
  ["an unknown role", (d) => { delete d.places.library; d.resources[0].schema.fields[2] = { name: "who", role: "sensor" }; }, `${f}[2].role must be "place" (got "sensor")`],
  ["an unknown rule of matching", (d) => { d.resources[0].schema.fieldsMatch = "some"; }, 'resources[0].schema.fieldsMatch must be one of exact, equal, subset, superset, partial (got "some")'],
  ["latitude", (d) => { d.site.latitude = 91; }, "site.latitude must be from -90 to 90 degrees (got 91)"],
  ["longitude", (d) => { d.site.longitude = -180.5; }, "site.longitude must be from -180 to 180 degrees (got -180.5)"],
  ["elevation", (d) => { d.site.elevation = -431; }, "site.elevation must be from -430 to 9000 m (got -431)"],
  ["a place's elevation", (d) => { d.places.library.elevation = 9001; }, "places.library.elevation must be from -430 to 9000 m (got 9001)"],
  ["exposure", (d) => { d.places.library.exposure = "inside"; }, 'places.library.exposure must be one of outdoor, indoor (got "inside")'],
  ["averaging nothing", (d) => { d.resources[0].sampling = { averagedOver: 0, stamp: "end" }; }, "resources[0].sampling.averagedOver must be above 0 s (got 0)"],
  ["a stamp elsewhere", (d) => { d.resources[0].sampling = { averagedOver: 60, stamp: "late" }; }, 'resources[0].sampling.stamp must be one of start, middle, end (got "late")'],
  ["a correction at no time", (d) => { d.clock = { corrections: [{ at: "noon", ahead: 1 }] }; }, 'clock.corrections[0].at must be a time as the logger wrote it, such as 2024-03-01T09:00:00 (got "noon")'],
  ["a place's correction at no time", (d) => { d.places.veranda.clock = { corrections: [{ at: "noon", ahead: 1 }] }; }, 'places.veranda.clock.corrections[0].at must be a time as the logger wrote it, such as 2024-03-01T09:00:00 (got "noon")'],
  ["a clock on a resource", (d) => { d.resources[0].clock = { corrections: [] }; }, "resources[0].clock must not be used (got an object); write it on the place whose logger it was, or on the record for all of them"],
  ["corrections out of order", (d) => { d.clock = { corrections: [{ at: "2024-03-02", ahead: 1 }, { at: "2024-03-01", ahead: 2 }] }; }, 'clock.corrections[1].at must be later than the correction before it (got "2024-03-01")'],
  ["a clock that gains more than time", (d) => { d.clock = { corrections: [{ at: "2024-03-01", ahead: 0 }, { at: "2024-03-02", ahead: 86400 }] }; }, "clock.corrections[1].ahead must change by less than the time between the corrections (got 86400)"],
  ["a clock that gains more than time, but is not off by a year", (d) => { d.clock = { corrections: [{ at: "2024-03-01", ahead: 0 }, { at: "2024-03-02", ahead: 31535999 }] }; }, "clock.corrections[1].ahead must change by less than the time between the corrections (got 31535999)"],
  ["an event on no day", (d) => { d.events = [{ at: "2023-02-29", title: "x" }]; }, 'events[0].at must be a day or time that exists, such as 2024-06-20 or 2024-06-20T09:00 (got "2023-02-29")'],
  ["an event at no time", (d) => { d.events = [{ title: "x" }]; }, "events[0].at must be given, or from and to (got nothing)"],
  ["an event of a place that there is not", (d) => { d.events = [{ at: "2024-03-01", title: "x", places: ["veranda", "hall"] }]; }, 'events[0].places[1] must be one of the places, veranda, library (got "hall")'],
  ["an event of no place", (d) => { d.events = [{ at: "2024-03-01", title: "x", places: [] }]; }, "events[0].places must not be empty (got a list of 0)"],
  ["an event without end", (d) => { d.events = [{ from: "2024-03-01", title: "x" }]; }, "events[0].to must be given beside from (got nothing)"],
  ["an event that ends before it begins", (d) => { d.events = [{ from: "2024-03-02", to: "2024-03-01", title: "x" }]; }, 'events[0].to must not be before from, 2024-03-02 (got "2024-03-01")'],
];

describe("planRecord refuses, each by its path", () => {
  it.each(refusals)("%s", (_, change, sentence) => {
    expect(faults(card(change))).toEqual([sentence]);
  });

  it("what is no object at all", () => {
    for (const [d, got] of [[null, "null"], [[], "a list of 0"], ["x", '"x"']] as const) expect(faults(d)).toEqual([`the description must be an object (got ${got})`]);
  });

  it("a correction without an offset where the resource has no zone", () => {
    const d = column("Z", (r, c) => {
      delete r.schema.fields[0].zone;
      c.clock = { corrections: [{ at: "2024-03-01", ahead: 1 }] };
    });
    expect(faults(d)).toEqual(['clock.corrections[0].at must carry an offset, because the resource has no zone (got "2024-03-01")']);
  });

  it("all faults together, shapes and rules, each once", () => {
    const d = card((c) => {
      c.site.latitude = "north";
      c.resources[0].schema.fields[3].unit = "C";
      c.resources[0].schema.fields[4].unit = 7;
      c.resources[0].path = "../card.txt";
    });
    expect(faults(d)).toEqual([
      'site.latitude must be a number (got "north")',
      `${f}[4].unit must be text (got 7)`,
      `${f}[3].unit must be degC, degF or K (got "C"); write degC`,
      'resources[0].path must be inside the record\'s folder, not a path that leads above it (got "../card.txt")',
    ]);
  });
});

describe("planRecord takes", () => {
  it("the sound ones, and names the paths in order", () => {
    expect(faults(card())).toEqual([]);
    expect(faults(card(wide))).toEqual([]);
    expect(faults(column())).toEqual([]);
    expect(recordPaths(column("Z", (r) => { r.path = ["b.csv", "sub/a.csv"]; }))).toEqual(["b.csv", "sub/a.csv"]);
  });

  it("the records that ship with the project", () => {
    for (const name of ["hill-school", "harbor-loft", "puget-normals"]) {
      const d = JSON.parse(readFileSync(new URL(`../../../../datasets/${name}/datapackage.json`, import.meta.url), "utf8")) as unknown;
      expect(faults(d)).toEqual([]);
    }
  });

  it("fieldsMatch as a text or a list of one, categories for values, the old prefix of formats, a literal Z", () => {
    const d = card((c) => {
      const [date, time, who] = c.resources[0].schema.fields;
      c.resources[0].schema.fieldsMatch = ["subset"];
      date.format = "fmt:%d/%m/%Y";
      time.format = "%H:%M:%SZ";
      delete who.values;
      who.categories = [{ value: 1, label: "veranda" }, { value: 2, label: "library" }];
    });
    const plan = planRecord(d).resources[0];
    expect([plan.fieldsMatch, plan.who?.places.get("2")]).toEqual(["subset", "library"]);
  });

  it("places that share a title are told apart by their names", () => {
    const titles = (a: string | undefined, b: string | undefined): string[] =>
      planRecord(card((d) => { d.places.veranda.title = a; d.places.library.title = b; })).places.map((p) => p.title);
    expect(titles("Room", "Room")).toEqual(["Room (veranda)", "Room (library)"]);
    expect(titles("library", undefined)).toEqual(["library (veranda)", "library"]);
    expect(titles("Room", "Other room")).toEqual(["Room", "Other room"]);
  });

  it("one place without a word on whose rows they are, and no places at all", () => {
    expect(planRecord(card((d) => { d.places = { veranda: {} }; d.resources[0].schema.fields.splice(2, 1); })).resources[0].places).toEqual(["veranda"]);
    expect(planRecord(column()).places).toEqual([{ name: "here", title: "here", exposure: null, elevation: null }]);
    expect(planRecord(card((d) => { delete d.places; })).places.map((p) => p.name)).toEqual(["veranda", "library"]);
  });

  it("but notes what it does not use", () => {
    const plan = planRecord(card((d) => {
      d.name = "My Card";
      d.resources[0].dialect.caseSensitiveHeader = true;
      d.resources[0].schema.fields[3].constraints = { minimum: 0 };
    }));
    expect(plan.notes).toEqual([
      'the name "My Card" is best written in a–z, 0–9, point, hyphen and underscore',
      "resources[0]: constraints on fields are not checked",
      "resources[0].dialect.caseSensitiveHeader is not known and was not used",
    ]);
    expect(planRecord(card((d) => { delete d.name; })).notes).toEqual(["the description has no name; one such as hill-school tells records apart"]);
  });
});

it("record.schema.json is the one made from the shapes (write it anew with writeRecordSchema.ts)", () => {
  const kept = readFileSync(new URL("../../../../lib/record/description/record.schema.json", import.meta.url), "utf8");
  expect(JSON.parse(kept)).toEqual(recordSchema());
  expect(kept).toContain("https://datapackage.org/profiles/2.0/datapackage.json");
});
