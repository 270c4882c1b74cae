import { mustSentence, shown } from "../ground/complaint.js";
import { tideExport } from "./tideExport.js";
import { tideHeader } from "./tideHeader.js";

/**
 * The tide's coefficients as text for another program.
 *
 * @param answer from `tidesOf`
 * @param format `c` one C99 header, `csv` one row a line and place, `json` to be read back
 * @returns      the text, with its line ends
 * @throws TypeError when the format is unknown
 * @example exportTides(tidesOf(record), "csv").split(",")[0] // "place"
 */
export function exportTides(answer: Parameters<typeof tideExport>[0], format: "c" | "csv" | "json"): string {
  const data = tideExport(answer);
  if (format === "json") return `${JSON.stringify(data, null, 2)}\n`;
  if (format === "c") return tideHeader(data);
  if (format !== "csv") throw new TypeError(mustSentence("exportTides", "format", "be c, csv or json", shown(format)));
  const rows = ["place,quantity,month,line,cycles_per_day,amplitude_hPa,maximum_h,cosine_hPa,sine_hPa,epoch"];
  for (const [name, p] of Object.entries(data.places)) {
    const field = csvField(name);
    for (const l of p.lines) rows.push([field, p.quantity, "", l.name, l.cyclesPerDay, l.amplitude, l.maximumAt, l.cosine, l.sine, p.epoch].join(","));
    for (const m of p.months) for (const l of m.lines) rows.push([field, p.quantity, m.month, l.name, "", l.amplitude, l.maximumAt, "", "", ""].join(","));
  }
  return `${rows.join("\n")}\n`;
}

function csvField(text: string): string {
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
