import * as plan from "./plan.mjs";

/** The record's description (datapackage.json), from the same plan as the logs. */
export function description() {
  const { corrections, cards, letters, shutters, site, together } = plan;
  return {
    $schema: "https://datapackage.org/profiles/2.0/datapackage.json",
    name: "hill-school",
    title: "A school in the hills (invented)",
    description: "INVENTED by make.mjs from a fixed seed, with faults planted on purpose; nothing in it was measured. What was planted stands in truth.json.",
    licenses: [{ name: "MIT", path: "https://opensource.org/license/mit", title: "MIT License" }],
    site,
    places: {
      veranda: { title: "Veranda", exposure: "outdoor" },
      library: { title: "Library", exposure: "indoor" },
    },
    events: [
      { from: together.fromText, to: together.toText, kind: "co-location", title: "both loggers on one table on the veranda" },
      { at: shutters.at, title: shutters.title },
    ],
    clock: { corrections },
    resources: [{
      name: "card",
      type: "table",
      path: cards.map((card) => card.path),
      dialect: { delimiter: ",", header: true, commentChar: "#" },
      schema: {
        missingValues: ["", "NA"],
        fields: [
          { name: "date", type: "date", format: "%Y-%m-%d" },
          { name: "time", type: "time", format: "%H:%M:%S", zone: "+07:00" },
          { name: "who", type: "string", role: "place", values: Object.fromEntries(Object.entries(letters).map(([place, letter]) => [letter, place])) },
          { name: "temp", type: "number", quantity: "air_temperature", unit: "degC" },
          { name: "hum", type: "number", quantity: "relative_humidity", unit: "%" },
          { name: "press", type: "number", quantity: "surface_air_pressure", unit: "hPa" },
        ],
      },
    }],
  };
}
