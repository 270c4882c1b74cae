import { decoderFor, headBytes } from "./encoding.js";
import { LineCutter, longestLine } from "./lineCutter.js";

const [lineFeed, carriageReturn] = [10, 13];
/** A file without a line end in so many bytes is left to LineCutter, which keeps no more than it must. */
const mostUndecided = 1 << 22;
/** No line of more bytes than this is short enough to be kept: a character takes three bytes at most. */
const mostBytes = 3 * longestLine;

/** Lines that are no rows for bytes are turned into text together, once there are so many of them and more than others. */
const manyLines = 256;
const blockBytes = 1 << 18;

/** Takes lines from their bytes as far as it can. */
export interface ByteTaker {
  /** Lines taken so far. */
  readonly lines: number;
  /** Takes lines from `from` on, the first of which has this number; returns where the first begins that it does not take. `bytes` hold a line feed at `to` − 1. */
  read(bytes: Uint8Array, from: number, to: number, line: number): number;
}

/**
 * Cuts bytes into lines as LineCutter does, and offers each line as bytes first.
 *
 * Only for UTF-8 whose first line end is LF or CRLF: there a line feed byte is always a line's end, and no text needs to be made
 * to find it. Everything else goes through LineCutter, and so does what comes before the first line end is known.
 */
export class ByteLines {
  private readonly cutter: LineCutter;
  private mode: "undecided" | "bytes" | "text" = "undecided";
  private counted = 0;
  /** Bytes of the line that is not yet ended, or of all that has come while nothing is decided. */
  private kept: Uint8Array = new Uint8Array(256);
  private keptLength = 0;
  private isTooLong = false;
  private asBytes = 0;
  private asText = 0;
  /** Keeps a byte order mark in the middle of a file, as a decoder that runs through the whole file does. */
  private readonly decoder: InstanceType<typeof TextDecoder> = new TextDecoder("utf-8", { ignoreBOM: true });

  /**
   * @param encoding  as the description names it, or null to look at the first bytes
   * @param taker     asked first for every line, where lines come as bytes
   * @param takeText  called for every other line with its number, from 1; null for a line that is too long
   */
  constructor(
    private readonly encoding: string | null,
    private readonly taker: ByteTaker,
    private readonly takeText: (text: string | null, line: number) => void,
  ) {
    this.cutter = new LineCutter(encoding, takeText);
  }

  /** Lines given so far; a last line without a line end is one too. */
  get lines(): number {
    return this.mode === "bytes" ? this.counted : this.cutter.lines;
  }

  /** Takes the next bytes; they are not kept. */
  push(chunk: Uint8Array): void {
    if (this.mode === "text") this.cutter.push(chunk);
    else if (this.mode === "bytes") this.cut(chunk, 0);
    else {
      this.keep(chunk, 0, chunk.length);
      this.decide();
    }
  }

  /** Says that no more bytes come. */
  end(): void {
    if (this.mode === "undecided") this.toText();
    if (this.mode === "text") this.cutter.end();
    else if (this.keptLength > 0 || this.isTooLong) this.give(this.kept, 0, this.keptLength);
  }

  private decide(): void {
    const head = this.kept.subarray(0, this.keptLength);
    if (head.length < headBytes) return;
    if (decoderFor(head, this.encoding).encoding !== "utf-8") {
      this.toText();
      return;
    }
    let at = 0;
    while (at < head.length && head[at] !== lineFeed && head[at] !== carriageReturn) at++;
    while (at < head.length && head[at] === carriageReturn) at++;
    if (at === head.length && at <= mostUndecided) return;
    if (head[at] !== lineFeed) {
      this.toText();
      return;
    }
    this.mode = "bytes";
    const hasMark = head[0] === 0xef && head[1] === 0xbb && head[2] === 0xbf;
    const all = head.slice(hasMark ? 3 : 0);
    this.keptLength = 0;
    this.cut(all, 0);
  }

  private toText(): void {
    this.mode = "text";
    if (this.keptLength > 0) this.cutter.push(this.kept.subarray(0, this.keptLength));
    this.kept = new Uint8Array(0);
  }

  private cut(chunk: Uint8Array, start: number): void {
    let from = start;
    if (this.keptLength > 0 || this.isTooLong) {
      const end = chunk.indexOf(lineFeed);
      if (end < 0) {
        this.keep(chunk, from, chunk.length);
        return;
      }
      this.keep(chunk, from, end + 1);
      const length = this.keptLength;
      this.keptLength = 0;
      if (this.isTooLong) this.give(this.kept, 0, 0);
      else this.offer(this.kept, 0, length);
      from = end + 1;
    }
    const last = chunk.lastIndexOf(lineFeed) + 1;
    if (last > from) this.offer(chunk, from, last);
    this.keep(chunk, Math.max(from, last), chunk.length);
  }

  /** Whole lines, the last of which ends at `to`. */
  private offer(bytes: Uint8Array, start: number, to: number): void {
    let from = start;
    while (from < to) {
      if (this.asText > manyLines && this.asText > this.asBytes) {
        from = this.giveBlock(bytes, from, to);
        continue;
      }
      const before = this.taker.lines;
      from = this.taker.read(bytes, from, to, this.counted + 1);
      this.counted += this.taker.lines - before;
      this.asBytes += this.taker.lines - before;
      if (from === to) return;
      const end = bytes.indexOf(lineFeed, from);
      this.give(bytes, from, end);
      from = end + 1;
    }
  }

  /** Gives the lines from `from` on that fit into a block, one at least; returns where the next one begins. */
  private giveBlock(bytes: Uint8Array, from: number, to: number): number {
    const end = to - from <= blockBytes ? to : bytes.lastIndexOf(lineFeed, from + blockBytes) + 1;
    if (end <= from) {
      const first = bytes.indexOf(lineFeed, from);
      this.give(bytes, from, first);
      return first + 1;
    }
    const text = this.decoder.decode(bytes.subarray(from, end));
    for (let at = 0; at < text.length; ) {
      const stop = text.indexOf("\n", at);
      this.counted++;
      this.takeText(withoutCr(text, at, stop), this.counted);
      at = stop + 1;
    }
    return end;
  }

  /** Gives a line without its line feed as text. */
  private give(bytes: Uint8Array, from: number, to: number): void {
    this.counted++;
    this.asText++;
    let text: string | null = null;
    if (!this.isTooLong && to - from <= mostBytes) {
      text = this.decoder.decode(bytes.subarray(from, to));
      text = text.length > longestLine ? null : withoutCr(text, 0, text.length);
    }
    this.isTooLong = false;
    this.takeText(text, this.counted);
  }

  private keep(bytes: Uint8Array, from: number, to: number): void {
    if (this.isTooLong || from >= to) return;
    const length = this.keptLength + to - from;
    // Its line feed may be among them.
    if (this.mode === "bytes" && length > mostBytes + 1) {
      this.isTooLong = true;
      this.keptLength = 0;
      this.kept = new Uint8Array(256);
      return;
    }
    if (length > this.kept.length) {
      const larger = new Uint8Array(Math.max(length, 2 * this.kept.length));
      larger.set(this.kept.subarray(0, this.keptLength));
      this.kept = larger;
    }
    this.kept.set(bytes.subarray(from, to), this.keptLength);
    this.keptLength = length;
  }
}

function withoutCr(text: string, from: number, to: number): string {
  let end = to;
  while (end > from && text.charCodeAt(end - 1) === carriageReturn) end--;
  return text.slice(from, end);
}
