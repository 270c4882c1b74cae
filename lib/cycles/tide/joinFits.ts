import { mustSentence, RecordError, shown } from "../../ground/complaint.js";
import { displayable } from "../../ground/display.js";
import type { Series } from "../../record/series.js";
import { tideEpoch } from "./argumentAtEpoch.js";
import type { NoiseTheta } from "./bandedNoise.js";
import { requireSeparable } from "./fittedLines.js";
import type { MeansKind } from "./hourMeans.js";
import { joinChunks } from "./joinChunks.js";
import { tideLines } from "./lineTable.js";
import { type TideChunk, tideChunk } from "./tideChunk.js";
import type { TideFit, TideNoise } from "./tideFit.js";
import { noiseOf } from "./tideOfSeries.js";
import { tideText } from "./tideText.js";
import { usableReadings } from "./usableReadings.js";

/** What one month says of the tide, as plain JSON: small, and enough to be added to other months without the readings. */
export interface TideSums extends TideChunk {
  readonly kind: "tide-sums";
  readonly version: 1;
  readonly place: string;
  readonly quantity: string;
  readonly unit: string;
  readonly longitude: number;
  readonly averagedOver: number;
  readonly means: TideFit["means"];
  readonly lines: readonly string[];
  readonly reported: readonly string[];
  readonly noise: TideNoise;
}

const thetaOf = (noise: TideNoise): NoiseTheta => [Math.log(noise.whiteRatio), Math.log(noise.slowRate), Math.log(noise.fastRate)];

function linesNamed(names: readonly string[]): (typeof tideLines)[number][] {
  return names.map((name) => {
    const line = tideLines.find((l) => l.name === name);
    if (line === undefined) throw new RecordError(mustSentence("joinFits", "lines", "be known", shown(name)), "data");
    return line;
  });
}

/**
 * Sums of one month (or any stretch) of a record at the noise of an earlier fit, to be saved and added by `joinFits`.
 *
 * @param series the stretch · same place and quantity as the fit
 * @param like   a fit of at least 60 days whose noise, lines, longitude and averaging are kept
 * @returns      plain JSON: B and h of about 8 × 8 and 8 numbers, with what the error needs
 * @throws RangeError  when the units differ
 * @throws RecordError kind `data` when the stretch is shorter than 3 days or too thin
 * @example tideSums(may, fit).unit // "hPa"
 */
export function tideSums(series: Series, like: TideFit): TideSums {
  if (series.unit !== like.unit) throw new RangeError(mustSentence("tideSums", "series", `be in the fit's unit, ${like.unit}`, shown(series.unit)));
  const lines = linesNamed(like.coefficients.map((c) => c.name));
  const kind: MeansKind = like.means === "plain" ? "plain" : "bridged";
  const chunk = tideChunk(usableReadings(series), lines, like.averagedOver, kind, thetaOf(like.noise));
  if (chunk === null) throw new RecordError(mustSentence("tideSums", "series", "last at least 3 days with readings in most hours", `${series.seconds.length} readings`, "take a longer stretch"), "data");
  return Object.freeze({
    kind: "tide-sums",
    version: 1,
    place: series.place,
    quantity: series.quantity,
    unit: series.unit,
    longitude: like.longitude,
    averagedOver: like.averagedOver,
    means: like.means,
    lines: Object.freeze(lines.map((l) => l.name)),
    reported: Object.freeze(like.constituents.map((c) => c.name)),
    noise: like.noise,
    ...chunk,
  });
}

/** Refuses sums that cannot be added: other lines, place or unit, or stretches that overlap. */
function requireJoinable(sums: readonly TideSums[]): void {
  if (sums.length === 0) throw new RangeError(mustSentence("joinFits", "sums", "hold at least one stretch", "none"));
  for (const s of sums) {
    if (s?.kind !== "tide-sums" || s.version !== 1) throw new RecordError(mustSentence("joinFits", "sums", "be made by tideSums, version 1", shown(s?.kind)), "data");
    for (const key of ["place", "quantity", "unit", "longitude"] as const) {
      if (s[key] !== sums[0][key]) throw new RecordError(mustSentence("joinFits", key, `be ${shown(sums[0][key])} in all sums`, shown(s[key])), "data");
    }
    const names = s.lines.join(", ");
    if (names !== sums[0].lines.join(", ")) throw new RecordError(mustSentence("joinFits", "lines", `be ${sums[0].lines.join(", ")} in all sums`, names), "data");
    if (s.normal.length !== 4 * s.lines.length ** 2 || s.right.length !== 2 * s.lines.length || s.beside.length !== s.lines.length) {
      throw new RecordError(mustSentence("joinFits", "sums", "have the size of their lines", `${s.normal.length} numbers for ${s.lines.length} lines`), "data");
    }
  }
  const sorted = [...sums].sort((a, b) => a.from - b.from);
  for (let i = 1; i < sorted.length; i++) {
    if (sorted[i].from >= sorted[i - 1].to) continue;
    throw new RecordError(mustSentence("joinFits", "sums", "not overlap in time", `two that share ${new Date(sorted[i].from).toISOString()}`, "leave one out"), "data");
  }
}

/**
 * The tide of several stretches together, from their saved sums alone.
 *
 * The same tide is assumed in all; each stretch had its own mean and slope. Measured: no loss against one fit of the whole
 * (room's README). The order does not matter.
 *
 * @param sums from `tideSums`, also after a turn through JSON
 * @returns    a TideFit; no months and no seasonal test, which need the readings
 * @throws RangeError  when there are none
 * @throws RecordError kind `data` when they differ in lines, place, unit or longitude, overlap, or cannot separate the lines
 * @example joinFits([tideSums(may, fit), tideSums(june, fit)]).constituents[1].amplitude.value // 1.1
 */
export function joinFits(sums: readonly TideSums[]): TideFit {
  requireJoinable(sums);
  const sorted = [...sums].sort((a, b) => a.from - b.from);
  const first = sorted[0];
  const lines = linesNamed(first.lines);
  const total = (of: (s: TideSums) => number): number => sorted.reduce((sum, s) => sum + of(s), 0);
  const from = first.from;
  const to = sorted[sorted.length - 1].to;
  requireSeparable("joinFits", lines, (to - from) / 86_400_000);
  const theta = thetaOf(first.noise);
  const joined = joinChunks(sorted, lines, theta, first.longitude, first.unit);
  const days = total((s) => s.days);
  const result: TideFit = {
    place: first.place,
    quantity: first.quantity,
    unit: first.unit,
    longitude: first.longitude,
    method: `Sums of ${sums.length} stretches, each fitted by generalized least squares with its own mean and slope at the noise of an earlier fit.`,
    means: first.means,
    from,
    to,
    days,
    hours: total((s) => s.hours),
    coverage: Math.min(1, total((s) => s.hours) / ((to - from) / 3_600_000)),
    readings: total((s) => s.readings),
    leftOut: 0,
    mean: total((s) => s.level * s.hours) / total((s) => s.hours),
    averagedOver: first.averagedOver,
    epoch: tideEpoch,
    constituents: Object.freeze(joined.constituents.filter((c) => first.reported.includes(c.name))),
    coefficients: Object.freeze(joined.coefficients),
    noise: noiseOf(theta, joined.sigma2),
    climatology: Object.freeze([]),
    seasonal: Object.freeze({ changes: null, says: "Whether the tide changes with the season cannot be told from sums.", pValue: null, lines: Object.freeze([]) }),
    jumps: Object.freeze([]),
    warnings: Object.freeze([`Joined from ${sums.length} stretches (${days.toFixed(1)} days): one steady tide is assumed in all of them.`]),
  };
  return displayable(result, () => tideText(result));
}
