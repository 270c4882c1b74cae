import { type CleanedGrid, columnNames, gridFlagBit } from "../../answers/cleanedGrid.js";
import { RecordError } from "../../ground/complaint.js";

/** Rows of one row group. */
const rowsAGroup = 32_768;

type ParquetPackage = typeof import("hyparquet-writer");

/**
 * The package that writes Parquet, which is installed only by those who want it.
 *
 * @throws RecordError when it is not there: which package, and what to do
 */
export async function parquetPackage(load: () => Promise<ParquetPackage> = () => import("hyparquet-writer")): Promise<ParquetPackage> {
  try {
    return await load();
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== "ERR_MODULE_NOT_FOUND") throw error;
    throw new RecordError("Parquet must be written by the optional package hyparquet-writer (got none installed); run `npm install hyparquet-writer`, or take .nc, .csv or .json", "description");
  }
}

/**
 * A cleaned grid as one Parquet file: `time` in UTC, then value, flag and coverage of each column, named as in CSV.
 *
 * A missing value is null. Units, what was made and the meaning of flags stand as JSON under the key `airtides`.
 *
 * @param grid of `gridOf`
 * @param door from `parquetPackage`
 * @returns    bytes
 */
export function gridParquet(grid: CleanedGrid, door: ParquetPackage): Uint8Array {
  const { record, places, start, stepSeconds, length, columns } = grid;
  const names = columns.map(columnNames);
  const told = columns.map(({ place, quantity, standardName, unit, title, made, coverage, filledSteps, leftOut }, i) => ({ column: names[i].value, place, quantity, standardName, unit, title, made, coverage, filled: filledSteps, leftOut }));
  const bytes = new door.ByteWriter();
  const part = (from: number, to: number) => [
    // Milliseconds; a step may be a part of a second.
    { name: "time", type: "TIMESTAMP" as const, nullable: false, data: Array.from({ length: to - from }, (_, k) => new Date(Math.round(start + 1000 * stepSeconds * (from + k)))) },
    ...columns.flatMap((c, i) => [
      { name: names[i].value, type: "DOUBLE" as const, data: Array.from(c.values.subarray(from, to), (v) => (Number.isNaN(v) ? null : v)) },
      { name: names[i].flag, type: "INT32" as const, nullable: false, data: Int32Array.from(c.flags.subarray(from, to)) },
      { name: names[i].coverage, type: "FLOAT" as const, nullable: false, data: c.stepCoverage.subarray(from, to) },
    ]),
  ];
  const schema = door.schemaFromColumnData({ columnData: part(0, 1) });
  const metadata = JSON.stringify({ record, places, stepSeconds, flagBits: gridFlagBit, columns: told });
  const writer = new door.ParquetWriter({ writer: bytes, schema, kvMetadata: [{ key: "airtides", value: metadata }], createdBy: "airtides (by hyparquet-writer)" });
  for (let from = 0; from < length; from += rowsAGroup) {
    const to = Math.min(length, from + rowsAGroup);
    void writer.write({ columnData: part(from, to), rowGroupSize: to - from });
  }
  void writer.finish();
  return bytes.getBytes();
}
