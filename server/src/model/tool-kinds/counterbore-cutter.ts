/** Flat-ended cutters with a pilot: seats for cap heads. */
import { length, map, optional } from '../schema/common';
import type { ChamferMill } from './cones';
import { diameter, gripped, kind, reach } from './fields';
import { byReach, inChuck, noDisc, type ToolKindHome } from './kind';
import type { ToolReader } from './reader';

const schema = map(
  {
    kind: kind('counterbore-cutter', 'Flat-ended, with a pilot: seats for cap heads.'),
    diameter: diameter('Cutting diameter.', '10'),
    pilot: optional(length('Diameter of its pilot.', { example: '5.5', fallback: 'none' })),
    reach: reach('twice the diameter'),
    ...gripped('hss'),
  },
  'A counterbore cutter.',
);

function read(r: ToolReader) {
  const d = r.diameter();
  if (d === undefined) return undefined;
  const pilotMm = r.fields.size(r.node, 'pilot');
  const reachMm = r.size('reach', () => 2 * d, 'twice the diameter, common practice');
  const base = { ...r.base(d, 'hss'), kind: 'counterbore-cutter', angleDeg: 180, reachMm, tipMm: d } as const;
  return pilotMm === undefined ? base : { ...base, pilotMm };
}

export const counterboreCutter: ToolKindHome<ChamferMill & { readonly kind: 'counterbore-cutter' }> = {
  form: 'seat',
  schema,
  read,
  check: ({ pilotMm, diameterMm }, tell, mm) => {
    if (pilotMm !== undefined && pilotMm >= diameterMm)
      tell('pilot', `Its pilot, ${mm(pilotMm)}, is not smaller than its diameter, ${mm(diameterMm)}. Make it smaller.`);
  },
  reachMm: byReach,
  body: ({ diameterMm, reachMm }) => inChuck(diameterMm, reachMm),
  disc: noDisc,
};
