import { RecordError } from "../ground/complaint.js";

/** A line longer than this is counted and rejected, but not kept in memory. */
export const longestLine = 1 << 16;

/**
 * Cuts bytes into lines as they come, whatever the size of the chunks.
 *
 * LF ends a line; a CR before it is dropped. A byte order mark is dropped, and tells UTF-16. Without one the encoding is
 * the named one, or UTF-8; bytes that are none of it become U+FFFD and spoil their own line only.
 */
export class LineCutter {
  private decoder: InstanceType<typeof TextDecoder> | null = null;
  private head: Uint8Array = new Uint8Array(0);
  private rest = "";
  private overlong = false;
  lines = 0;

  /**
   * @param path     file, for messages
   * @param encoding as the description names it, or nothing
   * @param take     called for every line with its number; text is null for a line that is too long to be one
   */
  constructor(
    private readonly path: string,
    private readonly encoding: string | undefined,
    private readonly take: (text: string | null, line: number) => void,
  ) {}

  /** Takes the next bytes; they are not kept. */
  push(chunk: Uint8Array): void {
    if (this.decoder === null) {
      const joined = new Uint8Array(this.head.length + chunk.length);
      joined.set(this.head);
      joined.set(chunk, this.head.length);
      // Four bytes tell a byte order mark and the zero bytes of UTF-16 without one.
      if (joined.length < 4) {
        this.head = joined;
        return;
      }
      this.decoder = this.decoderFor(joined);
      this.cut(this.decoder.decode(joined, { stream: true }));
    } else this.cut(this.decoder.decode(chunk, { stream: true }));
  }

  /** Says that no more bytes come; a last line without a line end counts as one. */
  end(): void {
    if (this.decoder === null) this.decoder = this.decoderFor(this.head);
    else this.head = new Uint8Array(0);
    this.cut(this.decoder.decode(this.head));
    if (this.rest !== "" || this.overlong) this.give(this.rest);
    this.rest = "";
  }

  private decoderFor(bytes: Uint8Array): InstanceType<typeof TextDecoder> {
    const [a, b, c, d] = bytes;
    if (a === 0xff && b === 0xfe) return new TextDecoder("utf-16le");
    if (a === 0xfe && b === 0xff) return new TextDecoder("utf-16be");
    if (this.encoding === undefined) {
      if (a !== 0 && b === 0 && c !== 0 && d === 0) return new TextDecoder("utf-16le");
      if (a === 0 && b !== 0 && c === 0 && d !== 0) return new TextDecoder("utf-16be");
      return new TextDecoder("utf-8");
    }
    try {
      return new TextDecoder(this.encoding);
    } catch {
      throw new RecordError(`encoding must be one this machine can read (got "${this.encoding}"); write utf-8, utf-16 or windows-1252`, "description", { file: this.path });
    }
  }

  private cut(text: string): void {
    let from = 0;
    for (;;) {
      const end = text.indexOf("\n", from);
      if (end < 0) break;
      const piece = text.slice(from, end);
      this.give(this.rest === "" ? piece : this.rest + piece);
      this.rest = "";
      from = end + 1;
    }
    if (from >= text.length || this.overlong) return;
    this.rest += from === 0 ? text : text.slice(from);
    if (this.rest.length > longestLine) {
      this.overlong = true;
      this.rest = "";
    }
  }

  private give(text: string): void {
    this.lines++;
    const tooLong = this.overlong || text.length > longestLine;
    this.overlong = false;
    this.take(tooLong ? null : text.endsWith("\r") ? text.slice(0, -1) : text, this.lines);
  }
}
