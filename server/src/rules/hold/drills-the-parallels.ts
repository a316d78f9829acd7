/** hold/drills-the-parallels – a through cut ends in a parallel or the bed of the vise. */
import { isInside } from '../../geometry/inside';
import type { Vec3, Void } from '../../geometry/types';
import { heldOf, type InJaws } from '../../machining/holding';
import { crossOf } from '../../machining/workpiece';
import type { Cut } from '../../machining/workpiece/types';
import { verdictsIn } from '../access/in-setups';
import { moveCut } from '../access/move';
import { fact } from '../message';
import type { Finding, Fix, Rule, RuleContext } from '../rule';
import { samplesOf } from '../samples';
import { gripFix, gripsOnHand, heldFor, otherJaws } from './mends';
import { held } from './samples';

const NAME = 'hold/drills-the-parallels';
/** What goes down through the work, and out below. */
const DOWN: ReadonlySet<Void['role']> = new Set(['bore', 'pocket', 'slot', 'contour', 'counterbore']);

interface Struck {
  readonly x: InJaws;
  readonly cut: Cut;
  readonly what: 'bed' | 'parallel';
}

function* struck(context: RuleContext): Generator<Struck> {
  const { part, solid, shop } = context;
  for (const x of heldOf(part, solid, shop)) {
    const { seating, h, hold } = x;
    if (hold.type !== 'vise') continue;
    const pairs = seating.obstacles.filter((o) => o.what === 'parallel');
    for (const cut of x.s.cuts) {
      if (!cut.feature) continue;
      const out = cut.removes.filter((v) => DOWN.has(v.role) && leaves(v, x));
      if (out.length === 0) continue;
      if (h.parallelsMm <= 0) {
        if (out.some((v) => cutsThere(v, cut, x, () => true))) yield { x, cut, what: 'bed' };
        continue;
      }
      const over = (p: Vec3) =>
        pairs.some(({ box }) =>
          [h.jawAxis, h.alongAxis].every((i) => p[i] > box.min[i] + 1e-6 && p[i] < box.max[i] - 1e-6),
        );
      const near = out.filter((v) =>
        pairs.some(({ box }) =>
          [h.jawAxis, h.alongAxis].every(
            (i) => v.bounds.max[i] > box.min[i] + 0.05 && v.bounds.min[i] < box.max[i] - 0.05,
          ),
        ),
      );
      if (near.some((v) => cutsThere(v, cut, x, over))) yield { x, cut, what: 'parallel' };
    }
  }
}

/** Goes down to the lowest surface. */
function leaves(v: Void, { seating }: InJaws): boolean {
  const lowest = seating.upSign > 0 ? v.bounds.min[seating.upAxis] : v.bounds.max[seating.upAxis];
  return (lowest - seating.lowestMm) * seating.upSign < 1e-3;
}

/** Takes material right above what the work lies on, where `at` says that something is below. */
function cutsThere(v: Void, cut: Cut, { seating }: InJaws, at: (p: Vec3) => boolean): boolean {
  const i = seating.upAxis;
  const foot = crossOf(cut.before, i, seating.lowestMm + seating.upSign * 1e-3).regions ?? [];
  const [a, b] = [(i + 1) % 3, (i + 2) % 3] as [0 | 1 | 2, 0 | 1 | 2];
  for (const p of samplesOf(v)) if (at(p) && foot.some((r) => isInside(r, p[a], p[b]))) return true;
  return false;
}

function findingOf({ x, cut, what }: Struck, context: RuleContext): Finding {
  const { length } = context;
  const { s, h, hold } = x;
  const drilled = cut.feature?.kind === 'hole';
  const does = drilled ? 'drill' : 'cutter';
  return {
    rule: NAME,
    severity: what === 'bed' ? 'error' : 'warning',
    message:
      what === 'bed'
        ? `In ${s.setup.name} ${cut.name} goes through, and the work lies on the bed of ${h.vise.name}: the ${does} would go into the vise. Put parallels under the work.`
        : `In ${s.setup.name} ${cut.name} goes through right over a parallel (${length(h.parallelsMm)} high, against a jaw): the ${does} would go into it. Clamp other faces, set narrow parallels clear of it, or cut it in another set-up.`,
    of: [cut.name],
    span: cut.span,
    related: [{ span: hold.parallels?.span ?? hold.span, message: 'what it lies on' }],
    facts: { set_up: s.setup.name, meets: what, parallels_mm: fact(h.parallelsMm), grip_mm: fact(h.gripMm) },
  };
}

const FEATURES = '  tie: { kind: hole, face: top, at: { x: center, y: center }, diameter: 8, depth: through }\n';

export const drillsTheParallels: Rule = {
  name: NAME,
  severity: 'warning',
  summary: 'A through cut ends in a parallel or in the bed of the vise.',
  why: 'A drill goes through the work and on by the length of its point. What lies right below is ground and hardened, or the vise itself: the drill breaks or the parallel is spoiled.',
  formula:
    'The cut takes material at the lowest surface of the work, and below that place is the bed, or a parallel: a pair lies along the jaws, one against each, 6 mm wide unless the opening is narrower (common sizes). Parallels can be shifted: a warning; the bed cannot: an error.',
  limits: [],
  bad: held({
    body: '{ x: 60, y: 40, z: 36 }',
    features: FEATURES,
    hold: '{ vise: mill-vise-100, jaws: [back, front], grip: 32, parallels: 0 }',
    cuts: '[tie]',
  }),
  good: held({
    body: '{ x: 60, y: 40, z: 36 }',
    features: FEATURES,
    hold: '{ vise: mill-vise-100, jaws: [back, front], grip: 14, parallels: 18 }',
    cuts: '[tie]',
  }),
  mends: 'A pair of parallels that is on hand; the other sides clamped; the cut moved to another set-up.',
  *find(context) {
    let told: Set<Cut> | undefined;
    for (const found of struck(context)) {
      told ??= new Set(verdictsIn(context).flatMap((v) => (v.fixture?.clash.with.what === 'parallel' ? [v.cut] : [])));
      if (!told.has(found.cut)) yield findingOf(found, context);
    }
  },
  *mend(finding, context): Generator<Fix> {
    const x = heldFor(finding, context);
    const cut = x?.s.cuts.find((c) => c.name === finding.of[0]);
    if (!x || !cut) return;
    if (finding.facts.meets === 'bed') {
      for (const g of gripsOnHand(x, context, 5).toReversed().slice(0, 5)) {
        const fix = g < x.h.vise.jawHeightMm ? gripFix(x, g, context) : undefined;
        if (fix) yield fix;
      }
    }
    const turned = otherJaws(x, context);
    if (turned) yield turned;
    for (const to of context.part.setups ?? []) {
      const edits = to !== x.s.setup && moveCut(context, x.s.setup, to, cut.name);
      if (edits) yield { title: `Cut it in ${to.name}`, safe: false, edits };
    }
  },
};
