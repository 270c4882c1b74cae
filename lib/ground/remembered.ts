/**
 * Remembers, beside an object that is never changed, what was made of it: several questions about one record then work once.
 *
 * For pure routines alone, whose results nobody changes. Nothing is kept longer than the object itself.
 *
 * @returns a routine that takes the object, the other arguments as one text, and what makes the result when it is not known yet
 * @example remembered<Series, number>()(series, "mean", () => mean(series.values))
 */
export function remembered<Key extends object, Result>(): (key: Key, words: string, make: () => Result) => Result {
  const known: WeakMap<Key, Map<string, Result>> = new WeakMap();
  return (key, words, make) => {
    const all = known.get(key) ?? new Map<string, Result>();
    known.set(key, all);
    const found = all.has(words) ? (all.get(words) as Result) : make();
    all.set(words, found);
    return found;
  };
}
