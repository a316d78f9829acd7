/** How a face is looked at: which part axes run to the right and up in a flat drawing of it, as it is seen from outside. */
import type { PlaneMap } from '../../geometry/2d/plane-map';
import type { Vec3 } from '../../geometry/types';
import { AXIS_INDEX, type AxisIndex } from '../../geometry/vector';
import { type Axis, FACE_AXIS, type Face } from '../../model/faces';

/** A part axis that runs along an axis of the drawing, and which way. */
interface Seen {
  readonly axis: Axis;
  readonly sign: 1 | -1;
}

/**
 * The part rolled about its own edges from `front`, so that neighbouring views line up (ISO 5456-2): seen from above,
 * the front edge is below; seen from below, above.
 */
const SEEN: Readonly<Record<Face, { readonly right: Seen; readonly up: Seen }>> = {
  front: { right: { axis: 'x', sign: 1 }, up: { axis: 'z', sign: 1 } },
  back: { right: { axis: 'x', sign: -1 }, up: { axis: 'z', sign: 1 } },
  left: { right: { axis: 'y', sign: -1 }, up: { axis: 'z', sign: 1 } },
  right: { right: { axis: 'y', sign: 1 }, up: { axis: 'z', sign: 1 } },
  top: { right: { axis: 'x', sign: 1 }, up: { axis: 'y', sign: 1 } },
  bottom: { right: { axis: 'x', sign: 1 }, up: { axis: 'y', sign: -1 } },
};

export interface View {
  readonly face: Face;
  /** The axis looked along, and which way the eye looks. */
  readonly axis: AxisIndex;
  readonly looks: 1 | -1;
  readonly right: Seen;
  readonly up: Seen;
  /** Of the body as seen, mm: its lower left corner is the drawing's origin. */
  readonly width: number;
  readonly height: number;
  /** From a section's coordinates (the two axes after the one looked along) to the drawing's. */
  readonly map: PlaneMap;
}

/** `size`: the body's, mm; its least corner is the origin. */
export function viewOf(face: Face, size: Vec3): View {
  return turnedView(face, SEEN[face], size);
}

/** The same face, turned on the paper as it lies on a machine: `right` and `up` are the two axes of its plane. */
export function turnedView(face: Face, { right, up }: { readonly right: Seen; readonly up: Seen }, size: Vec3): View {
  const axis = AXIS_INDEX[FACE_AXIS[face].axis];
  const first = (axis + 1) % 3;
  const of = ({ axis: a, sign }: Seen) => {
    const i = AXIS_INDEX[a];
    return { u: i === first ? sign : 0, v: i === first ? 0 : sign, at: sign > 0 ? 0 : size[i] };
  };
  const u = of(right);
  const v = of(up);
  return {
    face,
    axis,
    looks: FACE_AXIS[face].sign > 0 ? -1 : 1,
    right,
    up,
    width: size[AXIS_INDEX[right.axis]],
    height: size[AXIS_INDEX[up.axis]],
    map: { uu: u.u, uv: u.v, vu: v.u, vv: v.v, u0: u.at, v0: v.at },
  };
}
