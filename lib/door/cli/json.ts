import { plainJson } from "../../ground/plainJson.js";

/**
 * One JSON document as text: NaN and infinities become null, typed arrays become lists, keys keep their order.
 *
 * @param value a plain result
 * @returns     indented text with a closing line end
 */
export function jsonText(value: unknown): string {
  return `${JSON.stringify(plainJson(value), null, 2)}\n`;
}
