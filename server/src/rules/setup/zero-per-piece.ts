/** setup/zero-per-piece – pieces of a batch held so that zero must be set anew for each. */

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
  const { inTime: s, inVise: h, hold } = x;
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
    `Set-up ${x.inTime.setup.name} sets z zero on ${zero.name}. Bars differ in thickness, so you must set it again for each of ${all}. Set z zero on the parallels: once is enough.`,
  moving: ({ x, axis, zero }, all) =>
    `Set-up ${x.inTime.setup.name} sets ${axis} zero on ${zero.name}, at the moving jaw. It is in another place for each of ${all}. Set zero on ${x.inVise.fixed} at the fixed jaw, or turn ${zero.name} to it.`,
  stop: ({ x, axis }, all) =>
    `Set-up ${x.inTime.setup.name} has no stop. Each of ${all} is in another place along the jaws, so you must set ${axis} zero again. Add a stop: once is enough.`,
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

export const zeroPerPiece: Rule = defineRule({
  name: 'setup/zero-per-piece',
  severity: 'hint',
  summary: 'Zero must be set again for every piece of a batch.',
  why: 'Fixed jaw, parallels and stop do not move from piece to piece. With zero on them you set it once for the batch. With zero on the workpiece you set it for every piece, and every time it may go wrong.',
  formula:
    'For a quantity over 1, in a vise. Repeatable are: z zero on the parallels, zero at the fixed jaw, zero at a stop.',
  bounds: 'The part’s `quantity` and the set-ups as written.',
  limits: [],
  bad: sample('top', ', stop: left'),
  good: sample('parallels', ', stop: left'),
  mends: 'Set zero on the parallels or at the fixed jaw, or add a stop at the end with the zero.',
  *find(context) {
    const { part } = context;
    if (part.quantity <= 1) return;
    for (const x of heldOf(context)) yield* anew(x);
  },
  tell(hit, { part }) {
    const { why, axis, zero, x } = hit;
    return {
      message: MESSAGES[why](hit, `${part.quantity} pieces`),
      of: [],
      span: why === 'stop' ? x.hold.span : zero.span,
      facts: { set_up: x.inTime.setup.name, quantity: part.quantity, why, zero: zero.name, axis },
    };
  },
  keep: ({ why, axis, zero, x }) => ({ why, axis, zero: zero.name, setup: x.inTime.index }),
  *mend({ why, axis, zero, setup: index }, context) {
    const s = setupsIn(context)[index];
    if (!s) return;
    const { setup } = s;
    if (why === 'height') yield change(`Set ${axis} zero on the parallels`, setZero(context, setup, axis, 'parallels'));
    if (why === 'moving') {
      const other = OPPOSITE[zero as Face];
      yield change(`Put ${zero} against the fixed jaw`, setHold(context, setup, 'jaws', `[${zero}, ${other}]`));
      yield change(`Set ${axis} zero on ${other}`, setZero(context, setup, axis, other));
    }
    if (why === 'stop') {
      const ends = FACES.filter((f) => FACE_AXIS[f].axis === axis && !s.cuts.some((c) => c.face === f));
      for (const end of ends.sort((a, b) => Number(b === zero) - Number(a === zero)))
        yield change(`Add a stop at ${end}`, setHold(context, setup, 'stop', end));
    }
  },
});
