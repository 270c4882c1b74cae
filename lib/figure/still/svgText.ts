/** Attributes of an element; what is undefined is left out. */
export type Attributes = Readonly<Record<string, string | number | undefined>>;

/** What XML 1.0 cannot hold, and marks that would turn the direction of a whole line. */
const unwritable = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069\ufffe\uffff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

/** Invisible marks that may move a number beside them to the other side. */
const sideMarks = /[\u061c\u200e\u200f]/g;

/**
 * Text made harmless inside an element or a quoted attribute of SVG and HTML.
 *
 * Controls, lone surrogates and direction overrides become �, side marks go: a page must neither break nor read backward.
 *
 * @example escapeText('<b title="x">') // "&lt;b title=&quot;x&quot;&gt;"
 */
export function escapeText(text: string): string {
  return text.replace(sideMarks, "").replace(unwritable, "\ufffd").replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/>/g, "&gt;").replace(/"/g, "&quot;").replace(/'/g, "&#39;");
}

/**
 * A number as short as a drawing needs: a hundredth of a pixel.
 *
 * @example short(12.3456) // "12.35"
 */
export function short(value: number): string {
  const text = (Math.round(value * 100) / 100).toString();
  return text === "-0" ? "0" : text;
}

/**
 * One SVG element.
 *
 * @param name       of the element
 * @param attributes numbers are rounded to a hundredth; texts are escaped
 * @param content    markup inside, already escaped
 * @example element("circle", { r: 2 }) // "<circle r=\"2\"/>"
 */
export function element(name: string, attributes: Attributes, content = ""): string {
  const written = Object.entries(attributes)
    .filter(([, value]) => value !== undefined)
    .map(([key, value]) => ` ${key}="${typeof value === "number" ? short(value) : escapeText(String(value))}"`)
    .join("");
  return content === "" ? `<${name}${written}/>` : `<${name}${written}>${content}</${name}>`;
}
