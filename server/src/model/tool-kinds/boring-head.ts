/** Boring heads with their bars: out of balance, and not turned as fast as the spindle can. */

import { BORING_HEAD_RPM } from '../../tables/plunging.data';
import { SAME } from '../../tolerance';
import { length, map } from '../schema/common';
import { diameter, gripped, kind } from './fields';
import { byReach, noDisc, type ToolBase, type ToolKindHome } from './kind';
import type { ToolReader } from './reader';

export interface Boring extends ToolBase {
  readonly kind: 'boring-head';
  /** `diameterMm` is the least bore. */
  readonly largestMm: number;
  readonly reachMm: number;
}

const schema = map(
  {
    kind: kind('boring-head', 'One adjustable edge: any diameter in its range, to a close tolerance.'),
    diameter: diameter('The smallest bore it makes.', '10'),
    largest: length('The largest bore it makes.', { example: '50' }),
    reach: length('How deep its bar reaches.', { example: '50' }),
    ...gripped('carbide'),
  },
  'A boring head with its bars.',
);

function read(r: ToolReader): Boring | undefined {
  const d = r.diameter();
  if (d === undefined) return undefined;
  const largestMm = r.fields.size(r.node, 'largest') ?? d;
  const reachMm = r.fields.size(r.node, 'reach') ?? 0;
  return { ...r.base(d, 'carbide', BORING_HEAD_RPM), kind: 'boring-head', largestMm, reachMm };
}

export const boringHead: ToolKindHome<Boring> = {
  form: 'bore',
  hole: 'set',
  schema,
  read,
  check: ({ diameterMm, largestMm }, tell, mm) => {
    if (largestMm < diameterMm - SAME)
      tell(
        'largest',
        `The largest bore, ${mm(largestMm)}, is under the smallest, ${mm(diameterMm)}. Correct one of the two.`,
      );
  },
  reachMm: byReach,
  body: ({ reachMm }) => ({ cutRadiusMm: 0, shankRadiusMm: 0, mostOutMm: reachMm }),
  disc: noDisc,
};
