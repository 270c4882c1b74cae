/** A MIME bundle: what a notebook shows for a value; `text/plain` is always there. */
export interface DisplayBundle {
  readonly "text/plain": string;
  readonly [mime: string]: unknown;
}

/** The method by which a notebook asks a value how it wants to be shown. */
export const displaySymbol: unique symbol = Symbol.for("Jupyter.display") as never;

/** A result that can be looked at. The method is not enumerable, so that JSON and loops see the plain fields only. */
export type Displayable<T> = Readonly<T> & { [displaySymbol](columns?: number): DisplayBundle };

/**
 * Freezes a result and gives it its text form.
 *
 * @param result plain object; its own fields stay as they are
 * @param text   the text form for a screen of so many columns
 */
export function displayable<T extends object>(result: T, text: (columns: number) => string): Displayable<T> {
  Object.defineProperty(result, displaySymbol, {
    value: (columns = 100): DisplayBundle => ({ "text/plain": text(columns) }),
    enumerable: false,
  });
  return Object.freeze(result) as Displayable<T>;
}
