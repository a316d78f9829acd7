/** Slitting saws: thin discs on an arbor, for slits that no end mill is thin and long enough for. */

import { SLITTING_SAW, sawTeeth } from '../../tables/slitting-saws';
import { SAME } from '../../tolerance';
import { length, map, number, optional } from '../schema/common';
import { diameter, gripped, kind, reach, shank, toothed } from './fields';
import type { ToolBase, ToolKindHome } from './kind';
import { PRACTICE, type ToolReader } from './reader';

/** Named as undercutters are, for what it has in common with them: its neck is the flange or arbor that it sits on. */
export interface SlittingSaw extends ToolBase {
  readonly kind: 'slitting-saw';
  readonly flutes: number;
  readonly thicknessMm: number;
  /** Over arbor, flange, nut and screw head: what limits how deep it cuts. */
  readonly neckMm: number;
  /** How far nut or screw reach below the saw. */
  readonly belowMm: number;
  /** From its lower side to where something wider than the flange begins. */
  readonly reachMm: number;
  readonly shankMm: number;
}

const schema = map(
  {
    kind: kind('slitting-saw', 'A thin disc on an arbor: slits, open at both ends or into a bore.'),
    diameter: diameter('Diameter over the teeth.', '63'),
    thickness: length('Thickness of the saw. Its slit is a little wider, as it runs out of true.', { example: '1.6' }),
    flange: optional(
      length('Largest diameter of arbor, flange, nut or screw head. It limits how deep the saw cuts.', {
        example: '25',
        fallback: 'two fifths of the diameter',
      }),
    ),
    below: optional(
      length('How far nut or screw reach below the saw.', {
        example: '6',
        fallback: 'a quarter of the flange',
      }),
    ),
    flutes: optional(
      number('Number of teeth.', {
        example: '40',
        fallback: 'coarse, about as ISO 2296 has them',
      }),
    ),
    reach: reach('half the diameter'),
    shank: shank('16 mm'),
    ...toothed,
    ...gripped('hss'),
  },
  'A slitting saw.',
  {
    example:
      '{ kind: slitting-saw, diameter: 63, thickness: 1.6, flange: 25, below: 6, flutes: 40, reach: 32, shank: 16 }',
  },
);

function read(r: ToolReader): SlittingSaw | undefined {
  const d = r.diameter();
  const thicknessMm = r.fields.size(r.node, 'thickness');
  if (d === undefined || thicknessMm === undefined) return undefined;
  const neckMm = r.size('flange', () => Math.round(10 * SLITTING_SAW.flange * d) / 10, SLITTING_SAW.source);
  const belowMm = r.has('below')
    ? (r.fields.lengthFrom0(r.node, 'below') ?? 0)
    : r.assume('below', neckMm / 4, PRACTICE, ' mm');
  const teeth = r.flutes(sawTeeth(d, thicknessMm));
  const reachMm = r.size('reach', () => Math.max(d / 2, 2 * thicknessMm), 'half the diameter, common practice');
  const shankMm = r.shank(neckMm, 0, () => 16);
  return { ...r.base(d, 'hss'), kind: 'slitting-saw', flutes: teeth, thicknessMm, neckMm, belowMm, reachMm, shankMm };
}

export const slittingSaw: ToolKindHome<SlittingSaw> = {
  form: 'saw',
  schema,
  read,
  check({ diameterMm, thicknessMm, neckMm, reachMm }, tell, mm) {
    if (neckMm >= diameterMm - SAME)
      tell('flange', `Its flange, ${mm(neckMm)}, is not smaller than the saw, ${mm(diameterMm)}. Make it smaller.`);
    if (thicknessMm > reachMm + SAME)
      tell(
        'reach',
        `Its reach, ${mm(reachMm)}, is less than the saw’s own thickness, ${mm(thicknessMm)}. Correct one of the two.`,
      );
  },
  reachMm: ({ reachMm }) => reachMm,
  body: ({ diameterMm, shankMm, reachMm }) => ({
    cutRadiusMm: diameterMm / 2,
    shankRadiusMm: diameterMm / 2,
    mostOutMm: reachMm + 3 * shankMm,
  }),
  disc: ({ thicknessMm, neckMm, belowMm, reachMm }) => ({
    thicknessMm,
    hubRadiusMm: neckMm / 2,
    belowMm,
    aboveMm: reachMm - thicknessMm,
  }),
};
