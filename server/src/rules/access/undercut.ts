/** access/undercut – wider below than above: only a cutter wider than its neck gets there. */

import { isChannel } from '../../model/feature-kinds';
import type { Feature, Groove, Hole, Slot } from '../../model/model';
import type { UndercutMill } from '../../model/shop-model';
import { openEndsOf } from '../../process/approach';
import { SLOPED, undercutBoss, undercutDepthMm, unfitUndercutter } from '../../process/boss-undercuts';
import { SAME_MM } from '../../process/cutters';
import { dovetailFloorMm, makesDovetail, makesTee, ringCutterOf, undercuttersOf } from '../../process/undercutters';
import type { Span } from '../../text/tree';
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { removeField, setField, together } from '../kit/fields';
import { subjectOf, trimmed } from '../kit/message';
import type { Facts, Rule, RuleContext } from '../kit/rule';

interface Undercut {
  readonly feature: Feature;
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
            : boss(feature, context);
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
    neck_mm: slot.width.mm,
    width_mm: width.mm,
    height_mm: height.mm,
    depth_mm: slot.depth.mm,
  };
  const need = `a T-slot cutter up to ${length(width.mm)} wide and ${length(height.mm)} high, neck under ${length(slot.width.mm)}, reach ${length(slot.depth.mm)}`;
  return { feature: slot, span: slot.tee!.span, need, why: shaped.length > 0 ? noWayIn(shaped[0]!) : none, facts };
}

const none = 'has none';
const noWayIn = (t: UndercutMill) => `has ${t.name}, but the slot has no open end to let it in`;

function dovetail(slot: Slot, context: RuleContext): Undercut | undefined {
  const deg = slot.dovetail!.angle.deg;
  const { length } = context;
  const floorMm = dovetailFloorMm(slot);
  const shaped = undercutters(context).filter((t) => makesDovetail(t, slot));
  if (shaped.some((t) => getsIn(slot, t, context))) return undefined;
  return {
    feature: slot,
    span: slot.dovetail!.span,
    need: `a ${trimmed(deg, 1)}° dovetail cutter up to ${length(floorMm)} wide and at least ${length(slot.depth.mm)} high`,
    why: shaped.length > 0 ? noWayIn(shaped[0]!) : none,
    facts: { angle_deg: deg, width_mm: floorMm, depth_mm: slot.depth.mm },
  };
}

function ring(groove: Groove, context: RuleContext): Undercut | undefined {
  const hole = context.part.featureByName.get(groove.in!.name) as Hole | undefined;
  if (hole?.kind !== 'hole') return undefined;
  const { length } = context;
  const outMm = (groove.diameter.mm - hole.diameter.mm) / 2;
  const deepMm = (groove.below?.mm ?? 0) + groove.width.mm;
  if (outMm <= 0) return undefined;
  const cutter = ringCutterOf(context.shop, groove, hole);
  if (cutter?.kind === 'tee-cutter') return undefined;
  return {
    feature: groove,
    span: groove.width.span,
    need: `a grooving cutter up to ${length(groove.width.mm)} thick and ${length(hole.diameter.mm)} wide, ${length(outMm)} beside its neck, reach ${length(deepMm)}`,
    why: cutter ? `has ${cutter.name}, whose ball leaves a round groove` : none,
    facts: {
      thickness_mm: groove.width.mm,
      bore_mm: hole.diameter.mm,
      beside_neck_mm: outMm,
      needed_mm: deepMm,
    },
  };
}

/** At the foot of a boss's thread. */
function boss(feature: Feature, context: RuleContext): Undercut | undefined {
  const round = undercutBoss(feature);
  if (!round || !(undercutDepthMm(round) > 0)) return undefined;
  const { length, shop } = context;
  const why = undercutters(context).map((t) => ({ t, because: unfitUndercutter(t, round, shop) }));
  if (why.some(({ because }) => because === undefined)) return undefined;
  const { width, span } = round.thread.undercut;
  const [outMm, deepMm] = [undercutDepthMm(round), round.depth.mm];
  const nearest = why.find(({ because }) => because !== SLOPED);
  return {
    feature,
    span,
    need: `a grooving cutter up to ${length(width.mm)} thick, ${length(outMm)} beside its neck, reach ${length(deepMm)}`,
    why: nearest ? `has ${nearest.t.name}, but ${nearest.because}` : none,
    facts: {
      thickness_mm: width.mm,
      beside_neck_mm: outMm,
      needed_mm: deepMm,
    },
  };
}

const BAD = `part: fixture
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
`;

export const undercut: Rule = defineRule({
  name: 'access/undercut',
  severity: 'error',
  mildByBuiltIn: true,
  summary: 'No undercutting cutter in the shop fits a T-slot, dovetail, ring groove, or a thread’s undercut.',
  why: 'Below an overhang only a cutter that is wider than its neck can cut. It must get in through an open end, or down a neck as wide as itself. Each shape needs a cutter of its own.',
  formula:
    'The cutter’s width, thickness, angle, neck and reach are compared with the shape. It must not be wider than the wide part, or thicker than its height. Its neck must pass, and it must cut out to the wall beside its neck. Round the foot of a boss the machine must move in circles. With the built-in shop it is a warning.',
  bounds: 'The sizes of the undercutting tools in the shop file.',
  limits: [],
  bad: BAD,
  good: edited(
    BAD,
    ['width: 6', 'width: 8'],
    ['depth: 12', 'depth: 16'],
    ['width: 20, height: 4', 'width: 16, height: 8'],
  ),
  mends: 'Use the size of a cutter in the shop, or no undercut.',
  find: undercuts,
  tell({ feature, span, need, why, facts }, { part, shop }) {
    return {
      message: `${subjectOf(part, feature.name)} needs ${need}. The ${shop.builtIn ? 'built-in ' : ''}shop ${why}. Use ${isChannel(feature) && why !== none ? 'an open end, or no undercut' : 'the size of a cutter in the shop, or no undercut'}.`,
      of: [feature.name],
      span,
      related: [
        feature.kind === 'groove' && feature.in ? { span: feature.in.span, message: 'the hole it is in' } : undefined,
      ],
      facts,
    };
  },
  keep: ({ feature }) => feature.name,
  *mend(name, context) {
    const slot = context.part.featureByName.get(name);
    if (slot && undercutBoss(slot)) yield change('Delete the undercut', removeField(context.tree, name, 'undercut'));
    if (!isChannel(slot)) return;
    if (slot.tee) yield* sizedLike(slot, slot.tee, context);
    const plain = removeField(context.tree, name, slot.tee ? 'tee' : 'dovetail');
    yield change('Make it a plain slot', plain);
  },
});

/** A T-slot of the size of each cutter on hand that is about as large as it was drawn. */
function* sizedLike(slot: Slot, { width, height }: NonNullable<Slot['tee']>, context: RuleContext) {
  const { tree, write, length } = context;
  const off = (t: UndercutMill) =>
    Math.abs(t.diameterMm - width.mm) / width.mm + Math.abs(t.thicknessMm - height.mm) / height.mm;
  // A wheel for snap-ring grooves is no T-slot cutter: what is cut stays about as large as it was drawn.
  const like = undercutters(context)
    .filter((t) => t.kind === 'tee-cutter' && t.reachMm >= slot.depth.mm && t.neckMm < t.diameterMm)
    .filter((t) => Math.max(t.thicknessMm, height.mm) <= 2 * Math.min(t.thicknessMm, height.mm) && off(t) < 1)
    .sort((a, b) => off(a) - off(b));
  for (const t of like)
    yield change(
      `Make it the size of ${t.name}: ${length(t.diameterMm)} wide and ${length(t.thicknessMm)} high below a neck of ${length(t.neckMm + 1)}`,
      together(
        setField(tree, slot.name, 'width', write(t.neckMm + 1)),
        setField(tree, slot.name, 'width', write(t.diameterMm), 'tee'),
        setField(tree, slot.name, 'height', write(t.thicknessMm), 'tee'),
      ),
    );
}
