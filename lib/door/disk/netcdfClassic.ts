import { mustSentence } from "../../ground/complaint.js";

/** Types of the classic format with their numbers and sizes in bytes. */
const types: Readonly<Record<NetcdfType, readonly [number, number]>> = Object.freeze({ char: [2, 1], short: [3, 2], int: [4, 4], float: [5, 4], double: [6, 8] });

/** A type of the classic format. */
export type NetcdfType = "char" | "short" | "int" | "float" | "double";

/** An attribute: text, or numbers of one type. */
export type NetcdfAttribute = string | { readonly type: Exclude<NetcdfType, "char">; readonly values: readonly number[] };

/** A variable; its numbers are asked for when they are written. */
export interface NetcdfVariable {
  readonly name: string;
  readonly type: NetcdfType;
  /** Names of dimensions, slowest first; none for a single number. */
  readonly dimensions: readonly string[];
  readonly attributes: Readonly<Record<string, NetcdfAttribute>>;
  /** Number i of the variable in C order (byte i of a text); what a type cannot hold is the caller's mistake. */
  readonly at: (index: number) => number;
}

/** A whole file. */
export interface NetcdfFile {
  readonly dimensions: Readonly<Record<string, number>>;
  readonly attributes: Readonly<Record<string, NetcdfAttribute>>;
  readonly variables: readonly NetcdfVariable[];
}

/** Numbers turned into bytes at once. */
const numbersAPiece = 65_536;
/** Most bytes of one variable that the 64-bit-offset form allows: 2³² less 4. */
const mostBytes = 2 ** 32 - 4;

/**
 * A NetCDF file of the classic model in its 64-bit-offset form (CDF-2) as bytes in pieces: no record dimension, big-endian.
 *
 * @param file see NetcdfFile
 * @returns    pieces of bytes
 * @throws RangeError when a variable names no dimension of the file, or is larger than the form allows
 * @source NetCDF Classic Format Specification of Unidata (magic CDF\x02, big-endian, every part padded to four bytes)
 */
export function* netcdfClassic(file: NetcdfFile): Generator<Uint8Array> {
  const lengths = file.variables.map((v) => v.dimensions.reduce((n, d) => n * sizeOf(file, v, d), 1));
  const sizes = file.variables.map((v, i) => padded(lengths[i] * types[v.type][1]));
  const tooLarge = sizes.findIndex((s) => s > mostBytes);
  if (tooLarge >= 0) throw new RangeError(mustSentence("netcdfClassic", file.variables[tooLarge].name, `take at most ${mostBytes} bytes`, String(sizes[tooLarge])));
  // Offsets stand in the header, whose length does not depend on them.
  const length = header(file, sizes, sizes).length;
  let begin = length;
  const begins = sizes.map((size) => {
    const here = begin;
    begin += size;
    return here;
  });
  yield header(file, sizes, begins);
  for (const [i, variable] of file.variables.entries()) yield* numbers(variable, lengths[i]);
}

function sizeOf(file: NetcdfFile, variable: NetcdfVariable, dimension: string): number {
  const size = file.dimensions[dimension];
  if (!(size > 0)) throw new RangeError(mustSentence("netcdfClassic", variable.name, "have dimensions of the file", dimension));
  return size;
}

function padded(bytes: number): number {
  return Math.ceil(bytes / 4) * 4;
}

function header(file: NetcdfFile, sizes: readonly number[], begins: readonly number[]): Uint8Array {
  const out = new Bytes();
  out.raw(Uint8Array.of(0x43, 0x44, 0x46, 2));
  out.int(0);
  const names = Object.keys(file.dimensions);
  out.list(10, names, (name) => {
    out.text(name);
    out.int(file.dimensions[name]);
  });
  out.attributes(file.attributes);
  out.list(11, [...file.variables.entries()], ([i, v]) => {
    out.text(v.name);
    out.int(v.dimensions.length);
    for (const d of v.dimensions) out.int(names.indexOf(d));
    out.attributes(v.attributes);
    out.int(types[v.type][0]);
    out.int(sizes[i]);
    out.int(Math.floor(begins[i] / 2 ** 32));
    out.int(begins[i] % 2 ** 32);
  });
  return out.whole();
}

/** The numbers of a variable, padded with zeros at the end. */
function* numbers({ type, at }: NetcdfVariable, length: number): Generator<Uint8Array> {
  const size = types[type][1];
  for (let from = 0; from < length; from += numbersAPiece) {
    const to = Math.min(length, from + numbersAPiece);
    const bytes = new Uint8Array(to === length ? padded((to - from) * size) : (to - from) * size);
    const view = new DataView(bytes.buffer);
    for (let i = from; i < to; i++) put(view, (i - from) * size, type, at(i));
    yield bytes;
  }
}

function put(view: DataView, offset: number, type: NetcdfType, value: number): void {
  if (type === "double") view.setFloat64(offset, value);
  else if (type === "float") view.setFloat32(offset, value);
  else if (type === "int") view.setInt32(offset, value);
  else if (type === "short") view.setInt16(offset, value);
  else view.setUint8(offset, value);
}

/** Bytes that grow, with the pieces a header is made of. */
class Bytes {
  private readonly parts: Uint8Array[] = [];

  raw(bytes: Uint8Array): void {
    this.parts.push(bytes, new Uint8Array(padded(bytes.length) - bytes.length));
  }

  int(value: number): void {
    const bytes = new Uint8Array(4);
    new DataView(bytes.buffer).setUint32(0, value);
    this.parts.push(bytes);
  }

  text(text: string): void {
    const bytes = new TextEncoder().encode(text);
    this.int(bytes.length);
    this.raw(bytes);
  }

  /** A tag, a count and the members; an empty list is two zeros. */
  list<T>(tag: number, members: readonly T[], put: (member: T) => void): void {
    this.int(members.length === 0 ? 0 : tag);
    this.int(members.length);
    for (const member of members) put(member);
  }

  attributes(attributes: Readonly<Record<string, NetcdfAttribute>>): void {
    this.list(12, Object.entries(attributes), ([name, value]) => {
      this.text(name);
      if (typeof value === "string") {
        this.int(types.char[0]);
        this.text(value);
        return;
      }
      const [code, size] = types[value.type];
      this.int(code);
      this.int(value.values.length);
      const bytes = new Uint8Array(value.values.length * size);
      const view = new DataView(bytes.buffer);
      for (const [i, v] of value.values.entries()) put(view, i * size, value.type, v);
      this.raw(bytes);
    });
  }

  whole(): Uint8Array {
    const bytes = new Uint8Array(this.parts.reduce((n, p) => n + p.length, 0));
    let at = 0;
    for (const part of this.parts) {
      bytes.set(part, at);
      at += part.length;
    }
    return bytes;
  }
}
