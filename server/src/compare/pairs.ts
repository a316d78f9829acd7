/** What of two revisions is the same thing, and what is in one of them only. */

interface Paired<T> {
  readonly pairs: readonly (readonly [before: T, after: T])[];
  /** In the old revision only, in its order. */
  readonly gone: readonly T[];
  readonly added: readonly T[];
}

/** Paired by the first likeness that holds, the surest first; of several alike the first of each side. */
export function pairedBy<T>(
  before: readonly T[],
  after: readonly T[],
  ...likenesses: readonly ((before: T, after: T) => boolean)[]
): Paired<T> {
  const [gone, added] = [[...before], [...after]];
  const pairs: [T, T][] = [];
  for (const alike of likenesses)
    for (const b of [...added]) {
      const a = gone.find((g) => alike(g, b));
      if (a === undefined) continue;
      pairs.push([a, b]);
      gone.splice(gone.indexOf(a), 1);
      added.splice(added.indexOf(b), 1);
    }
  return { pairs, gone, added };
}
