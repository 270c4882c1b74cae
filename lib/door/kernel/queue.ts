import type { Message } from "./wire.js";

/** The requests of the shell socket, one at a time. */
export interface ShellQueue {
  push(message: Message): void;
  /**
   * The running request is done.
   *
   * @param failed true when a cell failed that stops those behind it: cells that wait now are given up, other requests are not
   */
  done(failed: boolean): void;
  readonly isBusy: boolean;
}

/**
 * Keeps the order of requests.
 *
 * @param start  begins a request; {@link ShellQueue.done} must follow, at once or later
 * @param giveUp answers a cell that will not be run
 */
export function shellQueue(start: (message: Message) => void, giveUp: (message: Message) => void): ShellQueue {
  let waiting: Message[] = [];
  let busy = false;
  let turning = false;
  const turn = (): void => {
    // A request may be done while it is begun: go round here instead of going deeper.
    if (turning) return;
    turning = true;
    while (!busy) {
      const next = waiting.shift();
      if (next === undefined) break;
      busy = true;
      start(next);
    }
    turning = false;
  };
  return {
    get isBusy() {
      return busy;
    },
    push: (message) => {
      waiting.push(message);
      turn();
    },
    done: (failed) => {
      if (failed) {
        const isCell = (message: Message): boolean => message.header.msg_type === "execute_request";
        const given = waiting.filter(isCell);
        waiting = waiting.filter((message) => !isCell(message));
        for (const message of given) giveUp(message);
      }
      busy = false;
      turn();
    },
  };
}
