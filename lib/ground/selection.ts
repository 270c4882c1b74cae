/**
 * The k-th smallest of a scratch array; smaller ones stand before it afterwards, larger ones behind it.
 *
 * @param scratch any unit · [n] · without NaN · left in another order
 * @param k       0…n − 1
 * @returns       same unit
 * @example kthSmallest(Float64Array.of(5, 1, 2, 9), 1) // 2
 * @source selection by partition about a median of three (Hoare 1961, from memory)
 */
export function kthSmallest(scratch: Float64Array, k: number): number {
  let low = 0;
  let high = scratch.length - 1;
  while (low < high) {
    const [a, b, c] = [scratch[low], scratch[(low + high) >> 1], scratch[high]];
    const pivot = Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
    let i = low;
    let j = high;
    while (i <= j) {
      while (scratch[i] < pivot) i++;
      while (scratch[j] > pivot) j--;
      if (i > j) break;
      const kept = scratch[i];
      scratch[i++] = scratch[j];
      scratch[j--] = kept;
    }
    if (k <= j) high = j;
    else if (k >= i) low = i;
    else return scratch[k];
  }
  return scratch[k];
}
