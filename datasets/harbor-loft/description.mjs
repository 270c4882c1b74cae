import * as plan from "./plan.mjs";

const units = { air_temperature: "degF", relative_humidity: "%", surface_air_pressure: "inHg" };

/** The record's description (datapackage.json), from the same plan as the logs. */
export function description() {
  const number = (place) => Object.entries(plan.columns).map(([quantity, column]) => {
    return { name: `${place}_${column}`, type: "number", quantity, unit: units[quantity], place };
  });
  return {
    $schema: "https://datapackage.org/profiles/2.0/datapackage.json",
    name: "harbor-loft",
    title: "A loft by a northern harbor (invented)",
    description: "INVENTED by make.mjs from a fixed seed; nothing in it was measured. What was planted stands in truth.json.",
    licenses: [{ name: "MIT", path: "https://opensource.org/license/mit", title: "MIT License" }],
    site: plan.site,
    places: { harbor: { title: "Harbor side", exposure: "outdoor" }, loft: { title: "Loft", exposure: "indoor" } },
    events: [{ at: plan.insulation.at, title: plan.insulation.title }],
    resources: [{
      name: "log",
      type: "table",
      path: plan.logs.map(({ path }) => path),
      dialect: { delimiter: ",", header: true },
      schema: {
        missingValues: [""],
        fields: [{ name: "when", type: "datetime", format: "%d/%m/%Y %H:%M", zone: plan.zone }, ...number("harbor"), ...number("loft")],
      },
    }],
  };
}
