import { randomUUID } from "node:crypto";
import { bundleFrom, bundleOf, type MimeBundle } from "./bundle.js";

/** What the names that every cell knows are made from. */
export interface NameSurroundings {
  readonly show: (bundle: MimeBundle, id: string | undefined, isUpdate: boolean) => void;
  readonly clear: (wait: boolean) => void;
  readonly ask: (question: string, secret: boolean) => string;
}

/** Declarations, in TypeScript, of the names that every cell knows. */
export const displayNames = `/**
 * Shows a value now, before the cell ends, in its rich form.
 *
 * @returns a handle whose update(value) shows another value in the same place
 */
declare const display: {
  (value: unknown): { update(value: unknown): void };
  /** Shows html as it stands. */
  html(text: string): void;
  /** Shows text written in Markdown. */
  markdown(text: string): void;
  /** Shows a formula. */
  latex(text: string): void;
  /** Shows a picture given as svg text. */
  svg(text: string): void;
  /** Takes the cell's output away; with wait only when something new comes. */
  clear(wait?: boolean): void;
};
/**
 * Asks the reader and waits for the answer.
 *
 * @param question shown beside the field
 * @param secret   hides what is typed; default false
 */
declare function prompt(question?: string, secret?: boolean): string;
`;

/**
 * The values of the names declared in {@link displayNames}.
 *
 * @param around where they show, clear and ask
 */
export function nameDisplays(around: NameSurroundings): Readonly<Record<string, unknown>> {
  const raw = (type: string) => (text: string): void => around.show(bundleFrom({ [type]: String(text) }), undefined, false);
  const display = Object.assign(
    (value: unknown) => {
      const id = randomUUID();
      around.show(bundleOf(value), id, false);
      return { update: (next: unknown): void => around.show(bundleOf(next), id, true) };
    },
    { html: raw("text/html"), markdown: raw("text/markdown"), latex: raw("text/latex"), svg: raw("image/svg+xml"), clear: (wait = false): void => around.clear(wait) },
  );
  return { display, prompt: (question = "", secret = false): string => around.ask(String(question), secret) };
}
