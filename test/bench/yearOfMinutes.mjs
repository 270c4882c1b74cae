/** Makes the bench's records: by default a year of minutes from two places, long layout, about 1.05 million rows. Invented, seeded, not kept. */
import { closeSync, mkdirSync, openSync, writeFileSync, writeSync } from "node:fs";
import { join } from "node:path";

const minutes = 366 * 1440;
const start = Date.UTC(2024, 0, 1) / 1000;

/** A small generator of its own, so that the bench needs nothing built: a 32-bit mixing generator, and sums of four as near-normal. */
function chance(seed) {
  let state = seed >>> 0;
  const uniform = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let x = Math.imul(state ^ (state >>> 15), state | 1);
    x ^= x + Math.imul(x ^ (x >>> 7), x | 61);
    return ((x ^ (x >>> 14)) >>> 0) / 4294967296;
  };
  return () => (uniform() + uniform() + uniform() + uniform() - 2) * Math.sqrt(3);
}

const two = (n) => String(n).padStart(2, "0");

/**
 * Writes datapackage.json and card.txt into a folder.
 *
 * @param folder where
 * @param rows   rows to write, both places together; default a year of minutes
 * @param step   seconds from one reading of a place to the next; default a minute
 * @returns      path of the log
 */
export function makeYearOfMinutes(folder, rows = 2 * minutes, step = 60) {
  mkdirSync(folder, { recursive: true });
  const path = join(folder, "card.txt");
  const file = openSync(path, "w");
  const normal = chance(20240101);
  let weather = 0;
  let inside = 24;
  let text = "";
  for (let i = 0; i < rows / 2; i++) {
    const t = start + step * i;
    const day = ((t + 7 * 3600) / 86400) % 1;
    const date = new Date((t + 7 * 3600) * 1000);
    weather += (-weather * step) / 259_200 + 0.03 * Math.sqrt(step / 60) * normal();
    const tide = 0.5 * Math.cos(2 * Math.PI * (day - 0.25)) + 1.05 * Math.cos(4 * Math.PI * (day - 0.41));
    const pressure = 860.5 + weather + tide;
    const outside = 23 + 4.5 * Math.cos(2 * Math.PI * (day - 0.6)) + 0.3 * weather + 0.05 * normal();
    inside += ((outside - inside) * step) / 43_200;
    const stamp = `${date.getUTCFullYear()}-${two(date.getUTCMonth() + 1)}-${two(date.getUTCDate())},${two(date.getUTCHours())}:${two(date.getUTCMinutes())}:${two(date.getUTCSeconds())}`;
    const humidity = Math.min(99.9, Math.max(20, 75 - 4 * (outside - 23) + normal()));
    text += `${stamp},V,${outside.toFixed(2)},${humidity.toFixed(1)},${(pressure + 0.03 * normal()).toFixed(2)}\n`;
    text += `${stamp},L,${(inside + 0.05 * normal()).toFixed(2)},${(humidity - 8).toFixed(1)},${(pressure + 0.6 + 0.03 * normal()).toFixed(2)}\n`;
    if (text.length > 1 << 20) {
      writeSync(file, text);
      text = "";
    }
  }
  writeSync(file, text);
  closeSync(file);
  const number = (name, quantity, unit) => ({ name, type: "number", quantity, unit });
  const description = {
    $schema: "https://datapackage.org/profiles/2.0/datapackage.json",
    name: "year-of-minutes",
    title: "A year of minutes, invented for the bench",
    site: { latitude: -7.1, longitude: 110.2, elevation: 1380 },
    places: { veranda: { title: "Veranda", exposure: "outdoor" }, library: { title: "Library", exposure: "indoor" } },
    resources: [
      {
        name: "card",
        type: "table",
        path: "card.txt",
        dialect: { header: false },
        schema: {
          fields: [
            { name: "date", type: "date" },
            { name: "time", type: "time", zone: "+07:00" },
            { name: "who", type: "string", role: "place", values: { V: "veranda", L: "library" } },
            number("t", "air_temperature", "degC"),
            number("rh", "relative_humidity", "%"),
            number("p", "surface_air_pressure", "hPa"),
          ],
        },
      },
    ],
  };
  writeFileSync(join(folder, "datapackage.json"), JSON.stringify(description, null, 2));
  return path;
}
