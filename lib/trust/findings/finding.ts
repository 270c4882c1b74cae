import { dayText, instantText } from "../../ground/instant.js";

/** The commands for whose numbers a finding can matter. */
export type LaterCommand = "tides" | "swings" | "indoors" | "climate";

/** What a finding does to a later command. */
export interface Consequence {
  readonly command: LaterCommand;
  /** `note`: nothing is lost by it; `part`: not to be believed then and there; `all`: not to be believed at all. */
  readonly bears: "note" | "part" | "all";
  /** For a part: completes "not safe …", such as `on 9 May 2024`; empty otherwise. */
  readonly when: string;
  /** What happens to the answer, a clause without its full stop. */
  readonly how: string;
}

/** Something that was found out about a record. */
export interface Finding {
  /** 0 is as it should be, 1 is to be known, 2 spoils something. */
  readonly weight: 0 | 1 | 2;
  /** What, when and how much; a sentence without its full stop. */
  readonly says: string;
  /** What its owner can do about it; empty where there is nothing to do. */
  readonly remedy: string;
  readonly consequences: readonly Consequence[];
}

/** How findings name places and times: plain names and UTC in the document, titles and civil time on the screen. */
export interface FindingWords {
  place(name: string): string;
  /** A day, from epoch ms. */
  day(at: number): string;
  /** First to last instant, from epoch ms. */
  span(from: number, to: number): string;
}

/** Names as the description has them, days and times in UTC. */
export const plainWords: FindingWords = Object.freeze({
  place: (name: string) => name,
  day: (at: number) => dayText(at),
  span: (from: number, to: number) => {
    const [first, last] = [minuteText(from), minuteText(to)];
    return first === last ? `${first} UTC` : `${first} to ${last.startsWith(first.slice(0, 10)) ? last.slice(11) : last} UTC`;
  },
});

function minuteText(at: number): string {
  return instantText(at).slice(0, 16).replace("T", " ");
}

/**
 * A finding that is as it should be.
 *
 * @param says a sentence without its full stop
 */
export function fine(says: string): Finding {
  return { weight: 0, says, remedy: "", consequences: [] };
}

/**
 * The same consequence for several commands.
 *
 * @param commands whom it concerns
 * @param bears, when, how see Consequence
 */
export function consequence(commands: readonly LaterCommand[], bears: Consequence["bears"], how: string, when = ""): readonly Consequence[] {
  return commands.map((command) => ({ command, bears, when, how }));
}
