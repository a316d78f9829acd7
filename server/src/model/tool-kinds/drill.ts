/** Twist drills. */
import { jobberFluteMm } from '../../tables/tool-lengths';
import { angle, map, optional } from '../schema/common';
import type { Drill } from './drills';
import { diameter, fluteLength, gripped, kind } from './fields';
import { byFlutes, inChuck, noDisc, type ToolKindHome } from './kind';
import type { ToolReader } from './reader';

const schema = map(
  {
    kind: kind('drill', 'A twist drill.'),
    diameter: diameter('Diameter.', '4.2'),
    'flute-length': fluteLength('jobber length, DIN 338'),
    point: optional(angle('Included angle of the point.', { example: '118', fallback: '118' })),
    ...gripped('hss'),
  },
  'A twist drill.',
  { example: '{ kind: drill, diameter: 4.2, flute-length: 43, point: 118, material: hss }' },
);

function read(r: ToolReader) {
  const d = r.diameter();
  if (d === undefined) return undefined;
  const fluteLengthMm = r.size('flute-length', () => jobberFluteMm(d), 'DIN 338, from memory');
  return { ...r.base(d, 'hss'), kind: 'drill' as const, fluteLengthMm, pointDeg: r.angle('point', 118, 180) };
}

export const drill: ToolKindHome<Drill & { readonly kind: 'drill' }> = {
  form: 'drill',
  hole: 'as-wide',
  schema,
  read,
  check: ({ pointDeg }, tell) => {
    if (pointDeg >= 60 && pointDeg <= 180) return;
    tell(
      'point',
      `A drill’s point of ${Number(pointDeg.toFixed(1))}° is not ground. Write 90° to 140°, or \`kind: flat-drill\` for a flat one.`,
    );
  },
  reachMm: byFlutes,
  body: ({ diameterMm, fluteLengthMm }) => inChuck(diameterMm, fluteLengthMm),
  disc: noDisc,
};
