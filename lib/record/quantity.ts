/**
 * What the library measures or derives, by CF standard name.
 *
 * @source CF standard name table, version 83 (2023-10-17), public repository cf-convention/vocabularies
 */
export type Quantity =
  | "air_temperature"
  | "relative_humidity"
  | "surface_air_pressure"
  | "air_pressure_at_mean_sea_level"
  | "dew_point_temperature"
  | "mass_concentration_of_water_vapor_in_air";

/** House unit of each quantity (UDUNITS spelling); all values inside the library are in it. */
export const houseUnit: Readonly<Record<Quantity, string>> = Object.freeze({
  air_temperature: "degC",
  relative_humidity: "%",
  surface_air_pressure: "hPa",
  air_pressure_at_mean_sea_level: "hPa",
  dew_point_temperature: "degC",
  mass_concentration_of_water_vapor_in_air: "g m-3",
});

/** Quantities in the order in which tables show them. */
export const quantities: readonly Quantity[] = Object.freeze(Object.keys(houseUnit) as Quantity[]);

/** Plain words for a quantity, lower case, for sentences and tables. */
export const quantityWords: Readonly<Record<Quantity, string>> = Object.freeze({
  air_temperature: "air temperature",
  relative_humidity: "relative humidity",
  surface_air_pressure: "station pressure",
  air_pressure_at_mean_sea_level: "sea-level pressure",
  dew_point_temperature: "dew point",
  mass_concentration_of_water_vapor_in_air: "absolute humidity",
});
