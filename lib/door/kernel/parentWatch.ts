/** What is asked of the system; given by tests. */
export interface ProcessSights {
  /** Id of the parent now. */
  parent(): number;
  /** False when there is no such process. */
  isAlive(id: number): boolean;
}

/** The system's own answers. */
const ownSights: ProcessSights = {
  parent: () => process.ppid,
  isAlive: (id) => {
    try {
      process.kill(id, 0);
      return true;
    } catch (error) {
      // No permission to signal it means that it is there.
      return (error as NodeJS.ErrnoException).code !== "ESRCH";
    }
  },
};

/**
 * Calls once when the process that started this one is gone: it has another parent, or (Windows, where the number stays)
 * the parent's number belongs to no process.
 *
 * @param gone         called once
 * @param milliseconds between two looks, default 1000
 * @param sights       the system, default the real one
 * @returns            a function that ends the watch
 */
export function watchParent(gone: () => void, milliseconds = 1000, sights: ProcessSights = ownSights): () => void {
  const first = sights.parent();
  const timer = setInterval(() => {
    if (sights.parent() === first && sights.isAlive(first)) return;
    clearInterval(timer);
    gone();
  }, milliseconds);
  return () => clearInterval(timer);
}
