/**
 * One setup tried: what the rules object to is left out, until what is left can be held and reached. Keeps what was refused
 * and why. Here the work in a vise, put on each pair of parallels that could do; `table-fixture.ts` has the ways without one.
 */
import type { Box } from '../geometry/types';
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

/** What is tried in a vise: the work as it then is, after the set-ups before. */
interface InVise {
  readonly trial: Trial;
  readonly pose: ViseHeld;
  readonly before: readonly Setup[];
  /** Stock still there, by face, mm. */
  readonly raw: ReadonlyMap<Face, number>;
  readonly box: Box;
}

/** What jaws leave of a lot is tried again, without what they are in the way of, until all that is left can be held and reached. */
function attemptInVise(trial: Trial, ask: Ask<Made>, pose: ViseHeld): Outcome {
  const raw = rawFaces(trial.items, ask.done);
  const box = boxAt(trial.solid.body.box, raw);
  const refused: { item: number; why: Finding }[] = [];
  if (extent(box, pose.jaws[0]) > pose.vise.opensMm) return { tried: undefined, refused };
  const work = { trial, pose, before: ask.before.map((m) => m.made.setup), raw, box };
  let cut = ask.candidates;
  for (let round = 0; round < MOST_ROUNDS && cut.length > 0; round++) {
    if (round > 0 && !ask.enough(cut)) return { tried: 'too-little', refused };
    const best = bestSeated(work, cut);
    if (!best) break;
    if (best.blamed.size > 0) {
      for (const [item, why] of best.blamed) refused.push({ item: item.index, why });
      cut = leaving(cut, new Set([...best.blamed.keys()].map((i) => i.index)), ask.done);
    } else if (best.against.length > 0) return { tried: undefined, refused, unheld: best.against[0]! };
    else return { tried: { pose, cut, made: madeOf(best) }, refused };
  }
  return { tried: undefined, refused };
}

/**
 * The seat that promises most is judged first. Where cuts are in the way of jaws or stop there, the seat with the least
 * between the jaws says which of them are in the way in any: those are blamed, and wait for another setup. Undefined where
 * there is nothing to seat it on.
 */
function bestSeated(work: InVise, lot: readonly Item[]): Judged | undefined {
  const { trial, pose } = work;
  const seats = seatsOf(work, lot);
  const { judge, at } = judgesOf(work, lot);
  const [first] = seats;
  if (!first) return undefined;
  let best = at(first);
  if (best.blamed.size > 0) {
    const least = at(seats.reduce((a, b) => (b.gripMm < a.gripMm ? b : a)));
    const hopeless = new Map([...least.blamed].filter(([, why]) => isWorseDeeper(why)));
    if (hopeless.size > 0) return { ...least, blamed: oneEnd(hopeless, lot, pose) };
    best = cheaper(best, least);
  }
  for (const seat of seats.slice(1, MOST_SEATS)) {
    if (best.cost < 1) break;
    best = cheaper(best, at(seat));
  }
  if (best.blamed.size > 0) return best;
  let held = best;
  for (const hold of otherHolds(best, trial, pose)) held = cheaper(held, judge({ ...best.setup, hold }));
  return held;
}

/** Of two that cost the same the first. */
function cheaper(a: Judged, b: Judged): Judged {
  return b.cost < a.cost ? b : a;
}

interface Judges {
  /** A set-up as it is. */
  judge(tried: Setup): Judged;
  /** The lot cut on a seat, once for each. */
  at(seat: Seat): Judged;
}

function judgesOf({ trial, pose, before, raw, box }: InVise, lot: readonly Item[]): Judges {
  const { part, solid, shop } = trial;
  const ordered = inOrder(lot, pose.up);
  const clearMm = endClearanceMm(shop);
  const judge = (tried: Setup) => {
    const setup = clocked(tried, before, trial);
    return judgedBy(setup, judgeLast(part, shop, solid, trial.tree, [...before, setup]), lot);
  };
  const bar = { pose, part, solid, raw, clearMm };
  const known = new Map<Seat, Judged>();
  const at = (seat: Seat) => {
    const made = () => hangingOut(makeSetup({ before, cut: ordered, part, raw }, pose, seat), lot, bar);
    const judged = known.get(seat) ?? atTheEnds(made(), { judge, solid, box, clearMm });
    known.set(seat, judged);
    return judged;
  };
  return { judge, at };
}

/** Beside a bar nothing is cut that the jaws’ tops could be in the way of. */
function seatsOf({ trial: { part, solid, shop }, pose, raw, box }: InVise, lot: readonly Item[]): readonly Seat[] {
  const heightMm = extent(box, pose.up);
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
