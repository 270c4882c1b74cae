/**
 * One JSON document as text: NaN and infinities become null, typed arrays become lists, keys keep their order.
 *
 * @param value a plain result
 * @returns     indented text with a closing line end
 */
export function jsonText(value: unknown): string {
  return `${JSON.stringify(value, plain, 2)}\n`;
}

function plain(_key: string, value: unknown): unknown {
  if (typeof value === "number") return Number.isFinite(value) ? value : null;
  if (ArrayBuffer.isView(value) && !(value instanceof DataView)) return Array.from(value as unknown as ArrayLike<number>);
  return value;
}
