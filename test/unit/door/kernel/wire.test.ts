import { createHmac } from "node:crypto";
import { describe, expect, it } from "vitest";
import { addressOf, type Connection, readConnection } from "../../../../lib/door/kernel/connection.js";
import { wire } from "../../../../lib/door/kernel/wire.js";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const parts = [{ msg_id: "1", msg_type: "kernel_info_request", session: "s", username: "u", date: "", version: "5.3" }, {}, {}, { a: 1 }].map((p) => Buffer.from(JSON.stringify(p)));
const sign = (key: string): Buffer => Buffer.from(createHmac("sha256", key).update(Buffer.concat(parts)).digest("hex"));
const frames = (signature: Buffer): Buffer[] => [Buffer.from([0, 1, 2]), Buffer.from("<IDS|MSG>"), signature, ...parts, Buffer.from("a buffer")];

describe("wire", () => {
  it("reads a message with identities, content and further buffers", () => {
    const message = wire("key").decode(frames(sign("key")));
    expect([...message.identities[0]]).toEqual([0, 1, 2]);
    expect(message.header.msg_type).toBe("kernel_info_request");
    expect(message.content).toEqual({ a: 1 });
  });

  it("refuses a wrong, a missing and a repeated signature, too few frames, and a header without a type", () => {
    const { decode } = wire("key");
    expect(() => decode(frames(sign("other")))).toThrow("signed with the connection's key");
    expect(() => decode(frames(Buffer.from("")))).toThrow("signed with the connection's key");
    expect(() => decode(frames(sign("key").subarray(1)))).toThrow("signed with the connection's key");
    decode(frames(sign("key")));
    expect(() => decode(frames(sign("key")))).toThrow("sent once");
    expect(() => decode([Buffer.from("x")])).toThrow("a delimiter and five frames");
    expect(() => wire("").decode([Buffer.from("<IDS|MSG>"), Buffer.from(""), ...["{}", "{}", "{}", "{}"].map((t) => Buffer.from(t))])).toThrow("msg_id and msg_type");
  });

  it("an empty key means unsigned, and twice is allowed", () => {
    const { decode, encode } = wire("");
    for (let i = 0; i < 2; i++) expect(decode(frames(Buffer.from(""))).content).toEqual({ a: 1 });
    expect(Buffer.from(encode([], { type: "status", parent: null, content: {} })[1]).toString()).toBe("");
  });

  it("writes what a client can check", () => {
    const sent = wire("key", "session").encode([Buffer.from("topic")], { type: "status", parent: null, content: { execution_state: "idle" } }).map((f) => Buffer.from(f));
    expect(sent[0].toString()).toBe("topic");
    expect(sent[2].toString()).toBe(createHmac("sha256", "key").update(Buffer.concat(sent.slice(3))).digest("hex"));
    expect(JSON.parse(sent[3].toString())).toMatchObject({ msg_type: "status", session: "session", version: "5.4" });
    expect(JSON.parse(sent[4].toString())).toEqual({});
  });
});

describe("connection file", () => {
  const folder = mkdtempSync(join(tmpdir(), "connection-"));
  const read = (document: object): Connection => {
    const file = join(folder, "c.json");
    writeFileSync(file, JSON.stringify(document));
    return readConnection(file);
  };
  const ports = { shell_port: 1, control_port: 2, iopub_port: 3, stdin_port: 4, hb_port: 5 };

  it("gives addresses of both transports", () => {
    expect(addressOf(read({ ...ports, ip: "127.0.0.1" }), "heartbeat")).toBe("tcp://127.0.0.1:5");
    expect(addressOf(read({ ...ports, ip: "/tmp/x", transport: "ipc" }), "shell")).toBe("ipc:///tmp/x-1");
  });

  it("names what is wrong", () => {
    expect(() => read({ ...ports, hb_port: "5" })).toThrow("hb_port must be a whole number (got 5)");
    expect(() => read({ ...ports, transport: "udp" })).toThrow("transport must be tcp or ipc (got udp)");
    expect(() => read({ ...ports, key: "k", signature_scheme: "hmac-md5" })).toThrow("signature_scheme must be hmac-sha256 (got hmac-md5)");
    expect(() => readConnection(join(folder, "none.json"))).toThrow("must be readable JSON");
    rmSync(folder, { recursive: true });
  });
});
