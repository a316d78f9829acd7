/** access/undercut – wider below than above: only a cutter wider than its neck gets there. */

import { isChannel } from '../../model/feature-kinds';
import type { Groove, Hole, Slot } from '../../model/model';
import type { UndercutMill } from '../../model/shop-model';
import { openEndsOf } from '../../process/approach';
import { SAME_MM } from '../../process/cutters';
import { dovetailFloorMm, makesDovetail, makesRing, makesTee, undercuttersOf } from '../../process/undercutters';
import type { Span } from '../../text/tree';
import { removeField, setField, subjectOf, together } from '../kit/fields';
import { fact, trimmed } from '../kit/message';
import type { Facts, Finding, Fix, Rule, RuleContext } from '../kit/rule';

const NAME = 'access/undercut';

interface Undercut {
  readonly feature: Slot | Groove;
  readonly span: Span;
  readonly need: string;
  readonly why: string;
  readonly facts: Facts;
}

const undercutters = ({ shop }: RuleContext) => undercuttersOf(shop);

function* undercuts(context: RuleContext): Generator<Undercut> {
  for (const feature of context.part.features) {
    const found =
      isChannel(feature) && feature.tee
        ? tee(feature, context)
        : isChannel(feature) && feature.dovetail
          ? dovetail(feature, context)
          : feature.kind === 'groove' && feature.in
            ? ring(feature, context)
            : undefined;
    if (found) yield found;
  }
}

/** How an undercutter gets in: through an open end, or down the neck if it is no wider. */
function getsIn(slot: Slot, t: UndercutMill, { solid }: RuleContext): boolean {
  const open = openEndsOf(slot, solid).length > 0;
  return open || t.diameterMm <= slot.width.mm + SAME_MM;
}

function tee(slot: Slot, context: RuleContext): Undercut | undefined {
  const { width, height } = slot.tee!;
  const { length } = context;
  const shaped = undercutters(context).filter((t) => makesTee(t, slot));
  if (shaped.some((t) => getsIn(slot, t, context))) return undefined;
  const facts = {
    neck_mm: fact(slot.width.mm),
    width_mm: fact(width.mm),
    height_mm: fact(height.mm),
    depth_mm: fact(slot.depth.mm),
  };
  const need = `a T-slot cutter at most ${length(width.mm)} wide and ${length(height.mm)} high, with a neck under ${length(slot.width.mm)} and ${length(slot.depth.mm)} of reach`;
  return { feature: slot, span: slot.tee!.span, need, why: shaped.length > 0 ? noWayIn(shaped[0]!) : none, facts };
}

const none = 'the shop has none';
const noWayIn = (t: UndercutMill) => `${t.name} would fit, but the slot has no open end to let it in`;

function dovetail(slot: Slot, context: RuleContext): Undercut | undefined {
  const deg = slot.dovetail!.angle.deg;
  const { length } = context;
  const floorMm = dovetailFloorMm(slot);
  const shaped = undercutters(context).filter((t) => makesDovetail(t, slot));
  if (shaped.some((t) => getsIn(slot, t, context))) return undefined;
  return {
    feature: slot,
    span: slot.dovetail!.span,
    need: `a ${trimmed(deg, 1)}° dovetail cutter at most ${length(floorMm)} wide and at least ${length(slot.depth.mm)} high`,
    why: shaped.length > 0 ? noWayIn(shaped[0]!) : none,
    facts: { angle_deg: fact(deg), width_mm: fact(floorMm), depth_mm: fact(slot.depth.mm) },
  };
}

function ring(groove: Groove, context: RuleContext): Undercut | undefined {
  const hole = context.part.featureByName.get(groove.in!.name) as Hole | undefined;
  if (hole?.kind !== 'hole') return undefined;
  const { length } = context;
  const outMm = (groove.diameter.mm - hole.diameter.mm) / 2;
  const deepMm = (groove.below?.mm ?? 0) + groove.width.mm;
  if (outMm <= 0) return undefined;
  const fits = undercutters(context).some((t) => makesRing(t, groove, hole));
  if (fits) return undefined;
  return {
    feature: groove,
    span: groove.width.span,
    need: `a grooving cutter at most ${length(groove.width.mm)} thick and ${length(hole.diameter.mm)} wide, that cuts ${length(outMm)} beside its neck and reaches ${length(deepMm)}`,
    why: none,
    facts: {
      thickness_mm: fact(groove.width.mm),
      bore_mm: fact(hole.diameter.mm),
      beside_neck_mm: fact(outMm),
      needed_mm: fact(deepMm),
    },
  };
}

export const undercut: Rule = {
  name: NAME,
  severity: 'error',
  mildByBuiltIn: true,
  summary: 'A T-slot, dovetail or ring groove for which no undercutting cutter is on hand.',
  why: 'Below an overhang only a cutter that is wider than its neck cuts, and it must get in: through an open end, or down a neck as wide as itself. Each shape is a cutter of its own.',
  formula:
    'The cutter’s width, thickness, angle, neck and reach against the shape: no wider than the wide part, no thicker than its height, a neck that passes, and enough beside the neck to cut out to the wall. A warning where only the built-in shop is known.',
  limits: [],
  bad: `part: fixture
material: aluminium-6061-t6
body: { x: 80, y: 60, z: 30 }
features:
  rail:
    kind: slot
    face: top
    ends: [{ x: 0, y: center }, { x: 80, y: center }]
    width: 6
    depth: 12
    tee: { width: 20, height: 4 }
`,
  good: `part: fixture
material: aluminium-6061-t6
body: { x: 80, y: 60, z: 30 }
features:
  rail:
    kind: slot
    face: top
    ends: [{ x: 0, y: center }, { x: 80, y: center }]
    width: 8
    depth: 16
    tee: { width: 16, height: 8 }
`,
  mends: 'The size of a cutter on hand, or no undercut.',
  *find(context): Generator<Finding> {
    for (const { feature, span, need, why, facts } of undercuts(context)) {
      yield {
        rule: NAME,
        severity: context.shop.builtIn ? 'warning' : 'error',
        message: `It takes ${need}; ${why}${context.shop.builtIn ? ' (built-in shop)' : ''}.`,
        of: [feature.name],
        span,
        related:
          feature.kind === 'groove' && feature.in ? [{ span: feature.in.span, message: 'the hole it is in' }] : [],
        facts,
      };
    }
  },
  *mend(finding, context): Generator<Fix> {
    const slot = subjectOf(finding, context.part);
    if (!isChannel(slot)) return;
    const { tree, write, length } = context;
    if (slot.tee) {
      const { width, height } = slot.tee;
      const off = (t: UndercutMill) =>
        Math.abs(t.diameterMm - width.mm) / width.mm + Math.abs(t.thicknessMm - height.mm) / height.mm;
      // A wheel for snap-ring grooves is no T-slot cutter: what is cut stays about as large as it was drawn.
      const like = undercutters(context)
        .filter((t) => t.kind === 'tee-cutter' && t.reachMm >= slot.depth.mm && t.neckMm < t.diameterMm)
        .filter((t) => Math.max(t.thicknessMm, height.mm) <= 2 * Math.min(t.thicknessMm, height.mm) && off(t) < 1)
        .sort((a, b) => off(a) - off(b));
      for (const t of like) {
        const edits = together(
          setField(tree, slot.name, 'width', write(t.neckMm + 1)),
          setField(tree, slot.name, 'width', write(t.diameterMm), 'tee'),
          setField(tree, slot.name, 'height', write(t.thicknessMm), 'tee'),
        );
        if (edits)
          yield {
            title: `Make it the size of ${t.name}: ${length(t.diameterMm)} wide and ${length(t.thicknessMm)} high below a neck of ${length(t.neckMm + 1)}`,
            safe: false,
            edits,
          };
      }
    }
    const plain = removeField(tree, slot.name, slot.tee ? 'tee' : 'dovetail');
    if (plain) yield { title: 'Make it a plain slot', safe: false, edits: plain };
  },
};
