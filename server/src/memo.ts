/**
 * The one way to keep what was worked out: `const areaOf = memo((region: Region, insetMm: number) => …, { size: 4 })`.
 *
 * An answer is kept with the first argument, its owner, for as long as that object lives, so nothing outlives the document
 * it was worked out from. It is found again where all other arguments are the same: the same object, the same number or
 * text, or a list of the same things. Each owner keeps the `size` answers that were asked for last.
 *
 * What an answer turns on must be among its arguments, and must not change afterwards. Then it does not matter who asked
 * first or what was asked before: an answer found again costs a budget as much as one worked out (`Priced`), and work that
 * was cut short or failed is not kept.
 */
import { Priced } from './effort';

interface Options<A extends readonly unknown[]> {
  /** So many answers are kept with each owner; one where nothing is said. */
  readonly size?: number;
  /** 2: the first two arguments own the answer, which is kept as long as both live. */
  readonly owners?: 1 | 2;
  /** What the answer turns on besides the owner, where that is less than all of the arguments. */
  readonly by?: (...args: A) => readonly unknown[];
}

interface Entry<T> {
  from: readonly unknown[];
  readonly answer: Priced<T>;
  /** Some of its arguments are worked out when they are looked at. */
  readonly isLazy: boolean;
}

/** `work`, with a memory. */
export function memo<A extends readonly [object, ...unknown[]], T>(
  work: (...args: A) => T,
  { size = 1, owners = 1, by }: Options<A> = {},
): (...args: A) => T {
  const byOwner = new WeakMap<object, Entry<T>[]>();
  const byPair = new WeakMap<object, WeakMap<object, Entry<T>[]>>();
  // The owner is the same in all that is kept with it, so that nothing need be copied to leave it out.
  return (...args) => {
    const owner = args[0];
    const known = owners === 1 ? byOwner : (byPair.get(owner) ?? put(byPair, owner, new WeakMap()));
    const of = owners === 1 ? owner : (args[1] as object);
    const own = known.get(of) ?? put(known, of, []);
    const from = by ? by(...args) : args;
    const entry = latest(own, from);
    if (!entry) return make(own, from, () => work(...args), size);
    const value = entry.answer.get();
    if (entry.isLazy) settle(entry, from);
    // Lists that were alike are most likely asked with again, and the same list is compared by one look.
    else entry.from = from;
    return value;
  };
}

/** The same without an owner, for what turns on one word or number alone; of more than `size` the oldest answer goes. */
export function memoByValue<K extends string | number, T>(work: (key: K) => T, size: number): (key: K) => T {
  const known = new Map<K, Priced<T>>();
  return (key) => {
    const kept = known.get(key);
    if (kept) return kept.get();
    const answer = new Priced(() => work(key));
    try {
      return answer.get();
    } finally {
      if (answer.isKept) known.set(key, answer);
      if (known.size > size) known.delete(known.keys().next().value!);
    }
  };
}

function put<V>(into: WeakMap<object, V>, key: object, value: V): V {
  into.set(key, value);
  return value;
}

/** The entry that answers the question, if there is one; it is the last of the list from now on. */
function latest<T>(own: Entry<T>[], from: readonly unknown[]): Entry<T> | undefined {
  for (let i = own.length - 1; i >= 0; i--) {
    const entry = own[i]!;
    if (!areSame(entry.from, from)) continue;
    for (let k = i + 1; k < own.length; k++) own[k - 1] = own[k]!;
    own[own.length - 1] = entry;
    return entry;
  }
  return undefined;
}

function make<T>(own: Entry<T>[], from: readonly unknown[], work: () => T, size: number): T {
  const entry: Entry<T> = { from, answer: new Priced(work), isLazy: from.some((x) => x instanceof Later) };
  try {
    const value = entry.answer.get();
    if (entry.isLazy) settle(entry, from);
    return value;
  } finally {
    if (entry.answer.isKept) {
      own.push(entry);
      if (own.length > size) own.shift();
    }
  }
}

/**
 * An argument that is worked out when it is looked at. Where an answer was found without a look at it, that answer is the
 * same whatever it would have been.
 */
export class Later<V> {
  readonly #work: () => V;
  #made: { readonly value: V } | undefined;
  #looked = false;

  constructor(work: () => V) {
    this.#work = work;
  }

  get value(): V {
    this.look();
    return this.peek();
  }

  look(): void {
    this.#looked = true;
  }

  get isLooked(): boolean {
    return this.#looked;
  }

  /** To compare with what another answer turned on. */
  peek(): V {
    this.#made ??= { value: this.#work() };
    return this.#made.value;
  }
}

/** In the place of what was not looked at. */
const UNSEEN = Symbol('unseen');

/** Takes down what was looked at; what was found by such a look turns on it as well. */
function settle<T>(entry: Entry<T>, asked: readonly unknown[]): void {
  entry.from = entry.from.map((x) => (x instanceof Later ? (x.isLooked ? x.peek() : UNSEEN) : x));
  asked.forEach((x, i) => {
    if (x instanceof Later && entry.from[i] !== UNSEEN) x.look();
  });
}

/** The same things, one by one; lists among them are compared member by member. */
export function areSame(kept: readonly unknown[], asked: readonly unknown[]): boolean {
  if (kept.length !== asked.length) return false;
  for (let i = 0; i < kept.length; i++) {
    if (!Object.is(kept[i], asked[i]) && !isAlike(kept[i], asked[i])) return false;
  }
  return true;
}

function isAlike(kept: unknown, asked: unknown): boolean {
  if (Array.isArray(kept) && Array.isArray(asked)) return areSame(kept, asked);
  if (!(asked instanceof Later)) return false;
  return kept === UNSEEN || areSame([kept instanceof Later ? kept.peek() : kept], [asked.peek()]);
}
