/** Small questions about removed volumes that several rules ask. */

import type { Frame, Void } from '../../geometry/types';
import { dot, sub } from '../../geometry/vector';
import { ROUNDING } from '../../tolerance';

// Under the names the rules use.
export { fromFrame as inPart } from '../../geometry/frame';
export { dot, sub as minus } from '../../geometry/vector';

/** 1: cut in the same direction, −1: against each other, 0: at an angle. */
export function alongside(a: Frame, b: Frame): -1 | 0 | 1 {
  const cos = dot(a.w, b.w);
  return cos > 1 - ROUNDING ? 1 : cos < -1 + ROUNDING ? -1 : 0;
}

/** From where to where a volume reaches along the depth of `frame`; its own or one parallel to it. */
export function depthRange(v: Void, frame: Frame): readonly [number, number] {
  const sign = alongside(v.frame, frame);
  const offset = dot(sub(v.frame.origin, frame.origin), frame.w);
  return sign >= 0 ? [offset + v.from, offset + v.to] : [offset - v.to, offset - v.from];
}
