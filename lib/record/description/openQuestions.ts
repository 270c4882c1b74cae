import type { Description } from "./description.js";

/** A question of a drafted description that its owner has not answered yet. */
export interface OpenQuestion {
  /** Where in the description the answer goes: `resources[0].schema.fields[1].zone`. */
  readonly path: string;
  readonly ask: string;
}

/**
 * The questions of a description that are still open.
 *
 * One is answered when the value at its path is another than the draft put there (any value, where it put none), or when its
 * entry is taken out of the list.
 *
 * @param description of the right shape · unchanged
 * @returns           those without an answer, in their order
 * @example openQuestions({ questions: [{ path: "site", ask: "where?" }], resources: [] })[0].path // "site"
 */
export function openQuestions(description: Partial<Description>): readonly OpenQuestion[] {
  const open = (description.questions ?? []).filter(({ path, drafted }) => {
    const value = valueAt(description, path);
    return value === undefined || (drafted !== undefined && value === drafted);
  });
  return Object.freeze(open.map(({ path, ask }) => Object.freeze({ path, ask })));
}

/** What stands at a path as `pathText` writes it; undefined where nothing does. */
function valueAt(document: unknown, path: string): unknown {
  let value = document;
  const steps = [...path.matchAll(/([^.[\]"]+)|\[(\d+)\]|"((?:[^"\\]|\\.)*)"/g)];
  if (steps.length === 0) return undefined;
  for (const [, name, index, quoted] of steps) {
    if (value === null || typeof value !== "object") return undefined;
    const key = index ?? name ?? quoted.replace(/\\(["\\])/g, "$1");
    value = Object.hasOwn(value, key) ? (value as Record<string, unknown>)[key] : undefined;
  }
  return value;
}
