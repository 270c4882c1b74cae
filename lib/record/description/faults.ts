import { mustSentence, RecordError, shown } from "../../ground/complaint.js";

/** A place in a description: names and list indices. */
export type DescriptionPath = string;

/** Writes a path as people read it: `resources[0].schema.fields[1].unit`. */
export function pathText(path: readonly (string | number)[]): DescriptionPath {
  return path.reduce<string>((text, step) => {
    if (typeof step === "number") return `${text}[${step}]`;
    const name = /^[\w$-]+$/.test(step) ? step : JSON.stringify(step);
    return text === "" ? name : `${text}.${name}`;
  }, "");
}

/** Collects every fault of a description before the first is told. */
export class Faults {
  private readonly found: { readonly path: DescriptionPath; readonly sentence: string }[] = [];

  /**
   * Notes a fault. One at a path that is faulty already, or below one, follows from it and is left out.
   *
   * @param requirement what must hold, beginning with the verb after "must"
   * @param got         the value found
   * @param remedy      what to do, or nothing
   */
  add(path: DescriptionPath, requirement: string, got: unknown, remedy?: string): void {
    this.say(path, requirement, shown(got), remedy);
  }

  /** As `add`, with what was found already in words. */
  say(path: DescriptionPath, requirement: string, got: string, remedy?: string): void {
    this.tell(path, mustSentence("", path === "" ? "the description" : path, requirement, got, remedy));
  }

  /** Notes a fault in a sentence of its own. */
  tell(path: DescriptionPath, sentence: string): void {
    const isKnown = this.found.some((f) => f.path === path || f.path === "" || path.startsWith(`${f.path}.`) || path.startsWith(`${f.path}[`));
    if (!isKnown) this.found.push({ path, sentence });
  }

  /** @throws RecordError with the first fault and the others, when there is any */
  throwIfAny(): void {
    if (this.found.length === 0) return;
    const [first, ...others] = this.found.map((f) => f.sentence);
    throw new RecordError(first, "description", {}, Object.freeze(others));
  }
}
