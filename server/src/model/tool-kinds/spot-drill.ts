/** Spotting drills. */
import { angle, map, optional } from '../schema/common';
import type { Drill } from './drills';
import { diameter, fluteLength, gripped, kind } from './fields';
import { byFlutes, inChuck, noDisc, nothingToCheck, type ToolKindHome } from './kind';
import type { ToolReader } from './reader';

const schema = map(
  {
    kind: kind('spot-drill', 'Short and stiff: marks the place for the drill, breaks the edge of small holes.'),
    diameter: diameter('Diameter.', '8'),
    'flute-length': fluteLength('twice the diameter'),
    point: optional(angle('Included angle of the point.', { example: '90', fallback: '90' })),
    ...gripped('hss'),
  },
  'A spotting drill.',
);

function read(r: ToolReader) {
  const d = r.diameter();
  if (d === undefined) return undefined;
  const fluteLengthMm = r.size('flute-length', () => 2 * d, 'twice the diameter, common practice');
  return { ...r.base(d, 'hss'), kind: 'spot-drill' as const, fluteLengthMm, pointDeg: r.angle('point', 90, 180) };
}

export const spotDrill: ToolKindHome<Drill & { readonly kind: 'spot-drill' }> = {
  form: 'spot',
  schema,
  read,
  check: nothingToCheck,
  reachMm: byFlutes,
  body: ({ diameterMm, fluteLengthMm }) => inChuck(diameterMm, fluteLengthMm),
  disc: noDisc,
};
