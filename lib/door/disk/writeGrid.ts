import type { CleanedGrid } from "../../answers/cleanedGrid.js";
import { RecordError, shown } from "../../ground/complaint.js";
import { gridCsv } from "./gridCsv.js";
import { gridJson } from "./gridJson.js";
import { gridNetcdf } from "./gridNetcdf.js";
import { gridParquet, parquetPackage } from "./gridParquet.js";
import { requireFree, writeBeside } from "./writeBeside.js";

/** A file form, by the ending of the file's name. */
export type GridForm = "csv" | "json" | "nc" | "parquet";

const forms: readonly GridForm[] = Object.freeze(["csv", "json", "nc", "parquet"]);

/**
 * The form that a file's name asks for.
 *
 * @throws RecordError kind description when its ending is none of .csv, .json, .nc, .parquet
 */
export function gridForm(path: string): GridForm {
  const ending = /\.([a-z]+)$/i.exec(path)?.[1]?.toLowerCase();
  const form = forms.find((f) => f === ending);
  if (form === undefined) throw new RecordError(`the file of a grid must end in .csv, .json, .nc or .parquet (got ${shown(path)})`, "description");
  return form;
}

/**
 * Refuses a file that could not be written, before any work is done for it.
 *
 * @throws RecordError when the ending is unknown, the name is taken, or the package for Parquet is not installed
 */
export async function requireWritable(path: string): Promise<void> {
  if (gridForm(path) === "parquet") await parquetPackage();
  await requireFree(path);
}

/**
 * Writes a cleaned grid to a file, in the form that its ending names; never over an existing file.
 *
 * @param path            ends in .csv, .json, .nc or .parquet
 * @param grid            of `gridOf`
 * @param options.history a line for the history of a NetCDF file; it should begin with the time of day
 * @returns               bytes written
 * @throws RecordError    as `requireWritable` and `writeBeside`
 * @example await writeGrid("hills.nc", gridOf(record).grid)
 */
export async function writeGrid(path: string, grid: CleanedGrid, options: { readonly history?: string } = {}): Promise<number> {
  const form = gridForm(path);
  if (form === "parquet") return writeBeside(path, gridParquet(grid, await parquetPackage()));
  return writeBeside(path, form === "csv" ? gridCsv(grid) : form === "json" ? gridJson(grid) : gridNetcdf(grid, options));
}
