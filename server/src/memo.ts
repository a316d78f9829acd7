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
import { drawerOf } from './drawers';
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
  const use = {};
  // The owner is the same in all that is kept with it, so that nothing need be copied to leave it out.
  return (...args) => {
    const drawer = drawerOf(args[0], use);
    const own = (owners === 1 ? drawer : entriesBeside(drawer, args[1] as object)) as Entry<T>[];
    const from = by ? by(...args) : args;
    const entry = latest(own, from);
    if (!entry) return make(own, from, () => work(...args), size);
    const value = entry.answer.get();
    if (entry.isLazy) seeAgain(entry, from);
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

/** What the first owner keeps as long as the second lives too. */
function entriesBeside(drawer: unknown[], second: object): unknown[] {
  const known = drawer[0] as WeakMap<object, unknown[]> | undefined;
  const bySecond = known ?? new WeakMap<object, unknown[]>();
  if (!known) drawer.push(bySecond);
  let entries = bySecond.get(second);
  if (!entries) {
    entries = [];
    bySecond.set(second, entries);
  }
  return entries;
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

function seeAgain<T>({ from }: Entry<T>, asked: readonly unknown[]): void {
  asked.forEach((x, i) => {
    if (x instanceof Looked) x.seeAgain(from[i]);
  });
}

function make<T>(own: Entry<T>[], from: readonly unknown[], work: () => T, size: number): T {
  const entry: Entry<T> = { from, answer: new Priced(work), isLazy: from.some((x) => x instanceof Looked) };
  try {
    const value = entry.answer.get();
    if (entry.isLazy) entry.from = from.map((x) => (x instanceof Looked ? x.seen() : x));
    return value;
  } finally {
    if (entry.answer.isKept) {
      own.push(entry);
      if (own.length > size) own.shift();
    }
  }
}

/** In the place of what was not looked at. */
const UNSEEN = Symbol('unseen');

/** An argument of which only what was looked at counts: an answer found without the rest is the same whatever that is. */
abstract class Looked {
  /** What was seen of it, to keep. */
  abstract seen(): unknown;
  /** Whether the same would be seen of this one. */
  abstract agrees(seen: unknown): boolean;
  /** An answer was found that was worked out by such a look: what turns on it turns on that too. */
  abstract seeAgain(seen: unknown): void;
}

/** An argument that is worked out when it is looked at. */
export class Later<V> extends Looked {
  readonly #work: () => V;
  #made: { readonly value: V } | undefined;
  #looked = false;

  constructor(work: () => V) {
    super();
    this.#work = work;
  }

  get value(): V {
    this.look();
    return this.#peek();
  }

  look(): void {
    this.#looked = true;
  }

  seen(): unknown {
    return this.#looked ? this.#peek() : UNSEEN;
  }

  agrees(seen: unknown): boolean {
    return seen === UNSEEN || areSame([seen], [this.#peek()]);
  }

  seeAgain(seen: unknown): void {
    if (seen !== UNSEEN) this.look();
  }

  #peek(): V {
    this.#made ??= { value: this.#work() };
    return this.#made.value;
  }
}

/** An argument that lies round about: it counts as far out as it was looked at. */
export class Around<V> extends Looked {
  readonly #work: (mm: number) => readonly V[];
  #farthestMm = Number.NEGATIVE_INFINITY;

  constructor(work: (mm: number) => readonly V[]) {
    super();
    this.#work = work;
  }

  within(mm: number): readonly V[] {
    this.#farthestMm = Math.max(this.#farthestMm, mm);
    return this.#work(mm);
  }

  seen(): unknown {
    const mm = this.#farthestMm;
    return mm === Number.NEGATIVE_INFINITY ? UNSEEN : new Seen(mm, this.#work(mm));
  }

  agrees(seen: unknown): boolean {
    return seen === UNSEEN || (seen instanceof Seen && areSame(seen.there, this.#work(seen.mm)));
  }

  seeAgain(seen: unknown): void {
    if (seen instanceof Seen) this.#farthestMm = Math.max(this.#farthestMm, seen.mm);
  }
}

class Seen {
  constructor(
    readonly mm: number,
    readonly there: readonly unknown[],
  ) {}
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
  return asked instanceof Looked && asked.agrees(kept);
}
