import { type CleanedColumn, type CleanedGrid, gridFlagBit, gridFlagNames } from "../../answers/cleanedGrid.js";
import { instantText } from "../../ground/instant.js";
import { type NetcdfAttribute, type NetcdfFile, netcdfClassic, type NetcdfVariable } from "./netcdfClassic.js";

/** The format's own fill value for doubles and floats. */
const fill = 9.969209968386869e36;
const encoder = new TextEncoder();

/**
 * A cleaned grid as a NetCDF file in pieces, after the CF conventions: time series of stations, one station a place.
 *
 * Dimensions `station` and `time`; each quantity is a variable (station, time) with its CF name and unit, its flags (masks and
 * meanings) and its coverage as ancillary variables. A quantity that a place did not log is `_FillValue` there.
 *
 * @param grid            of `gridOf`
 * @param options.history a line for the file's history, with whatever clock the caller has; without it there is none
 * @returns               pieces of bytes
 * @source CF Conventions 1.11 (3.4 ancillary data, 3.5 flags, 7.1 cell boundaries, 9.3 time series as orthogonal arrays)
 */
export function gridNetcdf(grid: CleanedGrid, options: { readonly history?: string } = {}): Generator<Uint8Array> {
  return netcdfClassic(gridFile(grid, options.history));
}

function gridFile(grid: CleanedGrid, history: string | undefined): NetcdfFile {
  const { record, places, start, stepSeconds, length } = grid;
  const since = instantText(start).replace("T", " ").replace("Z", "");
  const names = places.map((p) => encoder.encode(p.name));
  const titles = places.map((p) => encoder.encode(p.title));
  const longest = (texts: readonly Uint8Array[]): number => Math.max(1, ...texts.map((t) => t.length));
  const quantities = [...new Set(grid.columns.map((c) => c.quantity))];
  const attributes: Record<string, NetcdfAttribute> = {
    Conventions: "CF-1.11",
    ...(record.site === null ? {} : { featureType: "timeSeries" }),
    title: record.title,
    source: `home air logger, record ${record.name}`,
    ...(history === undefined ? {} : { history }),
    comment: "Means of the sound readings of each step; readings flagged range, spike, stuck or swapped are left out. Not for aviation or navigation, and no storm warning.",
  };
  return {
    dimensions: { station: places.length, time: length, bounds: 2, name_length: longest(names), title_length: longest(titles) },
    attributes,
    variables: [
      textVariable("station_name", "name_length", names, { long_name: "name of the place", cf_role: "timeseries_id" }),
      textVariable("station_title", "title_length", titles, { long_name: "title of the place" }),
      ...siteVariables(grid),
      {
        name: "time",
        type: "double",
        dimensions: ["time"],
        attributes: { standard_name: "time", long_name: "beginning of the step", units: `seconds since ${since}`, calendar: "standard", axis: "T", bounds: "time_bounds" },
        at: (k) => stepSeconds * k,
      },
      { name: "time_bounds", type: "double", dimensions: ["time", "bounds"], attributes: {}, at: (i) => stepSeconds * ((i >> 1) + (i & 1)) },
      ...quantities.flatMap((q) => quantityVariables(grid, q)),
    ],
  };
}

function textVariable(name: string, dimension: string, texts: readonly Uint8Array[], attributes: Readonly<Record<string, string>>): NetcdfVariable {
  const width = Math.max(1, ...texts.map((t) => t.length));
  return { name, type: "char", dimensions: ["station", dimension], attributes: { ...attributes, _Encoding: "utf-8" }, at: (i) => texts[Math.floor(i / width)][i % width] ?? 0 };
}

/** Latitude, longitude and height of every place; none where no site is told. */
function siteVariables({ record, places }: CleanedGrid): NetcdfVariable[] {
  const { site } = record;
  if (site === null) return [];
  const one = (name: string, attributes: Readonly<Record<string, NetcdfAttribute>>, at: (s: number) => number): NetcdfVariable => ({ name, type: "double", dimensions: ["station"], attributes, at });
  return [
    one("latitude", { standard_name: "latitude", long_name: "latitude of the site", units: "degrees_north" }, () => site.latitude),
    one("longitude", { standard_name: "longitude", long_name: "longitude of the site", units: "degrees_east" }, () => site.longitude),
    one("altitude", { standard_name: "altitude", long_name: "height above mean sea level", units: "m", positive: "up" }, (s) => places[s].elevation ?? site.elevation),
  ];
}

function quantityVariables(grid: CleanedGrid, quantity: string): NetcdfVariable[] {
  const { places, length } = grid;
  const ofPlace = places.map((p) => grid.columns.find((c) => c.place === p.name && c.quantity === quantity));
  const first = ofPlace.find((c) => c !== undefined) as CleanedColumn;
  const dimensions = ["station", "time"];
  const coordinates = grid.record.site === null ? "station_name station_title" : "latitude longitude altitude station_name station_title";
  const made = [...new Set(ofPlace.flatMap((c) => (c === undefined || c.made === null ? [] : [c.made])))];
  const comments = [...made, ...ofPlace.flatMap((c) => (c === undefined || Number.isNaN(c.meanInstant) ? [] : [`readings at ${c.place} stand ${Math.round(c.meanInstant)} s behind the beginning of their step on average`]))];
  const of = (read: (c: CleanedColumn, k: number) => number, missing: number) => (i: number): number => {
    const s = Math.floor(i / length);
    const column = ofPlace[s];
    return column === undefined ? missing : read(column, i - s * length);
  };
  return [
    {
      name: quantity,
      type: "double",
      dimensions,
      attributes: {
        ...(first.standardName === null ? {} : { standard_name: first.standardName }),
        long_name: first.title,
        units: first.unit,
        _FillValue: { type: "double", values: [fill] },
        coordinates,
        cell_methods: "time: mean",
        ancillary_variables: `${quantity}_flag ${quantity}_coverage`,
        comment: comments.join("; "),
      },
      at: of((c, k) => (Number.isNaN(c.values[k]) ? fill : c.values[k]), fill),
    },
    {
      name: `${quantity}_flag`,
      type: "short",
      dimensions,
      attributes: {
        standard_name: "status_flag",
        long_name: `faults and bridges of ${first.title}`,
        flag_masks: { type: "short", values: gridFlagNames.map((n) => gridFlagBit[n]) },
        flag_meanings: gridFlagNames.join(" "),
        coordinates,
      },
      at: of((c, k) => c.flags[k], 0),
    },
    {
      name: `${quantity}_coverage`,
      type: "float",
      dimensions,
      attributes: { long_name: `share of a whole step's readings of ${first.title}`, units: "1", coordinates },
      at: of((c, k) => c.stepCoverage[k], 0),
    },
  ];
}
