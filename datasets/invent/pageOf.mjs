/**
 * JSON text for people: whatever fits on a line of 150 characters stands on one line, the rest is indented by one blank.
 *
 * @param value plain data
 * @returns text that ends with a line end
 */
export function pageOf(value) {
  return `${laid(value, 0)}\n`;
}

function laid(value, depth) {
  const flat = JSON.stringify(value);
  if (value === null || typeof value !== "object" || flat.length + depth <= 150) return spaced(flat, value);
  const inner = " ".repeat(depth + 1);
  const parts = Array.isArray(value)
    ? value.map((item) => laid(item, depth + 1))
    : Object.entries(value).map(([key, item]) => `${JSON.stringify(key)}: ${laid(item, depth + 1)}`);
  const [open, close] = Array.isArray(value) ? "[]" : "{}";
  return `${open}\n${parts.map((part) => inner + part).join(",\n")}\n${" ".repeat(depth)}${close}`;
}

/** The one-line form with a blank after each colon and comma between entries. */
function spaced(flat, value) {
  if (value === null || typeof value !== "object") return flat;
  const parts = Array.isArray(value)
    ? value.map((item) => spaced(JSON.stringify(item), item))
    : Object.entries(value).filter(([, item]) => item !== undefined).map(([key, item]) => `${JSON.stringify(key)}: ${spaced(JSON.stringify(item), item)}`);
  return Array.isArray(value) ? `[${parts.join(", ")}]` : parts.length === 0 ? "{}" : `{ ${parts.join(", ")} }`;
}
