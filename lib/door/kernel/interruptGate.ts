/** Places in the memory that both threads share. */
export const sharedPlaces = {
  /** Number of interrupts so far. */
  interrupts: 0,
  /** Changes when an answer or an interrupt has come for a cell that asks. */
  answers: 1,
  /** Whether code of a cell runs; see interruptGate.ts. */
  code: 2,
} as const;

/** The state of the thread that runs cells, in shared memory. */
const states = { elsewhere: 0, inCode: 1, signalling: 2, signalled: 3 } as const;

/** The side of the thread that runs cells. */
export interface InterruptGate {
  /** Number of interrupts so far. */
  count(): number;
  /** Code of a cell begins: from here on it may be broken by a signal. */
  enter(): void;
  /** Code of a cell has ended by itself; when a signal is on its way, waits for it here and does not come back. */
  leave(): void;
  /** The run is over, however it ended. */
  reset(): void;
}

/**
 * A signal may reach the process only while a cell's code runs: at any other moment Node has no handler for it for an instant, and it
 * would end the process; or it would come too late and break the next cell.
 *
 * @param places shared memory
 */
export function interruptGate(places: Int32Array): InterruptGate {
  const at = sharedPlaces.code;
  return {
    count: () => Atomics.load(places, sharedPlaces.interrupts),
    enter: () => void Atomics.store(places, at, states.inCode),
    leave: () => {
      if (Atomics.compareExchange(places, at, states.inCode, states.elsewhere) === states.inCode) return;
      // The watch for signals breaks this loop; two seconds are for a machine that is very busy.
      const end = Date.now() + 2000;
      while (Date.now() < end);
    },
    reset: () => {
      while (Atomics.load(places, at) === states.signalling);
      Atomics.store(places, at, states.elsewhere);
    },
  };
}

/**
 * The sockets' side: counts an interrupt, and breaks code that runs.
 *
 * Code that waits or has waited sees the count (its loops look, its promises are told by message).
 *
 * @param places shared memory
 * @param signal sends the signal to this process
 */
export function breakCode(places: Int32Array, signal: () => void): void {
  Atomics.add(places, sharedPlaces.interrupts, 1);
  const at = sharedPlaces.code;
  if (Atomics.compareExchange(places, at, states.inCode, states.signalling) !== states.inCode) return;
  signal();
  Atomics.compareExchange(places, at, states.signalling, states.signalled);
}
