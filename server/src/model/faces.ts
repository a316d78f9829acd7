/** The six faces of a part, its three axes, and how they belong together. */

import type * as z from 'zod/mini';
import type { axis, face } from './schema/common';

export type Axis = z.infer<ReturnType<typeof axis>>;
export type Face = z.infer<ReturnType<typeof face>>;
export const FACES: readonly Face[] = ['left', 'right', 'front', 'back', 'bottom', 'top'];

/** The axis a face is normal to, and whether it looks along + or −. */
export const FACE_AXIS: Readonly<Record<Face, { readonly axis: Axis; readonly sign: 1 | -1 }>> = {
  left: { axis: 'x', sign: -1 },
  right: { axis: 'x', sign: 1 },
  front: { axis: 'y', sign: -1 },
  back: { axis: 'y', sign: 1 },
  bottom: { axis: 'z', sign: -1 },
  top: { axis: 'z', sign: 1 },
};
export const OPPOSITE: Readonly<Record<Face, Face>> = {
  left: 'right',
  right: 'left',
  front: 'back',
  back: 'front',
  bottom: 'top',
  top: 'bottom',
};
/** The two part axes of a face's plane, in the order used for (u, v) everywhere: never mirrored. */
export const FACE_PLANE: Readonly<Record<Face, readonly [Axis, Axis]>> = {
  left: ['y', 'z'],
  right: ['y', 'z'],
  front: ['x', 'z'],
  back: ['x', 'z'],
  bottom: ['x', 'y'],
  top: ['x', 'y'],
};
