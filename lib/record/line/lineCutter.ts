import { decoderFor, headBytes } from "./encoding.js";

/** A line of more characters than this (1 MiB of plain text) is counted and rejected, but never kept in memory. */
export const longestLine: number = 1 << 20;

/** Bytes decoded at once, so that a file handed over whole does not become one long text. */
const pieceBytes = 1 << 18;

/** Which characters end a line: told by the first line end of the file. */
type LineEnds = "unknown" | "LF" | "CR or LF";

/**
 * Cuts bytes into lines as they come; the size of the chunks makes no difference.
 *
 * The first line end decides: LF or CRLF, then lines end at LF and a CR before it is dropped; a lone CR, then lines end
 * at CR, LF and CRLF. A byte order mark is dropped. Bytes that are no text become U+FFFD and spoil their own line only.
 */
export class LineCutter {
  /** Lines given so far; a last line without a line end is one too. */
  lines = 0;
  private decoder: InstanceType<typeof TextDecoder> | null = null;
  private head: Uint8Array = new Uint8Array(0);
  private ends: LineEnds = "unknown";
  /** What has come of the line that is not yet ended. */
  private rest = "";
  private isTooLong = false;
  /** The last character was a CR, in a file whose lines end at CR too: a LF that follows belongs to it. */
  private isAfterCr = false;
  /** CRs in a row at the first line end, while it is not known whether a LF follows. */
  private openCrs = 0;

  /**
   * @param encoding as the description names it, or null to look at the first bytes
   * @param take     called for every line with its number, from 1; null for a line that is too long
   */
  constructor(
    private readonly encoding: string | null,
    private readonly take: (text: string | null, line: number) => void,
  ) {}

  /** Takes the next bytes; they are not kept. */
  push(chunk: Uint8Array): void {
    let bytes = chunk;
    if (this.decoder === null) {
      bytes = new Uint8Array(this.head.length + chunk.length);
      bytes.set(this.head);
      bytes.set(chunk, this.head.length);
      if (bytes.length < headBytes) {
        this.head = bytes;
        return;
      }
      this.decoder = decoderFor(bytes, this.encoding);
    }
    for (let from = 0; from < bytes.length; from += pieceBytes) {
      this.cut(this.decoder.decode(bytes.subarray(from, from + pieceBytes), { stream: true }));
    }
  }

  /** Says that no more bytes come. */
  end(): void {
    if (this.decoder === null) this.cut(decoderFor(this.head, this.encoding).decode(this.head));
    else this.cut(this.decoder.decode());
    const isOpen = this.rest !== "" || this.isTooLong || this.openCrs > 0;
    for (let k = Math.max(this.openCrs, isOpen ? 1 : 0); k > 0; k--) this.give("");
  }

  private cut(text: string): void {
    if (text === "") return;
    let from = 0;
    if (this.ends === "unknown") {
      from = this.lookForEnd(text);
      if (this.ends === "unknown") return;
    }
    if (this.ends === "LF") this.cutAtLf(text, from);
    else this.cutAtAny(text, from);
  }

  /** Looks for the first line end; returns where cutting goes on. */
  private lookForEnd(text: string): number {
    let at = 0;
    if (this.openCrs === 0) {
      at = text.search(/[\r\n]/);
      this.keep(at < 0 ? text : text.slice(0, at));
      if (at < 0) return 0;
    }
    while (text[at] === "\r") {
      this.openCrs++;
      at++;
    }
    if (at === text.length) return 0;
    this.ends = text[at] === "\n" ? "LF" : "CR or LF";
    // Before a LF all of them are one line end; alone each is one.
    for (let k = this.ends === "LF" ? 1 : this.openCrs; k > 0; k--) this.give("");
    this.openCrs = 0;
    return this.ends === "LF" ? at + 1 : at;
  }

  private cutAtLf(text: string, start: number): void {
    let from = start;
    for (let end = text.indexOf("\n", from); end >= 0; end = text.indexOf("\n", from)) {
      this.give(text.slice(from, end));
      from = end + 1;
    }
    this.keep(from === 0 ? text : text.slice(from));
  }

  private cutAtAny(text: string, start: number): void {
    let from = start;
    for (let i = start; i < text.length; i++) {
      const c = text.charCodeAt(i);
      if (c !== 10 && c !== 13) {
        this.isAfterCr = false;
        continue;
      }
      if (c === 13 || !this.isAfterCr) this.give(text.slice(from, i));
      this.isAfterCr = c === 13;
      from = i + 1;
    }
    this.keep(text.slice(from));
  }

  private keep(text: string): void {
    if (this.isTooLong || text === "") return;
    this.rest += text;
    if (this.rest.length > longestLine) {
      this.isTooLong = true;
      this.rest = "";
    }
  }

  private give(text: string): void {
    const whole = this.rest === "" ? text : this.rest + text;
    const isTooLong = this.isTooLong || whole.length > longestLine;
    this.rest = "";
    this.isTooLong = false;
    this.lines++;
    this.take(isTooLong ? null : withoutCr(whole), this.lines);
  }
}

function withoutCr(text: string): string {
  let end = text.length;
  while (end > 0 && text.charCodeAt(end - 1) === 13) end--;
  return end === text.length ? text : text.slice(0, end);
}
