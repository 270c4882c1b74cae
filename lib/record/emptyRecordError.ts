import { RecordError } from "../ground/complaint.js";
import type { FileAccount } from "./airRecord.js";
import type { RecordPlan } from "./description/plan.js";
import { noOffsetReason } from "./line/rowReader.js";
import type { ResourceReader } from "./resourceReader.js";

/**
 * The sentence for a record in which no row was accepted: file, the commonest reason, and the first line it met.
 *
 * Where nothing is wrong but a zone that was not told, the description is at fault.
 */
export function emptyRecordError(plan: RecordPlan, readers: readonly ResourceReader[], files: readonly FileAccount[]): RecordError {
  const worst = files.reduce((a, b) => (b.rejected.length > a.rejected.length ? b : a));
  const path = worst.path;
  if (worst.rejected.length === 0) {
    const got = worst.lines === 0 ? "an empty file" : `${worst.lines} lines, none of them a row`;
    return new RecordError(`${path} must hold at least one row (got ${got})`, "data", { file: path });
  }
  const kinds = new Map<string, { count: number; line: number; reason: string }>();
  for (const { line, reason } of worst.rejected) {
    const kind = reason.replace(/ \(got .*$/s, "");
    const known = kinds.get(kind);
    if (known === undefined) kinds.set(kind, { count: 1, line, reason });
    else known.count++;
  }
  const most = [...kinds.values()].reduce((a, b) => (b.count > a.count ? b : a));
  const where = { file: path, line: most.line };
  if (most.reason === noOffsetReason) {
    const resource = plan.resources.find((r) => r.zone === null && r.paths.includes(path)) ?? plan.resources[0];
    const remedy = 'write the offset of the logger\'s clock, such as "+07:00", or an IANA name such as "Europe/London"';
    return new RecordError(`${resource.zonePath} must be given, because the times carry no offset (got nothing; line ${most.line} of ${path}); ${remedy}`, "description", where);
  }
  const header = readers.flatMap((r) => r.notes).find((n) => n.startsWith(`${path} has no line that could be its header`));
  const hint = header === undefined ? "" : `; ${header.slice(path.length + 1)}`;
  const share = kinds.size === 1 ? "" : `${most.count} of them, `;
  return new RecordError(
    `${path} must hold at least one row that can be read (got ${worst.rejected.length} rejected of ${worst.lines} lines; ${share}first on line ${most.line}: ${most.reason})${hint}`,
    "data",
    where,
  );
}
