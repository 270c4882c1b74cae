import { RecordError } from "../../ground/complaint.js";
import { decoderFor } from "../../record/line/encoding.js";
import { LineCutter } from "../../record/line/lineCutter.js";
import { vocabularyHits } from "./quantityVocabulary.js";
import type { LogSample } from "./logSample.js";

/** A log as lines of text. */
export interface LogText {
  readonly path: string;
  /** What the description must name; null where the reader finds it by itself. */
  readonly encoding: string | null;
  /** Why, where one is named. */
  readonly because: string;
  /** Only plain ASCII was met: it fits beside any encoding. */
  readonly isPlain: boolean;
  /** Whole lines of the beginning, in order; null for one that is too long. */
  readonly head: readonly (string | null)[];
  /** Whole lines of the end; empty when the head is everything. */
  readonly tail: readonly (string | null)[];
}

/** First bytes of files that are no text, and what they are. */
const signatures: readonly (readonly [string, string])[] = [
  ["504b0304", "a packed archive or a workbook"],
  ["d0cf11e0", "a workbook of an old office program"],
  ["25504446", "a PDF"],
  ["1f8b", "a packed file"],
  ["425a68", "a packed file"],
  ["fd377a58", "a packed file"],
  ["89504e47", "a picture"],
  ["ffd8ff", "a picture"],
  ["47494638", "a picture"],
  ["53514c69746520666f726d6174", "a database"],
  ["7b5c727466", "a word processor's page"],
  ["7f454c46", "a program"],
  ["4d5a", "a program"],
  ["50415231", "a Parquet table"],
  ["434446", "a NetCDF grid"],
  ["894844460d0a", "an HDF5 or NetCDF grid"],
  ["fffe0000", "text in UTF-32"],
];

/** Encodings that older loggers and spreadsheets write, likeliest first. */
const olderEncodings = ["windows-1252", "windows-1251", "koi8-r", "iso-8859-2", "windows-1250", "iso-8859-7", "iso-8859-9", "shift_jis", "gb18030", "big5", "euc-jp", "euc-kr"];

/** Share of control characters from which bytes are taken for no text. */
const mostControls = 0.02;
/** Share of NUL bytes from which that holds; a card that lost power has blocks of them. */
const mostNuls = 0.9;

/**
 * Turns the bytes of a log into lines and tells their encoding.
 *
 * @throws RecordError kind `description` when it is empty, or no text
 */
export function logText(sample: LogSample): LogText {
  const { path, head } = sample;
  if (sample.bytes === 0 || head.length === 0) refuse(path, "hold at least one row", "an empty file");
  const { encoding, because, isPlain } = encodingOf(sample);
  const decoding = encoding ?? decoderFor(head, null).encoding;
  const lines = linesOf(head, encoding);
  if (sample.tail !== null) lines.pop();
  const isWide = decoding.startsWith("utf-16");
  const odd = sample.tail !== null && isWide && (sample.bytes - sample.tail.length) % 2 === 1 ? 1 : 0;
  const tail = sample.tail === null ? [] : linesOf(sample.tail.subarray(odd), decoding).slice(1);
  if (lines.every((l) => l === null || l.trim() === "")) refuse(path, "hold at least one row", "nothing but blanks");
  return { path, encoding, because, isPlain, head: lines, tail };
}

function refuse(path: string, requirement: string, got: string, remedy?: string): never {
  throw new RecordError(`${path} must ${requirement} (got ${got})${remedy === undefined ? "" : `; ${remedy}`}`, "description", { file: path });
}

function linesOf(bytes: Uint8Array, encoding: string | null): (string | null)[] {
  const lines: (string | null)[] = [];
  const cutter = new LineCutter(encoding, (text) => lines.push(text));
  cutter.push(bytes);
  cutter.end();
  return lines;
}

function encodingOf({ path, head }: LogSample): Pick<LogText, "encoding" | "because" | "isPlain"> {
  const start = Array.from(head.subarray(0, 16), (b) => b.toString(16).padStart(2, "0")).join("");
  const known = signatures.find(([bytes]) => start.startsWith(bytes));
  if (known !== undefined) refuse(path, "be a text log", known[1], "save or copy the log as plain text, such as csv");
  const byReader = decoderFor(head, null).encoding;
  if (byReader.startsWith("utf-16") || start.startsWith("efbbbf")) return { encoding: null, because: "", isPlain: false };
  const zeros = zeroShares(head);
  if (zeros.odd > 0.4 && zeros.even < 0.1) return { encoding: "utf-16le", because: "every second byte is zero", isPlain: false };
  if (zeros.even > 0.4 && zeros.odd < 0.1) return { encoding: "utf-16be", because: "every second byte is zero", isPlain: false };
  requireText(path, head);
  if (head.every((b) => b < 128)) return { encoding: null, because: "", isPlain: true };
  if (isUtf8(head) || isDamageOnly(head)) return { encoding: null, because: "", isPlain: false };
  return older(head);
}

function zeroShares(bytes: Uint8Array): { odd: number; even: number } {
  const n = Math.min(bytes.length, 4096);
  let odd = 0;
  let even = 0;
  for (let i = 0; i < n; i++) {
    if (bytes[i] !== 0) continue;
    if (i % 2 === 1) odd++;
    else even++;
  }
  return { odd: (2 * odd) / n, even: (2 * even) / n };
}

function requireText(path: string, bytes: Uint8Array): void {
  let nuls = 0;
  let controls = 0;
  for (const b of bytes) {
    if (b === 0) nuls++;
    else if (b === 127 || (b < 32 && b !== 9 && b !== 10 && b !== 12 && b !== 13 && b !== 26)) controls++;
  }
  if (nuls > mostNuls * bytes.length || controls > mostControls * (bytes.length - nuls)) {
    refuse(path, "be a text log", nuls > mostNuls * bytes.length ? "hardly anything but NUL bytes" : "bytes that are no text", "save or copy the log as plain text, such as csv");
  }
}

function isUtf8(bytes: Uint8Array): boolean {
  try {
    new TextDecoder("utf-8", { fatal: true }).decode(bytes, { stream: true });
    return true;
  } catch {
    return false;
  }
}

/** Bytes that are no UTF-8 in a few lines beyond the first twenty, and none before: damage, not another encoding. */
function isDamageOnly(bytes: Uint8Array): boolean {
  const lines = linesOf(bytes, "utf-8");
  const spoiled = lines.flatMap((l, i) => (l?.includes("\ufffd") ? [i] : []));
  return spoiled.length > 0 && spoiled[0] >= 20 && spoiled.length < 0.05 * lines.length;
}

/** The older encoding in which most words are known; Western where none is. */
function older(bytes: Uint8Array): Pick<LogText, "encoding" | "because" | "isPlain"> {
  const start = bytes.subarray(0, 1 << 14);
  const hits = olderEncodings.map((name) => vocabularyHits(new TextDecoder(name).decode(start)));
  const best = hits.indexOf(Math.max(...hits));
  if (best > 0) return { encoding: olderEncodings[best], because: "its bytes are no UTF-8, and in this encoding the header has words that are known", isPlain: false };
  const isLatin1 = !bytes.some((b) => b >= 0x80 && b < 0xa0);
  return { encoding: isLatin1 ? "iso-8859-1" : "windows-1252", because: "its bytes are no UTF-8, and in this encoding of western Europe they are letters and signs", isPlain: false };
}
