import { absoluteHumidity } from "../air/absoluteHumidity.js";
import { dewPoint } from "../air/dewPoint.js";
import { columnTemperature, seaLevelPressureThrough } from "../air/seaLevelPressure.js";
import { withoutTide } from "../cycles/tide/tideAt.js";
import { movingBackground } from "../grid/movingBackground.js";
import { regularGrid } from "../grid/regularGrid.js";
import { RecordError } from "../ground/complaint.js";
import type { AirRecord, PlaceRecord } from "../record/airRecord.js";
import { leftOut } from "../record/flag.js";
import { houseUnit, type Quantity, quantityWords } from "../record/quantity.js";
import type { Series } from "../record/series.js";
import { pressureOf, tideToTakeOut } from "./placeTide.js";

/** What can be made from what was logged. */
export type Derivation = "dew-point" | "absolute-humidity" | "sea-level" | "tide-free";

/** All derivations, in the order of their columns. */
export const derivations: readonly Derivation[] = Object.freeze(["dew-point", "absolute-humidity", "sea-level", "tide-free"]);

/** A series that was made, and how. */
export interface Derived {
  readonly series: Series;
  /** As in CleanedColumn. */
  readonly quantity: string;
  readonly standardName: string | null;
  readonly title: string;
  readonly made: string;
}

const days30 = 30 * 24;

/**
 * Makes one quantity of a place from its readings, reading by reading; a reading is as faulty as what it was made from.
 *
 * Dew point and absolute humidity from temperature and humidity of the same place. Sea-level pressure through one column of air
 * whose temperature is the 30-day mean outside (whole days, moved inside the record at its ends), so that the daily cycle of
 * temperature does not come into the pressure. Pressure without its tide by the fit of the place's own pressure.
 *
 * @param record a record whose faults are marked
 * @param place  one of its places
 * @param what   see Derivation
 * @returns      the series, or why there is none: words that go on after "there is no … of the place: "
 * @throws RecordError kind description when sea-level pressure is asked and no elevation is told
 */
export function derivedSeries(record: AirRecord, place: PlaceRecord, what: Derivation): Derived | string {
  if (what === "dew-point") return fromHumidity(place, "dew_point_temperature", dewPoint, "from air temperature and relative humidity over water, Magnus form of the WMO guide");
  if (what === "absolute-humidity") return fromHumidity(place, "mass_concentration_of_water_vapor_in_air", absoluteHumidity, "from air temperature and relative humidity over water, Magnus form of the WMO guide, ideal gas");
  return what === "sea-level" ? atSeaLevel(record, place) : withoutItsTide(record, place);
}

function fromHumidity(place: PlaceRecord, quantity: Quantity, of: (temperature: number, humidity: number) => number, made: string): Derived | string {
  if (place.series[quantity] !== undefined) return `${quantityWords[quantity]} was logged`;
  const { air_temperature: t, relative_humidity: h } = place.series;
  if (t === undefined || h === undefined) return "it takes air temperature and relative humidity of one place";
  const values: Float64Array = new Float64Array(t.values.length).fill(Number.NaN);
  const flags: Uint16Array = new Uint16Array(values.length);
  for (let i = 0; i < values.length; i++) {
    flags[i] = t.flags[i] | h.flags[i];
    if ((flags[i] & leftOut) === 0) values[i] = of(t.values[i], h.values[i]);
  }
  return derived(quantity, quantityWords[quantity], made, { ...t, quantity, unit: houseUnit[quantity], values, flags });
}

function derived(quantity: Quantity, title: string, made: string, series: Series): Derived {
  return Object.freeze({ series: Object.freeze(series), quantity, standardName: quantity, title, made });
}

function atSeaLevel(record: AirRecord, place: PlaceRecord): Derived | string {
  const quantity = "air_pressure_at_mean_sea_level";
  if (place.series[quantity] !== undefined) return "it was logged";
  const pressure = place.series.surface_air_pressure;
  if (pressure === undefined) return "no station pressure was logged";
  const elevation = place.elevation ?? record.site?.elevation ?? null;
  if (elevation === null) throw new RecordError("site.elevation must be told for the pressure at sea level (got none); add latitude, longitude and elevation to the description", "description");
  const outside = outdoors(record, place);
  if (outside === null) return "it takes air temperature and relative humidity outside";
  const air = columnOf(outside, elevation);
  const shift = (pressure.start - air.start) / 3_600_000;
  const last = air.values.length - 1;
  const values: Float64Array = pressure.values.map((p, i) => {
    if ((pressure.flags[i] & leftOut) !== 0 || Number.isNaN(p)) return Number.NaN;
    // Straight between the middles of the hours.
    const at = Math.min(last, Math.max(0, shift + pressure.seconds[i] / 3600 - 0.5));
    const k = Math.min(Math.floor(at), Math.max(0, last - 1));
    const mean = air.values[k] + (at - k) * (air.values[Math.min(last, k + 1)] - air.values[k]);
    return seaLevelPressureThrough(p, elevation, mean);
  });
  const made = `station pressure reduced from ${Math.round(elevation)} m by the hypsometric equation, through air of the 30-day mean temperature and humidity of ${outside.name}`;
  return derived(quantity, quantityWords[quantity], made, { ...pressure, quantity, values });
}

/** The place itself when it is not indoors, else the first outdoor one with temperature and humidity. */
function outdoors(record: AirRecord, place: PlaceRecord): PlaceRecord | null {
  const isFit = (p: PlaceRecord): boolean => p.exposure !== "indoor" && p.series.air_temperature !== undefined && p.series.relative_humidity !== undefined;
  return isFit(place) ? place : (Object.values(record.places).find((p) => p.exposure === "outdoor" && isFit(p)) ?? Object.values(record.places).find(isFit) ?? null);
}

/** Mean temperature of the air column, hour by hour, by 30-day means of what was sound · °C; NaN only where nothing was. */
function columnOf(place: PlaceRecord, elevation: number): { readonly start: number; readonly values: Float64Array } {
  const { air_temperature: t, relative_humidity: h } = place.series as Required<PlaceRecord["series"]>;
  const grid = regularGrid([t, h], { step: 3600, method: "none" });
  // A record under 30 days: the whole days it has.
  const width = Math.min(days30, Math.max(1, Math.floor(grid.length / 24)) * 24);
  const [temperature, humidity] = grid.columns.map((c) => movingBackground(c.values, width, { ends: "shift" }));
  return { start: grid.start, values: temperature.map((v, k) => columnTemperature(v, elevation, humidity[k])) };
}

function withoutItsTide(record: AirRecord, place: PlaceRecord): Derived | string {
  const series = pressureOf(place);
  if (series === null) return "no air pressure was logged";
  try {
    const fit = tideToTakeOut(record, series);
    const lines = fit.coefficients.map((c) => c.name).join(", ");
    return Object.freeze({
      series: withoutTide(series, fit),
      quantity: `${series.quantity}_tide_free`,
      standardName: null,
      title: `${quantityWords[series.quantity]} without its tide`,
      made: `${quantityWords[series.quantity]} less its fitted tide (${lines}); mean and slope stay`,
    });
  } catch (error) {
    if (!(error instanceof RecordError)) throw error;
    return error.message;
  }
}
