/** The item of least cost, the likeness of two words, and the known name a mistyped one was meant to be. */

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

/** How many letters must be put in, taken out, changed or swapped with a neighbour to make one word the other. */
export function editDistance(a: string, b: string): number {
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let cost = Math.min(last[j]! + 1, row[j - 1]! + 1, last[j - 1]! + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) cost = Math.min(cost, before[j - 2]! + 1);
      row.push(cost);
    }
    before = last;
    last = row;
  }
  return last[b.length]!;
}

/** The known name most like a mistyped one, or undefined where none is near enough to be meant: a third of its letters wrong. */
export function nearest(word: string, known: Iterable<string>): string | undefined {
  const wanted = word.toLowerCase();
  const allowed = Math.max(1, Math.floor(wanted.length / 3));
  const candidates = [...known].filter((name) => Math.abs(name.length - wanted.length) <= allowed);
  const cost = (name: string) => editDistance(wanted, name.toLowerCase());
  const best = least(candidates, cost);
  // All of its letters wrong is another word.
  return best !== undefined && cost(best) <= allowed && cost(best) < wanted.length ? best : undefined;
}
