/** The body as drawn: a block or a round bar's piece, its least corner on the origin. */
import { memo } from '../../memo';
import type { Part } from '../../model/model';
import { circleEdge } from '../2d/edge';
import { rectLoop } from '../2d/shape-outline';
import type { BodyShape, Frame, Region, Vec3 } from '../types';
import { AXIS_INDEX } from '../vector';
import { boundsOf, type Prism } from './prism';

/** The body's shape in mm; without a `body` in the part a block of no size. */
export function bodyOf(part: Pick<Part, 'body' | 'size'>): BodyShape {
  const [x, y, z] = part.size;
  const box = { min: [0, 0, 0] as Vec3, max: [Math.max(0, x), Math.max(0, y), Math.max(0, z)] as Vec3 };
  if (part.body?.form === 'round') {
    return { form: 'round', box, axis: AXIS_INDEX[part.body.axis], radius: part.body.diameter.mm / 2 };
  }
  return { form: 'box', box };
}

/** Equal in shape and size, whichever object says so. */
export function sameBody(a: BodyShape, b: BodyShape): boolean {
  if (a === b) return true;
  if (a.form !== b.form || a.box.max.some((m, i) => m !== b.box.max[i])) return false;
  return a.form === 'box' || (b.form === 'round' && a.axis === b.axis && a.radius === b.radius);
}

/** The body as a swept outline, along z or along its own axis. */
export const bodyPrism = memo((body: BodyShape): Prism => {
  // A workpiece reaches beyond the finished body: its least corner need not be the origin.
  const { min, max } = body.box;
  const size = [max[0] - min[0], max[1] - min[1], max[2] - min[2]] as const;
  if (body.form === 'box') {
    const frame: Frame = { origin: min, u: [1, 0, 0], v: [0, 1, 0], w: [0, 0, 1] };
    return finish(frame, { outer: rectLoop(0, 0, size[0], size[1]), holes: [] }, size[2]);
  }
  const unit = (a: number): Vec3 => [a === 0 ? 1 : 0, a === 1 ? 1 : 0, a === 2 ? 1 : 0];
  const i = (body.axis + 1) % 3;
  const k = (body.axis + 2) % 3;
  const frame: Frame = { origin: min, u: unit(i), v: unit(k), w: unit(body.axis) };
  const centre = { u: size[i as 0 | 1 | 2] / 2, v: size[k as 0 | 1 | 2] / 2 };
  return finish(frame, { outer: { edges: [circleEdge(centre, body.radius)] }, holes: [] }, size[body.axis]);
});

function finish(frame: Frame, region: Region, length: number): Prism {
  const profile = { type: 'straight' } as const;
  return { frame, region, from: 0, to: length, profile, bounds: boundsOf(frame, region, 0, length, profile) };
}
