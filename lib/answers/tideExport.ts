import type { Constituent, TideFit } from "../cycles/tide/tideFit.js";
import { requireWithin } from "../ground/complaint.js";
import { instantText } from "../ground/instant.js";

/** One detected line as another program needs it: cosine·cos 2πf(t − epoch) + sine·sin 2πf(t − epoch), t in days. */
export interface ExportedLine {
  readonly name: string;
  readonly cyclesPerDay: number;
  /** hPa, mean to crest. */
  readonly amplitude: number;
  /** h: local mean solar time for S1…S4, lunar hours for L2. */
  readonly maximumAt: number;
  readonly cosine: number;
  readonly sine: number;
}

/** The tide of one place to take away. */
export interface ExportedPlace {
  readonly quantity: string;
  readonly unit: string;
  readonly longitude: number;
  /** Zero of the phases, ISO 8601 UTC. */
  readonly epoch: string;
  readonly from: string;
  readonly to: string;
  readonly lines: readonly ExportedLine[];
  /** Amplitude and hour of each detected line by calendar month; empty for a short record. */
  readonly months: readonly { readonly month: number; readonly lines: readonly { readonly name: string; readonly amplitude: number; readonly maximumAt: number }[] }[];
}

/** What `--export json` writes. */
export interface TideExport {
  readonly format: "airtides-tide";
  readonly version: 1;
  readonly record: string;
  readonly places: Readonly<Record<string, ExportedPlace>>;
}

/**
 * The tide of a record as plain data: the detected lines of every place.
 *
 * @param answer from `tidesOf`
 * @returns      see TideExport, frozen
 * @example tideExport(tidesOf(record)).record // "hill-school"
 */
export function tideExport(answer: { readonly record: { readonly name: string }; readonly fits: Readonly<Record<string, TideFit>> }): TideExport {
  const places = Object.fromEntries(Object.entries(answer.fits).map(([name, fit]) => [name, exportedPlace(fit)]));
  return Object.freeze({ format: "airtides-tide", version: 1, record: answer.record.name, places: Object.freeze(places) });
}

const detectedOnly = (constituents: readonly Constituent[]): { name: string; amplitude: number; maximumAt: number }[] =>
  constituents.flatMap((c) => (c.detected && c.maximumAt !== null ? [{ name: c.name, amplitude: c.amplitude.value, maximumAt: c.maximumAt.value }] : []));

function exportedPlace(fit: TideFit): ExportedPlace {
  const lines = detectedOnly(fit.constituents).map((line) => {
    const c = fit.coefficients.find((k) => k.name === line.name);
    if (c === undefined) throw new Error(`exportTides: the fit has no coefficients of ${line.name}`);
    return { ...line, cyclesPerDay: c.cyclesPerDay, cosine: c.cosine, sine: c.sine };
  });
  return {
    quantity: fit.quantity,
    unit: fit.unit,
    longitude: fit.longitude,
    epoch: instantText(fit.epoch),
    from: instantText(fit.from),
    to: instantText(fit.to),
    lines,
    months: fit.climatology.map((m) => ({ month: m.month, lines: detectedOnly(m.constituents) })),
  };
}

/**
 * The exported tide of a place at an instant: what its detected lines add to the mean.
 *
 * @param place from `tideExport`, or read back from its JSON
 * @param epochMs epoch ms, UTC
 * @returns     unit of the export
 * @throws RangeError when epochMs is not finite
 * @example exportedTideAt(JSON.parse(text).places.veranda, Date.UTC(2024, 5, 1, 3))
 */
export function exportedTideAt(place: ExportedPlace, epochMs: number): number {
  requireWithin("exportedTideAt", "epochMs", epochMs, -Infinity, Infinity, "ms");
  const days = (epochMs - Date.parse(place.epoch)) / 86400000;
  return place.lines.reduce((sum, l) => sum + l.cosine * Math.cos(2 * Math.PI * l.cyclesPerDay * days) + l.sine * Math.sin(2 * Math.PI * l.cyclesPerDay * days), 0);
}
