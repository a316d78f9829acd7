/** How a set-up lies on the machine: which way of the part is right, back and up, and where its zero is. */
import type { Solid, Vec3 } from '../../geometry/types';
import { AXIS_INDEX, cross, dot, length, scale, sub } from '../../geometry/vector';
import { FACE_AXIS, FACES, type Part } from '../../model/model';
import type { SetupPasses } from '../../process/passes';
import { readOutOf } from '../../process/passes/read-out';
import type { ReadOut, ReadOutAxis } from '../../process/passes/types';
import { boxLeft } from '../../process/stock';
import type { SetupInTime } from '../../process/stock/types';
import { spindleOf } from '../../process/tilted/spindle';
import type { Seating } from '../../process/workholding/seating';
import { SAME } from '../../tolerance';

type Frame = readonly [right: Vec3, back: Vec3, up: Vec3];

/** As the read-out counts; of work that is held at an angle the spindle is up, and what was back stays as near to it as it can. */
export function frameOf(made: SetupInTime, seating: Seating, part: Part, solid: Solid): Frame {
  const { X, Y, Z } = readOutOf(seating.up, seating.held?.fixed, solid.body);
  const [right, back, up] = [X, Y, Z].map(({ axis, sign }) => unit(axis, sign)) as [Vec3, Vec3, Vec3];
  const spindle = spindleOf(made.setup, part);
  if (!spindle) return [right, back, up];
  const { toward } = spindle;
  const flat = sub(back, scale(toward, dot(back, toward)));
  const long = length(flat);
  const away = long > SAME ? scale(flat, 1 / long) : scale(right, -1);
  return [cross(away, toward), away, toward];
}

function unit(axis: 0 | 1 | 2, sign: 1 | -1): Vec3 {
  return [axis === 0 ? sign : 0, axis === 1 ? sign : 0, axis === 2 ? sign : 0];
}

/** A place of the read-out in the part. */
export function inPartOf(readOut: ReadOut, [x, y, z]: Vec3): Vec3 {
  const p: [number, number, number] = [0, 0, 0];
  for (const [name, value] of [
    ['X', x],
    ['Y', y],
    ['Z', z],
  ] as const)
    p[readOut[name].axis] = readOut[name].zeroMm + readOut[name].sign * value;
  return p;
}

/** Where the axes are set from, as the sheet has it: the first touch of each. */
export function touchedZero({ readOut, zeros }: SetupPasses): Vec3 | undefined {
  const at = (name: ReadOutAxis) => zeros.find((t) => t.axis === name && t.missing === undefined)?.placeMm;
  const [x, y, z] = [at('X'), at('Y'), at('Z')];
  return x === undefined || y === undefined || z === undefined ? undefined : inPartOf(readOut, [x, y, z]);
}

/** Set from faces as they are when the set-up begins, from the axis of a feature, or from what the work lies on. */
export function writtenZero(
  { setup, before }: SetupInTime,
  seating: Seating,
  part: Part,
  solid: Solid,
): Vec3 | undefined {
  const box = boxLeft(before);
  const at = (['x', 'y', 'z'] as const).map((axis) => {
    const name = setup.zero[axis]?.name;
    const i = AXIS_INDEX[axis];
    if (name === undefined) return undefined;
    if (name === 'parallels') return seating.upAxis === i ? seating.lowestMm : undefined;
    const face = FACES.find((f) => f === name);
    if (face) {
      if (FACE_AXIS[face].axis !== axis) return undefined;
      return FACE_AXIS[face].sign > 0 ? box.max[i] : box.min[i];
    }
    const feature = part.featureByName.get(name);
    const first = feature && solid.voidsOf(feature.name)[0];
    return first && (first.bounds.min[i] + first.bounds.max[i]) / 2;
  });
  const [x, y, z] = at;
  return x === undefined || y === undefined || z === undefined ? undefined : [x, y, z];
}
