/**
 * One setup tried: the work put on each pair of parallels that could do, what the rules object to left out, until
 * what is left can be held and reached. Keeps what was refused and why.
 */
import type { Solid } from '../geometry/types';
import type { Finding } from '../rules/rule';
import { FACE_AXIS, type Part, type Setup } from '../spec/model';
import type { Shop } from '../spec/shop-model';
import type { TextTree } from '../text/tree';
import type { Item } from './items';
import { judgeLast } from './judge';
import { boxAt, inOrder, makeSetup, rawFaces } from './make-setup';
import { deepestAtSides, extent, type Pose, type Seat, seatsFor } from './poses';
import type { Ask, Tried } from './search';

export interface Made {
  readonly setup: Setup;
  readonly warnings: readonly Finding[];
}

/** Why an item could not be cut in a pose: the first thing that the rules say against it. */
export interface Refusal {
  readonly item: Item;
  readonly pose: Pose;
  readonly why: Finding;
}

export interface Trial {
  readonly part: Part;
  readonly shop: Shop;
  readonly solid: Solid;
  readonly tree: TextTree;
  readonly items: readonly Item[];
  /** Filled as setups are tried. */
  readonly refusals: Map<number, Refusal>;
  /** Poses in which nothing could be held at all, and why. */
  readonly unheld: Map<string, Finding>;
}

/** Seats tried for one lot of work, at most, and rounds of leaving something out. */
const MOST_SEATS = 4;
const MOST_ROUNDS = 8;
/** A grip below this is no plan of ours, whatever the rule's setting. Common practice, no source. */
const LEAST_GRIP_MM = 3;
/** Left between the deepest cut at a side and the jaws. Common practice, no source. */
const CLEAR_OF_JAWS_MM = 1;

/**
 * The seat that promises most is judged first. Where cuts are in the way of jaws or stop there, the seat with the least
 * between the jaws says which of them are in the way in any: those wait for another setup, and the next lot is tried.
 */
export function attemptSetup(trial: Trial, ask: Ask<Made>): Tried<Made> {
  const { part, solid, shop, items } = trial;
  const { pose, before } = ask;
  const raw = rawFaces(items, ask.done);
  const box = boxAt(part, solid.body.box, raw);
  if (extent(box, pose.jaws[0]) > pose.vise.opensMm) return undefined;
  const prefix = before.map((m) => m.made.setup);
  const heightMm = extent(box, pose.up);
  let cut = ask.candidates;
  const drop = (gone: Judged['blamed']) => {
    for (const [item, why] of gone)
      if (!trial.refusals.has(item.index)) trial.refusals.set(item.index, { item, pose, why });
    cut = leaving(cut, new Set([...gone.keys()].map((i) => i.index)), ask.done);
  };
  for (let round = 0; round < MOST_ROUNDS && cut.length > 0; round++) {
    if (round > 0 && !ask.enough(cut)) return 'too-little';
    const lot = cut;
    const clearMm = Math.min(heightMm, deepestAtSides(lot, pose.up, solid) + CLEAR_OF_JAWS_MM);
    const seats = seatsFor(pose, heightMm, clearMm, shop, LEAST_GRIP_MM);
    const ordered = inOrder(lot, pose.up);
    const known = new Map<Seat, Judged>();
    const at = (seat: Seat): Judged => {
      let judged = known.get(seat);
      if (!judged) {
        const setup = makeSetup(prefix, pose, seat, ordered, part, raw);
        judged = sorted(setup, seat, judgeLast(part, shop, solid, trial.tree, [...prefix, setup]), lot);
        known.set(seat, judged);
      }
      return judged;
    };
    const [first] = seats;
    if (!first) return undefined;
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
    if (best.blamed.size === 0 && best.dents) {
      // Round work turns in plain jaws: jaws milled to its shape hold it.
      const { setup } = best;
      const soft: Setup = { ...setup, hold: { ...setup.hold!, type: 'soft-jaws' } };
      const judged = sorted(soft, best.seat, judgeLast(part, shop, solid, trial.tree, [...prefix, soft]), lot);
      if (judged.cost < best.cost) best = judged;
    }
    if (best.blamed.size === 0 && best.against.length === 0)
      return { pose, cut, made: { setup: best.setup, warnings: best.warnings } };
    if (best.blamed.size === 0) {
      const key = `${pose.up}/${pose.jaws[0]}`;
      if (!trial.unheld.has(key)) trial.unheld.set(key, best.against[0]!);
      return undefined;
    }
    drop(best.blamed);
  }
  return undefined;
}

/** What a deeper grip makes no better: the jaws stand the higher beside the work. */
function isWorseDeeper({ rule }: Finding): boolean {
  return rule.startsWith('access/') || rule === 'hold/in-the-cut' || rule === 'hold/let-go' || rule === 'setup/order';
}

/**
 * Both ends milled beside jaws that are wider than the work: one of them can stand out. The first is cut, the other,
 * and all else that is in the way only because of it, is tried again.
 */
function oneEnd(hopeless: Judged['blamed'], lot: readonly Item[], { up, jaws }: Pose): Judged['blamed'] {
  const across = [up, ...jaws].map((f) => FACE_AXIS[f].axis);
  const ends = lot.filter((i) => i.face && !across.includes(FACE_AXIS[i.face].axis));
  if (ends.length < 2 || !ends.every((i) => hopeless.get(i)?.rule === 'access/jaw')) return hopeless;
  return new Map([...hopeless].filter(([i]) => i === ends[1]));
}

interface Judged {
  readonly setup: Setup;
  readonly seat: Seat;
  /** Items that errors name. */
  readonly blamed: ReadonlyMap<Item, Finding>;
  /** Errors that name none. */
  readonly against: readonly Finding[];
  readonly warnings: readonly Finding[];
  readonly cost: number;
  /** A round side between plain jaws. */
  readonly dents: boolean;
}

function sorted(setup: Setup, seat: Seat, findings: readonly Finding[], cut: readonly Item[]): Judged {
  const blamed = new Map<Item, Finding>();
  const against: Finding[] = [];
  for (const finding of findings) {
    if (finding.severity !== 'error') continue;
    const names = new Set(finding.of.map((name) => name.replace(/\[\d+\]$/, '')));
    const guilty = cut.filter((item) => names.has(item.name));
    for (const item of guilty) if (!blamed.has(item)) blamed.set(item, finding);
    if (guilty.length === 0) against.push(finding);
  }
  const warnings = findings.filter((f) => f.severity === 'warning');
  const hints = findings.length - warnings.length - against.length - blamed.size;
  // Nothing held is worse than anything left out; a warning weighs less than a feature that must wait.
  const cost = against.length * 1e6 + blamed.size * 1e3 + warnings.length * 10 + Math.max(0, hints) * 0.01;
  const dents = setup.hold?.type === 'vise' && findings.some((f) => f.rule === 'hold/parallel' && saysRound(f));
  return { setup, seat, blamed, against, warnings, cost, dents };
}

/** The jaws touch a round side along a line, or below its middle. */
function saysRound({ message }: Finding): boolean {
  return /\bround\b/.test(message);
}

/** Without these, and without what must come after them. */
function leaving(cut: readonly Item[], gone: Set<number>, done: ReadonlySet<number>): readonly Item[] {
  let here = cut.filter((i) => !gone.has(i.index));
  for (;;) {
    const indices = new Set(here.map((i) => i.index));
    const next = here.filter((i) => i.after.every((a) => done.has(a) || indices.has(a)));
    if (next.length === here.length) return next;
    here = next;
  }
}
