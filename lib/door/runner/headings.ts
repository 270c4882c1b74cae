/** One heading of a page. */
export interface Heading {
  readonly level: number;
  readonly id: string;
  readonly text: string;
}

/** Keeps the headings of a page in order while its texts are turned into html one after the other. */
export interface Headings {
  /** Level and name for the next heading. */
  next(level: number, text: string): Heading;
  /** All so far. */
  readonly all: readonly Heading[];
}

/**
 * Headings in order: one of the first level, none that leaps a level, each with a name of its own to link to.
 *
 * A second heading of the first level becomes one of the second; one that leaps (from 2 to 4) comes down to the next level.
 */
export function headings(): Headings {
  const all: Heading[] = [];
  const taken = new Set<string>(["main"]);
  return {
    all,
    next(level, text) {
      const before = all.at(-1)?.level ?? 0;
      const first = all.length === 0;
      const kept = first ? 1 : Math.max(2, Math.min(level, before + 1));
      const heading = { level: kept, id: freeName(text, taken), text };
      all.push(heading);
      return heading;
    },
  };
}

function freeName(text: string, taken: Set<string>): string {
  const plain = text.toLowerCase().normalize("NFKD").replace(/[^a-z0-9]+/g, "-").replace(/^-|-$/g, "").slice(0, 60) || "part";
  let name = plain;
  for (let n = 2; taken.has(name); n++) name = `${plain}-${n}`;
  taken.add(name);
  return name;
}
