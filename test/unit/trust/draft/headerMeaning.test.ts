import { expect, it } from "vitest";
import { headerMeaning } from "../../../../lib/trust/draft/headerMeaning.js";

// Words of headers as people write them; common practice, no source.
const rows: readonly (readonly [string, string | null, string | null, string])[] = [
  ["Temperature", "air_temperature", null, ""],
  ["Temp, °F", "air_temperature", "degF", ""],
  ["temp_c", "air_temperature", "degC", ""],
  ["tempf", "air_temperature", "degF", ""],
  ["T1", "air_temperature", null, "1"],
  ["t_in", "air_temperature", null, "in"],
  ["outTemp", "air_temperature", null, "out"],
  ["TempOut", "air_temperature", null, "out"],
  ["Außentemperatur [°C]", "air_temperature", "degC", "aussen"],
  ["Température extérieure (°C)", "air_temperature", "degC", "exterieure"],
  ["Living room T", "air_temperature", null, "living-room"],
  ["气温(℃)", "air_temperature", "degC", ""],
  ["室内温度", "air_temperature", null, "室内"],
  ["실외 기온", "air_temperature", null, "실외"],
  ["Relative Humidity (%)", "relative_humidity", "%", ""],
  ["RH2", "relative_humidity", null, "2"],
  ["rF innen (%)", "relative_humidity", "%", "innen"],
  ["Humedad relativa", "relative_humidity", null, ""],
  ["Влажность, %", "relative_humidity", "%", ""],
  ["humin", "relative_humidity", null, "in"],
  ["RHout", "relative_humidity", null, "out"],
  ["HRint", "relative_humidity", null, "int"],
  ["rhin", "relative_humidity", null, "in"],
  ["RHum", "relative_humidity", null, ""],
  ["hout", "relative_humidity", null, "out"],
  ["hin", "relative_humidity", null, "in"],
  ["pout", "pressure", null, "out"],
  ["pext", "pressure", null, "ext"],
  ["UMID", "relative_humidity", null, ""],
  ["Fukt", "relative_humidity", null, ""],
  ["lampo", "air_temperature", null, ""],
  ["Pmsl", "air_pressure_at_mean_sea_level", null, ""],
  ["p_hPa", "pressure", "hPa", ""],
  ["hPa", null, "hPa", ""],
  ["baro inHg", "pressure", "inHg", ""],
  ["Temp int", "air_temperature", null, "int"],
  ["inP", "pressure", null, "in"],
  ["Pressure (hPa)", "pressure", "hPa", ""],
  ["abs. Luftdruck", "surface_air_pressure", null, ""],
  ["rel. Luftdruck (hPa)", "air_pressure_at_mean_sea_level", "hPa", ""],
  ["Sea level pressure", "air_pressure_at_mean_sea_level", null, ""],
  ["QNH", "air_pressure_at_mean_sea_level", null, ""],
  ["press_mbar", "pressure", "mbar", ""],
  ["Taupunkt °C", "dew_point_temperature", "degC", ""],
  ["Point de rosée", "dew_point_temperature", null, ""],
  ["CO2 (ppm)", "other", null, ""],
  ["PM2.5", "other", null, ""],
  ["Battery temperature", "other", null, ""],
  ["Soil moisture", "other", null, ""],
  ["Wind speed", "other", null, ""],
  ["absolute humidity", "other", null, ""],
  ["Humidity (g/m3)", "other", null, ""],
  ["Humidity [g kg-1]", "other", null, ""],
  ["H2O (mmol/mol)", "other", null, ""],
  ["H2OC (mmol/mol)", "other", null, ""],
  ["Press_mm_hg", "pressure", "mmHg", ""],
  ["dewp", "dew_point_temperature", null, ""],
  ["foo", null, null, "foo"],
  ["", null, null, ""],
];

it.each(rows)("%s", (name, topic, unit, place) => {
  const meaning = headerMeaning(name);
  expect([meaning.topic, meaning.unit]).toEqual([topic, unit]);
  if (topic !== "other") expect(meaning.place).toBe(place);
});

it("a line of units under the name tells the unit", () => {
  expect(headerMeaning("temp", "°F").unit).toBe("degF");
  expect(headerMeaning("baro", "[inHg]").unit).toBe("inHg");
});
