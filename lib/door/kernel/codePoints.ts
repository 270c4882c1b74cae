/**
 * Offset in UTF-16 units, as JavaScript counts, of an offset in code points, as the protocol counts.
 *
 * @param text   any text
 * @param points 0 … number of code points; more is the end
 */
export function unitsOf(text: string, points: number): number {
  let units = 0;
  for (let i = 0; i < points && units < text.length; i++) units += (text.codePointAt(units) as number) > 0xffff ? 2 : 1;
  return units;
}

/**
 * Offset in code points of an offset in UTF-16 units.
 *
 * @param text  any text
 * @param units 0 … its length
 */
export function pointsOf(text: string, units: number): number {
  return [...text.slice(0, units)].length;
}
