/** Balls on a thin neck: they reach under an edge. */
import { length, map } from '../schema/common';
import { diameter, flutes, gripped, kind, neck, shank, toothed } from './fields';
import { byReach, noDisc, type ToolKindHome } from './kind';
import type { ToolReader } from './reader';
import { checkNeck, onNeck, readUndercutter, type UndercutMill } from './undercutters';

const schema = map(
  {
    kind: kind('ball-undercutter', 'A ball on a thin neck: reaches under an edge.'),
    diameter: diameter('Diameter of the ball.', '6'),
    neck,
    reach: length('From the tip to where something wider than the neck begins.', { example: '20' }),
    flutes: flutes('2'),
    shank: shank('as thick as its head where it passes, as its neck where it is gripped'),
    ...toothed,
    ...gripped('carbide'),
  },
  'A ball undercutter.',
);

function read(r: ToolReader) {
  const d = r.diameter();
  return d === undefined
    ? undefined
    : readUndercutter(r, 'ball-undercutter', d, { material: 'carbide', flutes: 2, thicknessMm: d });
}

export const ballUndercutter: ToolKindHome<UndercutMill & { readonly kind: 'ball-undercutter' }> = {
  form: 'head',
  schema,
  read,
  check: checkNeck,
  reachMm: byReach,
  body: onNeck,
  disc: noDisc,
};
