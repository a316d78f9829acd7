/** Discs on a neck: T-slots, keyways, grooves inside a bore. */
import { length, map } from '../schema/common';
import { diameter, flutes, gripped, kind, neck, shank, toothed } from './fields';
import { byReach, type ToolKindHome } from './kind';
import type { ToolReader } from './reader';
import { checkHead, onNeck, readUndercutter, type UndercutMill } from './undercutters';

const schema = map(
  {
    kind: kind('tee-cutter', 'A disc on a neck: T-slots, keyways, grooves inside a bore.'),
    diameter: diameter('Diameter of the disc.', '14'),
    neck,
    thickness: length('Thickness of the disc.', { example: '6' }),
    reach: length('From the face of the disc to where something wider than the neck begins.', { example: '18' }),
    flutes: flutes('6'),
    shank: shank('as thick as its head where it passes, as its neck where it is gripped'),
    ...toothed,
    ...gripped('hss'),
  },
  'A T-slot or grooving cutter.',
);

function read(r: ToolReader) {
  const d = r.diameter();
  return d === undefined ? undefined : readUndercutter(r, 'tee-cutter', d, { material: 'hss', flutes: 6 });
}

export const teeCutter: ToolKindHome<UndercutMill & { readonly kind: 'tee-cutter' }> = {
  form: 'head',
  schema,
  read,
  check: checkHead,
  reachMm: byReach,
  body: onNeck,
  disc: ({ neckMm, thicknessMm, reachMm }) => ({
    thicknessMm,
    hubRadiusMm: neckMm / 2,
    belowMm: 0,
    aboveMm: reachMm - thicknessMm,
  }),
};
