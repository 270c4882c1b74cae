import { standardHeight } from "../../air/standardAtmosphere.js";
import { toHouse, unitsRead } from "../../ground/units.js";
import type { ColumnLevel } from "./columnLevel.js";

export type Dimension = "temperature" | "humidity" | "pressure";

/** A unit, why it was taken, and what else it could be. */
export interface UnitGuess {
  readonly unit: string;
  readonly because: string;
  /** What to ask the owner where the level leaves two units open. */
  readonly doubt: string | null;
}

/** From where to where the middle of a column may lie in each unit · in that unit; common practice, no source. */
const levels: Readonly<Record<Dimension, Readonly<Record<string, readonly [number, number]>>>> = {
  temperature: { degC: [-45, 45], degF: [-49, 115], K: [225, 320] },
  humidity: { "%": [1.2, 101], "1": [0.02, 1.02] },
  pressure: { hPa: [500, 1085], mmHg: [375, 800], inHg: [14.7, 32], kPa: [50, 108.5], Pa: [50000, 108500] },
};

/** Units of a dimension in which the middle of a column is possible. */
export function possibleUnits(dimension: Dimension, level: ColumnLevel): string[] {
  return Object.entries(levels[dimension]).flatMap(([unit, [low, high]]) => (level.median >= low && level.median <= high ? [unit] : []));
}

/**
 * The unit of a column by what it says of itself and by what is possible.
 *
 * @param dimension what the column measures
 * @param level     of its values as written
 * @param told      unit named in the header or written in the cells, or null
 * @param from      where it was told, for the reason
 * @returns         null when no unit that is read makes the level possible
 */
export function unitGuess(dimension: Dimension, level: ColumnLevel, told: string | null, from: string): UnitGuess | null {
  const usual = { temperature: "degC", humidity: "%", pressure: "hPa" }[dimension];
  const named = told === "mbar" ? "hPa" : told;
  const own = named !== null && Object.hasOwn(levels[dimension], named) ? named : null;
  if (level.count === 0) return { unit: own === null ? usual : (told as string), because: own === null ? "it holds no value, so the commonest unit stands here" : `${from} says ${told}`, doubt: null };
  const possible = possibleUnits(dimension, level);
  if (own !== null && possible.includes(own)) return { unit: told as string, because: `${from} says ${told}, in which a middle value of ${shown(level.median)} is possible`, doubt: null };
  if (possible.length === 0) return null;
  const by = dimension === "pressure" ? pressureUnit(level, possible) : dimension === "temperature" ? temperatureUnit(level, possible) : humidityUnit(level);
  if (by === null) return null;
  return own === null ? by : { ...by, because: `${from} says ${told}, but a middle value of ${shown(level.median)} is impossible in it; ${by.because}`, doubt: by.doubt ?? `is the unit ${by.unit}? ${from} says ${told}, in which ${shown(level.median)} cannot be` };
}

function shown(value: number): string {
  return String(Number(value.toPrecision(4)));
}

/** Height at which a pressure is usual, in words, to the nearest 10 m. */
function heightOf(value: number, unit: string): string {
  const height = Math.round(standardHeight(toHouse(value, unitsRead[unit])) / 10) * 10;
  return Math.abs(height) < 100 ? "sea level" : `about ${height} m`;
}

function pressureUnit(level: ColumnLevel, possible: readonly string[]): UnitGuess | null {
  const at = shown(level.median);
  const only = possible.filter((u) => u !== "hPa" || level.median >= 600 || !possible.includes("mmHg"));
  if (!only.includes("mmHg") || !only.includes("hPa") || level.median > 790) {
    const unit = level.median > 790 && possible.includes("hPa") ? "hPa" : only[0];
    const height = heightOf(level.median, unit);
    const instead = unit === "mmHg" && level.median < 650 ? `; in hPa that would be ${heightOf(level.median, "hPa")}` : "";
    return { unit, because: `a middle value of ${at} is the usual air pressure at ${height} in ${unit}${instead}`, doubt: null };
  }
  const [low, high] = [heightOf(level.median, "mmHg"), heightOf(level.median, "hPa")];
  // Weather of middle latitudes moves mercury by 10 mm and more; where the air is thin it hardly moves.
  return {
    unit: "mmHg",
    because: `a middle value of ${at} is the usual air pressure at ${low} in mmHg; in hPa it would be that at ${high}`,
    doubt: `is the pressure written in mmHg (then the logger stands at ${low}) or in hPa (then at ${high})?`,
  };
}

function temperatureUnit(level: ColumnLevel, possible: readonly string[]): UnitGuess {
  const at = shown(level.median);
  if (possible.includes("K")) return { unit: "K", because: `a middle value of ${at} is a temperature of the air in kelvin only`, doubt: null };
  const highest = shown(level.p99);
  if (!possible.includes("degC") || (level.p99 > 52 && level.p99 - level.p95 < 25)) {
    // A logger in a box in the sun reaches 65 °C and is cool by night.
    const isOpen = possible.includes("degC") && level.p99 <= 65 && level.p05 < 35;
    return { unit: "degF", because: `its values reach ${highest}, which air has in °F and not in °C`, doubt: isOpen ? `is the temperature in °F, or in °C of a sensor that the sun heats to ${highest}?` : null };
  }
  // A mean above 33 °C is rarer than a cool day in °F.
  if (level.median > 33) return { unit: "degF", because: `a middle value of ${at} is usual in °F and too hot in °C`, doubt: `is the temperature of ${at} in °F or in °C?` };
  const isOpen = level.p05 >= 14 && level.p95 > 36;
  return { unit: "degC", because: `its values from ${shown(level.p01)} to ${highest} are usual in °C`, doubt: isOpen ? `is the temperature of ${at} in °C or in °F?` : null };
}

function humidityUnit(level: ColumnLevel): UnitGuess | null {
  if (level.high <= 1.06 && level.median > 0.02) return { unit: "1", because: `its values from ${shown(level.p01)} to ${shown(level.p99)} are shares of 1`, doubt: null };
  return level.p95 <= 106 && level.p05 >= -1 ? { unit: "%", because: `its values from ${shown(level.p01)} to ${shown(level.p99)} are percent`, doubt: null } : null;
}
