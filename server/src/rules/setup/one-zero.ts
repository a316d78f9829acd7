/** setup/one-zero – pieces of a batch held so that zero must be set anew for each. */

import { type Axis, FACE_AXIS, FACES, type Face, type Named, OPPOSITE } from '../../model/model';
import { heldOf, type InJaws } from '../../process/workholding/in-jaws';
import { isFace } from '../../process/workholding/references';
import { change } from '../kit/changes';
import { defineRule } from '../kit/define';
import { setHold } from '../kit/holds';
import type { Rule } from '../kit/rule';
import { heightZero, setupsIn, setZero } from '../kit/setups';

/** What zero is taken from, on an axis along which it must be set anew for each piece. */
interface Anew {
  readonly why: 'height' | 'moving' | 'stop';
  readonly axis: Axis;
  readonly zero: Named;
  readonly x: InJaws;
}

function* anew(x: InJaws): Generator<Anew> {
  const { s, h, hold } = x;
  const { zero } = s.setup;
  const height = heightZero(s);
  if (height && height.name === s.up) yield { why: 'height', axis: FACE_AXIS[s.up].axis, zero: height, x };
  const across = zero[nameOf(h.jawAxis)];
  if (across && across.name === h.moving) yield { why: 'moving', axis: nameOf(h.jawAxis), zero: across, x };
  const along = zero[nameOf(h.alongAxis)];
  if (along && !hold.stop && isFace(along.name)) yield { why: 'stop', axis: nameOf(h.alongAxis), zero: along, x };
}

const MESSAGES: Record<Anew['why'], (hit: Anew, all: string) => string> = {
  height: ({ x, zero }, all) =>
    `${x.s.setup.name} takes its height from ${zero.name}, and bars differ in thickness: for each of ${all} it must be set anew. The parallels stay where they are; zero there holds for all.`,
  moving: ({ x, axis, zero }, all) =>
    `${x.s.setup.name} takes ${axis} from ${zero.name}, which the moving jaw presses on: it stands elsewhere on each of ${all}. The fixed jaw stays where it is; take zero from ${x.h.fixed}, or turn the work so that ${zero.name} is against the fixed jaw.`,
  stop: ({ x, axis }, all) =>
    `${x.s.setup.name} has no stop: each of ${all} lies elsewhere along the jaws, and ${axis} must be set anew. Against a stop, zero holds for all.`,
};

function nameOf(axis: 0 | 1 | 2): Axis {
  return (['x', 'y', 'z'] as const)[axis];
}

const sample = (z: string, stop: string) => `part: guide
material: aluminium-6061-t6
quantity: 6
body: { x: 60, y: 40, z: 20 }
features:
  seat: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 24, y: 16 }, corner-radius: 6, depth: 5 }
setups:
  first:
    up: top
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22${stop} }
    zero: { x: left, y: back, z: ${z} }
    cuts: [seat]
`;

export const oneZero: Rule = defineRule({
  name: 'setup/one-zero',
  severity: 'hint',
  summary: 'Pieces of a batch for which zero must be set anew each time.',
  why: 'Fixed jaw, parallels and stop stay where they are from piece to piece. With zero on them a batch is set once; with zero on the work it is set for every piece, and every setting is a chance to be wrong.',
  formula:
    'For a quantity over 1, in a vise: the height from the parallels, across from the fixed jaw’s side, along against a stop.',
  limits: [],
  bad: sample('top', ', stop: left'),
  good: sample('parallels', ', stop: left'),
  mends: 'Zero on the parallels or the fixed jaw’s side; a stop at the end that zero is taken from.',
  *find({ part, solid, shop }) {
    if (part.quantity <= 1) return;
    for (const x of heldOf(part, solid, shop)) yield* anew(x);
  },
  tell(hit, { part }) {
    const { why, axis, zero, x } = hit;
    return {
      message: MESSAGES[why](hit, `${part.quantity} pieces`),
      of: [],
      span: why === 'stop' ? x.hold.span : zero.span,
      facts: { set_up: x.s.setup.name, quantity: part.quantity, why, zero: zero.name, axis },
    };
  },
  keep: ({ why, axis, zero, x }) => ({ why, axis, zero: zero.name, setup: x.s.index }),
  *mend({ why, axis, zero, setup: index }, context) {
    const s = setupsIn(context)[index];
    if (!s) return;
    const { setup } = s;
    if (why === 'height') yield change(`Take ${axis} from the parallels`, setZero(context, setup, axis, 'parallels'));
    if (why === 'moving') {
      const other = OPPOSITE[zero as Face];
      yield change(`Put ${zero} against the fixed jaw`, setHold(context, setup, 'jaws', `[${zero}, ${other}]`));
      yield change(`Take ${axis} from ${other}`, setZero(context, setup, axis, other));
    }
    if (why === 'stop') {
      const ends = FACES.filter((f) => FACE_AXIS[f].axis === axis && !s.cuts.some((c) => c.face === f));
      for (const end of ends.sort((a, b) => Number(b === zero) - Number(a === zero)))
        yield change(`A stop at ${end}`, setHold(context, setup, 'stop', end));
    }
  },
});
