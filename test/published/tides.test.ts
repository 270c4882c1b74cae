import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { argumentAtEpoch, tideEpoch } from "../../lib/cycles/tide/argumentAtEpoch.js";
import { constituentOf, lineCoefficients } from "../../lib/cycles/tide/constituentOf.js";
import { cyclesPerDay, type LineOfTide, tideLines } from "../../lib/cycles/tide/lineTable.js";
import { pairsOf } from "../../lib/cycles/tide/fittedLines.js";
import { fitTides } from "../../lib/cycles/tide/fitTides.js";
import { fusedPass } from "../../lib/cycles/tide/fusedPass.js";
import { inverseOf } from "../../lib/cycles/tide/smallCholesky.js";
import { inverseDensity } from "../../lib/cycles/tide/bandedNoise.js";
import { tideRows } from "../../lib/cycles/tide/tideRows.js";
import { tideSteps } from "../../lib/cycles/tide/tideSteps.js";
import { usableReadings } from "../../lib/cycles/tide/usableReadings.js";
import { leastSquares } from "../../lib/ground/leastSquares.js";
import { series } from "../../lib/record/series.js";
import { checkRows, type PublishedRow } from "./publishedRow.js";

const named = (name: string): LineOfTide => {
  const line = tideLines.find((l) => l.name === name);
  if (line === undefined) throw new Error(`no line ${name}`);
  return line;
};
const oceanography = "read in a constituent list on a National Oceanography Centre page (10⁻⁷ °/h)";
const rates = { s: 0.5490165, h: 0.0410686, p: 0.0046418 };

describe("frequencies", () => {
  checkRows([
    ...([["L2", 28.9841042], ["K1", 15.0410686], ["O1", 13.9430356], ["N2", 28.4397295], ["T2", 29.9589333], ["K2", 30.0821373], ["P1", 14.9589314]] as const).map(
      ([name, expected]): PublishedRow => ({ given: `${name}, °/h`, got: () => named(name).degreesPerHour, expected, tolerance: { absolute: 1e-9 }, why: "the list's own digits", source: oceanography }),
    ),
    ...tideLines.map((line): PublishedRow => ({
      given: `${line.name} from the rates of mean longitude, °/h`,
      got: () => 15 * line.species + line.moon * rates.s + line.sun * rates.h + line.lunarPerigee * rates.p,
      expected: line.degreesPerHour,
      tolerance: { absolute: 2.5e-6 },
      why: "rates rounded to 10⁻⁷ and multiplied by up to 3; the solar perigee's rate, 2·10⁻⁶, is left out",
      source: "from memory: rates of s, h, p",
    })),
    { given: "S2 and L2, days to separate", got: () => 1 / (cyclesPerDay(named("S2")) - cyclesPerDay(named("L2"))), expected: 14.765, tolerance: { absolute: 5e-4 }, why: "half of the last digit", source: "computed: Rayleigh criterion, half a synodic month of 29.53 d" },
    { given: "S2 and K2, days", got: () => 1 / (cyclesPerDay(named("K2")) - cyclesPerDay(named("S2"))), expected: 182.62, tolerance: { absolute: 0.005 }, why: "half of the last digit", source: "computed" },
    { given: "S1 and K1, days", got: () => 1 / (cyclesPerDay(named("K1")) - cyclesPerDay(named("S1"))), expected: 365.25, tolerance: { absolute: 0.01 }, why: "365.24 to 365.26", source: "computed" },
  ]);
});

/** Hour of the first crest of A sin(n·15°·t + φ), t in hours of local mean time, through our own coefficients. */
function crest(name: string, phi: number, longitude = 0): number {
  const line = named(name);
  // At Greenwich the coefficient phase of a sine of argument + φ: cos(argument − G), G = 90° − φ; our phase counts from the epoch.
  const g = ((90 - phi - argumentAtEpoch(line) - line.species * longitude) * Math.PI) / 180;
  const c = lineCoefficients(line, Math.cos(g), Math.sin(g), [1e-6, 1e-6, 0], 1, { ratio: 1, count: 40 });
  return constituentOf(line, c, 1, longitude, "hPa").maximumAt?.value ?? Number.NaN;
}

const half = { absolute: 0.006 };
describe("phases: A sin(n·15°·t + φ), hours of local mean solar or lunar time", () => {
  checkRows([
    { given: "S2 with φ = 158°", got: () => crest("S2", 158), expected: 9.733, tolerance: { absolute: 5e-4 }, why: "half of the last digit", source: "computed: (90 − 158)/30 + 12" },
    { given: "the same at 110.2° E", got: () => crest("S2", 158, 110.2), expected: 9.733, tolerance: { absolute: 5e-4 }, why: "local time is local", source: "computed" },
    { given: "S2 of Copenhagen, φ = 130.8°", got: () => crest("S2", 130.8), expected: 10.64, tolerance: half, why: "half of the last digit", source: "read in the abstract of Chapman 1969, QJRMS" },
    { given: "L2 of Batavia, φ = 68°", got: () => crest("L2", 68), expected: 0.73, tolerance: half, why: "half of the last digit, lunar hours", source: "read in a 1936 paper, Proc. R. Soc. Edinburgh, quoting Chapman 1918/19" },
    { given: "L2 of Hong Kong, φ = 60°", got: () => crest("L2", 60), expected: 1, tolerance: half, why: "half of the last digit, lunar hours", source: "read in the same" },
    { given: "L2 of Greenwich, φ = 114°", got: () => crest("L2", 114), expected: 11.2, tolerance: half, why: "half of the last digit, lunar hours", source: "read in the same" },
    { given: "S1 main wave, φ = 12°", got: () => crest("S1", 12), expected: 5.2, tolerance: half, why: "half of the last digit", source: "from memory: Haurwitz 1965" },
  ]);

  it("phi of S2 as a crest in UTC: 2.387 h at 110.2° E", () => {
    const at = tideEpoch + 2.387 * 3_600_000;
    const times = Array.from({ length: 24 * 30 }, (_, i) => tideEpoch + i * 3_600_000);
    const values = times.map((t) => 1000 + Math.cos((4 * Math.PI * (t - at)) / 86_400_000) + 1e-3 * Math.sin(t * t));
    const fit = fitTides(series({ times, values, quantity: "surface_air_pressure" }), { longitude: 110.2 });
    expect(Math.abs((fit.constituents[1].maximumAt?.value ?? 99) - 9.733)).toBeLessThan(0.001);
  });
});

/** Moon's mean hour angle at Greenwich by L2's argument · degrees, −90…90 (the upper and lower transit are alike). */
function lunarAngle(ms: number): number {
  const line = named("L2");
  const v = (argumentAtEpoch(line) + (line.degreesPerHour * (ms - tideEpoch)) / 3_600_000) / 2;
  return v - 180 * Math.round(v / 180);
}

describe("the moon's clock", () => {
  checkRows([
    {
      given: "argument of L2 at 2000-01-01T00Z", got: () => argumentAtEpoch(named("L2")), expected: 136.45, tolerance: { absolute: 0.1 }, why: "mean of date and apparent places differ by aberration and nutation, hundredths of a degree",
      source: "computed with astropy 5.2.1: ecliptic longitudes of moon (211.741°) and sun (279.967°) over 18.6 years with their periodic terms fitted away",
    },
    ...([
      // At new moon the moon stands at the sun's hour angle: −180° + 15° · UTC hours.
      ["new moon, 2000-01-06T18:14Z", Date.UTC(2000, 0, 6, 18, 14)], ["new moon, 2024-04-08T18:21Z", Date.UTC(2024, 3, 8, 18, 21)], ["new moon, 2017-08-21T18:30Z", Date.UTC(2017, 7, 21, 18, 30)],
    ] as const).map(([given, ms]): PublishedRow => ({
      given: `hour angle of mean moon less that of the sun, ${given}`,
      got: () => {
        const sun = 15 * ((ms % 86_400_000) / 3_600_000) - 180;
        const d = lunarAngle(ms) - sun;
        return d - 180 * Math.round(d / 180);
      },
      expected: 0, tolerance: { absolute: 8.5 }, why: "the moon runs up to 7° ahead of its mean and the sun 2° of its own", source: "common practice, no source: dates of new moons, two of them well-known solar eclipses",
    })),
  ]);
});

describe("AR(1), φ = 0.9, innovation 1, hourly, 100 days", () => {
  it("standard error of a coefficient at 2 cpd is that of exact generalized least squares, 0.057589 and 0.057622", () => {
    // computed with scipy; our precision differs from the exact one in the two corner entries only, and μ is finite.
    const times = Array.from({ length: 2400 }, (_, i) => i * 3_600_000);
    const steps = tideSteps(usableReadings(series({ times, values: times.map((_, i) => Math.sin(i * i)), quantity: "surface_air_pressure" })));
    const rows = tideRows(steps, [{ cyclesPerDay: 2, turn: 0, damping: 1 }], "bridged");
    const pass = fusedPass(rows);
    const lambda = (24 * 0.1) / Math.sqrt(0.9);
    pass.evaluate([-14, Math.log(lambda), 9]);
    const inverse = inverseOf(pass.state.factor, 4);
    const sigma2 = 1 / (0.9 * (1 / 24) ** 2 * inverseDensity(4 * Math.PI, lambda, Math.exp(9)));
    expect(Math.abs(Math.sqrt(sigma2 * inverse[10]) / 0.057589 - 1)).toBeLessThan(5e-4);
    expect(Math.abs(Math.sqrt(sigma2 * inverse[15]) / 0.057622 - 1)).toBeLessThan(5e-4);
  });
});

describe("Seattle–Tacoma, hourly normals of pressure 1981–2010 (NOAA, public domain)", () => {
  const table = readFileSync(new URL("../../datasets/puget-normals/hourly.csv", import.meta.url), "utf8").trim().split("\n").slice(1).map((row) => row.split(","));
  const zone = 8 * 3_600_000;
  const times = table.map(([date]) => Date.parse(`${date}Z`) + zone);
  const values = table.map(([, pressure]) => Number(pressure));
  // Plain least squares of constant and S1…S4 through our own columns; days count from midnight UTC, hours turn to PST.
  const steps = tideSteps(usableReadings(series({ times, values, quantity: "air_pressure_at_mean_sea_level" })));
  const rows = tideRows(steps, pairsOf(["S1", "S2", "S3", "S4"].map(named), steps.midnight, 0), "bridged");
  const column = (k: number): Float64Array => rows.table.subarray(k * rows.hours, (k + 1) * rows.hours);
  const observed = (k: number): number[] => Array.from(column(k)).filter((_, i) => rows.weights[i] > 0);
  const solved = leastSquares([0, 2, 3, 4, 5, 6, 7, 8, 9].map(observed), observed(10)).coefficients;
  const amplitude = (n: number): number => Math.hypot(solved[2 * n - 1], solved[2 * n]);
  const hour = (n: number): number => {
    const h = (Math.atan2(solved[2 * n], solved[2 * n - 1]) * 24) / (2 * Math.PI * n) - 8;
    const period = 24 / n;
    return ((h % period) + period) % period;
  };
  const source = "computed with numpy 1.24.2: least squares on the same file, days since 2010-01-01T00:00 as written";
  checkRows(
    ([[1, 0.4312, 8.076], [2, 0.2887, 10.551], [3, 0.0372, 2.938], [4, 0.0404, 3.765]] as const).flatMap(([n, a, h]): PublishedRow[] => [
      { given: `S${n} amplitude, hPa`, got: () => amplitude(n), expected: a, tolerance: { absolute: 1e-3 }, why: "arithmetic on given data", source },
      { given: `S${n} maximum, h PST`, got: () => hour(n), expected: h, tolerance: { absolute: 0.01 }, why: "arithmetic on given data", source },
    ]),
  );

  const fit = fitTides(series({ times, values, quantity: "air_pressure_at_mean_sea_level" }), { longitude: -122.3 });
  const [s1, s2] = fit.constituents;
  checkRows([
    { given: "fitTides: S2 amplitude, hPa", got: () => s2.amplitude.value, expected: 0.2887, tolerance: { absolute: 0.01 }, why: "other weights of the same hours", source },
    { given: "fitTides: S2 maximum, h local mean solar time", got: () => s2.maximumAt?.value ?? Number.NaN, expected: 10.397, tolerance: { absolute: 0.1 }, why: "other weights of the same hours", source },
    { given: "fitTides: S1 amplitude, hPa", got: () => s1.amplitude.value, expected: 0.4312, tolerance: { absolute: 0.02 }, why: "other weights of the same hours", source },
    { given: "fitTides: S1 in July, hPa", got: () => fit.climatology[6].constituents[0].amplitude.value, expected: 0.74, tolerance: { absolute: 0.05 }, why: "mean and slope of the month are fitted too, months of solar time", source },
    { given: "fitTides: S1 in January, hPa", got: () => fit.climatology[0].constituents[0].amplitude.value, expected: 0.214, tolerance: { absolute: 0.05 }, why: "the same", source },
    { given: "S2 against 1.16 cos³φ, 0.359 hPa", got: () => s2.amplitude.value, expected: 0.3, tolerance: { absolute: 0.1 }, why: "0.2 to 0.4, between equator and Copenhagen", source: "from memory: Haurwitz 1956" },
  ]);
  it("S3 turns by half a period from winter to summer, and the fit says that the tide changes with the season", () => {
    const third = (month: number): number => fit.climatology[month - 1].constituents[2].maximumAt?.value ?? Number.NaN;
    const apart = Math.abs(third(1) - third(7));
    expect(Math.abs(Math.min(apart, 8 - apart) - 4)).toBeLessThan(0.6);
    expect(fit.seasonal.changes).toBe(true);
    expect(fit.warnings.join()).toContain("sea-level pressure");
    expect(fit.climatology.length).toBe(12);
  });
});
