/**
 * The rooms whose tests are tested, and the fast tests that answer for each: unit tests, properties, published values, reference vectors.
 * `last` are the slow ones, slowest last: a mutant is mostly noticed before they run.
 *
 * Simulations, the laws, the command line, the edges of all public names and whatever else imports the whole library are left out: they are slow for every mutant, and what only they notice deserves a test of its own.
 */
export const rooms = {
  ground: {
    mutate: ["lib/ground/*.ts"],
    tests: ["test/unit/ground/*.test.ts", "test/published/{nist-regression,nist-univariate,quantiles,sun,units}.test.ts", "test/reference/{clock-vectors,distributions,longRun}.test.ts"],
  },
  air: {
    mutate: ["lib/air/*.ts"],
    tests: ["test/unit/air/*.test.ts", "test/published/{buildings,gravity,humidity,pressure-reduction,saturation-vapor-pressure,standard-atmosphere}.test.ts", "test/property/air.test.ts"],
    last: ["missingAndImpossible", "property/air"],
  },
  grid: {
    mutate: ["lib/grid/*.ts"],
    tests: ["test/unit/grid/*.test.ts", "test/published/nist-detrend.test.ts", "test/reference/gridRoutines.test.ts"],
    last: ["crossCorrelation", "gridRoutines", "passFilter"],
  },
  indoors: {
    mutate: ["lib/indoors/*.ts"],
    tests: ["test/unit/indoors/*.test.ts", "test/published/buildings.test.ts", "test/reference/indoors-vectors.test.ts", "test/property/indoors.test.ts"],
    last: ["response", "indoors-vectors", "numbersOfPairs", "housesTold", "property/indoors", "housePairs"],
  },
  tide: {
    mutate: ["lib/cycles/tide/*.ts"],
    tests: ["test/unit/cycles/tide/*.test.ts", "test/published/tides.test.ts", "test/reference/tide-vectors.test.ts", "test/property/tide.test.ts"],
    last: ["jumpsAndLines", "joinFits", "tide-vectors", "fusedPass", "fitTides", "property/tide", "traps"],
  },
  spectrum: {
    mutate: ["lib/cycles/spectrum/*.ts"],
    tests: ["test/unit/cycles/spectrum/*.test.ts", "test/published/spectrum.test.ts", "test/reference/{spectrum,lombScargle}.test.ts", "test/property/spectrum.test.ts"],
    last: ["density", "fourier", "reference/spectrum", "property/spectrum"],
  },
  climate: {
    mutate: ["lib/cycles/climate/*.ts"],
    tests: ["test/unit/cycles/climate/*.test.ts", "test/published/{pugetNormals,mannKendall,chicagoDaily}.test.ts", "test/property/climate.test.ts"],
    last: ["yearsAndTrend", "chicagoDaily", "property/climate", "pugetNormals"],
  },
  swings: {
    mutate: ["lib/cycles/swings/*.ts"],
    tests: ["test/unit/cycles/swings/*.test.ts", "test/published/tendency.test.ts", "test/reference/swings-vectors.test.ts", "test/property/swings.test.ts"],
    last: ["events", "pressureSwings", "band", "tendency", "swings-vectors", "property/swings", "swings/spectrum"],
  },
};

/** The room a file of lib stands in, by its path; undefined where none is tried. */
export function roomOf(path) {
  return Object.keys(rooms).find((name) => rooms[name].mutate.some((pattern) => path.startsWith(pattern.slice(0, pattern.lastIndexOf("/") + 1))));
}
