/**
 * What keeps a path from being a file inside the record's folder, for a sentence; null when nothing does.
 *
 * @example pathFault("../card.txt") // "a path that leads above it"
 * @source Data Package 2.0: no absolute path, no parent path, no part that begins with a point; URLs are not fetched here
 */
export function pathFault(path: string): string | null {
  if (/^[a-z][a-z0-9+.-]+:/i.test(path)) return "a URL, and nothing is fetched";
  if (/^([/\\~]|[A-Za-z]:)/.test(path)) return "an absolute path";
  const parts = path.split(/[/\\]/);
  if (parts.includes("..")) return "a path that leads above it";
  if (path.includes("\\")) return "a path with backslashes; write /";
  if (parts.some((p) => p.startsWith("."))) return "a path with a part that begins with a point";
  if (parts.some((p) => p === "") || path.includes("\0")) return "a path with an empty part";
  return null;
}
