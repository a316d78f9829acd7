/** Pointed or fine-tipped cutters for letters. */
import { angle, map, optional } from '../schema/common';
import { diameter, fluteLength, flutes, gripped, kind, reach, shank, toothed } from './fields';
import { byReach, noDisc, onShank, type ToolKindHome } from './kind';
import { checkMill, type Mill, readMill } from './mills';
import { PRACTICE, type ToolReader } from './reader';

const schema = map(
  {
    kind: kind('engraver', 'A pointed or fine-tipped cutter for letters.'),
    diameter: diameter('Width of the tip: the line it cuts.', '0.3'),
    angle: optional(angle('Included angle of the point.', { example: '60', fallback: '60' })),
    flutes: flutes('1'),
    'flute-length': fluteLength('2 mm'),
    reach: reach('the flute length'),
    shank: shank('the next usual shank, not under 6 mm'),
    ...toothed,
    ...gripped('carbide'),
  },
  'An engraving cutter.',
);

function read(r: ToolReader) {
  const d = r.diameter();
  if (d === undefined) return undefined;
  const fluteLengthMm = r.size('flute-length', () => 2, PRACTICE);
  const reachMm = r.size('reach', () => fluteLengthMm, 'the flute length');
  const angleDeg = r.angle('angle', 60, 180);
  // A corner nobody speaks of is square; the kind has no such field.
  const usual = { fluteLengthMm, reachMm, flutes: 1, leastShankMm: 6, material: 'carbide', cornerRadiusMm: 0 } as const;
  return { ...readMill(r, 'engraver', d, usual), angleDeg };
}

export const engraver: ToolKindHome<Mill & { readonly kind: 'engraver' }> = {
  form: 'letters',
  schema,
  read,
  check: checkMill,
  reachMm: byReach,
  body: ({ diameterMm, shankMm, reachMm }) => onShank(diameterMm, shankMm, reachMm),
  disc: noDisc,
};
