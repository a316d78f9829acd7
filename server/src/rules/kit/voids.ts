/** Small questions about removed volumes that several rules ask. */
import type { Frame, Vec3, Void } from '../../geometry/types';
import { add, dot } from '../../geometry/vector';

export { dot } from '../../geometry/vector';
export const minus = (a: Vec3, b: Vec3): Vec3 => add(a, b, -1);

/** 1: cut in the same direction, −1: against each other, 0: at an angle. */
export function alongside(a: Frame, b: Frame): -1 | 0 | 1 {
  const cos = dot(a.w, b.w);
  return cos > 1 - 1e-9 ? 1 : cos < -1 + 1e-9 ? -1 : 0;
}

/** From where to where a volume reaches along the depth of `frame`; its own or one parallel to it. */
export function depthRange(v: Void, frame: Frame): readonly [number, number] {
  const sign = alongside(v.frame, frame);
  const offset = dot(minus(v.frame.origin, frame.origin), frame.w);
  return sign >= 0 ? [offset + v.from, offset + v.to] : [offset - v.to, offset - v.from];
}

/** A point given in a frame, in part axes. */
export function inPart(frame: Frame, u: number, v: number, w: number): Vec3 {
  return add(add(add(frame.origin, frame.u, u), frame.v, v), frame.w, w);
}
