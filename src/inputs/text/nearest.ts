/**
 * Number of single edits (insert, delete, replace, swap of neighbours) that turn one word into another.
 *
 * @param a  first word
 * @param b  second word
 * @source   own derivation, README of `inputs`, "nearest word"
 * @cost     O(|a|·|b|)
 */
export function editDistance(a: string, b: string): number {
  let older: number[] = [];
  let previous = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const current = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let best = Math.min(previous[j]! + 1, current[j - 1]! + 1, previous[j - 1]! + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) best = Math.min(best, older[j - 2]! + 1);
      current.push(best);
    }
    older = previous;
    previous = current;
  }
  return previous[b.length]!;
}

/** Known words that are looked at; a longer list is no help to a reader either. */
const MOST_KNOWN = 500;

/** The known word nearest to `word`, or undefined when none is near enough to be what was meant. */
export function nearest(word: string, known: Iterable<string>): string | undefined {
  const lower = word.toLowerCase();
  if (lower.length > 200) return undefined;
  let best: string | undefined;
  let bestDistance = Number.POSITIVE_INFINITY;
  let looked = 0;
  for (const candidate of known) {
    if (++looked > MOST_KNOWN) break;
    if (Math.abs(candidate.length - word.length) >= bestDistance + 1) continue;
    // a difference in case alone costs less than any edit
    const distance =
      candidate === word ? 0 : editDistance(lower, candidate.toLowerCase()) + (candidate[0] === word[0] ? 0.4 : 0.5);
    if (distance < bestDistance) {
      best = candidate;
      bestDistance = distance;
    }
  }
  const reach = Math.max(1.5, word.length * 0.4);
  return bestDistance <= reach ? best : undefined;
}
