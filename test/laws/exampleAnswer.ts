/** Promise of the sun's routines · ms. */
const sunWithin = 20_000;

/**
 * Why a value is not what an example tells; "" when it is.
 *
 * An answer is a number, numbers parted by commas, or JSON (text, true, null, lists, objects); an instant is `2019-03-20 12:07:33 UTC`.
 * A number may be followed by a unit or a remark in words. Numbers agree to half of their last digit. Without an answer the value must be
 * something: no undefined, no NaN, no empty text.
 */
export function answerDiffers(got: unknown, answer: string): string {
  if (answer === "") return isSomething(got) ? "" : `the example gives ${shown(got)}`;
  const instant = /^(\d{4}-\d\d-\d\d) (\d\d:\d\d(?::\d\d)?) UTC$/.exec(answer);
  if (instant !== null) return Math.abs(Number(got) - Date.parse(`${instant[1]}T${instant[2]}Z`)) <= sunWithin ? "" : `got ${shown(got)}`;
  const numbers = /^(-?\d+(?:\.\d+)?(?:, -?\d+(?:\.\d+)?)*)(?: .*)?$/.exec(answer);
  if (numbers !== null) return eachDiffers(got, numbers[1].split(", "));
  try {
    return sameJson(plain(got), JSON.parse(answer)) ? "" : `got ${shown(got)}, told ${answer}`;
  } catch {
    return `the answer must be a number, numbers, JSON or an instant (got ${answer}); the example gives ${shown(got)}`;
  }
}

function eachDiffers(got: unknown, told: readonly string[]): string {
  const values = typeof got === "number" ? [got] : ArrayBuffer.isView(got) || Array.isArray(got) ? Array.from(got as ArrayLike<number>) : null;
  if (values === null || values.length !== told.length) return `got ${shown(got)}, told ${told.join(", ")}`;
  const isNear = (text: string, i: number): boolean => Math.abs(values[i] - Number(text)) <= 0.501 * 10 ** -(text.split(".")[1] ?? "").length * (text.includes(".") || !Number.isInteger(values[i]) ? 1 : 0) + 1e-9 * Math.abs(values[i]);
  return told.every(isNear) ? "" : `got ${shown(got)}, told ${told.join(", ")}`;
}

/** Typed arrays as arrays, NaN as null. */
const plain = (value: unknown): unknown => JSON.parse(JSON.stringify(value, (_, v: unknown) => (ArrayBuffer.isView(v) ? Array.from(v as Float64Array) : v)) ?? "null");

function sameJson(a: unknown, b: unknown): boolean {
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return a === b;
  const [x, y] = [Object.entries(a), new Map(Object.entries(b))];
  return x.length === y.size && x.every(([key, value]) => y.has(key) && sameJson(value, y.get(key)));
}

function isSomething(value: unknown): boolean {
  return value !== undefined && value !== null && value !== "" && !(typeof value === "number" && Number.isNaN(value));
}

function shown(value: unknown): string {
  const text = typeof value === "number" ? String(value) : (JSON.stringify(value, (_, v: unknown) => (ArrayBuffer.isView(v) ? Array.from(v as Float64Array) : v)) ?? String(value));
  return text.length > 300 ? `${text.slice(0, 300)}…` : text;
}
