/** Cones for the rims of holes: flat heads, deburring. */
import { angle, length, map, optional } from '../schema/common';
import { type ChamferMill, checkTip, readCone } from './cones';
import { diameter, gripped, kind, reach } from './fields';
import { byReach, inChuck, noDisc, type ToolKindHome } from './kind';
import type { ToolReader } from './reader';

const schema = map(
  {
    kind: kind('countersink', 'A cone for the rims of holes: flat heads, deburring.'),
    diameter: diameter('Largest diameter of the cone.', '16.5'),
    angle: optional(
      angle('Included angle: 90 for metric flat heads, 82 for inch ones.', {
        example: '90',
        fallback: '90',
      }),
    ),
    tip: optional(length('Smallest hole it starts in.', { example: '3', fallback: '0' })),
    reach: reach('the diameter'),
    ...gripped('hss'),
  },
  'A countersink.',
);

const read = (r: ToolReader) => readCone(r, 'countersink', 'hss');

export const countersink: ToolKindHome<ChamferMill & { readonly kind: 'countersink' }> = {
  form: 'cone',
  schema,
  read,
  check: checkTip,
  reachMm: byReach,
  body: ({ diameterMm, reachMm }) => inChuck(diameterMm, reachMm),
  disc: noDisc,
};
