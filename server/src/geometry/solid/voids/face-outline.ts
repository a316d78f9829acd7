/**
 * What is left of a face once contours and steps have cut it back: where its outer edges are for a chamfer or a round.
 */

import { type Contour, type Face, type Feature, OPPOSITE, type Part, type Step } from '../../../model/model';
import { ROUNDING } from '../../../tolerance';
import { chainLoops } from '../../2d/assemble-loops';
import { boundaryOf } from '../../2d/boolean';
import { sheetOf } from '../../2d/indexed-region';
import { loopRect } from '../../2d/inside';
import { loopArea } from '../../2d/moments';
import { rectLoop } from '../../2d/shape-outline';
import { extentBelow, faceSize } from '../../frame';
import type { Loop } from '../../types';
import { keptLoops } from './contours';
import { sideOf } from './steps';

/** Features that can move a face's outer edges. */
export function edgeMovers(part: Part): readonly Feature[] {
  return part.features.filter((f) => f.kind === 'contour' || f.kind === 'step');
}

export interface Rectangle {
  readonly u0: number;
  readonly v0: number;
  readonly u1: number;
  readonly v1: number;
}

/** A rectangle where only whole sides were cut back, else the outer loops of what is left, in face coordinates. */
type FaceOutline = { readonly rectangle: Rectangle } | { readonly loops: readonly Loop[] };

export function faceOutline(face: Face, part: Part): FaceOutline {
  const [lu, lv] = faceSize(face, part.size);
  const whole = { u0: 0, v0: 0, u1: lu, v1: lv };
  // of each contour the loops that it keeps; what is left is what all of them keep
  const kept: (readonly Loop[])[] = [];
  const cut: Rectangle[] = [];
  for (const f of edgeMovers(part)) {
    if (f.kind === 'contour' && cutsFace(f, face)) kept.push(keptLoops(f));
    else if (f.kind === 'step') {
      const r = stepOnFace(f, face, part);
      if (r) cut.push(r);
    }
  }
  if (kept.length === 0) {
    const rectangle = cutSides(whole, cut);
    if (rectangle) return { rectangle };
  }
  const body = rectLoop(0, 0, lu, lv);
  const inBody = kept.flat().every((l) => {
    const r = loopRect(l);
    return r.u0 >= -ROUNDING && r.v0 >= -ROUNDING && r.u1 <= lu + ROUNDING && r.v1 <= lv + ROUNDING;
  });
  if (kept.length === 1 && cut.length === 0 && inBody) return { loops: kept[0]! };
  const choices = kept.reduce<readonly (readonly Loop[])[]>(
    (some, loops) => some.flatMap((one) => loops.map((l) => [...one, l])),
    [[]],
  );
  return { loops: choices.flatMap((within) => clip([...within, body], cut)) };
}

function cutsFace(c: Contour, face: Face): boolean {
  return (c.face === face && c.startMm === 0) || (OPPOSITE[c.face] === face && c.depth.through);
}

/** The rectangle that a step takes from a face; undefined where it does not reach it. */
function stepOnFace(step: Step, face: Face, part: Part): Rectangle | undefined {
  const { size } = part;
  const [lu, lv] = faceSize(face, size);
  let [u0, v0, u1, v1] = [0, 0, lu, lv];
  const narrow = (other: Face, width: number) => {
    const side = sideOf(face, other);
    if (!side) return;
    if (side.along === 'u') {
      if (side.low) u1 = Math.min(u1, width);
      else u0 = Math.max(u0, lu - width);
    } else if (side.low) v1 = Math.min(v1, width);
    else v0 = Math.max(v0, lv - width);
  };
  const extent = extentBelow(step.face, size);
  const through = step.depth.through || step.startMm + step.depth.mm >= extent - ROUNDING;
  if (step.face === face ? step.startMm > 0 : OPPOSITE[step.face] === face && !through) return undefined;
  if (step.face !== face && OPPOSITE[step.face] !== face) {
    // a side of the step's face: reached only where the step runs along it
    if (step.startMm > 0 || !step.along.some((a) => a.name === face)) return undefined;
    narrow(step.face, through ? extent : step.depth.mm);
  }
  step.along.forEach((a, i) => {
    if (a.name !== face) narrow(a.name, step.widths[i]?.mm ?? 0);
  });
  return u1 - u0 > ROUNDING && v1 - v0 > ROUNDING ? { u0, v0, u1, v1 } : undefined;
}

function cutSides(whole: Rectangle, cuts: readonly Rectangle[]): Rectangle | undefined {
  let { u0, v0, u1, v1 } = whole;
  const near = (a: number, b: number) => Math.abs(a - b) < ROUNDING;
  for (const c of cuts) {
    const fullU = c.u0 <= whole.u0 + ROUNDING && c.u1 >= whole.u1 - ROUNDING;
    const fullV = c.v0 <= whole.v0 + ROUNDING && c.v1 >= whole.v1 - ROUNDING;
    if (fullV && near(c.u0, whole.u0)) u0 = Math.max(u0, c.u1);
    else if (fullV && near(c.u1, whole.u1)) u1 = Math.min(u1, c.u0);
    else if (fullU && near(c.v0, whole.v0)) v0 = Math.max(v0, c.v1);
    else if (fullU && near(c.v1, whole.v1)) v1 = Math.min(v1, c.v0);
    else return undefined;
  }
  return u1 - u0 > ROUNDING && v1 - v0 > ROUNDING ? { u0, v0, u1, v1 } : undefined;
}

/** What lies in all the loops and in none of the cuts. */
function clip(within: readonly Loop[], cuts: readonly Rectangle[]): readonly Loop[] {
  const pieces = boundaryOf(
    within.map((l) => sheetOf(l.edges)),
    cuts.map((c) => sheetOf(rectLoop(c.u0, c.v0, c.u1, c.v1).edges)),
  );
  return (chainLoops(pieces) ?? []).filter((l) => loopArea(l) > 0);
}
