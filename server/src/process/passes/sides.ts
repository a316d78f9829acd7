/** Where a face of the part looks as the work lies on the machine. */
import { AXIS_INDEX } from '../../geometry/vector';
import { FACE_AXIS, type Face } from '../../model/model';
import type { ReadOut, ReadOutAxis } from './types';

type Toward = 'left' | 'right' | 'front' | 'back' | 'down' | 'up';

const BY_AXIS: Readonly<Record<ReadOutAxis, readonly [Toward, Toward]>> = {
  X: ['left', 'right'],
  Y: ['front', 'back'],
  Z: ['down', 'up'],
};

export function axisOf(readOut: ReadOut, face: Face): { readonly name: ReadOutAxis; readonly sign: 1 | -1 } {
  const axis = AXIS_INDEX[FACE_AXIS[face].axis];
  const name = (['X', 'Y', 'Z'] as const).find((k) => readOut[k].axis === axis)!;
  return { name, sign: (FACE_AXIS[face].sign * readOut[name].sign) as 1 | -1 };
}

export function toward(readOut: ReadOut, face: Face): Toward {
  const { name, sign } = axisOf(readOut, face);
  return BY_AXIS[name][sign > 0 ? 1 : 0];
}

/** Across the table. */
export function isAcross(side: Toward): side is 'left' | 'right' | 'front' | 'back' {
  return side !== 'up' && side !== 'down';
}
