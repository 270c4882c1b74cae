import type { ResourcePlan } from "./plan.js";
import type { Surroundings } from "./surroundings.js";
import type { Description } from "./description.js";

/** Properties of the standard's dialect that we do not read by. */
const refused = ["escapeChar", "nullSequence", "headerJoin", "property", "itemType", "itemKeys", "sheetNumber", "sheetName", "table", "compression"];
const known = ["delimiter", "header", "headerRows", "commentRows", "commentChar", "quoteChar", "doubleQuote", "skipInitialSpace", "lineTerminator"];
const harmless = ["$schema", "name", "title", "description", "type", "profile"];

type DialectDescription = Partial<NonNullable<Description["resources"][number]["dialect"]>>;

/**
 * The dialect with the standard's defaults; what is not supported is refused by name, what is unknown is noted.
 *
 * Line ends need no word: LF, CRLF and lone CR are told by the file itself.
 */
export function planDialect(d: DialectDescription, at: string, { faults, notes }: Surroundings): Pick<ResourcePlan, "cells" | "commentChar" | "commentRows" | "hasHeader" | "headerRow"> {
  for (const key of Object.keys(d)) {
    if (refused.includes(key)) faults.add(`${at}.${key}`, "not be used, because it is not supported here", (d as Record<string, unknown>)[key]);
    else if (!known.includes(key) && !harmless.includes(key)) notes.push(`${at}.${key} is not known and was not used`);
  }
  const delimiter = d.delimiter ?? ",";
  const quoteChar = d.quoteChar ?? '"';
  if (delimiter.includes(quoteChar)) faults.add(`${at}.quoteChar`, "be unlike the delimiter", quoteChar);
  if (/[\r\n]/.test(delimiter)) faults.add(`${at}.delimiter`, "not be a line end", delimiter);
  return {
    cells: Object.freeze({ delimiter, quoteChar, doubleQuote: d.doubleQuote ?? true, skipInitialSpace: d.skipInitialSpace ?? false }),
    commentChar: d.commentChar ?? "",
    commentRows: new Set(d.commentRows ?? []),
    hasHeader: d.header ?? true,
    headerRow: d.headerRows?.[0] ?? 1,
  };
}
