/** Printed text gathered for a moment: one message for a flood of lines. */
export interface StreamBatches<Parent> {
  add(parent: Parent, name: "stdout" | "stderr", text: string): void;
  /** Sends what is gathered now, before anything else is said. */
  flush(): void;
}

const longest = 262_144;

/**
 * Gathers text of one cell and one stream for about 20 ms.
 *
 * @param send         publishes a piece
 * @param milliseconds default 20: below what a reader notices
 */
export function streamBatches<Parent>(send: (parent: Parent, name: "stdout" | "stderr", text: string) => void, milliseconds = 20): StreamBatches<Parent> {
  let gathered: string[] = [];
  let length = 0;
  let of: { readonly parent: Parent; readonly name: "stdout" | "stderr" } | null = null;
  let timer: NodeJS.Timeout | undefined;
  const flush = (): void => {
    clearTimeout(timer);
    timer = undefined;
    if (of !== null && length > 0) send(of.parent, of.name, gathered.join(""));
    gathered = [];
    length = 0;
    of = null;
  };
  return {
    flush,
    add: (parent, name, text) => {
      if (of !== null && (of.parent !== parent || of.name !== name)) flush();
      of ??= { parent, name };
      gathered.push(text);
      length += text.length;
      if (length > longest) flush();
      else timer ??= setTimeout(flush, milliseconds);
    },
  };
}
