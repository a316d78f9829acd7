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
  /**
   * 2: the first two arguments own the answer, which is kept as long as both live. `second`: the first is part of the
   * second, as a feature is of its solid; the answer is kept with that and goes when it goes.
   */
  readonly owners?: 1 | 2 | 'second';
  /** What the answer turns on besides the owner, where that is less than all of the arguments. */
  readonly by?: (...args: A) => readonly unknown[];
}

/** An answer, and the one that was asked for before it. */
class Entry<T> extends Priced<T> {
  next: Entry<T> | undefined = undefined;

  constructor(
    public from: readonly unknown[],
    /** Some of its arguments are worked out when they are looked at. */
    readonly isLazy: boolean,
    work: () => T,
  ) {
    super(work);
  }
}

/** The answers of one owner, the one asked for last first. */
interface Shelf {
  content: unknown;
}

/** `work`, with a memory. */
export function memo<A extends readonly [object, ...unknown[]], T>(
  work: (...args: A) => T,
  { size = 1, owners = 1, by }: Options<A> = {},
): (...args: A) => T {
  const use = {};
  // The owner is the same in all that is kept with it, so that nothing need be copied to leave it out.
  return (...args) => {
    const shelf =
      owners === 1
        ? drawerOf(args[0], use)
        : owners === 2
          ? shelfBeside(drawerOf(args[0], use), args[1] as object)
          : shelfFor(drawerOf(args[1] as object, use), args[0]);
    const from = by ? by(...args) : args;
    const entry = latest<T>(shelf, from);
    if (!entry) return make(shelf, from, bound(work, args), size);
    const value = entry.get();
    if (entry.isLazy) seeAgain(entry, from);
    // Lists that were alike are most likely asked with again, and the same list is compared by one look. Where all is the
    // same anyway, what was kept stays: a new list in an old entry is carried from store to store while memory is cleared.
    else if (!isIdentical(entry.from, from)) entry.from = from;
    return value;
  };
}

/** Apart, so that nothing is made for it where the answer is known. */
function bound<A extends readonly unknown[], T>(work: (...args: A) => T, args: A): () => T {
  return () => work(...args);
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
function shelfBeside(drawer: Shelf, second: object): Shelf {
  drawer.content ??= new WeakMap<object, Shelf>();
  return shelfIn(drawer.content as WeakMap<object, Shelf>, second);
}

/** What a whole keeps for one of its parts. */
function shelfFor(drawer: Shelf, part: object): Shelf {
  drawer.content ??= new Map<object, Shelf>();
  return shelfIn(drawer.content as Map<object, Shelf>, part);
}

function shelfIn(shelves: WeakMap<object, Shelf>, key: object): Shelf {
  const known = shelves.get(key);
  if (known) return known;
  const shelf: Shelf = { content: undefined };
  shelves.set(key, shelf);
  return shelf;
}

/** The entry that answers the question, if there is one; it is the first from now on. */
function latest<T>(shelf: Shelf, from: readonly unknown[]): Entry<T> | undefined {
  let before: Entry<T> | undefined;
  for (let entry = shelf.content as Entry<T> | undefined; entry; entry = entry.next) {
    if (areSame(entry.from, from)) {
      if (before) {
        before.next = entry.next;
        entry.next = shelf.content as Entry<T>;
        shelf.content = entry;
      }
      return entry;
    }
    before = entry;
  }
  return undefined;
}

function seeAgain<T>({ from }: Entry<T>, asked: readonly unknown[]): void {
  asked.forEach((x, i) => {
    if (x instanceof Looked) x.seeAgain(from[i]);
  });
}

function make<T>(shelf: Shelf, from: readonly unknown[], work: () => T, size: number): T {
  const entry = new Entry(from, from.some(isLooked), work);
  try {
    const value = entry.get();
    if (entry.isLazy) entry.from = from.map((x) => (x instanceof Looked ? x.seen() : x));
    return value;
  } finally {
    if (entry.isKept) putFirst(shelf, entry, size);
  }
}

function isLooked(x: unknown): boolean {
  return x instanceof Looked;
}

/** Of more than `size` the one that was asked for longest ago goes. */
function putFirst<T>(shelf: Shelf, entry: Entry<T>, size: number): void {
  if (size > 1) {
    let last = shelf.content as Entry<T> | undefined;
    for (let left = size - 2; last && left > 0; left--) last = last.next;
    if (last) last.next = undefined;
    entry.next = shelf.content as Entry<T> | undefined;
  }
  shelf.content = entry;
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

/** Without a look into the lists among them. */
function isIdentical(kept: readonly unknown[], asked: readonly unknown[]): boolean {
  for (let i = 0; i < kept.length; i++) {
    if (kept[i] !== asked[i]) return false;
  }
  return true;
}

function isAlike(kept: unknown, asked: unknown): boolean {
  if (Array.isArray(kept) && Array.isArray(asked)) return areSame(kept, asked);
  return asked instanceof Looked && asked.agrees(kept);
}
