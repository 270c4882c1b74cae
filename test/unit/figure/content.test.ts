import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import { checkRecord } from "../../../lib/answers/checkRecord.js";
import { meanDayOf } from "../../../lib/answers/meanDayOf.js";
import { type SwingsAnswer, swingsOf } from "../../../lib/answers/swingsOf.js";
import { type TidesAnswer, tidesOf } from "../../../lib/answers/tidesOf.js";
import type { TideFit } from "../../../lib/cycles/tide/tideFit.js";
import { openRecord } from "../../../lib/door/disk/openRecord.js";
import { agreementFigure } from "../../../lib/figure/agreementFigure.js";
import { coverageFigure } from "../../../lib/figure/coverageFigure.js";
import { explore } from "../../../lib/figure/explore.js";
import { exploreBands } from "../../../lib/figure/exploreBands.js";
import { meanDayFigure, tideCurve } from "../../../lib/figure/meanDayFigure.js";
import { spectrumFigure } from "../../../lib/figure/spectrumFigure.js";
import { tideClockFigure } from "../../../lib/figure/tideClockFigure.js";
import type { BarTrace, HeatmapTrace, ScatterTrace } from "../../../lib/figure/trace.js";
import { clockTime } from "../../../lib/ground/clockTime.js";
import { tQuantile } from "../../../lib/ground/distributions.js";
import type { AirRecord } from "../../../lib/record/airRecord.js";
import { series } from "../../../lib/record/series.js";
import { flagRecord } from "../../../lib/trust/faults/flagRecord.js";
import { expectClose } from "../../close.js";

const folder = new URL("../../../datasets/hill-school", import.meta.url).pathname;
const truth = JSON.parse(readFileSync(`${folder}/truth.json`, "utf8")) as { gaps: readonly { places: readonly string[]; from: string; to: string }[] };
let record: AirRecord;
let tides: TidesAnswer;
let swings: SwingsAnswer;

beforeAll(async () => {
  record = flagRecord(await openRecord(folder));
  tides = tidesOf(record);
  swings = swingsOf(record, { draws: 99 });
}, 60_000);

describe("the tide's pictures", () => {
  /** A fit of one line, as far as a curve asks for it. */
  const oneLine = { longitude: 0, coefficients: [{ name: "S2", cyclesPerDay: 2, cosine: 0, sine: 1, varianceOfCosine: 0.04, varianceOfSine: 0.01, covariance: 0, degreesOfFreedom: 10 }] } as unknown as TideFit;

  it("the band about a curve is the line's error along it at the crest and across it at the zero", () => {
    // sine 1: crest at 3 h, zero at 0 h; there the errors are those of sine and cosine.
    const { value, low, high } = tideCurve(oneLine, [0, 3]);
    const t = tQuantile(0.975, 10);
    expectClose(value[1], 1, { absolute: 1e-12 }, "crest");
    expectClose(high[1] - value[1], t * 0.1, { relative: 1e-9 }, "error along");
    expectClose(value[0] - low[0], t * 0.2, { relative: 1e-9 }, "error across");
  });

  it("marks the turns of the mean day, by the sun and by the clock", () => {
    const fit = tides.fits.veranda;
    const day = meanDayOf(fit);
    const bySun = meanDayFigure(record, tides).layout.annotations.map((a) => a.text);
    for (const h of [...day.highest, ...day.lowest]) expect(bySun).toContain(clockTime(h));
    const byClock = tideClockFigure(record, tides).data.flatMap((t) => ("text" in t && t.text !== undefined ? t.text : []));
    // Hill-school stands at 110.2° E and keeps UTC+7: its clock is 0.347 h behind the sun.
    for (const h of [...day.highest, ...day.lowest]) expect(byClock).toContain(`<b>${clockTime(h + 7 - 110.2 / 15)}</b>`);
  });

  it("asks for a place that is there", () => {
    expect(() => meanDayFigure(record, tides, { place: "attic" })).toThrow(/^meanDayFigure: place must be one of veranda, library \(got "attic"\)$/);
    expect(tideClockFigure(record, tides, { place: "library" }).message).toMatch(/highest at/);
  });
});

describe("the record at a glance", () => {
  it("leaves planted gaps blank and fills what is there", () => {
    const figure = coverageFigure(record, checkRecord(record));
    const cells = figure.data[0] as HeatmapTrace;
    const at = (instant: number): number | null => {
      const civil = new Date(instant + 7 * 3_600_000).toISOString();
      return cells.z[Number(civil.slice(11, 13))][cells.x.indexOf(`${civil.slice(0, 10)} 12:00`)];
    };
    const gaps = truth.gaps.filter((g) => Date.parse(g.to) - Date.parse(g.from) > 5 * 3_600_000 && g.places.includes("veranda"));
    expect(gaps.length).toBeGreaterThan(0);
    for (const gap of gaps) expect(at((Date.parse(gap.from) + Date.parse(gap.to)) / 2), gap.from).toBe(null);
    const whole = cells.z.flat().filter((v) => v !== null && v >= 0.95).length;
    expect(whole / cells.z.flat().length).toBeGreaterThan(0.85);
  });
});

describe("the spectrum", () => {
  it("has the band of chi-square with six degrees of freedom about its background", () => {
    const { data } = spectrumFigure(record, swings) as { data: readonly ScatterTrace[] };
    const [band, background] = data;
    const n = background.y.length;
    // scipy 1.10.1, chi2.ppf([0.025, 0.975], 6) / 6
    for (const i of [0, Math.floor(n / 2), n - 1]) {
      const b = Number(background.y[i]);
      expectClose(Number(band.y[i]) / b, 2.408229, { relative: 0.01 }, "upper end");
      expectClose(Number(band.y[2 * n - 1 - i]) / b, 0.206224, { relative: 0.01 }, "lower end");
    }
  });
});

describe("agreement", () => {
  it("draws bias and limits where the answer has them", () => {
    const answer = checkRecord(record);
    const figure = agreementFigure(record, answer);
    answer.agreement.forEach((entry, k) => {
      const axis = k === 0 ? "y" : `y${k + 1}`;
      const bias = figure?.data.find((t) => t.name === "bias" && (t as BarTrace).yaxis === axis) as ScatterTrace;
      expectClose(Number(bias.y[0]), entry.bias.value, { absolute: 6e-4 }, "bias");
      const limits = figure?.layout.shapes.filter((s) => s.yref === axis && s.line.dash === "dash").map((s) => s.y0);
      expect(limits).toEqual([entry.limits.low, entry.limits.high]);
      const points = figure?.data.find((t) => t.name === "difference" && (t as BarTrace).yaxis === axis) as ScatterTrace;
      const mean = points.y.reduce<number>((sum, v) => sum + Number(v), 0) / points.y.length;
      expectClose(mean, entry.bias.value, { absolute: 0.3 * (entry.limits.high - entry.limits.low) }, "points about the bias");
    });
  });
});

describe("explore", () => {
  const hours = Array.from({ length: 24 * 60 }, (_, h) => h);
  const wave = (days: number, size: number) => (h: number): number => size * Math.sin((2 * Math.PI * h) / 24 / days);
  const of = (f: (h: number) => number): ReturnType<typeof series> => series({ times: hours.map((h) => 3_600_000 * h), values: hours.map(f), quantity: "surface_air_pressure" });
  const size = (v: Float64Array): number => Math.max(...v.subarray(360, 1080)) - Math.min(...v.subarray(360, 1080));

  it("puts a daily, a five-day and a slow wave each into its own part", () => {
    const found = exploreBands(of((h) => 1000 + wave(1, 2)(h) + wave(5, 6)(h) + wave(100, 10)(h)), 0);
    if (found === null) throw new Error("no bands");
    expectClose(size(found.bands.tide), 4, { relative: 0.1 }, "daily");
    expectClose(size(found.bands.swings), 12, { relative: 0.15 }, "swings");
    expectClose(found.bands.background[720] - 1000, wave(100, 10)(720), { absolute: 1.5 }, "background");
    expect(exploreBands({ ...of(() => 1), values: new Float64Array(hours.length).fill(Number.NaN) }, 0)).toBe(null);
  });

  it("has a button for each part that shows its traces alone", () => {
    const { data, layout } = explore(record);
    const buttons = layout.updatemenus?.[0].buttons ?? [];
    expect(buttons.map((b) => b.label)).toEqual(["all", "tide", "swings", "background"]);
    const shown = buttons.map((b) => b.args[0].visible as readonly boolean[]);
    for (const visible of shown) {
      expect(visible.length).toBe(data.length);
      expect(visible.filter(Boolean).length).toBe(6);
    }
    expect(data.map((_, i) => shown.filter((visible) => visible[i]).length)).toEqual(data.map(() => 1));
    expect(data.filter((t) => t.visible === true).length).toBe(6);
    const texts = buttons.map((b) => Object.entries(b.args[1]).filter(([key]) => key.startsWith("annotations")));
    for (const [key] of texts[1]) expect(layout.annotations[Number(/\d+/.exec(key)?.[0])].text).toMatch(/°C|%|hPa/);
  });
});
