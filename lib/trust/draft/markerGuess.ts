import { plainWord } from "./quantityVocabulary.js";

/** A column that says whose row it is. */
export interface MarkerGuess {
  readonly column: number;
  /** What is written in it, commonest first. */
  readonly texts: readonly string[];
  readonly because: string;
}

const names = /^(who|where|place|placename|location|loc|ort|platz|raum|zimmer|room|standort|sensor|sensorid|sonde|fuhler|probe|station|node|device|deviceid|id|unit|logger|channel|kanal|ch|lieu|piece|capteur|lugar|sala|luogo|stanza|local|plaats|kamer|sted|plats|rum|misto|miejsce|pokoj|hely|yer|oda|tempat|ruang|mac|name|nom|nombre|source|quelle|site|место|датчик|комната|地点|場所|位置)\d*$/;
/** Most places a marker may tell apart. */
const mostPlaces = 24;
/** Rarer texts than this share are damage, not places. */
const rarest = 0.004;

/**
 * The column whose few texts say whose row it is: rows of different texts share their times, and each text's own rows do not.
 *
 * @param rows    cells · [rows]
 * @param times   civil times · [rows]
 * @param columns that hold text, or few whole numbers
 * @param names   of all columns
 */
export function markerGuess(rows: readonly (readonly string[])[], times: Float64Array, columns: readonly number[], named: readonly string[]): MarkerGuess | null {
  let best: (MarkerGuess & { score: number }) | null = null;
  for (const column of columns) {
    const counts = new Map<string, number>();
    for (const row of rows) counts.set(row[column], (counts.get(row[column]) ?? 0) + 1);
    const texts = [...counts].filter(([text, n]) => text !== "" && n >= Math.max(1, rarest * rows.length)).sort((a, b) => b[1] - a[1]);
    if (texts.length < 2 || texts.length > mostPlaces || texts.reduce((n, [, k]) => n + k, 0) < 0.9 * rows.length) continue;
    const isNamed = names.test(plainWord(named[column] ?? "").replace(/[^\p{L}\d]/gu, ""));
    const parting = partingOf(rows, times, column);
    if (parting < (isNamed ? 0.3 : 0.6)) continue;
    const score = parting + (isNamed ? 1 : 0);
    if (best !== null && best.score >= score) continue;
    const because = `rows that share a time, or follow each other at once, differ in it, and each of its texts (${texts.map(([t]) => t).join(", ")}) has a regular log of its own`;
    best = { column, texts: texts.map(([t]) => t), because, score };
  }
  return best;
}

/**
 * How well a column parts rows into logs of their own, 0…1: time steps inside a text against the steps as they stand.
 *
 * Loggers that write by turns have steps near nothing beside long ones; parted, each has even steps.
 */
function partingOf(rows: readonly (readonly string[])[], times: Float64Array, column: number): number {
  const last = new Map<string, number>();
  const own: number[] = [];
  const mixed: number[] = [];
  let changes = 0;
  for (let i = 0; i < rows.length; i++) {
    const text = rows[i][column];
    const before = last.get(text);
    if (before !== undefined) own.push(times[i] - before);
    if (i > 0) {
      mixed.push(times[i] - times[i - 1]);
      if (text !== rows[i - 1][column]) changes++;
    }
    last.set(text, times[i]);
  }
  if (own.length < 4) return 0;
  const usual = [...own].sort((a, b) => a - b)[own.length >> 1];
  const even = own.filter((s) => s > 0 && Math.abs(s - usual) <= 0.3 * Math.abs(usual)).length / own.length;
  const doubled = mixed.filter((s) => Math.abs(s) < 0.7 * Math.abs(usual)).length / mixed.length;
  // A log of one place after the other: time goes back where the text changes.
  const returns = mixed.filter((s) => s < -20 * Math.abs(usual)).length;
  const isInBlocks = changes > 0 && changes <= 2 * last.size && returns >= 1;
  return Math.min(even / 0.7, 1) * Math.max(Math.min(doubled / 0.4, 1), isInBlocks ? 1 : 0);
}
