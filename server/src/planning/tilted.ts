/**
 * What leans, planned last: set-ups in which the work is held at an angle, in a tilting vise or on a sine table. One for each
 * direction that something left over wants; none of the six faces up serves what is left for them, so no plan has fewer of these.
 */

import type { Vec3 } from '../geometry/types';
import { dot } from '../geometry/vector';
import { type Axis, FACE_AXIS, type Face, type Setup } from '../model/model';
import { leanFor, wantedBy } from '../process/tilted/spindle';
import { LEAST_GRIP_MM } from '../process/workholding/parallels';
import { extent, jawPairs, seatsFor } from '../process/workholding/seats';
import { ROUNDING } from '../tolerance';
import { type Judged, judgedBy } from './blame';
import { judgeLast } from './check-setup';
import { withCovered } from './covered';
import { DIRECTIONS, maskOf } from './directions';
import type { Item } from './item';
import { boxAt, inOrder, makeSetup, rawFaces } from './make-setup';
import type { ViseHeld } from './poses';
import type { Move } from './search';
import { type Made, madeOf, type Trial } from './trial';

/** Work is tilted no farther: beyond it another face is nearer. */
const MOST_DEG = 60;
const SEATS = 3;

/** Directions from which what is left would be cut, each with the items that want it. */
export function leaningGroups(
  left: readonly Item[],
  { solid }: Pick<Trial, 'solid'>,
): readonly { readonly wanted: Vec3; readonly items: readonly Item[] }[] {
  const groups: { wanted: Vec3; items: Item[] }[] = [];
  for (const item of left) {
    const wanted = item.feature && wantedBy(item.feature, solid);
    if (!wanted) continue;
    const same = groups.find((g) => dot(g.wanted, wanted) > 1 - ROUNDING);
    if (same) same.items.push(item);
    else groups.push({ wanted, items: [item] });
  }
  return groups;
}

/**
 * What is cut with the work held at an angle: cuts that no face up serves, and slopes of the same lean that could be cut from
 * an end too, as long as nothing waits for them. The angled set-up is needed anyway, and cuts them as well.
 */
export function leaningItems(wanted: readonly Item[], reached: readonly Item[], trial: Trial): readonly Item[] {
  const must = wanted.filter(
    (i) =>
      i.feature &&
      reached[i.index]!.from === 0 &&
      // What stands straight and is only too deep for any tool is not reached at an angle either.
      (i.from === 0 || i.feature.kind === 'slope') &&
      wantedBy(i.feature, trial.solid) !== undefined,
  );
  if (must.length === 0) return [];
  const groups = leaningGroups(must, trial);
  const may = wanted.filter((i) => {
    if (i.feature?.kind !== 'slope' || must.includes(i) || wanted.some((o) => o.after.includes(i.index))) return false;
    const direction = wantedBy(i.feature, trial.solid);
    return direction !== undefined && groups.some((g) => dot(g.wanted, direction) > 1 - ROUNDING);
  });
  return [...must, ...may];
}

/** The set-ups that cut what leans, one after the other; those that cannot be held or reached are left out, and why is kept. */
export function leaningMoves(
  left: readonly Item[],
  before: readonly Move<Made>[],
  trial: Trial,
): readonly Move<Made>[] {
  const moves = [...before];
  for (const { wanted, items } of leaningGroups(left, trial)) {
    const done = withCovered(moves.flatMap((m) => m.cut));
    const ready = items.filter((i) => i.after.every((a) => done.has(a) || items.some((o) => o.index === a)));
    const move = ready.length > 0 && bestAt(wanted, ready, moves, done, trial);
    if (move) moves.push(move);
  }
  return moves;
}

function bestAt(
  wanted: Vec3,
  items: readonly Item[],
  before: readonly Move<Made>[],
  done: ReadonlySet<number>,
  trial: Trial,
): Move<Made> | undefined {
  const { part, shop, solid, tree } = trial;
  const prefix = before.map((m) => m.made.setup);
  const raw = rawFaces(trial.items, done);
  let best: Leaning | undefined;
  for (const { pose, seat, lean } of waysToLean(wanted, items[0]!, raw, trial)) {
    const level = makeSetup({ before: prefix, cut: inOrder(items, pose.up), part, raw }, pose, seat);
    const setup = tilted(level, lean, pose.up);
    const judged = judgedBy(setup, judgeLast(part, shop, solid, tree, [...prefix, setup]), items);
    keepRefusals(judged, pose, trial);
    const cut = items.filter((i) => !judged.blamed.has(i));
    if (judged.against.length > 0 || cut.length < items.length) continue;
    if (!best || judged.cost < best.judged.cost) best = { pose, judged, cut };
    if (judged.cost < 1) break;
  }
  return best && moveOf(best);
}

interface Leaning {
  readonly pose: ViseHeld;
  readonly judged: Judged;
  readonly cut: readonly Item[];
}

/** Each face up that a tilt suits, in each pair of jaws of each vise that opens so far, at the seats that promise most. */
function* waysToLean(wanted: Vec3, item: Item, raw: ReadonlyMap<Face, number>, { solid, shop }: Trial) {
  const box = boxAt(solid.body.box, raw);
  for (const { up, lean } of turnsTo(wanted, item))
    for (const jaws of jawPairs(up))
      for (const vise of shop.vises) {
        if (extent(box, jaws[0]) > vise.opensMm) continue;
        const pose: ViseHeld = { up, bit: maskOf([up]), jaws, vise };
        const seats = seatsFor(pose, extent(box, up), 0, shop, { leastGripMm: LEAST_GRIP_MM });
        for (const seat of seats.slice(-SEATS)) yield { pose, seat, lean };
      }
}

/** The first reason why an item cannot be cut leaning stands for all. */
function keepRefusals({ blamed }: Judged, pose: ViseHeld, { refusals }: Trial): void {
  for (const [item, why] of blamed) if (!refusals.get(item.index)?.length) refusals.set(item.index, [{ pose, why }]);
}

function moveOf({ pose, judged, cut }: Leaning): Move<Made> {
  return { pose, cut, made: madeOf(judged) };
}

/** The feature's own face first, then the least tilt. */
function turnsTo(
  wanted: Vec3,
  { feature }: Item,
): readonly { readonly up: Face; readonly lean: { readonly about: Axis; readonly deg: number } }[] {
  return DIRECTIONS.flatMap((up) => {
    const lean = leanFor(wanted, up);
    return lean && Math.abs(lean.deg) <= MOST_DEG ? [{ up, lean }] : [];
  }).sort(
    (a, b) =>
      Number(b.up === feature?.face) - Number(a.up === feature?.face) || Math.abs(a.lean.deg) - Math.abs(b.lean.deg),
  );
}

/** Depth is found anew: what lies on parallels leans with the vise. */
function tilted(setup: Setup, { about, deg }: { about: Axis; deg: number }, up: Face): Setup {
  const { span } = setup;
  return {
    ...setup,
    hold: { ...setup.hold!, type: 'angle', tilt: { angle: { deg, text: String(deg), span }, about }, span },
    zero: { ...setup.zero, [FACE_AXIS[up].axis]: { name: up, span } },
  };
}
