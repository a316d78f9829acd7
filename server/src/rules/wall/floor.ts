import type { Region, Wall } from '../../geometry/types';
import { memo } from '../../memo';
import { heldEdges, plateDeflection } from '../../process/cutting/plates';
import { SAME } from '../../tolerance';
import { edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { roundUp, trimmed } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { inscribedDiameter } from './inscribed';
import { heldWords, plateOf } from './plates';
import { thicken } from './thicken';
import { BENDS_MM, isVoid, pairsOf, placesOf, seenAs, wallsBelow, whereOf, widestMm } from './walls';

const BAD = `part: cover
units: mm
material: aluminium-6061-t6
body: { x: 90, y: 70, z: 8 }
features:
  inside:
    kind: pocket
    face: top
    at: { x: center, y: center }
    size: { x: 78, y: 58 }
    corner-radius: 6
    depth: 7
`;

export const floor: Rule = defineRule({
  name: 'wall/floor',
  severity: 'warning',
  summary: 'A floor too thin for its width: it vibrates under the cutter.',
  why: 'A wide thin floor lifts towards the cutter and vibrates. It comes out wavy and thicker in the middle. The last pass may pull it up and cut through it.',
  formula:
    'Ratio = width / thickness. The width is the largest circle that fits on the floor between its islands. A floor with an open side counts as wide as a closed floor that bends as much. Where a recess lies on the other side, the smaller of the two counts.',
  limits: [
    {
      name: 'ratio',
      value: 40,
      unit: 'ratio',
      what: 'Width over thickness above which a floor vibrates.',
      source: 'common practice, no source',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['depth: 7', 'depth: 6']),
  *find(context) {
    const { solid, limit } = context;
    const most = limit('ratio');
    const floors = wallsBelow(context, Math.max(widestMm(solid) / most, BENDS_MM), { bending: true }).filter(
      (w) => w.type === 'floor',
    );
    const spans = new Map(floors.map((w) => [w, spanOf(w, context)]));
    const ratioOf = (w: Wall) => (spans.get(w)?.asMm ?? 0) / w.thicknessMm;
    const drums = floors.filter((w) => ratioOf(w) > most + SAME);
    for (const { wall } of pairsOf(drums, (w) => -ratioOf(w))) {
      const span = spans.get(wall)!;
      yield { wall, span, ratio: Math.round(ratioOf(wall)), neededMm: span.asMm / most };
    }
  },
  tell({ wall, span: { acrossMm, asMm, edges }, ratio, neededMm }, { part, limit, length, about }) {
    const most = limit('ratio');
    return {
      message: `The floor ${whereOf(wall, part)} is ${about(wall.thicknessMm)} thick, ${about(acrossMm)} wide${edges < 4 ? `, ${heldWords(edges)} (like ${trimmed(asMm, 0)} mm)` : ''}. Over ${most} times its thickness (here ${ratio}) it vibrates (rule of thumb). Make it ${length(roundUp(neededMm, part.units))} thick, or support it.`,
      has: `${about(wall.thicknessMm)} thick`,
      needs: about(neededMm),
      ...placesOf(wall, part),
      facts: {
        thickness_mm: wall.thicknessMm,
        across_mm: acrossMm,
        held_edges: edges,
        as_mm: edges < 4 ? asMm : undefined,
        ratio,
        limit: most,
        needed_mm: neededMm,
      },
    };
  },
  mends: 'Make the recess shallower, or the body thicker.',
  keep: ({ wall, neededMm }) => ({ wall: seenAs(wall), neededMm }),
  mend: ({ wall, neededMm }, context) => thicken(wall, neededMm, context),
});

const circleOf = memo((region: Region): number => inscribedDiameter(region));

interface Span {
  readonly acrossMm: number;
  /** Across a floor held all round that gives way as much. */
  readonly asMm: number;
  readonly edges: number;
}

function spanOf(wall: Wall, context: RuleContext): Span {
  const { a, b } = wall;
  const acrossMm = Math.min(circleOf(a.region), isVoid(b) ? circleOf(b.region) : Number.POSITIVE_INFINITY);
  // What is thick for its span even on one edge need not be followed.
  const plate = acrossMm * LIMPEST > context.limit('ratio') * wall.thicknessMm ? plateOf(wall, context) : undefined;
  if (!plate) return { acrossMm, asMm: acrossMm, edges: 4 };
  const edges = heldEdges(plate);
  if (edges === 4) return { acrossMm, asMm: acrossMm, edges };
  const round = plateDeflection({ ...plate, held: ALL }, 1, 1)!;
  const own = plateDeflection(plate, 1, 1, true) ?? round;
  // An outline that runs out of the body is wider than the floor it leaves.
  const inBodyMm = Math.min(acrossMm, ...plate.sidesMm);
  return { acrossMm: inBodyMm, asMm: inBodyMm * Math.sqrt(own / round), edges };
}

const ALL = [
  [true, true],
  [true, true],
] as const;
/** How much wider a floor held all round may be than one with a free corner: √(0.424 / 0.00725), and some for narrow ones. */
const LIMPEST = 8;
