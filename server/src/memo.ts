/**
 * What was worked out from a few things, kept with the one of them that changes most: as long as all are the same, it is
 * the same. Only so many are kept with each owner, the ones asked for last. What work is counted for is kept as `Priced`.
 */
export class Memo<K extends object, T> {
  readonly #kept = new WeakMap<K, Map<string, { readonly from: readonly unknown[]; readonly made: T }>>();
  readonly #most: number;

  constructor(most: number) {
    this.#most = most;
  }

  /** `name` tells apart what is kept with one owner; of each name there is one, and it is made anew where `from` is another. */
  get(owner: K, name: string, from: readonly unknown[], make: () => T): T {
    let own = this.#kept.get(owner);
    if (!own) {
      own = new Map();
      this.#kept.set(owner, own);
    }
    const known = own.get(name);
    const made = known && sameAll(known.from, from) ? known.made : make();
    own.delete(name);
    own.set(name, { from, made });
    if (own.size > this.#most) own.delete(own.keys().next().value!);
    return made;
  }
}

function sameAll(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((x, i) => Object.is(x, b[i]));
}
