/** What was read of an unknown log: its beginning and, of a long one, its end. */
export interface LogSample {
  /** As the draft is to name it: relative to the description, with forward slashes. */
  readonly path: string;
  /** The first bytes; all of them when the log is short. */
  readonly head: Uint8Array;
  /** The last bytes of a log that is longer than the head, else null. */
  readonly tail: Uint8Array | null;
  /** Size of the whole log · bytes. */
  readonly bytes: number;
}

/** Something the draft says that no one told: where it stands, and the reason. */
export interface Guess {
  /** `resources[0].schema.fields[1].unit` */
  readonly path: string;
  readonly because: string;
}

/** Something that only the owner knows: where the answer goes, and what is asked. */
export interface Question {
  readonly path: string;
  readonly ask: string;
  /** What the draft holds there until it is answered; undefined where it holds nothing. */
  readonly drafted?: string;
}

/** What the house can say of a log it cannot describe: one sentence for its owner. */
export type Refusal = { readonly refusal: string };
