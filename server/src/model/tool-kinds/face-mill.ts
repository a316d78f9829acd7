/** Face mills: wide, with inserts. */
import { length, map, optional } from '../schema/common';
import { diameter, fluteLength, flutes, gripped, kind, reach, shank, toothed } from './fields';
import { byReach, noDisc, onShank, type ToolKindHome } from './kind';
import { checkMill, type Mill, readMill } from './mills';
import type { ToolReader } from './reader';

const schema = map(
  {
    kind: kind('face-mill', 'Wide, with inserts: for faces and long shoulders.'),
    diameter: diameter('Diameter over the cutting edges.', '50'),
    flutes: flutes('4'),
    'flute-length': fluteLength('a tenth of the diameter'),
    reach: reach('half the diameter'),
    shank: shank('22 mm'),
    'corner-radius': optional(
      length('Radius it leaves between floor and shoulder.', {
        example: '0.8',
        fallback: '0',
      }),
    ),
    ...toothed,
    ...gripped('carbide'),
  },
  'A face mill.',
);

function read(r: ToolReader) {
  const d = r.diameter();
  if (d === undefined) return undefined;
  const fluteLengthMm = r.size('flute-length', () => d / 10, 'a tenth of the diameter, common practice');
  const reachMm = r.size('reach', () => Math.max(fluteLengthMm, d / 2), 'half the diameter, common practice');
  return readMill(r, 'face-mill', d, { fluteLengthMm, reachMm, flutes: 4, shankMm: () => 22, material: 'carbide' });
}

export const faceMill: ToolKindHome<Mill & { readonly kind: 'face-mill' }> = {
  form: 'face',
  schema,
  read,
  check: checkMill,
  reachMm: byReach,
  body: ({ diameterMm, shankMm, reachMm }) => ({ ...onShank(diameterMm, shankMm, reachMm), mostOutMm: reachMm }),
  disc: noDisc,
};
