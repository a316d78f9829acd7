/**
 * Looks for the fewest setups: one more is allowed at a time, and for each number every order of poses is tried that the
 * bound leaves open. Knows nothing of metal: what a pose can cut from where one stands is asked of `attempt`.
 *
 * The bound: whatever is left needs at least as many more setups as there are directions in the smallest set that
 * meets every item left. It never overestimates, so nothing that it cuts off could have been a plan.
 */
import { FACE_AXIS, type Face, OPPOSITE } from '../model/model';
import { withCovered } from './covered';
import { fewestDirections, type Mask } from './directions';
import { type Item, needed } from './item';
import type { Pose } from './poses';

/** One setup of a plan: what it cuts, and whatever the asker wants to remember of it. */
export interface Move<T> {
  readonly pose: Pose;
  readonly cut: readonly Item[];
  readonly made: T;
}

export interface Ask<T> {
  readonly before: readonly Move<T>[];
  readonly done: ReadonlySet<number>;
  readonly pose: Pose;
  /** What could be cut here for all that directions and order say. */
  readonly candidates: readonly Item[];
  /** With this cut here the rest can be done with the setups that are left, for all that the bound says. */
  enough(cut: readonly Item[]): boolean;
}

/** None: nothing can be held or reached. `too-little`: given up early, because what is left needs more setups than there are. */
export type Tried<T> = Move<T> | undefined | 'too-little';

export interface Searched<T> {
  /** All of the least number of setups, at most `mostPlans`; none where no plan was found. */
  readonly plans: readonly (readonly Move<T>[])[];
  /** No plan can have fewer: by directions alone. */
  readonly bound: number;
  /** `bound`: a plan of that number holds. `tried`: every order with fewer was tried and none holds. `open`: not all could be tried. */
  readonly proof: 'bound' | 'tried' | 'open';
  readonly attempts: number;
  /** The most that any order of setups cut, where no plan was found. */
  readonly furthest: readonly Move<T>[];
}

export interface SearchLimits {
  readonly mostSetups: number;
  readonly mostPlans: number;
  readonly mostAttempts: number;
  /** Setups tried after the first plan, in search of a better one with as many setups. */
  readonly mostAfter: number;
}

/** Of the items that may wait for a later setup, up to so many are tried in every combination. */
const MOST_WAITING = 4;

/** The fewest setups that cut all of the items, each tried by `attempt`. */
export function search<T>(
  items: readonly Item[],
  poses: readonly Pose[],
  attempt: (ask: Ask<T>) => Tried<T>,
  limits: SearchLimits,
): Searched<T> {
  return new Search(items, poses, attempt, limits).run();
}

/** A place in the search: what was cut by what, and how many setups may follow. */
interface Place<T> {
  readonly before: readonly Move<T>[];
  readonly done: ReadonlySet<number>;
  readonly remaining: readonly Item[];
  /** Setups to spend. */
  readonly spare: number;
}

/** One round: so many setups and no more. */
interface Round {
  /** Also tries to leave for later what may wait. */
  readonly waiting: boolean;
  /** Places from which no plan of so many leads on. */
  readonly dead: Set<string>;
}

class Search<T> {
  readonly #wanted: readonly Item[];
  readonly #poses: readonly Pose[];
  readonly #attempt: (ask: Ask<T>) => Tried<T>;
  readonly #limits: SearchLimits;
  readonly #plans: (readonly Move<T>[])[] = [];
  readonly #kept = new Map<string, Move<T> | undefined>();
  /** Asked with so many setups to spend, too little was cut. */
  readonly #tooLittle = new Map<string, number>();
  #attempts = 0;
  #foundAt = 0;
  #isCutShort = false;
  #furthest: readonly Move<T>[] = [];
  #most = -1;

  constructor(
    items: readonly Item[],
    poses: readonly Pose[],
    attempt: (ask: Ask<T>) => Tried<T>,
    limits: SearchLimits,
  ) {
    this.#wanted = items.filter((item) => item.from !== 0);
    this.#poses = poses;
    this.#attempt = attempt;
    this.#limits = limits;
  }

  run(): Searched<T> {
    const bound = boundOf(this.#wanted);
    const { mostSetups, mostAttempts } = this.#limits;
    for (let count = Math.max(1, bound); count <= mostSetups; count++) {
      const before = this.#isCutShort;
      for (const waiting of [false, true]) {
        this.#goOn([], new Set(), count, { waiting, dead: new Set() });
        if (this.#plans.length > 0) return this.#ended(bound, count === bound ? 'bound' : before ? 'open' : 'tried');
      }
      if (this.#isCutShort && this.#attempts >= mostAttempts) break;
    }
    return this.#ended(bound, this.#isCutShort ? 'open' : 'tried');
  }

  #ended(bound: number, proof: Searched<T>['proof']): Searched<T> {
    return { plans: this.#plans, bound, proof, attempts: this.#attempts, furthest: this.#furthest };
  }

  /** Every order that may lead on from here. */
  #goOn(before: readonly Move<T>[], done: ReadonlySet<number>, spare: number, round: Round): void {
    const remaining = this.#wanted.filter((item) => !done.has(item.index));
    if (done.size > this.#most) {
      this.#most = done.size;
      this.#furthest = before;
    }
    if (needed(remaining).length === 0) {
      if (this.#plans.length === 0) this.#foundAt = this.#attempts;
      this.#plans.push(before);
      return;
    }
    if (boundOf(remaining) > spare || this.#isFull()) return;
    const state = `${spare}|${workOf(before)}`;
    if (round.dead.has(state)) return;
    const found = this.#plans.length;
    this.#spread({ before, done, remaining, spare }, round);
    if (this.#plans.length === found && !this.#isCutShort) round.dead.add(state);
  }

  /** Goes on from here by every pose, the one that sees most first. */
  #spread(place: Place<T>, round: Round): void {
    const { before, done, remaining, spare } = place;
    const options = this.#poses
      .map((pose) => ({ pose, candidates: availableIn(remaining, done, pose) }))
      .filter(({ candidates }) => needed(candidates).some((i) => !i.sawn))
      .sort((a, b) => b.candidates.length - a.candidates.length);
    const enough = (cut: readonly Item[]) => boundOf(without(remaining, cut)) <= spare - 1;
    for (const { pose, candidates } of options) {
      if (!enough(candidates)) continue;
      for (const some of round.waiting ? waitings(candidates, pose.bit) : [candidates]) {
        if (!enough(some)) continue;
        const move = this.#asked({ before, done, pose, candidates: some, enough }, spare);
        if (!move || needed(move.cut).length === 0) continue;
        this.#goOn([...before, move], withCovered(move.cut, done), spare - 1, round);
        if (this.#isFull() || this.#isCutShort) return;
      }
    }
  }

  #isFull(): boolean {
    return this.#plans.length >= this.#limits.mostPlans;
  }

  #asked(ask: Ask<T>, spare: number): Move<T> | undefined {
    // What was cut, and from where, is what the workpiece is: by which way it came there makes no difference.
    const key = `${ask.before.length}:${workOf(ask.before)}>${poseKey(ask.pose)}:${ask.candidates.map((i) => i.index).join()}`;
    if (this.#kept.has(key)) return this.#kept.get(key);
    // Too little for so many setups is too little for fewer.
    if ((this.#tooLittle.get(key) ?? 0) >= spare) return undefined;
    if (this.#isSpent()) {
      this.#isCutShort = true;
      return undefined;
    }
    this.#attempts++;
    const move = this.#attempt(ask);
    if (move === 'too-little') {
      this.#tooLittle.set(key, spare);
      return undefined;
    }
    this.#kept.set(key, move);
    return move;
  }

  #isSpent(): boolean {
    const { mostAttempts, mostAfter } = this.#limits;
    return this.#attempts >= mostAttempts || (this.#plans.length > 0 && this.#attempts >= this.#foundAt + mostAfter);
  }
}

function boundOf(items: readonly Item[]): number {
  return fewestDirections(needed(items).map((item) => item.from)).count;
}

function without(items: readonly Item[], gone: readonly Item[]): readonly Item[] {
  const indices = withCovered(gone);
  return items.filter((item) => !indices.has(item.index));
}

/** What was cut so far, and from which side. */
function workOf(before: readonly Move<unknown>[]): string {
  return before
    .flatMap(({ pose, cut }) => cut.map((i) => `${i.index}${pose.up}`))
    .sort()
    .join();
}

export function poseKey({ up, by, jaws, vise }: Pose): string {
  return by ? `${up}/${by}` : `${up}/${jaws[0]}/${vise.name}`;
}

/** Items that this pose sees and whose turn it is: what comes before them is cut, or can be cut here too. */
export function availableIn(remaining: readonly Item[], done: ReadonlySet<number>, pose: Pose): readonly Item[] {
  const below = bySurplus(pose, remaining);
  let here = remaining.filter((i) => (i.from & pose.bit) !== 0 && !(i.face && held(pose, i.face) && !below));
  for (;;) {
    const indices = withCovered(here);
    const next = here.filter((i) => i.after.every((a) => done.has(a) || indices.has(a)));
    if (next.length === here.length) return next;
    here = next;
  }
}

/** Stock is left underneath, or a bar along the jaws, that they can hold it by: then even the faces between them can be milled. */
export function bySurplus({ up, jaws }: Pick<Pose, 'up' | 'jaws'>, remaining: readonly Item[]): boolean {
  const axes = [up, ...jaws].map((f) => FACE_AXIS[f].axis);
  return remaining.some(
    (i) =>
      (i.grips && (i.face ?? i.sawn) === OPPOSITE[up]) ||
      (i.sawn && jaws.length > 0 && !axes.includes(FACE_AXIS[i.sawn].axis)),
  );
}

function held({ jaws }: Pose, face: Face): boolean {
  return jaws.some((j) => j === face);
}

/** All of them; then with those that can also be cut from elsewhere left for later, in every combination as far as there are few. */
function* waitings(candidates: readonly Item[], bit: Mask): Generator<readonly Item[]> {
  yield candidates;
  const may = needed(candidates).filter((i) => (i.from & ~bit) !== 0 && !i.sawn);
  if (may.length === 0) return;
  if (may.length > MOST_WAITING) {
    yield keepOrder(candidates, may);
    for (const item of may) yield keepOrder(candidates, [item]);
    return;
  }
  for (let set = 1; set < 1 << may.length; set++)
    yield keepOrder(
      candidates,
      may.filter((_, i) => set & (1 << i)),
    );
}

/** Without those left for later, and without what must come after them. */
function keepOrder(candidates: readonly Item[], later: readonly Item[]): readonly Item[] {
  const gone = withCovered(later);
  let here = candidates.filter((i) => !gone.has(i.index));
  for (;;) {
    const next = here.filter((i) => !i.after.some((a) => gone.has(a)));
    if (next.length === here.length) return next;
    for (const i of here) if (!next.includes(i)) gone.add(i.index);
    here = next;
  }
}
