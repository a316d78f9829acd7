/** The nearest known name to a mistyped one: fewest letters changed, left out, added or swapped. */

/** Undefined where nothing is near enough to be meant. */
export function nearest(word: string, known: Iterable<string>): string | undefined {
  let best: string | undefined;
  let fewest = Math.max(1, Math.floor(word.length / 3)) + 1;
  for (const candidate of known) {
    const changes = distance(word, candidate, fewest);
    if (changes < fewest) {
      fewest = changes;
      best = candidate;
    }
  }
  return best;
}

/** Letters changed, left out, added or swapped with a neighbour; `enough` or more is answered as `enough`. */
function distance(a: string, b: string, enough: number): number {
  if (Math.abs(a.length - b.length) >= enough) return enough;
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
  return Math.min(last[b.length]!, enough);
}
