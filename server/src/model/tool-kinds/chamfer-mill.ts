/** Pointed mills that break edges along any outline. */
import { angle, length, map, optional } from '../schema/common';
import { type ChamferMill, checkTip, readCone } from './cones';
import { diameter, gripped, kind, reach, toothed } from './fields';
import { byReach, inChuck, noDisc, type ToolKindHome } from './kind';
import type { ToolReader } from './reader';

const schema = map(
  {
    kind: kind('chamfer-mill', 'A pointed mill for breaking edges along any outline.'),
    diameter: diameter('Largest diameter of the cone.', '8'),
    angle: optional(angle('Included angle.', { example: '90', fallback: '90' })),
    tip: optional(length('Diameter of its flat tip.', { example: '1', fallback: '0' })),
    reach: reach('the diameter'),
    ...toothed,
    ...gripped('carbide'),
  },
  'A chamfer mill.',
);

const read = (r: ToolReader) => readCone(r, 'chamfer-mill', 'carbide');

export const chamferMill: ToolKindHome<ChamferMill & { readonly kind: 'chamfer-mill' }> = {
  form: 'cone',
  schema,
  read,
  check: checkTip,
  reachMm: byReach,
  body: ({ diameterMm, reachMm }) => inChuck(diameterMm, reachMm),
  disc: noDisc,
};
