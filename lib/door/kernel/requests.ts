import { pointsOf, unitsOf } from "./codePoints.js";
import { history } from "./history.js";
import type { News, Work } from "./link.js";
import { shellQueue } from "./queue.js";
import { streamBatches } from "./streamBatches.js";
import type { Header, Message, Outgoing } from "./wire.js";

/** What the desk of requests needs. */
export interface DeskSurroundings {
  /** Answers on the socket that a request came from. */
  readonly reply: (channel: "shell" | "control" | "stdin", to: Message["identities"], message: Outgoing) => void;
  readonly publish: (message: Outgoing) => void;
  readonly toCells: (work: Work) => void;
  /** Breaks whatever runs. */
  readonly interrupt: () => void;
  /** Hands a typed answer to the cell that waits. */
  readonly answer: (text: string) => void;
  /** Closes everything; called after the reply was sent. */
  readonly stop: () => void;
  /** Content of kernel_info_reply. */
  readonly info: Readonly<Record<string, unknown>>;
}

/** The sockets' side of the kernel: what comes in, what goes out, in which order. */
export interface Desk {
  receive(channel: "shell" | "control" | "stdin", message: Message): void;
  news(news: News): void;
}

const knownRuns = 1000;
type Content = Readonly<Record<string, unknown>>;

/**
 * Answers requests: at once where it can, through the thread of the cells where code is needed, cells in their order.
 *
 * @param around see DeskSurroundings
 * @source Jupyter messaging protocol 5.4
 */
export function requestDesk(around: DeskSurroundings): Desk {
  const past = history();
  /** Who started a run, by its tag: late output still goes there; null for a silent run. */
  const runs = new Map<string, Header | null>();
  let running: { readonly message: Message; readonly isSilent: boolean; readonly count: number } | null = null;
  let asking = false;
  let count = 0;
  let uncounted = 0;

  const publish = (type: string, parent: Header | null, content: Content, metadata: Content = {}): void => {
    batches.flush();
    around.publish({ type, parent, content, metadata });
  };
  const batches = streamBatches<Header | null>((parent, name, text) => around.publish({ type: "stream", parent, content: { name, text } }));
  const status = (parent: Header | null, state: "busy" | "idle" | "starting"): void => publish("status", parent, { execution_state: state });
  const reply = (channel: "shell" | "control", message: Message, content: Content): void => {
    batches.flush();
    around.reply(channel, message.identities, { type: message.header.msg_type.replace(/_request$/, "_reply"), parent: message.header, content });
  };

  /** Requests that need no code; null when it is none of them. */
  const atOnce = (message: Message): Content | null => {
    const { content, header } = message;
    switch (header.msg_type) {
      case "kernel_info_request":
        return around.info;
      case "comm_info_request":
        return { status: "ok", comms: {} };
      case "history_request":
        return past.answer(content);
      default:
        return null;
    }
  };

  const execute = (message: Message): void => {
    const { content, header, identities } = message;
    const isSilent = content.silent === true;
    const counts = !isSilent && content.store_history !== false;
    const code = String(content.code ?? "");
    if (counts) past.add(++count, code);
    const tag = counts ? String(count) : `${count}+${++uncounted}`;
    runs.set(tag, isSilent ? null : header);
    if (runs.size > knownRuns) for (const oldest of runs.keys()) if (runs.delete(oldest)) break;
    running = { message: { ...message, identities }, isSilent, count };
    if (!isSilent) publish("execute_input", header, { code, execution_count: count });
    const cellId = (message.metadata as { cellId?: unknown }).cellId;
    const expressions = Object.fromEntries(Object.entries((content.user_expressions ?? {}) as Record<string, unknown>).map(([name, text]) => [name, String(text)]));
    around.toCells({ kind: "execute", id: header.msg_id, tag, key: typeof cellId === "string" ? cellId : code, code, isSilent, allowsInput: content.allow_stdin !== false, expressions });
  };

  const queue = shellQueue(
    (message) => {
      const { header, content } = message;
      status(header, "busy");
      const now = atOnce(message);
      if (now !== null) {
        reply("shell", message, now);
        return finish(message, false);
      }
      const code = String(content.code ?? "");
      const cursor = unitsOf(code, Number(content.cursor_pos ?? code.length));
      running = { message, isSilent: true, count };
      switch (header.msg_type) {
        case "execute_request":
          return execute(message);
        case "complete_request":
          return around.toCells({ kind: "complete", id: header.msg_id, code, cursor });
        case "inspect_request":
          return around.toCells({ kind: "inspect", id: header.msg_id, code, cursor });
        case "is_complete_request":
          return around.toCells({ kind: "isComplete", id: header.msg_id, code });
        case "shutdown_request":
          return shutDown("shell", message);
        case "comm_open":
          // No target is known here; the other side is told that its end is closed.
          publish("comm_close", header, { comm_id: content.comm_id, data: {} });
          return finish(message, false);
        default:
          return finish(message, false);
      }
    },
    (message) => {
      status(message.header, "busy");
      reply("shell", message, { status: "aborted", execution_count: count });
      status(message.header, "idle");
    },
  );

  function finish(message: Message, failed: boolean): void {
    running = null;
    status(message.header, "idle");
    queue.done(failed);
  }

  function shutDown(channel: "shell" | "control", message: Message): void {
    const content = { status: "ok", restart: message.content.restart === true };
    reply(channel, message, content);
    publish("shutdown_reply", message.header, content);
    status(message.header, "idle");
    around.stop();
  }

  function done(news: Extract<News, { kind: "done" }>): void {
    if (running === null || running.message.header.msg_id !== news.id) return;
    const { message, count: ran } = running;
    const { header, content } = message;
    if (header.msg_type === "execute_request") {
      const failed = news.content.status === "error";
      reply("shell", message, { ...news.content, execution_count: ran });
      asking = false;
      finish(message, failed && content.stop_on_error !== false);
      return;
    }
    const code = String(content.code ?? "");
    const points = Object.fromEntries(["cursor_start", "cursor_end"].filter((k) => k in news.content).map((k) => [k, pointsOf(code, Number(news.content[k]))]));
    reply("shell", message, { ...news.content, ...points });
    finish(message, false);
  }

  status(null, "starting");
  return {
    receive: (channel, message) => {
      if (channel === "shell") return queue.push(message);
      if (channel === "stdin") {
        if (message.header.msg_type === "input_reply" && asking) {
          asking = false;
          around.answer(String(message.content.value ?? ""));
        }
        return;
      }
      status(message.header, "busy");
      if (message.header.msg_type === "shutdown_request") return shutDown("control", message);
      if (message.header.msg_type === "interrupt_request") {
        around.interrupt();
        reply("control", message, { status: "ok" });
      } else {
        const now = atOnce(message);
        if (now !== null) reply("control", message, now);
      }
      status(message.header, "idle");
    },
    news: (news) => {
      if (news.kind === "done") return done(news);
      if (news.kind === "stop") return around.stop();
      if (news.kind === "piece" || news.kind === "ask") {
        const parent = news.tag === "" ? null : (runs.get(news.tag) ?? null);
        if (news.kind === "ask") {
          batches.flush();
          asking = true;
          if (running !== null) around.reply("stdin", running.message.identities, { type: "input_request", parent, content: { prompt: news.question, password: news.secret } });
          return;
        }
        // A silent run shows nothing.
        if (parent === null && news.tag !== "") return;
        const { piece } = news;
        if (piece.kind === "stream") return batches.add(parent, piece.name, piece.text);
        if (piece.kind === "clear") return publish("clear_output", parent, { wait: piece.wait });
        const transient = piece.id === undefined ? {} : { display_id: piece.id };
        return publish(piece.kind === "update" ? "update_display_data" : "display_data", parent, { data: piece.data, metadata: piece.metadata, transient });
      }
      if (running === null || running.isSilent) return;
      const { message, count: ran } = running;
      if (news.kind === "result") publish("execute_result", message.header, { data: news.data, metadata: news.metadata, execution_count: ran });
      else publish("error", message.header, { ...news.fault });
    },
  };
}
