import { createHmac, randomUUID, timingSafeEqual } from "node:crypto";

/** Version of the messaging protocol that is spoken. */
export const protocolVersion = "5.4";

/** Head of a message. */
export interface Header {
  readonly msg_id: string;
  readonly msg_type: string;
  readonly session: string;
  readonly username: string;
  readonly date: string;
  readonly version: string;
}

/** A message as it came. */
export interface Message {
  /** Frames by which a reply finds its way back. */
  readonly identities: readonly Uint8Array[];
  readonly header: Header;
  readonly metadata: Readonly<Record<string, unknown>>;
  readonly content: Readonly<Record<string, unknown>>;
}

/** What a kernel sends. */
export interface Outgoing {
  readonly type: string;
  readonly parent: Header | null;
  readonly content: Readonly<Record<string, unknown>>;
  readonly metadata?: Readonly<Record<string, unknown>>;
}

/** Takes messages apart and puts them together, signed. */
export interface Wire {
  /** @throws Error when it is not a message, is not signed with the key, or was seen before */
  decode(frames: readonly Uint8Array[]): Message;
  /** @param to identities, or the topic of a publication */
  encode(to: readonly Uint8Array[], message: Outgoing): Uint8Array[];
}

const delimiter = "<IDS|MSG>";
const rememberedSignatures = 65_536;

/**
 * The kernel's side of the wire protocol.
 *
 * Only messages signed with the key are read, compared in constant time, and each signature once, so that nobody can send a
 * message again. An empty key means unsigned both ways.
 *
 * @param key     of the connection file
 * @param session names this kernel's own messages
 * @source Jupyter messaging protocol 5.4, "The wire protocol"
 */
export function wire(key: string, session: string = randomUUID()): Wire {
  const sign = (parts: readonly Uint8Array[]): string => {
    if (key === "") return "";
    const mac = createHmac("sha256", key);
    for (const part of parts) mac.update(part);
    return mac.digest("hex");
  };
  const seen = new Set<string>();
  return {
    decode: (frames) => {
      const at = frames.findIndex((frame) => frame.length === delimiter.length && Buffer.from(frame).toString("latin1") === delimiter);
      if (at === -1 || frames.length < at + 6) throw new Error(`a message must have a delimiter and five frames after it (got ${frames.length} frames)`);
      const signature = Buffer.from(frames[at + 1]).toString("latin1");
      const parts = frames.slice(at + 2, at + 6);
      if (key !== "") {
        if (!isSame(signature, sign(parts))) throw new Error("a message must be signed with the connection's key");
        if (seen.has(signature)) throw new Error("a message must be sent once (its signature came before)");
        seen.add(signature);
        if (seen.size > rememberedSignatures) for (const oldest of seen) if (seen.delete(oldest)) break;
      }
      const [header, , metadata, content] = parts.map((part) => JSON.parse(Buffer.from(part).toString("utf8")) as Record<string, unknown>);
      if (typeof header.msg_id !== "string" || typeof header.msg_type !== "string") throw new Error("a message's header must have msg_id and msg_type");
      return { identities: frames.slice(0, at), header: header as unknown as Header, metadata: metadata ?? {}, content: content ?? {} };
    },
    encode: (to, { type, parent, content, metadata = {} }) => {
      const header: Header = { msg_id: randomUUID(), msg_type: type, session, username: "kernel", date: new Date().toISOString(), version: protocolVersion };
      const parts = [header, parent ?? {}, metadata, content].map((part) => Buffer.from(JSON.stringify(part), "utf8"));
      return [...to, Buffer.from(delimiter, "latin1"), Buffer.from(sign(parts), "latin1"), ...parts];
    },
  };
}

function isSame(given: string, wanted: string): boolean {
  const a = Buffer.from(given, "latin1");
  const b = Buffer.from(wanted, "latin1");
  return a.length === b.length && timingSafeEqual(a, b);
}
