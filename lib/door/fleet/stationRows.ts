interface Limits {
  readonly value: number | null;
  readonly low: number | null;
  readonly high: number | null;
}

/** What is used of a line of `tides`, as it is read back. */
interface ToldTides {
  readonly record: { readonly name: string };
  readonly error?: string;
  readonly places?: Readonly<Record<string, { readonly days: number; readonly constituents?: readonly { readonly name: string; readonly amplitude: Limits; readonly maximumAt: Limits | null; readonly detected: boolean }[] }>>;
}

/** The table's first row. Limits are 95 %; `seen` is whether the line stands out of the noise; `error` stands alone. */
export const stationColumns: string = "record,place,days,line,amplitude_hPa,amplitude_low_hPa,amplitude_high_hPa,maximum_h,maximum_low_h,maximum_high_h,seen,error";

const field = (value: unknown): string => {
  const text = value === null || value === undefined ? "" : String(value);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
};

/**
 * Rows of the table of stations out of one line: one a place and line of its tide, or one that holds the failure.
 *
 * A text that is no line of `tides` becomes a row with an error, so that what was lost on the way is seen in its place.
 *
 * @param text one JSON document of `airtides tides`, or `{ record: { name }, error }`
 * @returns    CSV rows without line ends, after `stationColumns`
 * @example stationRows('{"record":{"name":"mill"},"error":"no pressure"}').rows // ["mill,,,,,,,,,,,no pressure"]
 */
export function stationRows(text: string): { readonly rows: readonly string[]; readonly isFailure: boolean } {
  let told: ToldTides;
  try {
    told = JSON.parse(text) as ToldTides;
    if (typeof told?.record?.name !== "string") throw new Error("no record");
  } catch {
    return failed("", `this line is no answer about a record: ${text.slice(0, 60)}`);
  }
  if (told.error !== undefined) return failed(told.record.name, told.error);
  const rows = Object.entries(told.places ?? {}).flatMap(([place, { days, constituents }]) =>
    (constituents ?? []).map(({ name, amplitude: a, maximumAt: m, detected }) => [told.record.name, place, days, name, a.value, a.low, a.high, m?.value, m?.low, m?.high, detected, ""].map(field).join(",")),
  );
  return rows.length > 0 ? { rows, isFailure: false } : failed(told.record.name, "this answer holds no tide; the table is one of tides");
}

function failed(name: string, error: string): { readonly rows: readonly string[]; readonly isFailure: boolean } {
  return { rows: [[name, ...new Array<string>(10).fill(""), error].map(field).join(",")], isFailure: true };
}
