import { signed } from "./words.js";
import type { RecordHead } from "./recordHead.js";

/** Names of the twelve months, three letters. */
export const monthNames: readonly string[] = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/**
 * A UTC instant as a person reads it: `3 May 2024 09:05`.
 *
 * @param iso     ISO 8601 UTC, `2024-05-03T09:05:00Z`
 * @param offsetHours hours to add, for the record's standard time
 */
export function dayAndTime(iso: string, offsetHours = 0): string {
  const at = new Date(Date.parse(iso) + offsetHours * 3600000);
  const clock = at.toISOString().slice(11, 16);
  return `${at.getUTCDate()} ${monthNames[at.getUTCMonth()]} ${at.getUTCFullYear()} ${clock}`;
}

/** The day alone: `3 May 2024`. */
export function dayOnly(iso: string, offsetHours = 0): string {
  return dayAndTime(iso, offsetHours).slice(0, -6);
}

/** The lines above every text answer: title, place on the globe, span. */
export function headLines(head: RecordHead, offsetHours: number): string[] {
  const where =
    head.site === null
      ? "site not told"
      : `${degrees(head.site.latitude, "N", "S")} ${degrees(head.site.longitude, "E", "W")}, ${Math.round(head.site.elevation)} m`;
  const span = `${dayOnly(head.from, offsetHours)} to ${dayOnly(head.to, offsetHours)} (${Number(head.days.toFixed(1))} days)`;
  return [head.title === "" || head.title === head.name ? head.name : `${head.title} [${head.name}]`, `${where} · ${span}`];
}

function degrees(value: number, positive: string, negative: string): string {
  return `${signed(Math.abs(value), Math.abs(value) < 10 ? 2 : 1).replace(/\.?0+$/, "")}° ${value < 0 ? negative : positive}`;
}

/** `UTC+07:00`. */
export function zoneText(offsetHours: number): string {
  const total = Math.round(Math.abs(offsetHours) * 60);
  return `UTC${offsetHours < 0 ? "−" : "+"}${String(Math.floor(total / 60)).padStart(2, "0")}:${String(total % 60).padStart(2, "0")}`;
}
