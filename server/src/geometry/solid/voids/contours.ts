/** Contours: everything outside the kept outlines goes. */
import type { Contour } from '../../../model/model';
import { reversedLoop } from '../../2d/assemble-loops';
import { loopRect } from '../../2d/inside';
import { mapLoop, shift } from '../../2d/plane-map';
import { circleLoop, outlineOf, rectLoop } from '../../2d/shape-outline';
import { faceFrame, faceSize, type Size } from '../../frame';
import type { Loop, Region, Void } from '../../types';
import { depthRange, eachPlace, floorProfile, makeVoid, type Surroundings } from './make';
import { withIslands } from './pockets';

/** How far the removed region runs on beyond the body, mm: past any tool's edge of interest. */
export const MARGIN_MM = 10;

/** The kept outlines in the face's own coordinates, at every place. */
export function keptLoops(contour: Contour): readonly Loop[] {
  const shapes = contour.shapes.flatMap((s) => outlineOf(s) ?? []);
  const places = contour.places.length > 0 ? contour.places : [{ u: 0, v: 0 }];
  return places.flatMap((p) => shapes.map((l) => mapLoop(shift(p.u, p.v), l)));
}

/** A rectangle round the face and the loops with a margin. */
export function aroundFace(size: readonly [number, number], loops: readonly Loop[], margin: number): Loop {
  let [u0, v0, u1, v1] = [0, 0, size[0], size[1]];
  for (const l of loops) {
    const r = loopRect(l);
    u0 = Math.min(u0, r.u0);
    v0 = Math.min(v0, r.v0);
    u1 = Math.max(u1, r.u1);
    v1 = Math.max(v1, r.v1);
  }
  return rectLoop(u0 - margin, v0 - margin, u1 + margin, v1 + margin);
}

/** One void for all members: what one place keeps, another must not take. Then the undercut of each boss that has one. */
export function contourVoids(contour: Contour, { size }: { size: Size } & Pick<Surroundings, 'size'>): readonly Void[] {
  const loops = keptLoops(contour);
  if (loops.length === 0) return [];
  const outer = aroundFace(faceSize(contour.face, size), loops, MARGIN_MM + contour.floorRadius.mm);
  const frame = faceFrame(contour.face, size, { u: 0, v: 0 });
  const outside = withIslands(outer, loops).flatMap((region) => {
    const range = depthRange(contour, contour.depth, size, region);
    if (!range) return [];
    const profile = floorProfile(contour.floorRadius.mm, range);
    return [
      makeVoid(contour, {
        member: 0,
        role: 'contour',
        frame,
        region,
        from: range.from,
        to: range.to,
        profile,
        through: range.through,
      }),
    ];
  });
  return [...outside, ...undercutVoids(contour, size)];
}

/** Rings between the thread of a boss and its shoulder. */
function undercutVoids(contour: Contour, size: Size): readonly Void[] {
  const undercut = contour.thread?.undercut;
  const [shape] = contour.shapes;
  if (!undercut || shape?.type !== 'circle') return [];
  const outer = circleLoop({ u: 0, v: 0 }, shape.diameter.mm / 2);
  const inner = circleLoop({ u: 0, v: 0 }, undercut.diameter.mm / 2);
  if (!outer || !inner) return [];
  const region: Region = { outer, holes: [reversedLoop(inner)] };
  const to = contour.startMm + contour.depth.mm;
  return [...eachPlace(contour, size)].map(({ member, frame }) =>
    makeVoid(contour, { member, role: 'undercut', frame, region, from: to - undercut.width.mm, to }),
  );
}
