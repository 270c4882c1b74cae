/**
 * A result as plain JSON has it: typed arrays are lists, NaN and infinities are null, keys keep their order.
 *
 * For `JSON.stringify`, which by itself writes a typed array as an object of numbered keys. Missing values go out as null, and
 * `series` takes null as missing, so that what was written can be read back.
 *
 * @param value a result, an array, or any plain value · unchanged
 * @returns     new plain values that hold no typed array and no number that is not finite
 * @example plainJson({ hPa: Float64Array.of(861.2, NaN) }) // { "hPa": [861.2, null] }
 */
export function plainJson(value: unknown): unknown {
  if (typeof value === "number") return Number.isFinite(value) ? value : null;
  if (typeof value !== "object" || value === null) return value;
  if (ArrayBuffer.isView(value) && !(value instanceof DataView)) return Array.from(value as unknown as ArrayLike<number>, plainJson);
  if (Array.isArray(value)) return value.map(plainJson);
  return Object.fromEntries(Object.entries(value).map(([key, part]) => [key, plainJson(part)]));
}
