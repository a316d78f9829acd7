/**
 * One setup tried: what the rules object to is left out, until what is left can be held and reached. Keeps what was refused
 * and why. Here the work in a vise, put on each pair of parallels that could do; `table-fixture.ts` has the ways without one.
 */
import { AXIS_INDEX } from '../geometry/vector';
import { FACE_AXIS, type Face, type Hold, type Setup } from '../model/model';
import { timelineOf } from '../process/stock';
import { endClearanceMm } from '../process/workholding/along';
import { apartFor } from '../process/workholding/jaws-along';
import { marginOf } from '../process/workholding/margin';
import { LEAST_GRIP_MM } from '../process/workholding/parallels';
import { deepestAtSides, extent, type Seat, seatsFor } from '../process/workholding/seats';
import { fitsIn, roundBarOf } from '../process/workholding/v-block';
import type { Finding } from '../rules/kit/rule';
import { AT_THE_JAWS, atTheEnds, endsOf } from './at-the-ends';
import { attemptKey } from './attempt-cache';
import { type Judged, judgedBy, leaving } from './blame';
import { judgeLast } from './check-setup';
import { clocked } from './clock';
import type { Item } from './item';
import { boxAt, inOrder, makeSetup, rawFaces } from './make-setup';
import { hangingOut, onItsBar } from './on-bar';
import type { Pose, ViseHeld } from './poses';
import type { Ask, Tried } from './search';
import { attemptLaidDown } from './table-fixture';
import { type Made, MOST_ROUNDS, madeOf, type Outcome, type Trial } from './trial';

/** Seats tried for one lot of work, at most. */
const MOST_SEATS = 4;

/** Asked again for the same work in the same pose, of this part or after an edit elsewhere in it, it answers from memory. */
export function attemptSetup(trial: Trial, ask: Ask<Made>): Tried<Made> {
  const key = attemptKey(trial, ask);
  const known = trial.attempts.get(key);
  const outcome = known ?? (ask.pose.by ? attemptLaidDown(trial, ask, ask.pose) : attemptInVise(trial, ask, ask.pose));
  for (const { item, why } of outcome.refused) {
    const said = trial.refusals.get(item) ?? [];
    if (!said.some((r) => r.pose === ask.pose)) trial.refusals.set(item, [...said, { pose: ask.pose, why }]);
  }
  const pose = `${ask.pose.up}/${ask.pose.jaws[0] ?? ask.pose.by}`;
  if (outcome.unheld && !trial.unheld.has(pose)) trial.unheld.set(pose, { pose: ask.pose, why: outcome.unheld });
  // Given up early for what is still to come: that is another question after an edit.
  if (!known && outcome.tried !== 'too-little') trial.attempts.set(key, outcome);
  if (outcome.tried === undefined || outcome.tried === 'too-little') return outcome.tried;
  // Items are counted anew in every part.
  const cut = new Set(outcome.tried.cut.map((i) => i.index));
  return { ...outcome.tried, pose: ask.pose, cut: ask.candidates.filter((i) => cut.has(i.index)) };
}

/**
 * The seat that promises most is judged first. Where cuts are in the way of jaws or stop there, the seat with the least
 * between the jaws says which of them are in the way in any: those wait for another setup, and the next lot is tried.
 */
function attemptInVise(trial: Trial, ask: Ask<Made>, pose: ViseHeld): Outcome {
  const { part, solid, shop, items } = trial;
  const raw = rawFaces(items, ask.done);
  const box = boxAt(solid.body.box, raw);
  const refused: { item: number; why: Finding }[] = [];
  if (extent(box, pose.jaws[0]) > pose.vise.opensMm) return { tried: undefined, refused };
  const prefix = ask.before.map((m) => m.made.setup);
  const heightMm = extent(box, pose.up);
  let cut = ask.candidates;
  const drop = (gone: Judged['blamed']) => {
    for (const [item, why] of gone) refused.push({ item: item.index, why });
    cut = leaving(cut, new Set([...gone.keys()].map((i) => i.index)), ask.done);
  };
  for (let round = 0; round < MOST_ROUNDS && cut.length > 0; round++) {
    if (round > 0 && !ask.enough(cut)) return { tried: 'too-little', refused };
    const lot = cut;
    const seats = seatsOf(pose, lot, raw, heightMm, trial);
    const ordered = inOrder(lot, pose.up);
    const judge = (tried: Setup) => {
      const setup = clocked(tried, prefix, trial);
      return judgedBy(setup, judgeLast(part, shop, solid, trial.tree, [...prefix, setup]), lot);
    };
    const bar = { pose, part, solid, raw, clearMm: endClearanceMm(shop) };
    const ways = { judge, solid, box, clearMm: endClearanceMm(shop) };
    const known = new Map<Seat, Judged>();
    const at = (seat: Seat): Judged => {
      const made = () => hangingOut(makeSetup(prefix, pose, seat, ordered, part, raw), lot, bar);
      const judged = known.get(seat) ?? atTheEnds(made(), ways);
      known.set(seat, judged);
      return judged;
    };
    const [first] = seats;
    if (!first) return { tried: undefined, refused };
    let best = at(first);
    if (best.blamed.size > 0) {
      const least = at(seats.reduce((a, b) => (b.gripMm < a.gripMm ? b : a)));
      const hopeless = new Map([...least.blamed].filter(([, why]) => isWorseDeeper(why)));
      if (hopeless.size > 0) {
        drop(oneEnd(hopeless, lot, pose));
        continue;
      }
      if (least.cost < best.cost) best = least;
    }
    for (const seat of seats.slice(1, MOST_SEATS)) {
      if (best.cost < 1) break;
      const judged = at(seat);
      if (judged.cost < best.cost) best = judged;
    }
    if (best.blamed.size === 0)
      for (const hold of otherHolds(best, trial, pose)) {
        const judged = judge({ ...best.setup, hold });
        if (judged.cost < best.cost) best = judged;
      }
    if (best.blamed.size === 0 && best.against.length === 0)
      return { tried: { pose, cut, made: madeOf(best) }, refused };
    if (best.blamed.size === 0) return { tried: undefined, refused, unheld: best.against[0]! };
    drop(best.blamed);
  }
  return { tried: undefined, refused };
}

/** Beside a bar nothing is cut that the jaws’ tops could be in the way of. */
function seatsOf(
  pose: ViseHeld,
  lot: readonly Item[],
  raw: ReadonlyMap<Face, number>,
  heightMm: number,
  { part, solid, shop }: Trial,
): readonly Seat[] {
  const sunk = onItsBar(pose, part, raw);
  const clearMm = sunk ? 0 : Math.min(heightMm, deepestAtSides(lot, pose.up, solid) + marginOf(shop));
  return seatsFor(pose, heightMm, clearMm, shop, { leastGripMm: LEAST_GRIP_MM, sunk });
}

/** Round work turns in plain jaws: a V-block beside it holds it, or jaws milled to its shape. Long work lies in two vises in line. */
function* otherHolds(
  { setup, softer, warnings }: Judged,
  { part, solid, shop }: Trial,
  { vise, up }: ViseHeld,
): Generator<Hold> {
  const hold = setup.hold!;
  if (softer) {
    const bar = roundBarOf(timelineOf(part, solid).stock.body);
    const upright = bar && bar.axis === AXIS_INDEX[FACE_AXIS[up].axis];
    const block = upright && shop.vBlocks.find((v) => fitsIn(v, 2 * bar.radiusMm));
    if (block) yield { ...hold, vBlock: { name: block.name, span: hold.span } };
    yield { ...hold, type: 'soft-jaws' };
  }
  if (vise.count > 1 && warnings.some((w) => w.rule === 'hold/opening')) {
    const along = AXIS_INDEX[FACE_AXIS[endsOf(setup)[0]!].axis];
    const { min, max } = solid.body.box;
    const mm = apartFor(max[along] - min[along], vise.jawWidthMm);
    yield { ...hold, apart: { mm, text: String(mm), span: hold.span } };
  }
}

/** What a deeper grip makes no better: the jaws stand the higher beside the work. */
function isWorseDeeper({ rule }: Finding): boolean {
  return rule.startsWith('access/') || rule === 'hold/in-the-cut' || rule === 'hold/cut-free' || rule === 'setup/order';
}

/**
 * Both ends milled beside jaws that are wider than the work: one of them can stand out. The first is cut, the other,
 * and all else that is in the way only because of it, is tried again.
 */
function oneEnd(hopeless: Judged['blamed'], lot: readonly Item[], { up, jaws }: Pose): Judged['blamed'] {
  const across = [up, ...jaws].map((f) => FACE_AXIS[f].axis);
  const ends = lot.filter((i) => i.face && !across.includes(FACE_AXIS[i.face].axis));
  if (ends.length < 2 || !ends.every((i) => AT_THE_JAWS.has(hopeless.get(i)?.rule ?? ''))) return hopeless;
  return new Map([...hopeless].filter(([i]) => i === ends[1]));
}
