import { readFileSync } from "node:fs";

/** A leaf of Plotly's schema. */
interface Leaf {
  readonly valType: string;
  readonly values?: readonly unknown[];
  readonly flags?: readonly string[];
  readonly extras?: readonly unknown[];
  readonly min?: number;
  readonly max?: number;
  readonly arrayOk?: boolean;
  readonly items?: readonly unknown[] | Leaf;
  readonly freeLength?: boolean;
  readonly dflt?: string;
}

type Node = { readonly [key: string]: unknown };

const schema = JSON.parse(readFileSync(new URL("plotlySchema.json", import.meta.url), "utf8")) as { traces: Record<string, Node>; layout: Node };
const color = /^(#[0-9a-f]{6}|rgba\(\d+,\d+,\d+,[\d.]+\)|transparent)$/i;

function isLeaf(node: unknown): node is Leaf {
  return typeof node === "object" && node !== null && typeof (node as Leaf).valType === "string";
}

/** Whether an enumerated value is among those allowed; some of them are patterns, `/^x([2-9]…)?$/`. */
function isAmong(value: unknown, values: readonly unknown[]): boolean {
  return values.some((v) => v === value || (typeof v === "string" && typeof value === "string" && v.length > 2 && v.startsWith("/") && new RegExp(v.slice(1, v.lastIndexOf("/"))).test(value)));
}

function fits(leaf: Leaf, value: unknown): boolean {
  const isNumber = typeof value === "number" && Number.isFinite(value) && value >= (leaf.min ?? -Infinity) && value <= (leaf.max ?? Infinity);
  switch (leaf.valType) {
    case "data_array":
      return Array.isArray(value);
    case "enumerated":
      return isAmong(value, leaf.values ?? []);
    case "boolean":
      return typeof value === "boolean";
    case "number":
      return isNumber;
    case "integer":
      return (isNumber && Number.isInteger(value)) || isAmong(value, leaf.extras ?? []);
    case "string":
      return typeof value === "string";
    case "color":
      return typeof value === "string" && color.test(value);
    case "colorscale":
      return Array.isArray(value) && value.length > 1 && value.every((stop, i) => Array.isArray(stop) && color.test(String(stop[1])) && stop[0] >= (i === 0 ? 0 : value[i - 1][0])) && value[0][0] === 0 && value[value.length - 1][0] === 1;
    case "angle":
      return value === "auto" || (typeof value === "number" && Number.isFinite(value));
    case "subplotid":
      return typeof value === "string" && new RegExp(`^${leaf.dflt}([2-9]|[1-9][0-9]+)?$`).test(value);
    case "flaglist":
      return isAmong(value, leaf.extras ?? []) || (typeof value === "string" && value.split("+").every((flag) => leaf.flags?.includes(flag)));
    case "info_array": {
      if (!Array.isArray(value) || !Array.isArray(leaf.items)) return Array.isArray(value);
      const items = leaf.items as readonly unknown[];
      return (leaf.freeLength === true ? value.length <= items.length : value.length === items.length) && value.every((v, i) => !isLeaf(items[i]) || fits(items[i] as Leaf, v));
    }
    case "any":
      return value !== undefined;
    default:
      return false;
  }
}

/** Walks a part of a figure beside its part of the schema. */
function walk(node: Node, value: unknown, at: string, found: string[]): void {
  if (typeof value !== "object" || value === null) {
    found.push(`${at}: an object is wanted`);
    return;
  }
  for (const [key, part] of Object.entries(value)) {
    if (part === undefined) continue;
    const own = node[key] ?? (/^[xy]axis\d+$/.test(key) ? node[key.slice(0, 5)] : undefined);
    const here = `${at}.${key}`;
    if (own === undefined) found.push(`${here}: Plotly knows no such attribute`);
    else if (isLeaf(own)) {
      const isList = Array.isArray(part) && own.arrayOk === true;
      const wrong = isList ? (part as unknown[]).findIndex((v) => !fits(own, v)) : fits(own, part) ? -1 : 0;
      if (wrong >= 0) found.push(`${here}${isList ? `[${wrong}]` : ""}: ${JSON.stringify(part).slice(0, 80)} is no ${own.valType}`);
    } else if ("items" in (own as Node)) {
      const [item] = Object.values((own as { items: Record<string, Node> }).items);
      if (!Array.isArray(part)) found.push(`${here}: a list is wanted`);
      else for (const [i, entry] of part.entries()) walk(item, entry, `${here}[${i}]`, found);
    } else walk(own as Node, part, here, found);
  }
}

/**
 * What Plotly's own schema says against a figure; empty when all is well.
 *
 * Unknown attributes are faults too: in a browser Plotly would pass over them in silence.
 */
export function schemaFaults(figure: { readonly data: readonly { readonly type: string }[]; readonly layout: object }): string[] {
  const found: string[] = [];
  figure.data.forEach(({ type, ...rest }, i) => {
    const node = schema.traces[type];
    if (node === undefined) found.push(`data[${i}].type: ${type} is not used here`);
    else walk(node, rest, `data[${i}]`, found);
  });
  walk(schema.layout, figure.layout, "layout", found);
  return found;
}
