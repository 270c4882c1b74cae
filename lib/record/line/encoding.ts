/** Bytes needed to tell a byte order mark, or the zero bytes of UTF-16 without one. */
export const headBytes = 4;

/**
 * The decoder for a file: a byte order mark wins, then the named encoding, then UTF-16 by its zero bytes, then UTF-8.
 *
 * @param head     the first bytes of the file, at least four where it has them
 * @param encoding a name that `isEncoding` has accepted, or null
 * @source WHATWG Encoding Standard (names; a byte order mark before all else)
 */
export function decoderFor(head: Uint8Array, encoding: string | null): InstanceType<typeof TextDecoder> {
  const [a, b, c, d] = head;
  if (a === 0xff && b === 0xfe) return new TextDecoder("utf-16le");
  if (a === 0xfe && b === 0xff) return new TextDecoder("utf-16be");
  if (a === 0xef && b === 0xbb && c === 0xbf) return new TextDecoder("utf-8");
  if (encoding !== null) return new TextDecoder(encoding);
  if (a !== 0 && b === 0 && c !== 0 && d === 0) return new TextDecoder("utf-16le");
  if (a === 0 && b !== 0 && c === 0 && d !== 0) return new TextDecoder("utf-16be");
  return new TextDecoder("utf-8");
}

/** Whether this machine can read an encoding of that name. */
export function isEncoding(name: string): boolean {
  try {
    new TextDecoder(name);
    return true;
  } catch {
    return false;
  }
}
