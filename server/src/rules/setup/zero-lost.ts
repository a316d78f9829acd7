/** setup/zero-lost – what zero was set from is cut away, or as the saw left it. */

import { AXIS_INDEX } from '../../geometry/vector';
import { type Axis, FACE_AXIS, type Face, OPPOSITE } from '../../model/model';
import { crossOf } from '../../process/stock';
import type { SetupInTime } from '../../process/stock/types';
import { isFace, stateOf } from '../../process/workholding/references';
import { NEAR } from '../../tolerance';
import { change } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import type { Rule, RuleContext } from '../kit/rule';
import { heightZero, reordered, setupsIn, setupsToJudge, setZero } from '../kit/setups';

/** Nothing is left in the plane of a face of the body. */
function isGone(face: Face, { before }: SetupInTime, { solid }: RuleContext): boolean {
  const { axis, sign } = FACE_AXIS[face];
  const i = AXIS_INDEX[axis];
  const at = sign > 0 ? solid.body.box.max[i] : solid.body.box.min[i];
  return crossOf(before, i, at - sign * NEAR).regions?.length === 0;
}

interface Lost {
  readonly s: SetupInTime;
  readonly axis: Axis;
  readonly face: Face;
  readonly report: Told;
}

function* lost(s: SetupInTime, context: RuleContext): Generator<Lost> {
  const { part, solid } = context;
  for (const axis of ['x', 'y', 'z'] as const) {
    const zero = s.setup.zero[axis];
    if (!isFace(zero?.name)) continue;
    const face = zero.name;
    const say = (severity: Told['severity'], why: string, message: string): Lost => {
      const told: Told = {
        severity,
        message,
        of: [face],
        span: zero.span,
        related: s.cuts.filter((c) => c.face === face).map((c) => ({ span: c.span, message: 'cut here' })),
        facts: { set_up: s.setup.name, axis, zero: face, why },
      };
      return { s, axis, face, report: told };
    };
    const own = s.cuts.find((c) => c.face === face && c.removes.length > 0);
    const early = own && s.cuts.find((c) => c.feature && c.order < own.order);
    const state = stateOf(face, s, 0, part, solid);
    if (own && early)
      yield say(
        'warning',
        'cut',
        `Set-up ${s.setup.name} sets ${axis} zero on ${face}, and cuts ${face} after ${early.name}. What follows is measured from another plane. Cut ${face} first and set zero then${heightZero(s) === zero ? ', or set z zero on the parallels' : ''}.`,
      );
    else if ((state === 'cut' || state === 'supplied') && !own && isGone(face, s, context))
      yield say(
        'warning',
        'gone',
        `Set-up ${s.setup.name} sets ${axis} zero on ${face}. Nothing of this face is left by then. Set zero on a face or feature that is there.`,
      );
    else if (state === 'sawn' && !own && !toleranced(s, context))
      yield say(
        'hint',
        'sawn',
        `Set-up ${s.setup.name} sets ${axis} zero on the ${face} face, which is sawn. A sawn face is too rough for a repeatable zero. Face it first${betterFace(face, s, context)}.`,
      );
  }
}

/** The opposite one, where the saw has not left that too. */
function betterFace(face: Face, s: SetupInTime, { part, solid }: RuleContext): string {
  const other = OPPOSITE[face];
  return stateOf(other, s, 0, part, solid) === 'sawn' ? '' : `, or set ${FACE_AXIS[face].axis} zero on ${other}`;
}

/** Told by hold/on-sawn then. */
function toleranced(s: SetupInTime, { part }: RuleContext): boolean {
  return part.tolerances.some((t) => t.of.some((n) => s.cuts.some((c) => c.feature && n.name.startsWith(c.name))));
}

const sample = (cuts: string) => `part: guide
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 20 }
stock: { form: flat-bar, extra: { right: 2 } }
features:
  seat: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 24, y: 16 }, corner-radius: 6, depth: 5 }
setups:
  first:
    up: top
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22, stop: left }
    zero: { x: right, y: back, z: parallels }
    cuts: ${cuts}
`;

export const zeroLost: Rule = defineRule({
  name: 'setup/zero-lost',
  severity: 'warning',
  summary: 'The face with zero is cut away, or sawn.',
  why: 'Zero is set again after a broken cutter, the next morning, on the next piece. On a face that is gone or sawn it is then somewhere else.',
  formula:
    'A face with zero is cut before any feature of its set-up, or not in it at all. Something of it is left when the set-up begins, and it is not sawn.',
  bounds: 'The set-ups as written: zero needs a face that is still there, and not sawn.',
  limits: [],
  bad: sample('[seat, right]'),
  good: sample('[right, seat]'),
  mends: 'Set zero on the opposite face or on the parallels, or cut the face first.',
  *find(context) {
    for (const s of setupsToJudge(context)) yield* lost(s, context);
  },
  tell: ({ report: told }) => told,
  keep: ({ s, axis, face }) => ({ setup: s.index, axis, face }),
  *mend({ setup, axis, face }, context) {
    const s = setupsIn(context)[setup];
    if (!s) return;
    const upright = s.up && FACE_AXIS[s.up].axis === axis;
    const [to, name] = upright ? ['parallels', 'the parallels'] : [OPPOSITE[face], OPPOSITE[face]];
    yield change(`Set ${axis} zero on ${name}`, setZero(context, s.setup, axis, to));
    const faced = s.setup.cuts.filter((c) => c.name === face);
    const rest = s.setup.cuts.filter((c) => c.name !== face);
    yield change(`Cut ${face} first`, reordered(s.setup, [...faced, ...rest], context));
  },
});
