/** hole/breaks-out – the side of a hole leaves through a wall. */
import { breaksOut as reachesOut } from '../../geometry/distance/faces';
import { FACE_AXIS, FACE_PLANE } from '../../model/model';
import { type Opening, sideOpenings } from '../../process/drill-path';
import type { Bored } from '../../process/drilling';
import { moveFeature, setLength } from '../kit/edits';
import { subjectOf } from '../kit/fields';
import { fact, memberOf, roundDown, roundUp, spanOf } from '../kit/message';
import type { Finding, Fix, Rule, RuleContext } from '../kit/rule';
import { holes, sizeSpan } from './judge';

const NAME = 'hole/breaks-out';

interface Out {
  readonly b: Bored;
  readonly opening: Opening;
}

function* outs(context: RuleContext): Generator<Out> {
  for (const [, bores] of holes(context)) {
    for (const b of bores) {
      const opening = sideOpenings(b, context.solid).find((o) => !o.to && o.beyondMm > context.limit('beyond'));
      if (opening) yield { b, opening };
    }
  }
}

export const breaksOut: Rule = {
  name: NAME,
  severity: 'warning',
  summary: 'The side of a hole comes out through a wall of the part.',
  why: 'A drill that cuts on one side only is pushed to the open side: it wanders, grabs and breaks, and leaves a sharp torn edge. A half-open hole is milled as a slot, or drilled before the wall is cut away.',
  formula:
    '`outside_mm` is how far the wall of the hole lies outside the material of the finished part, `length_mm` how long, while the drill still cuts on the other side. A counterbore that reaches beyond a face is milled without harm: a hint.',
  limits: [
    {
      name: 'beyond',
      value: 0.02,
      unit: 'mm',
      what: 'how far a hole may graze a wall before it counts as broken out',
      source: 'common practice, no source',
    },
  ],
  bad: `part: rail
material: aluminium-6061-t6
body: { x: 60, y: 20, z: 10 }
features:
  tie:
    kind: hole
    face: top
    at: { x: center, y: 2 }
    diameter: 6
    depth: through
`,
  good: `part: rail
material: aluminium-6061-t6
body: { x: 60, y: 20, z: 10 }
features:
  tie:
    kind: hole
    face: top
    at: { x: center, y: 6 }
    diameter: 6
    depth: through
`,
  mends: 'A smaller hole, or one moved in so that a whole diameter of material stays beside it.',
  *find(context): Generator<Finding> {
    for (const { b, opening } of outs(context)) {
      const { length } = context;
      const { hole } = b;
      yield {
        rule: NAME,
        severity: 'warning',
        message: `The side of the hole lies ${length(opening.beyondMm)} outside the part, over ${length(opening.lengthMm)}: the drill cuts on one side only and is pushed out. Move it in by more than ${length(opening.beyondMm)}, or make it a slot.`,
        of: [memberOf(b.of)],
        span: spanOf(hole, 'at', 'diameter'),
        related: [{ span: sizeSpan(hole), message: `${length(hole.diameter.mm)} across` }],
        facts: {
          outside_mm: fact(opening.beyondMm),
          length_mm: fact(opening.lengthMm),
          diameter_mm: fact(hole.diameter.mm),
        },
        at: [opening.at],
      };
    }
    yield* openSeats(context);
  },
  *mend(finding, context): Generator<Fix> {
    if (finding.severity === 'hint') return;
    const hole = subjectOf(finding, context.part);
    const out = [...outs(context)].find((o) => o.b.hole === hole);
    if (hole?.kind !== 'hole' || !out) return;
    const { part, length, tree, solid } = context;
    const { beyondMm, at } = out.opening;
    const [u, v] = FACE_PLANE[hole.face];
    const i = (axis: 'x' | 'y' | 'z') => 'xyz'.indexOf(axis);
    const away = [u, v].map((axis) => {
      const d = out.b.axis[i(axis)]! - at[i(axis)]!;
      return Math.abs(d) > 0.3 * hole.diameter.mm ? Math.sign(d) : 0;
    });
    const by = roundUp(beyondMm + Math.max(1, hole.diameter.mm / 2), part.units);
    const moved = moveFeature(tree, part, hole, away[0]! * by, away[1]! * by, out.b.of.member);
    const inside = solid.body.box.max[i(FACE_AXIS[hole.face].axis)] !== undefined;
    if (moved && inside) yield { title: `Move it in by ${length(by)}`, safe: false, edits: moved };
    const smaller = roundDown(hole.diameter.mm - 2 * beyondMm - 1.6, part.units);
    const edit = smaller >= 1 && hole.diameterGiven ? setLength(hole.diameter, smaller, part) : undefined;
    if (edit) yield { title: `Make it ${length(smaller)} across`, safe: false, edits: [edit] };
  },
};

/** Counterbores that run out over a face beside them, where the hole itself does not. Milled without harm: a hint. */
function* openSeats(context: RuleContext): Generator<Finding> {
  const { solid, length, limit } = context;
  const told = new Set([...outs(context)].map((o) => o.b.hole));
  for (const [hole] of holes(context)) {
    if (!hole.counterbore || told.has(hole)) continue;
    const open = solid
      .voidsOf(hole.name)
      .filter((v) => v.role === 'counterbore')
      .flatMap((v) => reachesOut(v, solid.body).map((out) => ({ v, ...out })))
      .filter((o) => o.byMm > limit('beyond'))
      .sort((a, b) => b.byMm - a.byMm);
    const [worst] = open;
    if (!worst) continue;
    yield {
      rule: NAME,
      severity: 'hint',
      message: `The counterbore reaches ${length(worst.byMm)} beyond the ${worst.face} face: the head’s seat is open there, and the head may stand out of the part. Move the hole in by more than that if the head is to be held all round.`,
      of: [memberOf(worst.v)],
      span: hole.counterbore.span,
      related: [],
      facts: { outside_mm: fact(worst.byMm), face: worst.face },
    };
  }
}
