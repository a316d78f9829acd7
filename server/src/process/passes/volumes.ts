/** Which of the volumes that a cut takes in its set-up an operation makes, and how high they stand. */
import type { Box, Void, VoidRole } from '../../geometry/types';
import { leftOver } from '../access/facing';
import type { Operation } from '../operations/types';
import { boxWithin } from '../stock/band';
import type { Cut } from '../stock/types';
import { rangeOf } from './read-out';
import type { ReadOut } from './types';

type Made = Exclude<Operation, { does: 'missing' }>;

const MILLED: readonly VoidRole[] = ['pocket', 'slot', 'step', 'contour', 'groove', 'incline', 'edge'];
const FORMED: readonly VoidRole[] = ['edge', 'incline'];

function rolesOf(o: Made): readonly VoidRole[] {
  if (o.seat === 'counterbore') return ['counterbore'];
  if (o.seat === 'countersink') return ['countersink'];
  switch (o.does) {
    case 'rough':
    case 'rest':
    case 'finish':
      return o.feature.kind === 'hole' ? ['bore'] : MILLED;
    case 'chamfer':
    case 'round':
      return FORMED;
    case 'engrave':
      return ['engraving'];
    case 'undercut':
      return ['undercut', 'groove'];
    case 'slot':
      return ['slot', 'pocket'];
    case 'face':
      return MILLED;
    default:
      return ['bore'];
  }
}

/** Those of a face only as far as something still stands over it. */
export function volumesOf(o: Made, cut: Cut, { Z }: ReadOut): readonly Void[] {
  if (cut.face) {
    const bounds = leftOver(cut);
    return bounds ? cut.removes.slice(0, 1).map((v) => ({ ...v, bounds })) : [];
  }
  const roles = rolesOf(o);
  const named = cut.removes.filter((v) => roles.includes(v.role));
  // A dovetail's neck is part of the one volume that it is.
  const own = named.length > 0 ? named : cut.removes;
  if (!o.volume || own.length === 0) return own;
  // Layers of one pocket: that with the same floor, or what a set-up takes of it.
  const floor = (v: Void) => rangeOf(Z, v.bounds)[0];
  const wanted = floor(o.volume);
  const least = Math.min(...own.map((v) => Math.abs(floor(v) - wanted)));
  return own.filter((v) => Math.abs(floor(v) - wanted) < least + 1e-6);
}

/** Lowest and highest of volumes, where there is something to cut in them. */
export function heightsIn(voids: readonly Void[], cut: Cut, { Z }: ReadOut): readonly [number, number] {
  const floors = voids.map((v) => rangeOf(Z, v.bounds)[0]);
  const tops = voids.map((v) => {
    const met: Box = boxWithin(cut.before, v.bounds);
    const [low, high] = rangeOf(Z, met);
    return high - low > 1e-6 ? high : rangeOf(Z, v.bounds)[1];
  });
  return [Math.min(...floors), Math.max(...tops)];
}
