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

interface SearchLimits {
  readonly mostSetups: number;
  readonly mostPlans: number;
  readonly mostAttempts: number;
  /** Setups tried after the first plan, in search of a better one with as many setups. */
  readonly mostAfter: number;
}

/** Of the items that may wait for a later setup, up to so many are tried in every combination. */
const MOST_WAITING = 4;

export function search<T>(
  items: readonly Item[],
  poses: readonly Pose[],
  attempt: (ask: Ask<T>) => Tried<T>,
  limits: SearchLimits,
): Searched<T> {
  const wanted = items.filter((item) => item.from !== 0);
  const bound = boundOf(wanted);
  let attempts = 0;
  let furthest: readonly Move<T>[] = [];
  let most = -1;
  let cut = false;
  let foundAt = 0;
  const plans: (readonly Move<T>[])[] = [];
  const kept = new Map<string, Move<T> | undefined>();
  const tooLittle = new Map<string, number>();

  const asked = (ask: Ask<T>, left: number): Move<T> | undefined => {
    // What was cut, and from where, is what the workpiece is: by which way it came there makes no difference.
    const key = `${ask.before.length}:${workOf(ask.before)}>${poseKey(ask.pose)}:${ask.candidates.map((i) => i.index).join()}`;
    if (kept.has(key)) return kept.get(key);
    // Too little for so many setups is too little for fewer.
    if ((tooLittle.get(key) ?? 0) >= left) return undefined;
    if (attempts >= limits.mostAttempts || (plans.length > 0 && attempts >= foundAt + limits.mostAfter)) {
      cut = true;
      return undefined;
    }
    attempts++;
    const move = attempt(ask);
    if (move === 'too-little') {
      tooLittle.set(key, left);
      return undefined;
    }
    kept.set(key, move);
    return move;
  };

  /** Goes on from here with `left` setups to spend; `waiting`: also tries to leave for later what may wait. */
  const go = (
    before: readonly Move<T>[],
    done: ReadonlySet<number>,
    left: number,
    waiting: boolean,
    dead: Set<string>,
  ) => {
    const remaining = wanted.filter((item) => !done.has(item.index));
    if (done.size > most) {
      most = done.size;
      furthest = before;
    }
    if (needed(remaining).length === 0) {
      if (plans.length === 0) foundAt = attempts;
      plans.push(before);
      return;
    }
    if (boundOf(remaining) > left || plans.length >= limits.mostPlans) return;
    const state = `${left}|${workOf(before)}`;
    if (dead.has(state)) return;
    const found = plans.length;
    const options = poses
      .map((pose) => ({ pose, candidates: availableIn(remaining, done, pose) }))
      .filter(({ candidates }) => needed(candidates).some((i) => !i.sawn))
      .sort((a, b) => b.candidates.length - a.candidates.length);
    for (const { pose, candidates } of options) {
      if (boundOf(without(remaining, candidates)) > left - 1) continue;
      for (const some of waiting ? waitings(candidates, pose.bit) : [candidates]) {
        const enough = (cut: readonly Item[]) => boundOf(without(remaining, cut)) <= left - 1;
        if (!enough(some)) continue;
        const move = asked({ before, done, pose, candidates: some, enough }, left);
        if (!move || needed(move.cut).length === 0) continue;
        const next = withCovered(move.cut, done);
        go([...before, move], next, left - 1, waiting, dead);
        if (plans.length >= limits.mostPlans || cut) return;
      }
    }
    if (plans.length === found && !cut) dead.add(state);
  };

  for (let count = Math.max(1, bound); count <= limits.mostSetups; count++) {
    const cutBefore = cut;
    for (const waiting of [false, true]) {
      go([], new Set(), count, waiting, new Set());
      if (plans.length > 0) {
        const proof = count === bound ? 'bound' : cutBefore ? 'open' : 'tried';
        return { plans, bound, proof, attempts, furthest };
      }
    }
    if (cut && attempts >= limits.mostAttempts) break;
  }
  return { plans, bound, proof: cut ? 'open' : 'tried', attempts, furthest };
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
