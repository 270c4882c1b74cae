import * as airtides from "../../lib/index.js";
import { type Documented, seriesEdges } from "./edgeHarness.js";

const t0 = Date.UTC(2024, 2, 1);
const hours = 24 * 12;
const wave = (h: number, mean: number, size: number, at: number): number => mean + size * Math.cos((2 * Math.PI * (h - at)) / 24) + 0.3 * size * Math.sin(h / 17) + 0.05 * size * Math.sin(97 * h);
const seriesOf = (place: string, quantity: airtides.Quantity, mean: number, size: number, at: number): airtides.Series =>
  airtides.series({ times: Array.from({ length: hours }, (_, h) => t0 + 3_600_000 * h), values: Array.from({ length: hours }, (_, h) => wave(h, mean, size, at)), quantity, place });

const plain: readonly airtides.Series[] = [
  seriesOf("yard", "surface_air_pressure", 861, 1.5, 10),
  seriesOf("yard", "air_temperature", 22, 4, 14),
  seriesOf("yard", "relative_humidity", 70, 9, 5),
  seriesOf("room", "surface_air_pressure", 861.4, 1.5, 10),
  seriesOf("room", "air_temperature", 23, 2, 17),
  seriesOf("room", "relative_humidity", 60, 4, 8),
];
const about = { site: { latitude: -7.1, longitude: 110.2, elevation: 1380 }, zone: "+07:00", places: { yard: { exposure: "outdoor" }, room: { exposure: "indoor" } } } as const;

/** Records of two places, all of whose series stand at one edge; and some with one series there. */
export const edgeRecords: Readonly<Record<string, () => airtides.AirRecord>> = {
  ...Object.fromEntries(Object.keys(seriesEdges(plain[0])).map((edge) => [`all ${edge}`, () => airtides.recordFromSeries(plain.map((s) => seriesEdges(s)[edge]()), about)])),
  ...Object.fromEntries(["values all NaN", "values constant", "values one large", "times twice", "one instant"].map((edge) => [`yard's pressure ${edge}`, () => airtides.recordFromSeries(plain.map((s, k) => (k === 0 ? seriesEdges(s)[edge]() : s)), about)])),
};

interface RecordRoutine {
  readonly run: (record: airtides.AirRecord) => unknown;
  readonly documented?: Documented;
}

/** What a page or a cell gets: JSON, and plain words that hold no slip. */
function told(answer: { readonly [airtides.displaySymbol]: (width?: number) => { readonly "text/plain": string } }): unknown {
  const text = answer[airtides.displaySymbol](80)["text/plain"];
  const slip = /.*(NaN|undefined|\[object|Infinity).*/.exec(text);
  if (slip !== null) throw new Error(`a slip in the text: ${slip[0]}`);
  return JSON.parse(JSON.stringify(answer));
}

const few = { draws: 20 };
const keptNaN: Documented = { nan: /\.(values|instants)\[\]$/ };
const pictures = (record: airtides.AirRecord): unknown => {
  const made = { check: airtides.checkRecord(record), tides: orNull(() => airtides.tidesOf(record)), swings: orNull(() => airtides.swingsOf(record, few)), climate: orNull(() => airtides.climateOf(record)), indoors: orNull(() => airtides.indoorsOf(record)) };
  return Object.entries(airtides.recordFigures(record, made)).map(([name, draw]) => {
    const drawn = draw();
    if (drawn === null) return null;
    if (/NaN|undefined|Infinity/.test(`${drawn.message} ${drawn.alt}`)) throw new Error(`a slip in ${name}: ${drawn.message} ${drawn.alt}`);
    const still = airtides.drawStill(drawn, { width: 340 });
    if (/NaN|undefined|Infinity/.test(still)) throw new Error(`a slip in the still of ${name}: ${/.{0,60}(NaN|undefined|Infinity).{0,40}/.exec(still)?.[0]}`);
    return name;
  });
};

/** An answer, or null where it is refused in a sentence; the answer's own row tells other errors. */
function orNull<T>(ask: () => T): T | null {
  try {
    return ask();
  } catch (error) {
    if (error instanceof airtides.RecordError) return null;
    throw error;
  }
}

const drawnTogether: RecordRoutine = { run: () => null };

/** Public routines that take a record, a place of one, or what an answer gives. */
export const recordRoutines: Readonly<Record<string, RecordRoutine>> = {
  narrowRecord: { run: (r) => airtides.narrowRecord(r, { since: t0 + 86_400_000, until: Number.POSITIVE_INFINITY }), documented: keptNaN },
  flagRecord: { run: airtides.flagRecord, documented: keptNaN },
  flagCounts: { run: (r) => Object.values(airtides.flagRecord(r).places).map(airtides.flagCounts) },
  faultsOf: { run: (r) => Object.keys(r.places).map((p) => airtides.faultsOf(airtides.flagRecord(r), p)) },
  placeCoverage: { run: (r) => Object.values(r.places).map(airtides.placeCoverage) },
  agreementOf: { run: (r) => airtides.agreementOf(airtides.flagRecord(r)) },
  altitudeOf: { run: (r) => Object.values(airtides.flagRecord(r).places).map((p) => airtides.altitudeOf(p, about.site)) },
  housePairs: { run: (r) => airtides.housePairs(airtides.flagRecord(r), { offsetHours: 7 }).map((p) => JSON.parse(JSON.stringify(p))) },
  checkRecord: { run: (r) => told(airtides.checkRecord(r)) },
  tidesOf: { run: (r) => told(airtides.tidesOf(r)) },
  exportTides: { run: (r) => airtides.exportTides(airtides.tidesOf(r), "c") },
  tideExport: { run: (r) => airtides.tideExport(airtides.tidesOf(r)) },
  climateOf: { run: (r) => told(airtides.climateOf(r)) },
  swingsOf: { run: (r) => told(airtides.swingsOf(r, few)) },
  indoorsOf: { run: (r) => told(airtides.indoorsOf(r)) },
  gridOf: { run: (r) => told(airtides.gridOf(r, { step: 3600 })), documented: keptNaN },
  explore: { run: (r) => airtides.explore(r).message },
  recordFigures: { run: pictures },
  // Each of these is drawn by recordFigures, and its still by drawStill.
  ...Object.fromEntries(["agreementFigure", "beforeAfterFigure", "calendarFigure", "coverageFigure", "houseDayFigure", "meanDayFigure", "moistureFigure", "responseFigure", "scatterFigure", "spectrumFigure", "swingsFigure", "tendencyFigure", "tideClockFigure", "tideMonthsFigure", "tracesFigure", "trustFigure", "yearFigure", "drawStill"].map((name) => [name, drawnTogether])),
};
