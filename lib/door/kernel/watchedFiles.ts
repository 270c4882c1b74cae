import { statSync } from "node:fs";

/** What the compiler wants to be told when a file changes; the second argument is its word for created 0, changed 1, deleted 2. */
export type FileCallback = (path: string, kind: number) => void;

/** The files a program was made from, looked at only when asked. */
export interface WatchedFiles {
  /** Remembers a file; nothing is watched by the system. */
  watch(path: string, callback: FileCallback): { close(): void };
  /** Tells the compiler which of the remembered local files have changed since the last look. */
  look(): void;
}

/**
 * Stands in for the compiler's file watchers, which break it when a folder changes between two cells.
 *
 * Libraries are not looked at: a change there needs a new kernel anyway, as a module is loaded once.
 */
export function watchedFiles(): WatchedFiles {
  const remembered = new Map<string, { callback: FileCallback; stamp: string }>();
  return {
    watch: (path, callback) => {
      const isLocal = /\.([cm]?[jt]sx?|json)$/.test(path) && !/(^|[\\/])node_modules[\\/]|[\\/]package\.json$/.test(path);
      if (!isLocal) return { close: () => undefined };
      const entry = { callback, stamp: stampOf(path) };
      remembered.set(path, entry);
      return {
        close: () => {
          if (remembered.get(path) === entry) remembered.delete(path);
        },
      };
    },
    look: () => {
      for (const [path, entry] of [...remembered]) {
        const now = stampOf(path);
        if (now === entry.stamp) continue;
        const kind = entry.stamp === "" ? 0 : now === "" ? 2 : 1;
        entry.stamp = now;
        entry.callback(path, kind);
      }
    },
  };
}

/** Changes when the file does; empty when there is none. */
function stampOf(path: string): string {
  const found = statSync(path, { throwIfNoEntry: false });
  return found === undefined ? "" : `${found.mtimeMs} ${found.size} ${found.ino}`;
}
