/** setup/opposite-zero – turned over, zero is taken from the other side, and the bar's own size stands between. */

import { type Axis, FACE_AXIS, type Named, OPPOSITE } from '../../model/model';
import type { SetupInTime } from '../../process/stock/types';
import { isFace, stateOf } from '../../process/workholding/references';
import { change } from '../kit/changes';
import { defineRule } from '../kit/define';
import { list } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { setupsIn, setZero } from '../kit/setups';

/** What an earlier set-up cut that a finder can be put to with another face up: upright bores, and faces beside. */
function carriers(a: SetupInTime, b: SetupInTime, axis: Axis): readonly string[] {
  return a.cuts.flatMap(({ feature, face }) => {
    if (face) return FACE_AXIS[face].axis === axis ? [face] : [];
    const along = b.up && feature && FACE_AXIS[feature.face].axis === FACE_AXIS[b.up].axis;
    return feature?.kind === 'hole' && feature.depth.through && along && feature.places.length === 1
      ? [feature.name]
      : [];
  });
}

interface Flip {
  readonly axis: Axis;
  readonly zero: Named;
  /** What zero was taken from, and the set-up that did. */
  readonly was: Named;
  readonly a: SetupInTime;
  readonly b: SetupInTime;
  readonly carry: readonly string[];
}

function* flips(context: RuleContext): Generator<Flip> {
  const { part, solid } = context;
  const setups = setupsIn(context);
  for (const [j, b] of setups.entries()) {
    for (const axis of ['x', 'y', 'z'] as const) {
      const zero = b.setup.zero[axis];
      const a = setups.slice(0, j).findLast((s) => isFace(s.setup.zero[axis]?.name));
      const was = a?.setup.zero[axis];
      if (!a || !was || !isFace(zero?.name) || zero.name !== OPPOSITE[was.name as keyof typeof OPPOSITE]) continue;
      // Along the spindle depths are meant from either side; what is cut by then was measured from the other.
      if ([a, b].some((s) => s.up && FACE_AXIS[s.up].axis === axis)) continue;
      const state = stateOf(zero.name, b, 0, part, solid);
      if (state === 'cut' || b.cuts.some((c) => c.face === zero.name)) continue;
      if (!a.cuts.some((c) => c.feature) || !b.cuts.some((c) => c.feature)) continue;
      yield { axis, zero, was, a, b, carry: carriers(a, b, axis) };
    }
  }
}

const sample = (x: string) => `part: guide
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 20 }
features:
  pivot: { kind: hole, face: top, at: { x: 20, y: center }, diameter: 8, depth: through }
  under: { kind: pocket, face: bottom, at: { x: 40, y: center }, size: { x: 20, y: 16 }, corner-radius: 6, depth: 5 }
setups:
  first:
    up: top
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22, stop: left }
    zero: { x: left, y: back, z: parallels }
    cuts: [pivot]
  second:
    up: bottom
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22, stop: left }
    zero: { x: ${x}, y: back, z: parallels }
    cuts: [under]
`;

export const oppositeZero: Rule = defineRule({
  name: 'setup/opposite-zero',
  severity: 'hint',
  summary: 'A later set-up sets zero on the opposite face.',
  why: 'Bars are not exactly as long or wide as their name says. With zero on the left first and on the right later, the error of the bar is between the cuts. The same face, or a bore of the first set-up, carries zero over.',
  formula:
    'Across the spindle, zero is on the face opposite to the one before, and neither was cut by then. Also listed: faces and through bores of the earlier set-up that could carry zero over.',
  bounds: 'The set-ups as written. What it costs is checked by tol/as-set-up.',
  limits: [],
  bad: sample('right'),
  good: sample('left'),
  mends: 'Use the same face again, or a feature that the earlier set-up cut.',
  find: flips,
  tell({ axis, zero, was, a, b, carry }) {
    return {
      message: `Set-up ${b.setup.name} sets ${axis} zero on ${zero.name}, ${a.setup.name} on ${was.name}. The size of the bar, with its tolerance, is between their cuts. Set it on ${was.name} again${carry.length > 0 ? `, or on ${list(carry.slice(0, 3), 'or')}, cut in ${a.setup.name}` : ''}.`,
      has: zero.name,
      needs: was.name,
      of: [],
      span: zero.span,
      related: [{ span: was.span, message: `${a.setup.name} sets it here` }],
      facts: {
        set_up: b.setup.name,
        from_set_up: a.setup.name,
        axis,
        zero: zero.name,
        was: was.name,
        carries: carry.length > 0 ? carry.join(' ') : undefined,
      },
    };
  },
  keep: ({ axis, was, b, carry }) => ({ setup: b.index, axis, from: [was.name, ...carry] }),
  *mend({ setup, axis, from }, context) {
    const s = setupsIn(context)[setup];
    for (const to of s ? from : []) yield change(`Set ${axis} zero on ${to}`, setZero(context, s!.setup, axis, to));
  },
});
