/** hole/point-breaks-through – a blind hole whose drill point comes out below. */

import { materialAlong } from '../../process/column';
import type { Bored } from '../../process/drilling';
import { HAIR, SAME } from '../../tolerance';
import { change, edited } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { setLength } from '../kit/edits';
import { setField } from '../kit/fields';
import { list, memberOf, memberPhrase, roundDown, spanOf } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { holes } from './bores';

interface Through {
  readonly b: Bored;
  /** Material below the full diameter, on the axis. */
  readonly leftMm: number;
  /** Comes out in the open, not in another cavity. */
  readonly outside: boolean;
  /** By how much the worst of its hole's members goes through. */
  readonly worstMm: number;
}

function* broken(context: RuleContext): Generator<Through> {
  const { solid } = context;
  for (const [, bores] of holes(context)) {
    const found: Omit<Through, 'worstMm'>[] = [];
    for (const b of bores) {
      if (b.pointMm === 0) continue;
      const under = materialAlong(b.about, b.face, b.axis).find(
        (s) => s.from <= b.endMm + SAME && s.to > b.endMm + HAIR,
      );
      if (!under) continue;
      const leftMm = under.to - b.endMm;
      if (leftMm > b.pointMm - SAME) continue;
      const body = materialAlong({ body: solid.body, voids: [] }, b.face, b.axis).at(-1);
      found.push({ b, leftMm, outside: body !== undefined && under.to >= body.to - SAME });
    }
    const worstMm = Math.max(...found.map((x) => x.b.pointMm - x.leftMm));
    for (const x of found) yield { ...x, worstMm };
  }
}

function tell({ b, leftMm, outside }: Through, context: RuleContext): Told {
  const { length, limit, about } = context;
  const { hole } = b;
  const shallower = depthWithFloor(hole.depth.mm, b.pointMm - leftMm, context);
  const cures = [
    ...(shallower > 0 ? [`${length(shallower)} deep (leaves ${length(limit('floor'))}, a rule of thumb)`] : []),
    'flat at the bottom',
    'a through hole',
  ];
  return {
    severity: outside ? 'error' : 'warning',
    message:
      `The drill’s point in ${memberPhrase(context.part, memberOf(b.of))} goes ${about(b.pointMm)} below its depth; ${about(leftMm)} are left there. It breaks through by ${about(b.pointMm - leftMm)}${outside ? '' : ' into another cavity'}. ` +
      `Make it ${list(cures, 'or')}.`,
    has: about(leftMm),
    needs: about(b.pointMm + limit('floor')),
    of: [memberOf(b.of)],
    span: spanOf(hole, 'depth'),
    facts: {
      point_mm: b.pointMm,
      left_mm: leftMm,
      through_mm: b.pointMm - leftMm,
      allowed_depth_mm: shallower > 0 ? shallower : undefined,
      floor_mm: shallower > 0 ? limit('floor') : undefined,
      diameter_mm: hole.diameter.mm,
      point_deg: hole.point.deg,
    },
    at: [b.axis],
  };
}

/** The depth at which a floor stays under the point: `throughMm` less, and the floor. */
function depthWithFloor(depthMm: number, throughMm: number, { limit, part }: RuleContext): number {
  return roundDown(depthMm - throughMm - limit('floor'), part.units);
}

const BAD = `part: foot
material: aluminium-6061-t6
body: { x: 40, y: 30, z: 12 }
features:
  dowel:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 8
    depth: 10
`;

export const pointBreaksThrough: Rule = defineRule({
  name: 'hole/point-breaks-through',
  severity: 'error',
  summary: 'The cone below a blind drilled hole comes out on the other side.',
  why: 'The depth of a drilled hole is that of its full diameter. The point goes deeper by about a third of the diameter. Where less than that is left, a blind hole ends in a small ragged hole.',
  formula:
    'The point of the drill is D / (2 tan(point / 2)) high: 0.300 D at 118°. The finished material under the full diameter is taken on the axis. The drill breaks through by the difference.',
  limits: [
    {
      name: 'floor',
      value: 0.8,
      unit: 'mm',
      what: 'Material that the advised depth leaves under the point.',
      source: 'common practice, no source (as `wall/thin` for metal)',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['depth: 10', 'depth: 8']),
  mends: 'Make it shallower, flat at the bottom, or a through hole.',
  find: broken,
  tell,
  keep: ({ b, worstMm }) => ({ of: b.hole.name, worstMm }),
  *mend({ of, worstMm }, context) {
    const { part, length, tree } = context;
    const hole = part.featureByName.get(of);
    if (hole?.kind !== 'hole') return;
    const shallower = depthWithFloor(hole.depth.mm, worstMm, context);
    const edit = shallower > 0 ? setLength(hole.depth.length, shallower, part) : undefined;
    yield change(`Make it ${length(shallower)} deep`, edit);
    yield change('Make it flat at the bottom, with an end mill', setField(tree, of, 'bottom', 'flat'));
    if (!hole.from) yield change('Drill it through', { span: spanOf(hole, 'depth'), newText: 'through' });
  },
});
