import type { MessagePort } from "node:worker_threads";
import type { MimeBundle } from "./bundle.js";
import type { Connection } from "./connection.js";
import type { CellPiece } from "./openCells.js";
import type { CellError } from "./traceback.js";

/** What the sockets' thread asks of the thread that runs cells. */
export type Work =
  | {
      readonly kind: "execute";
      readonly id: string;
      readonly tag: string;
      readonly key: string;
      readonly code: string;
      readonly allowsInput: boolean;
      /** Nothing is to be shown. */
      readonly isSilent: boolean;
      readonly expressions: Readonly<Record<string, string>>;
    }
  | { readonly kind: "complete" | "inspect"; readonly id: string; readonly code: string; readonly cursor: number }
  | { readonly kind: "isComplete"; readonly id: string; readonly code: string }
  | { readonly kind: "interrupt" }
  /** The sockets cannot be opened. */
  | { readonly kind: "refused"; readonly reason: string }
  /** The sockets are closed: end the process. */
  | { readonly kind: "exit" };

/** What the thread that runs cells tells the sockets' thread. */
export type News =
  | { readonly kind: "piece"; readonly tag: string; readonly piece: CellPiece }
  | { readonly kind: "result"; readonly id: string; readonly data: MimeBundle["data"]; readonly metadata: MimeBundle["metadata"] }
  | { readonly kind: "fault"; readonly id: string; readonly fault: CellError }
  | { readonly kind: "ask"; readonly tag: string; readonly question: string; readonly secret: boolean }
  | { readonly kind: "done"; readonly id: string; readonly content: Readonly<Record<string, unknown>> }
  /** The process was told to end from outside. */
  | { readonly kind: "stop" };

/** What the sockets' thread is started with. */
export interface WorkerStart {
  readonly connection: Connection;
  readonly shared: SharedArrayBuffer;
  readonly answers: MessagePort;
}
