import { dewPoint } from "../../air/dewPoint.js";
import { vaporPressure } from "../../air/relativeHumidity.js";
import { toHouse, unitsRead } from "../../ground/units.js";
import { type ColumnSense, dimensionOf, dimensionSaid, type FieldQuantity, ignored, type RawColumn, settled, settledByName } from "./columnSense.js";
import { type ColumnLevel, correlation, crestHour } from "./columnLevel.js";
import { type Dimension, possibleUnits } from "./unitGuess.js";

/** Correlation from which temperature and humidity are known by going against each other. */
const against = -0.35;
/** Correlation from which two columns track each other. */
const together = 0.6;
/** A column that jumps more than this share of its spread from reading to reading is no state of the air. */
const mostRough = 0.45;

/**
 * What each column is: by its name where that speaks, else by its level and by how it goes with the others.
 *
 * Air pressure is the steady, smooth column at a level that some height has; temperature and humidity go against each other
 * through the day; what follows a known column is the same quantity elsewhere, or the dew point when it is what the other two give.
 *
 * @param columns the columns that are no stamp and no marker of places
 * @param rows    which rows to compare: those of one place, in order of the log
 * @param times   civil times of all rows · epoch ms as if UTC
 */
export function quantityGuess(columns: readonly RawColumn[], rows: readonly number[], times: Float64Array): ColumnSense[] {
  const found: (ColumnSense | null)[] = settledByName(columns);
  const isNamed = found.some((f) => f?.quantity != null);
  const of = (quantity: FieldQuantity): ColumnSense[] => found.filter((f): f is ColumnSense => f?.quantity === quantity);
  const lacks = (quantity: FieldQuantity): boolean => !isNamed || of(quantity).length === 0;
  const isOpen = (k: number): boolean => found[k] === null;
  for (const [k, c] of columns.entries()) if (isOpen(k)) found[k] = hopeless(c);
  const open = (): number[] => columns.flatMap((_, k) => (isOpen(k) ? [k] : []));
  const values = columns.map((c) => (c.number === null ? new Float64Array(0) : Float64Array.from(rows, (r) => (c.number as { values: Float64Array }).values[r])));
  const wants = { p: lacks("surface_air_pressure") && of("air_pressure_at_mean_sea_level").length === 0, t: lacks("air_temperature"), h: lacks("relative_humidity") };

  if (wants.p) for (const k of open()) {
    const because = pressureReason(columns[k]);
    if (because !== null) found[k] = settled(columns[k], "surface_air_pressure", because);
  }
  for (let pair = opposite(open(), values); pair !== null && (wants.t || wants.h); pair = opposite(open(), values)) {
    const [t, h] = oriented(pair, columns, values, found);
    if (t === null || h === null) break;
    found[t] = settled(columns[t], "air_temperature", `it goes against column ${columns[h].column + 1} through the day (correlation ${pair.r.toFixed(2)}), as temperature does against humidity`);
    found[h] = settled(columns[h], "relative_humidity", `it goes against column ${columns[t].column + 1} through the day (correlation ${pair.r.toFixed(2)}) between 0 and 100 %`);
  }
  for (const k of open()) {
    const like = columns.map((_, j) => j).filter((j) => j !== k && found[j]?.quantity != null && dimensionOf[found[j]?.quantity as FieldQuantity] !== "pressure");
    const nearest = like.map((j) => ({ j, r: correlation(values[k], values[j]) })).sort((a, b) => b.r - a.r)[0];
    if (nearest === undefined || nearest.r < together) continue;
    const other = found[nearest.j] as ColumnSense;
    if (!(other.quantity === "relative_humidity" ? wants.h : wants.t)) continue;
    if (possibleUnits(dimensionOf[other.quantity as FieldQuantity], columns[k].level).length === 0) continue;
    const same = settled(columns[k], other.quantity as FieldQuantity, `it follows column ${other.column + 1} (correlation ${nearest.r.toFixed(2)}): the same quantity in another place`);
    found[k] = same;
  }
  for (const k of open()) found[k] = alone(columns[k], wants, isNamed, crestHour(Float64Array.from(rows, (r) => times[r]), values[k]));
  dewPoints(found as ColumnSense[], values);
  return pressureKinds(oneScale(found as ColumnSense[]));
}

/** A logger writes all its temperatures in one unit: where one can only be °F, a cool one that no header tells is so too. */
function oneScale(found: ColumnSense[]): ColumnSense[] {
  const isTemperature = (f: ColumnSense): boolean => f.quantity !== null && dimensionOf[f.quantity] === "temperature";
  const sure = found.find((f) => isTemperature(f) && f.unit === "degF" && f.unitDoubt === null);
  if (sure === undefined) return found;
  return found.map((f) => {
    const isOpen = isTemperature(f) && f.unit !== "degF" && f.meaning.unit === null && f.number?.suffix === "" && possibleUnits("temperature", f.level).includes("degF");
    const isDoubted = isTemperature(f) && f.unit === "degF" && f.unitDoubt !== null;
    return isOpen || isDoubted ? { ...f, unit: "degF", unitBecause: `column ${sure.column + 1} can only be in °F, and a logger writes its temperatures in one unit`, unitDoubt: null } : f;
  });
}

/** Columns that can be no reading of the air whatever their neighbors do. */
function hopeless(c: RawColumn): ColumnSense | null {
  const { number, level } = c;
  if (number === null) return ignored(c, "it holds text");
  if (level.count === 0) return ignored(c, "it holds no value");
  if (level.low === level.high) return ignored(c, `it never changes from ${level.low}`);
  if (level.count > 8 && Math.abs(level.drift) > 0.9) return ignored(c, `it only ${level.drift > 0 ? "rises" : "falls"}: a counter or a battery`);
  if (level.count > 20 && level.commonest > 0.7) return ignored(c, "nearly all its values are one and the same");
  if (level.count > 20 && level.roughness > mostRough) return ignored(c, "it jumps from reading to reading as the air does not");
  return null;
}

/** Whether a column's unit, where it names one, is of what it is to be taken for. */
function isSaid(c: RawColumn, dimension: Dimension): boolean {
  return (dimensionSaid(c) ?? dimension) === dimension;
}

/** Why a column is pressure by its level and calm; null when it is not. */
function pressureReason(c: RawColumn): string | null {
  const { level, number } = c;
  if (!isSaid(c, "pressure")) return null;
  const spread = (level.p95 - level.p05) / level.median;
  const [unit] = possibleUnits("pressure", level);
  if (unit === undefined || !(spread < 0.09)) return null;
  const decimals = number?.decimals ?? 0;
  if (unit === "inHg" && (level.median < 20 || decimals < 2 || spread > 0.06)) return null;
  if (unit === "kPa" && (level.median < 60 || decimals < 1 || (level.median < 95 && spread > 0.05))) return null;
  if ((unit === "hPa" || unit === "mmHg") && level.median < 520) return null;
  return `it is steady (within ${(100 * spread).toFixed(1)} % of its level) and smooth at a level that air pressure has`;
}

/** The two open columns that go most against each other. */
function opposite(open: readonly number[], values: readonly Float64Array[]): { a: number; b: number; r: number } | null {
  let best: { a: number; b: number; r: number } | null = null;
  for (const a of open) {
    for (const b of open) {
      if (b <= a) continue;
      const r = correlation(values[a], values[b]);
      if (r < (best?.r ?? against)) best = { a, b, r };
    }
  }
  return best;
}

/** Which of two opposite columns is temperature and which humidity: by range, by what known columns they follow, else by the steadier vapor. */
function oriented({ a, b }: { a: number; b: number }, columns: readonly RawColumn[], values: readonly Float64Array[], found: readonly (ColumnSense | null)[]): [number, number] | [null, null] {
  const canBe = (t: number, h: number): boolean => {
    if (!isSaid(columns[t], "temperature") || !isSaid(columns[h], "humidity")) return false;
    const [temperature, humidity] = [columns[t].level, columns[h].level];
    const isOfShares = (level: ColumnLevel): boolean => level.high <= 1.06 && level.low >= 0;
    const isShare = isOfShares(humidity);
    return !isOfShares(temperature) && possibleUnits("temperature", temperature).length > 0 && temperature.p99 < 330 && humidity.p01 >= 0 && humidity.p99 <= 106 && (isShare || humidity.median > 1.2);
  };
  const [first, second] = [canBe(a, b), canBe(b, a)];
  if (!first && !second) return [null, null];
  if (first !== second) return first ? [a, b] : [b, a];
  // A pair of another place follows the pair that is known.
  const lean = (k: number): number => found.reduce((sum, f, j) => sum + (f?.quantity === "air_temperature" ? 1 : f?.quantity === "relative_humidity" ? -1 : 0) * correlation(values[k], values[j]), 0);
  const preference = lean(a) - lean(b);
  if (Math.abs(preference) > 0.5) return preference > 0 ? [a, b] : [b, a];
  return vaporSpread(values[a], values[b]) <= vaporSpread(values[b], values[a]) ? [a, b] : [b, a];
}

/** Spread of the logarithm of vapor pressure: small when t and h are what they are taken for. */
function vaporSpread(t: Float64Array, h: Float64Array): number {
  const isFahrenheit = t.some((v) => v > 52);
  const isShare = !h.some((v) => v > 1.06);
  let [n, sum, squares] = [0, 0, 0];
  for (let i = 0; i < t.length; i++) {
    const celsius = isFahrenheit ? (t[i] - 32) / 1.8 : t[i];
    const percent = isShare ? 100 * h[i] : h[i];
    if (!(celsius > -60 && celsius < 60 && percent > 0.5 && percent <= 105)) continue;
    const e = Math.log(vaporPressure(celsius, percent));
    n++;
    sum += e;
    squares += e * e;
  }
  return n < 8 ? Number.POSITIVE_INFINITY : squares / n - (sum / n) ** 2;
}

/** A column that goes with no other: by its range alone. */
function alone(c: RawColumn, wants: { t: boolean; h: boolean }, isNamed: boolean, crest: number): ColumnSense {
  const { level } = c;
  const spread = level.p95 - level.p05;
  if (wants.t && !isNamed && level.p01 > 225 && level.p99 < 325 && spread > 0.3 && spread < 60) return settled(c, "air_temperature", "its range is that of temperature in kelvin, and no other column goes against it");
  const isLikeHumidity = level.p01 >= 5 && level.p99 > 52 && level.p99 <= 101;
  if (wants.t && !isNamed && isLikeHumidity && crest >= 11 && crest < 20) {
    const warm = settled(c, "air_temperature", `it is highest at about ${Math.round(crest)} h, as temperature is and humidity is not`);
    return { ...warm, quantityDoubt: "is this temperature or humidity? No other column goes against it, and its range is possible for both" };
  }
  if (wants.t && (level.low < 0 || level.median <= 33) && level.p99 <= 52 && level.p01 > -50 && spread > 0.3 && !isNamed) return settled(c, "air_temperature", "its range is that of temperature, and no other column goes against it");
  if (wants.h && level.p01 >= 5 && level.p99 > 52 && level.p99 <= 101 && !isNamed) return settled(c, "relative_humidity", "its range is that of humidity, and no other column goes against it");
  return ignored(c, isNamed ? `its name, ${JSON.stringify(c.name)}, is not known; if it is a reading of the air give it a quantity and a unit` : "it goes with no other column and its range tells nothing; if it is a reading of the air give it a quantity and a unit");
}

/** Temperatures that are what dew point of another temperature and humidity would be. */
function dewPoints(found: ColumnSense[], values: readonly Float64Array[]): void {
  const [temperatures, humidities] = ["air_temperature", "relative_humidity"].map((q) => found.flatMap((f, k) => (f.quantity === q ? [k] : [])));
  const inHouse = (k: number, i: number): number => toHouse(values[k][i], unitsRead[found[k].unit]);
  for (const d of temperatures) {
    if (found[d].meaning.topic !== null) continue;
    for (const t of temperatures) for (const h of humidities) {
      if (t === d || found[d].quantity !== "air_temperature") continue;
      const off: number[] = [];
      for (let i = 0; i < values[d].length; i += Math.max(1, Math.floor(values[d].length / 500))) {
        const [temperature, humidity] = [inHouse(t, i), inHouse(h, i)];
        if (temperature > -60 && temperature < 60 && humidity > 1 && humidity <= 105) off.push(Math.abs(dewPoint(temperature, humidity) - inHouse(d, i)));
      }
      const close = off.filter((o) => o < 1).length;
      if (off.length >= 8 && close >= 0.9 * off.length && correlation(values[d], values[t]) < 0.995) {
        found[d] = { ...found[d], quantity: "dew_point_temperature", because: `it is what columns ${found[t].column + 1} and ${found[h].column + 1} give as dew point, within 1 °C` };
      }
    }
  }
}

/** Near sea level a pressure may be the station's or reduced: only the owner knows. */
function pressureKinds(found: ColumnSense[]): ColumnSense[] {
  return found.map((f) => {
    if (f.quantity !== "surface_air_pressure" || f.level.count === 0 || f.meaning.topic === "surface_air_pressure") return f;
    const level = toHouse(f.level.median, unitsRead[f.unit]);
    if (level < 985) return f;
    return { ...f, quantityDoubt: `is this the pressure at the logger itself, or reduced to sea level? Its middle value, ${level.toFixed(1)} hPa, fits both near sea level; reduced pressure is air_pressure_at_mean_sea_level` };
  });
}
