/** hole/breaks-out – the side of a hole leaves through a wall. */
import { breaksOut as reachesOut } from '../../geometry/distance/faces';
import type { Void } from '../../geometry/types';
import { FACE_PLANE, type Face, type Hole } from '../../model/model';
import { type Opening, sideOpenings } from '../../process/drill-path';
import type { Bored } from '../../process/drilling';
import { change, edited } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { moveFeature, placeAfter, setLength } from '../kit/edits';
import { memberOf, memberPhrase, roundDown, roundUp, spanOf } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { holes, holesInSetup, sizeSpan } from './bores';

/** A hole that a drill leaves through a wall, or a counterbore that reaches beyond a face. */
interface Out {
  readonly b: Bored;
  readonly opening: Opening;
}
interface OpenSeat {
  readonly hole: Hole;
  readonly seat: Void;
  readonly face: Face;
  readonly byMm: number;
}

/** On the work as it is when the hole is drilled: with stock still beyond the wall the drill is held all round. */
function* outs(context: RuleContext): Generator<Out> {
  for (const [hole, bores] of holesInSetup(context)) {
    if (hole.tilt) continue;
    for (const { b } of bores) {
      const opening = sideOpenings(b).find((o) => !o.to && o.beyondMm > context.limit('beyond'));
      if (opening) yield { b, opening };
    }
  }
}

const BAD = `part: rail
material: aluminium-6061-t6
body: { x: 60, y: 20, z: 10 }
features:
  tie:
    kind: hole
    face: top
    at: { x: center, y: 2 }
    diameter: 6
    depth: through
`;

export const breaksOut: Rule = defineRule({
  name: 'hole/breaks-out',
  severity: 'warning',
  summary: 'The side of a hole breaks out through a wall of the part.',
  why: 'A drill that cuts on one side only is pushed to the open side. It wanders, grabs and breaks, and leaves a sharp torn edge. Mill a half-open hole as a slot, or drill it before the wall is cut away.',
  formula:
    'How far the side of the hole is outside the material, and over what length. The drill still cuts on the other side there. The material is that of the moment of drilling; without set-ups, the finished part. A hole whose middle lies outside is told so: no drill starts there. A counterbore that reaches beyond a face is milled without harm: a hint.',
  limits: [
    {
      name: 'beyond',
      value: 0.02,
      unit: 'mm',
      what: 'How far a hole may graze a wall before it counts as broken out.',
      source: 'common practice, no source',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['y: 2 }', 'y: 6 }']),
  mends: 'Make the hole smaller, or move it in until a whole diameter of material stays beside it.',
  *find(context): Generator<Out | OpenSeat> {
    const all = [...outs(context)];
    yield* all;
    yield* openSeats(new Set(all.map((o) => o.b.hole)), context);
  },
  tell: (hit, context) => ('seat' in hit ? tellSeat(hit, context) : tellOut(hit, context)),
  keep(hit) {
    if ('seat' in hit) return undefined;
    const { b, opening } = hit;
    // Away from the wall along those axes of the face in which it stands off by more than a graze.
    const away = FACE_PLANE[b.hole.face].map((axis) => {
      const i = 'xyz'.indexOf(axis);
      const d = b.axis[i]! - opening.at[i]!;
      return Math.abs(d) > 0.3 * b.hole.diameter.mm ? Math.sign(d) : 0;
    });
    return { of: b.hole.name, member: b.of.member, beyondMm: opening.beyondMm, away };
  },
  *mend({ of, member, beyondMm, away }, { part, length, tree }) {
    const hole = part.featureByName.get(of);
    if (hole?.kind !== 'hole') return;
    const by = roundUp(beyondMm + Math.max(1, hole.diameter.mm / 2), part.units);
    const [du, dv] = [away[0]! * by, away[1]! * by];
    const to = placeAfter({ tree, part }, hole, [du, dv], member);
    yield change(
      `Move it to ${to}`,
      to === undefined ? undefined : moveFeature({ tree, part }, hole, [du, dv], member),
    );
    const smaller = roundDown(hole.diameter.mm - 2 * beyondMm - 1.6, part.units);
    const edit = smaller >= 1 && hole.diameterGiven ? setLength(hole.diameter, smaller, part) : undefined;
    yield change(`Make it ${length(smaller)} in diameter`, edit);
  },
});

function tellOut({ b: { hole, of }, opening }: Out, { length, part, about }: RuleContext): Told {
  const { axisOutMm } = opening;
  const whose = memberPhrase(part, memberOf(of));
  return {
    message: axisOutMm
      ? `The middle of ${whose} is ${about(axisOutMm)} outside the part, where no drill starts. Move it in by more than ${about(opening.beyondMm)}, or mill a slot.`
      : `The side of ${whose} is ${about(opening.beyondMm)} outside the part, over a length of ${about(opening.lengthMm)}. The drill cuts on one side only and is pushed out. Move it in by more than ${about(opening.beyondMm)}, or make it a slot.`,
    has: `${about(opening.beyondMm)} outside`,
    of: [memberOf(of)],
    span: spanOf(hole, 'at', 'diameter'),
    related: [{ span: sizeSpan(hole), message: `diameter ${length(hole.diameter.mm)}` }],
    facts: {
      outside_mm: opening.beyondMm,
      ...(axisOutMm && { axis_out_mm: axisOutMm }),
      length_mm: opening.lengthMm,
      diameter_mm: hole.diameter.mm,
    },
    at: [opening.at],
  };
}

/** Milled without harm: a hint. */
function tellSeat({ hole, seat, face, byMm }: OpenSeat, { part, about }: RuleContext): Told {
  return {
    severity: 'hint',
    message: `The counterbore of ${memberPhrase(part, memberOf(seat))} reaches ${about(byMm)} beyond the ${face} face. The head is not supported there and may stick out of the part. Move the hole in by more than ${about(byMm)} to support the whole head.`,
    has: `${about(byMm)} beyond`,
    of: [memberOf(seat)],
    span: hole.counterbore!.span,
    facts: { outside_mm: byMm, face },
  };
}

/** Counterbores that run out over a face beside them, where the hole itself does not. */
function* openSeats(told: ReadonlySet<Hole>, context: RuleContext): Generator<OpenSeat> {
  const { solid, limit } = context;
  for (const [hole] of holes(context)) {
    if (!hole.counterbore || told.has(hole)) continue;
    const open = solid
      .voidsOf(hole.name)
      .filter((v) => v.role === 'counterbore')
      .flatMap((seat) => reachesOut(seat, solid.body).map((out) => ({ hole, seat, ...out })))
      .filter((o) => o.byMm > limit('beyond'))
      .sort((a, b) => b.byMm - a.byMm);
    if (open[0]) yield open[0];
  }
}
