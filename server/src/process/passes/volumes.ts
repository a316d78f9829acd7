/** Which of the volumes that a cut takes in its set-up an operation makes, and how high they stand. */
import type { Void, VoidRole } from '../../geometry/types';
import { SAME } from '../../tolerance';
import { leftOver } from '../access/facing';
import type { Operation } from '../operations/types';
import { boxWithin } from '../stock/band';
import type { Cut } from '../stock/types';
import { rangeOf } from './read-out';
import type { ReadOut } from './types';

type Made = Exclude<Operation, { does: 'missing' }>;

const MILLED: readonly VoidRole[] = ['pocket', 'slot', 'step', 'contour', 'groove', 'slope', 'edge'];
const FORMED: readonly VoidRole[] = ['edge', 'slope'];

/** What is not named here goes down a bore. */
const ROLES: Partial<Record<Made['does'], readonly VoidRole[]>> = {
  rough: MILLED,
  rest: MILLED,
  finish: MILLED,
  face: MILLED,
  chamfer: FORMED,
  round: FORMED,
  engrave: ['engraving'],
  undercut: ['undercut', 'groove'],
  slot: ['slot', 'pocket'],
};

function rolesOf(o: Made, inHole: boolean): readonly VoidRole[] {
  if (o.seat === 'counterbore' || o.seat === 'countersink') return [o.seat];
  return inHole ? ['bore'] : (ROLES[o.does] ?? ['bore']);
}

/** Those of a face only as far as something still stands over it. */
export function volumesOf(o: Made, cut: Cut, { Z }: ReadOut): readonly Void[] {
  if (cut.face) {
    const bounds = leftOver(cut);
    return bounds ? cut.removes.slice(0, 1).map((v) => ({ ...v, bounds })) : [];
  }
  const roles = rolesOf(o, cut.feature?.kind === 'hole');
  const named = cut.removes.filter((v) => roles.includes(v.role));
  // A dovetail's neck is part of the one volume that it is.
  const own = named.length > 0 ? named : cut.removes;
  if (!o.volume || own.length === 0) return own;
  // Layers of one pocket: that with the same floor, or what a set-up takes of it.
  const floor = (v: Void) => rangeOf(Z, v.bounds)[0];
  const wanted = floor(o.volume);
  const least = Math.min(...own.map((v) => Math.abs(floor(v) - wanted)));
  return own.filter((v) => Math.abs(floor(v) - wanted) < least + SAME);
}

/** Lowest and highest of volumes, where there is something to cut in them. */
export function heightsIn(voids: readonly Void[], cut: Cut, { Z }: ReadOut): readonly [number, number] {
  const floors = voids.map((v) => rangeOf(Z, v.bounds)[0]);
  // Pieces in stock that was faced off are air.
  const met = voids.map((v) => rangeOf(Z, boxWithin(cut.before, v.bounds))).filter(([low, high]) => high - low > SAME);
  const tops = (met.length > 0 ? met : voids.map((v) => rangeOf(Z, v.bounds))).map((r) => r[1]);
  return [Math.min(...floors), Math.max(...tops)];
}
