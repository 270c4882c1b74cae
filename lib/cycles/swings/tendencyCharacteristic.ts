/** A change and its standard error · hPa. */
export interface Change {
  readonly value: number;
  readonly standardError: number;
}

/** What each code of WMO table 0200 says, in our words; index is the code. */
export const characteristicWords: readonly string[] = Object.freeze([
  "rose, then fell; no lower now than three hours ago",
  "rose, then held or rose more slowly; higher now",
  "rose; higher now",
  "fell or held, then rose, or rose ever faster; higher now",
  "held; same as three hours ago",
  "fell, then rose; no higher now than three hours ago",
  "fell, then held or fell more slowly; lower now",
  "fell; lower now",
  "held or rose, then fell, or fell ever faster; lower now",
]);

/** Changes smaller than this count as none · hPa. */
const leastChange = 0.1;
const z = 1.959964;

/** 1 up, −1 down, 0 no change worth a word. */
function direction({ value, standardError }: Change): -1 | 0 | 1 {
  if (Math.abs(value) < leastChange || Math.abs(value) < z * standardError) return 0;
  return value > 0 ? 1 : -1;
}

/**
 * The shape of the last three hours as a code 0…8 of WMO table 0200.
 *
 * The two halves and their difference are each compared with their own error: what does not exceed 0.1 hPa and 1.96 standard errors
 * counts as steady, so that noise makes no story.
 *
 * @param first  change over the first half, from 3 h to 1.5 h ago
 * @param second change over the second half
 * @param bend   second less first, with its own error (the middle reading is in both)
 * @param total  change over the three hours
 * @returns      0…8; characteristicWords has the words
 * @example tendencyCharacteristic({ value: 1, standardError: 0 }, { value: -0.4, standardError: 0 }, { value: -1.4, standardError: 0 }, { value: 0.6, standardError: 0 }) // 0
 * @source WMO code table 0200; read in two public copies
 */
export function tendencyCharacteristic(first: Change, second: Change, bend: Change, total: Change): number {
  const a = direction(first);
  const b = direction(second);
  const t = direction(total);
  const c = direction(bend);
  if (a > 0 && b < 0) return t < 0 ? 8 : 0;
  if (a < 0 && b > 0) return t > 0 ? 3 : 5;
  if (a === 0 && b === 0) return t === 0 ? 4 : t > 0 ? 2 : 7;
  const up = a > 0 || b > 0;
  // One half moved, the other took most of it back without being worth a word of its own.
  if (t === 0 && (a === 0 || b === 0)) return a > 0 || b < 0 ? 0 : 5;
  if (a === 0) return up ? 3 : 8;
  if (b === 0) return up ? 1 : 6;
  if (up) return c < 0 ? 1 : c > 0 ? 3 : 2;
  return c > 0 ? 6 : c < 0 ? 8 : 7;
}
