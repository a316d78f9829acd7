/** hole/flat-bottom – a drill leaves a cone; a flat floor needs another tool. */

import { memo } from '../../memo';
import type { Hole } from '../../model/model';
import type { Drill, Shop, Tool } from '../../model/shop-model';
import { materialAlong } from '../../process/column';
import { endMills, SAME_MM, SAME_REACH_MM, SHARP_MM } from '../../process/cutters';
import { type Bored, floorStays } from '../../process/drilling';
import { pointLengthMm } from '../../tables/drill-point';
import { HAIR } from '../../tolerance';
import { change, edited } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { removeField } from '../kit/fields';
import { spanOf, subjectOf } from '../kit/message';
import type { Rule } from '../kit/rule';
import { holes, namesOf } from './bores';

interface Flat {
  readonly hole: Hole;
  readonly blind: readonly Bored[];
  readonly depthMm: number;
  /** The longest that fits, where it does not reach; of those that do, what is wrong is that nothing needs a flat floor. */
  readonly longest: Flattener | undefined;
  readonly needless: boolean;
}

type Flattener = Tool & { readonly reach: number };
/** More diameters of flat-bottomed holes than a part has. */
const DIAMETERS = 16;

/** Tools that leave a flat floor in a hole this wide, longest first. */
const flatteners = memo(flattenersOf, { size: DIAMETERS });

function flattenersOf(shop: Shop, diameterMm: number): readonly Flattener[] {
  const mills = endMills(shop)
    .filter((m) => m.diameterMm <= diameterMm + SAME_MM && m.cornerRadiusMm <= SHARP_MM)
    .map((m) => ({ ...m, reach: m.reachMm }));
  const drills = shop.tools
    .filter((t): t is Drill => t.kind === 'flat-drill' && t.diameterMm <= diameterMm + SAME_MM)
    .map((d) => ({ ...d, reach: d.fluteLengthMm }));
  return [...mills, ...drills].sort((a, b) => b.reach - a.reach);
}

const BAD = `part: plunger
material: aluminium-6061-t6
body: { x: 30, y: 30, z: 50 }
features:
  spring-seat:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 3
    depth: 28
    bottom: flat
`;

export const flatBottom: Rule = defineRule({
  name: 'hole/flat-bottom',
  severity: 'error',
  summary: 'No end mill or flat drill in the shop reaches the flat floor of a hole.',
  why: 'A drill leaves a cone. A flat floor needs a second tool: an end mill that fits and reaches, or a flat drill. Under a thread a flat floor is of no use.',
  formula:
    'One of the end mills and flat drills that fit the hole must reach its floor. A hint where a tapped hole has a flat floor.',
  bounds: 'The diameters and reaches of the end mills and flat drills in the shop file.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['diameter: 3', 'diameter: 8'], ['depth: 28', 'depth: 12']),
  mends: 'Use the cone that a drill leaves.',
  *find(context): Generator<Flat> {
    for (const [hole, bores] of holes(context)) {
      if (hole.bottom !== 'flat' || bores.every((b) => b.of.through)) continue;
      const blind = bores.filter((b) => !b.of.through && floorStays(b));
      const depthMm = Math.max(0, ...blind.map((b) => b.spanMm));
      if (depthMm === 0) continue;
      const longest = flatteners(context.shop, hole.diameter.mm)[0];
      const reaches = longest !== undefined && longest.reach >= depthMm - SAME_REACH_MM;
      const needless = reaches && hole.thread !== undefined && blind.every((b) => coneFits(b));
      if (needless || !reaches) yield { hole, blind, depthMm, longest, needless };
    }
  },
  tell({ hole, blind, depthMm, longest, needless }, { length, part, about }): Told {
    const span = hole.bottomSpan ?? spanOf(hole, 'depth');
    if (needless)
      return {
        severity: 'hint',
        message: `${subjectOf(part, hole.name)} has a flat floor under its thread. It needs a second tool and holds nothing. Leave the cone of the drill.`,
        of: [hole.name],
        span,
      };
    const had = longest ? `${longest.name} reaches ${length(longest.reach)}` : 'the shop has none that thin';
    return {
      message: `${subjectOf(part, hole.name)} has a flat floor ${about(depthMm)} deep at a diameter of ${about(hole.diameter.mm)}. It needs an end mill or flat drill; ${had}. Leave the cone of the drill, or make it ${longest ? `${length(longest.reach)} deep` : 'larger'}.`,
      has: longest && length(longest.reach),
      needs: about(depthMm),
      of: namesOf(hole, blind),
      span,
      related: [{ span: spanOf(hole, 'depth'), message: 'its depth' }],
      facts: { diameter_mm: hole.diameter.mm, depth_mm: depthMm, reach_mm: longest?.reach, tool: longest?.name },
      at: blind.map((b) => b.axis),
    };
  },
  keep: ({ hole }) => hole.name,
  mend: (of, { tree }) => [change('Leave the cone of the drill', removeField(tree, of, 'bottom'))],
});

/** A cone below the floor would neither break through nor leave a thin skin. */
function coneFits(b: Bored): boolean {
  const pointMm = pointLengthMm(b.hole.diameter.mm, b.hole.point.deg || 118);
  const under = materialAlong(b.about, b.face, b.axis).find((s) => s.to > b.endMm + HAIR);
  return under !== undefined && under.to - b.endMm >= pointMm + 1;
}
