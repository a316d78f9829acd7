import type { Region, Wall } from '../../geometry/types';
import { fact } from '../message';
import type { Finding, Rule } from '../rule';
import { inscribedDiameter } from './inscribed';
import { thicken } from './thicken';
import { isVoid, onePerPair, placesOf, seenAs, wallsBelow, whereOf, widestMm } from './walls';

export const floor: Rule = {
  name: 'wall/floor',
  severity: 'warning',
  summary: 'A floor too thin for its span: it drums.',
  why: 'A wide thin floor lifts toward the cutter and sings under it. It comes out wavy, thicker in the middle, and may be pulled up and cut through in the last pass.',
  formula:
    'ratio = span / thickness, the span being the largest circle that fits on the floor, islands left out (`across_mm`). Where a recess lies on the other side, the smaller of the two counts.',
  limits: [
    {
      name: 'ratio',
      value: 40,
      unit: 'ratio',
      what: 'Span over thickness above which a floor drums.',
      source: 'common practice, no source',
    },
  ],
  bad: `part: cover
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
`,
  good: `part: cover
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
    depth: 6
`,
  *find(context): Iterable<Finding> {
    const limit = context.limit('ratio');
    const floors = wallsBelow(context.solid, widestMm(context.solid) / limit, { bending: true }).filter(
      (w) => w.type === 'floor',
    );
    const drums = floors.filter((w) => ratioOf(w) > limit + 1e-6);
    for (const { wall } of onePerPair(drums, (w) => -ratioOf(w))) {
      const across = acrossOf(wall);
      const needed = across / limit;
      yield {
        rule: 'wall/floor',
        severity: 'warning',
        message: `The floor ${whereOf(wall)} is ${context.length(wall.thicknessMm)} thick and ${context.length(across)} across: ${Math.round(ratioOf(wall))} times its thickness, where over ${limit} it drums under the cutter (a rule of thumb). ${context.length(needed)} would do, or a rib or a support under it.`,
        ...placesOf(wall, context.part),
        facts: {
          thickness_mm: fact(wall.thicknessMm),
          across_mm: fact(across),
          ratio: Math.round(ratioOf(wall)),
          limit,
          needed_mm: fact(needed),
        },
        data: { wall: seenAs(wall), neededMm: needed },
      };
    }
  },
  mends: 'A shallower recess, or a thicker body.',
  *mend(finding, context) {
    const { wall, neededMm } = finding.data ?? {};
    if (wall && neededMm) yield* thicken(wall, neededMm, context);
  },
};

const spans = new WeakMap<Region, number>();
function spanOf(region: Region): number {
  const known = spans.get(region);
  if (known !== undefined) return known;
  const span = inscribedDiameter(region);
  spans.set(region, span);
  return span;
}

function acrossOf({ a, b }: Wall): number {
  return Math.min(spanOf(a.region), isVoid(b) ? spanOf(b.region) : Number.POSITIVE_INFINITY);
}
function ratioOf(wall: Wall): number {
  return acrossOf(wall) / wall.thicknessMm;
}
