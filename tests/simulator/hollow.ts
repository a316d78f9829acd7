/** What bars of tube, angle, channel and tee have not, told by how far a place is from each outer face. Corners are sharp here. */
import { FACE_AXIS, FACES, type Face, type Part } from '../../server/src/model/model';
import { AXIS, type Vec } from './frame';

interface Box {
  readonly min: Vec;
  readonly max: Vec;
}

const inFrom = ({ min, max }: Box, face: Face, p: readonly number[]) => {
  const k = AXIS[FACE_AXIS[face].axis];
  return FACE_AXIS[face].sign > 0 ? max[k] - p[k]! : p[k]! - min[k];
};
const opposite = (face: Face) => FACES.find((f) => f !== face && FACE_AXIS[f].axis === FACE_AXIS[face].axis)!;

export function isHollow({ stock }: Part, box: Box, p: readonly number[]): boolean {
  const { wall, flange = wall, open } = stock.section!;
  const sides = FACES.filter((f) => FACE_AXIS[f].axis !== stock.axis);
  const deeper = (faces: readonly Face[], mm: number) => faces.every((f) => inFrom(box, f, p) > mm);
  const closed = open.map((o) => opposite(o.name));
  switch (stock.form) {
    case 'tube': {
      if (!stock.diameter) return deeper(sides, wall.mm);
      const across = [0, 1, 2].filter((k) => k !== AXIS[stock.axis!]) as (0 | 1 | 2)[];
      const off = across.map((k) => p[k]! - (box.min[k] + box.max[k]) / 2);
      return Math.hypot(...off) < stock.diameter.mm / 2 - wall.mm;
    }
    case 'angle':
      return deeper(closed, wall.mm);
    case 'channel':
      return (
        deeper(closed, wall.mm) &&
        deeper(
          sides.filter((f) => f !== closed[0] && f !== open[0]!.name),
          flange.mm,
        )
      );
    case 'tee': {
      const k = AXIS[FACE_AXIS[sides.find((f) => f !== closed[0] && f !== open[0]!.name)!].axis];
      return deeper(closed, flange.mm) && Math.abs(p[k]! - (box.min[k] + box.max[k]) / 2) > wall.mm / 2;
    }
    default:
      throw new Error(stock.form);
  }
}

/** Where a wall begins along an axis, so that cells end there. */
export function wallPlanes({ stock }: Part, { min, max }: Box): readonly (readonly [0 | 1 | 2, number])[] {
  const { section } = stock;
  if (!section || stock.diameter) return [];
  const mms = [section.wall.mm, (section.flange ?? section.wall).mm];
  return ([0, 1, 2] as const)
    .filter((k) => k !== AXIS[stock.axis!])
    .flatMap((k) => [
      ...mms.flatMap((mm) => [[k, min[k] + mm] as const, [k, max[k] - mm] as const]),
      [k, (min[k] + max[k] - section.wall.mm) / 2] as const,
      [k, (min[k] + max[k] + section.wall.mm) / 2] as const,
    ]);
}
