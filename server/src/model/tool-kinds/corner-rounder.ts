/** Form cutters that round an outside edge in one pass. */
import { length, map } from '../schema/common';
import { diameter, flutes, gripped, kind, reach, shank, toothed } from './fields';
import { byReach, noDisc, onShank, type ToolKindHome } from './kind';
import { checkFlutes, type Mill, readMill } from './mills';
import type { ToolReader } from './reader';

const schema = map(
  {
    kind: kind('corner-rounder', 'A form cutter that rounds an outside edge in one pass.'),
    diameter: diameter('Outside diameter.', '10'),
    'corner-radius': length('The radius it makes.', { example: '2' }),
    flutes: flutes('4'),
    reach: reach('the radius it makes'),
    shank: shank('the next usual shank'),
    ...toothed,
    ...gripped('carbide'),
  },
  'A corner rounder.',
);

function read(r: ToolReader) {
  const d = r.diameter();
  if (d === undefined) return undefined;
  const radius = r.fields.size(r.node, 'corner-radius') ?? 0;
  const reachMm = r.size('reach', () => radius, 'the radius it makes');
  const usual = { fluteLengthMm: radius, reachMm, flutes: 4, material: 'carbide', cornerRadiusMm: radius } as const;
  return readMill(r, 'corner-rounder', d, usual);
}

export const cornerRounder: ToolKindHome<Mill & { readonly kind: 'corner-rounder' }> = {
  form: 'corner',
  schema,
  read,
  check: (tool, tell, mm) => {
    checkFlutes(tool, tell, mm);
    const { diameterMm, cornerRadiusMm } = tool;
    if (2 * cornerRadiusMm < diameterMm) return;
    const message = `Rounding with ${mm(cornerRadiusMm)} on both sides leaves nothing of a cutter ${mm(diameterMm)} wide.`;
    tell('corner-radius', message);
  },
  reachMm: byReach,
  body: ({ diameterMm, shankMm, reachMm }) => onShank(diameterMm, shankMm, reachMm),
  disc: noDisc,
};
