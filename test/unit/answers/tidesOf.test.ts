import { describe, expect, it } from "vitest";
import { tidesOf } from "../../../lib/answers/tidesOf.js";
import { displaySymbol } from "../../../lib/ground/display.js";
import { random } from "../../../lib/ground/random.js";
import { recordFromSeries } from "../../../lib/record/recordFromSeries.js";
import { series } from "../../../lib/record/series.js";

const start = Date.UTC(2024, 2, 1);
const hours = 24 * 40;
const site = { latitude: -7, longitude: 110, elevation: 20 };

/** Forty days with a twice-daily tide of 1.2 hPa; the station moves down by `step` hPa at noon of day 20. */
function moved(events: Parameters<typeof recordFromSeries>[1] = {}, step = 0.5) {
  const { normal } = random(4401);
  let weather = 0;
  const values = Array.from({ length: hours }, (_, i) => {
    weather = 0.98 * weather + 0.2 * normal();
    return 1009 + weather + 1.2 * Math.cos((4 * Math.PI * (i - 2.6)) / 24) + (i >= 20 * 24 + 12 ? step : 0);
  });
  return recordFromSeries([series({ times: values.map((_, i) => start + 3600000 * i), values, quantity: "surface_air_pressure", place: "porch" })], { site, ...events });
}

describe("tidesOf", () => {
  it("splits the fit where an event says that the station moved", () => {
    const at = start + (20 * 24 + 12) * 3600000;
    const told = tidesOf(moved({ events: [{ at, to: null, kind: "station moved", title: "to the ground floor" }] }));
    expect(told.fits.porch.jumps.map((j) => Math.abs(j.at - at) <= 3600000)).toEqual([true]);
    expect(tidesOf(moved()).fits.porch.jumps).toEqual([]);
    // Two hectopascals at once are found without being told.
    expect(tidesOf(moved({}, 2)).fits.porch.jumps.map((j) => Math.abs(j.at - at) <= 3600000)).toEqual([true]);
  });

  it("tells S1, S2, S3 as plain data, keeps the fits out of JSON, and has a text form", () => {
    const answer = tidesOf(moved());
    expect(Object.keys(JSON.parse(JSON.stringify(answer)))).toEqual(["record", "places"]);
    const s2 = answer.places.porch.constituents[1];
    expect(s2.amplitude.low <= 1.2 && 1.2 <= s2.amplitude.high).toBe(true);
    expect(answer[displaySymbol](80)["text/plain"]).toMatch(/Twice a day the pressure swings 1\.\d+ ± 0\.0\d+ hPa/);
  });

  it("needs a site, and pressure", () => {
    expect(() => tidesOf({ ...moved(), site: null })).toThrow(/site must be told for the tide/);
    const warm = recordFromSeries([series({ times: [start, start + 3600000], values: [20, 21], quantity: "air_temperature" })], { site });
    expect(() => tidesOf(warm)).toThrow(/must hold air pressure for the tide/);
  });
});
