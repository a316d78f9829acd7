/** Small helpers of the tables: the item of least cost, and the likeness of two words. */

/** The first item of least cost; undefined for none. */
export function least<T>(items: Iterable<T>, cost: (item: T) => number): T | undefined {
  let best: T | undefined;
  let bestCost = Number.POSITIVE_INFINITY;
  for (const item of items) {
    const c = cost(item);
    if (c < bestCost) {
      best = item;
      bestCost = c;
    }
  }
  return best;
}

/** How many letters must be put in, taken out or changed to make one word the other (Levenshtein 1966). */
export function editDistance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, i) => i);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      next.push(Math.min(row[j]! + 1, next[j - 1]! + 1, row[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1)));
    }
    row = next;
  }
  return row[b.length]!;
}

/**
 * The known name most like a mistyped one, or undefined where none is near enough to be meant: up to a third of its
 * letters wrong. Two letters swapped count as one mistake, a missing or doubled one too.
 */
export function nearest(word: string, known: Iterable<string>): string | undefined {
  const wanted = word.toLowerCase();
  const cost = (name: string) => swapDistance(wanted, name.toLowerCase());
  const best = least(known, cost);
  return best !== undefined && cost(best) <= Math.max(1, Math.floor(wanted.length / 3)) ? best : undefined;
}

/** Edit distance in which two neighbours swapped are one mistake, where that swap alone makes the words equal. */
function swapDistance(a: string, b: string): number {
  const plain = editDistance(a, b);
  if (plain !== 2 || a.length !== b.length) return plain;
  const i = [...a].findIndex((letter, at) => letter !== b[at]);
  return a[i] === b[i + 1] && a[i + 1] === b[i] ? 1 : plain;
}
