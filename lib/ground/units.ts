/** A unit that loggers write, as a straight line to the house unit: house = factor × (value + shift). */
export interface ReadUnit {
  /** UDUNITS' short spelling. */
  readonly name: string;
  /** House units are degC, hPa and %. */
  readonly dimension: "temperature" | "pressure" | "ratio";
  readonly factor: number;
  readonly shift: number;
}

/** Conventional millimetre of mercury: 13 595.1 kg/m³ × 9.80665 m/s² × 1 mm, in hPa. */
const mercury = (13595.1 * 9.80665 * 1e-3) / 100;

/**
 * Every unit that is read, under its short spelling.
 *
 * @source UDUNITS-2 definitions: degree_Celsius = K @ 273.15, degree_Fahrenheit = °R @ 459.67, mmHg = mm of conventional
 * mercury (13 595.10 kg/m³, 9.80665 m/s²), inHg = 25.4 mmHg; torr is that mercury unit there, not 101325/760 Pa
 */
const table: readonly ReadUnit[] = Object.freeze([
  { name: "degC", dimension: "temperature", factor: 1, shift: 0 },
  { name: "degF", dimension: "temperature", factor: 5 / 9, shift: -32 },
  { name: "K", dimension: "temperature", factor: 1, shift: -273.15 },
  { name: "hPa", dimension: "pressure", factor: 1, shift: 0 },
  { name: "mbar", dimension: "pressure", factor: 1, shift: 0 },
  { name: "Pa", dimension: "pressure", factor: 0.01, shift: 0 },
  { name: "kPa", dimension: "pressure", factor: 10, shift: 0 },
  { name: "mmHg", dimension: "pressure", factor: mercury, shift: 0 },
  { name: "inHg", dimension: "pressure", factor: 25.4 * mercury, shift: 0 },
  { name: "%", dimension: "ratio", factor: 1, shift: 0 },
  { name: "1", dimension: "ratio", factor: 100, shift: 0 },
]);

/** Longer spellings. Those of degC and K were read in UDUNITS-2's udunits2-derived.xml and udunits2-common.xml; plurals of the others by its rule. */
const spellings: Readonly<Record<string, readonly string[]>> = Object.freeze({
  degC: ["celsius", "degree_Celsius", "degrees_Celsius", "degree_C", "degrees_C", "degreeC", "degreesC", "deg_C", "degs_C", "degsC", "°C", "℃"],
  degF: ["fahrenheit", "degree_fahrenheit", "degrees_fahrenheit", "degree_F", "degrees_F", "degreeF", "degreesF", "deg_F", "degs_F", "degsF", "°F", "℉"],
  K: ["kelvin", "kelvins", "degree_kelvin", "degrees_kelvin", "degree_K", "degrees_K", "degreeK", "degreesK", "deg_K", "degs_K", "degK", "degsK", "°K"],
  hPa: ["hectopascal", "hectopascals"],
  mbar: ["millibar", "millibars"],
  Pa: ["pascal", "pascals"],
  kPa: ["kilopascal", "kilopascals"],
  mmHg: ["mm_Hg", "mm_hg", "mmhg", "millimeter_Hg", "millimeters_Hg", "torr"],
  inHg: ["in_Hg", "inch_Hg", "inches_Hg"],
  "%": ["percent"],
  "1": [],
});

/** What people write instead, letters and digits only, lower case. */
const slips: Readonly<Record<string, string>> = Object.freeze({
  c: "degC", celcius: "degC", celsius: "degC", degc: "degC", degreescelsius: "degC", degreecelsius: "degC", centigrade: "degC",
  f: "degF", fahrenheit: "degF", degf: "degF", degreesfahrenheit: "degF", farenheit: "degF",
  k: "K", kelvin: "K", hpa: "hPa", mb: "mbar", mbar: "mbar", millibar: "mbar", pa: "Pa", kpa: "kPa",
  mm: "mmHg", mmhg: "mmHg", in: "inHg", inch: "inHg", inches: "inHg", inhg: "inHg", rh: "%", pct: "%", percent: "%", prozent: "%",
});

/**
 * Every unit that is read, by each of its spellings. Spelling counts: `C` and `F` alone are coulomb and farad, and absent.
 *
 * @example unitsRead["inHg"].factor // 33.86388640341
 */
export const unitsRead: Readonly<Record<string, ReadUnit>> = Object.freeze(
  Object.assign(Object.create(null), ...table.map((unit) => Object.fromEntries([unit.name, ...spellings[unit.name]].map((name) => [name, unit])))),
);

/** Short spellings of the units of a dimension, for a sentence: `degC, degF or K`. */
export function unitsOf(dimension: ReadUnit["dimension"]): string {
  const names = table.filter((unit) => unit.dimension === dimension).map(({ name }) => name);
  return `${names.slice(0, -1).join(", ")} or ${names[names.length - 1]}`;
}

/**
 * What to write instead of a unit that is not read.
 *
 * @returns `write degC`, or every unit that is read when nothing is near
 * @example unitHint("C") // "write degC"
 */
export function unitHint(spelling: string): string {
  const bare = spelling.toLowerCase().replace(/[^a-z]/g, "");
  const meant = Object.hasOwn(slips, bare) ? slips[bare] : bare === "" && spelling.includes("%") ? "%" : undefined;
  return meant === undefined ? `units read are ${table.map(({ name }) => name).join(", ")}` : `write ${meant}`;
}

/**
 * A value in the house unit: °C, hPa or %.
 *
 * @param value in `unit` · NaN stays NaN
 * @example toHouse(29.92, unitsRead["inHg"]) // 1013.20748
 */
export function toHouse(value: number, unit: ReadUnit): number {
  return unit.factor * (value + unit.shift);
}
