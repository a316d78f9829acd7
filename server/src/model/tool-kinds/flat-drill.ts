/** Drills with a flat end. */
import { map } from '../schema/common';
import type { Drill } from './drills';
import { diameter, fluteLength, gripped, kind } from './fields';
import { byFlutes, inChuck, noDisc, nothingToCheck, type ToolKindHome } from './kind';
import type { ToolReader } from './reader';

const schema = map(
  {
    kind: kind('flat-drill', 'A drill with a flat end: for flat-bottomed holes.'),
    diameter: diameter('Diameter.', '6'),
    'flute-length': fluteLength('three times the diameter'),
    ...gripped('carbide'),
  },
  'A flat-bottom drill.',
);

function read(r: ToolReader) {
  const d = r.diameter();
  if (d === undefined) return undefined;
  const fluteLengthMm = r.size('flute-length', () => 3 * d, 'three times the diameter, common practice');
  return { ...r.base(d, 'carbide'), kind: 'flat-drill' as const, fluteLengthMm, pointDeg: 180 };
}

export const flatDrill: ToolKindHome<Drill & { readonly kind: 'flat-drill' }> = {
  form: 'drill',
  hole: 'as-wide',
  schema,
  read,
  check: nothingToCheck,
  reachMm: byFlutes,
  body: ({ diameterMm, fluteLengthMm }) => inChuck(diameterMm, fluteLengthMm),
  disc: noDisc,
};
