/** What a cut right round the part leaves: where it stays, and which sides of the body are still those of the part. */

import { lengthOf, pointAt, tangentAt } from '../../geometry/2d/edge';
import { windingOf } from '../../geometry/2d/inside';
import { faceFrame, fromFrame } from '../../geometry/frame';
import { keptLoops } from '../../geometry/solid/voids/contours';
import type { Point2, Solid, Vec3 } from '../../geometry/types';
import { AXIS_INDEX } from '../../geometry/vector';
import {
  type Contour,
  FACE_AXIS,
  FACE_PLANE,
  FACES,
  type Face,
  type Feature,
  OPPOSITE,
  type Part,
} from '../../model/model';
import { HAIR, SAME } from '../../tolerance';
import { excessOver, lessOf } from '../stock';
import { facingOf } from '../stock/facing';
import type { Cut } from '../stock/types';
import { contactOf } from './contact';
import type { InJaws } from './in-jaws';

/** Everything outside its shapes goes, down to the far side. */
export function isThroughContour(feature: Feature | undefined): feature is Contour {
  return feature?.kind === 'contour' && feature.depth.through;
}

/** Whether a place in the plane of a contour's face stays. */
export function stays(contour: Contour, { u, v }: Point2): boolean {
  return keptLoops(contour).some((l) => windingOf(l.edges, u, v) !== 0);
}

/** Looks along one edge of an outline. */
const LOOKS = 12;

/** With stock to lead to on less than this share of the way round, tabs hold nothing. Common practice, no source. */
export const FRAME_SHARE = 0.5;

/**
 * The share of the way round an outline, at mid depth, on which stock stands `outMm` outside it: what tabs could lead to.
 * 0 … 1.
 */
export function frameShare(
  contour: Contour,
  part: Pick<Part, 'size'>,
  outMm: number,
  isStock: (p: Vec3) => boolean,
): number {
  const frame = faceFrame(contour.face, part.size, { u: 0, v: 0 });
  const depth = part.size[AXIS_INDEX[FACE_AXIS[contour.face].axis]] / 2;
  let [there, all] = [0, 0];
  for (const { edges } of keptLoops(contour)) {
    for (const e of edges) {
      const mm = lengthOf(e);
      for (let i = 0; i < LOOKS; i++) {
        const at = pointAt(e, (i + 0.5) / LOOKS);
        const t = tangentAt(e, at);
        // What stays lies to the left of the way round it.
        const p = fromFrame(frame, at.u + t.v * outMm, at.v - t.u * outMm, depth);
        all += mm;
        if (isStock(p)) there += mm;
      }
    }
  }
  return all > 0 ? there / all : 0;
}

/** Less than this of a side is a corner, no side. mm. */
const SIDE_MM = 3;

/** Sides of the body along which what stays still lies. */
function sidesKept(contour: Contour, part: Pick<Part, 'size'>): readonly Face[] {
  const plane = FACE_PLANE[contour.face];
  return FACES.filter((face) => {
    const { axis, sign } = FACE_AXIS[face];
    const which = plane.indexOf(axis);
    if (which < 0) return false;
    const at = sign > 0 ? part.size[AXIS_INDEX[axis]] : 0;
    const on = (p: Point2) => Math.abs((which === 0 ? p.u : p.v) - at) < HAIR;
    const edges = keptLoops(contour).flatMap((l) => l.edges);
    return edges.reduce((sum, e) => sum + (e.type === 'line' && on(e.a) && on(e.b) ? lengthOf(e) : 0), 0) >= SIDE_MM;
  });
}

/** A vise finds two opposite sides of what stays. */
export function jawsFor(contour: Contour, part: Pick<Part, 'size'>): readonly [Face, Face] | undefined {
  const kept = sidesKept(contour, part);
  const first = kept.find((face) => kept.includes(OPPOSITE[face]));
  return first && [first, OPPOSITE[first]];
}

export interface IfFaced {
  /** Sides that the jaws lie against with stock still on them, and how thick the thicker is. */
  readonly faces: readonly Face[];
  readonly stockMm: number;
  /** What the jaws would share after the cut, had those sides been cut before, mm². */
  readonly thenMm2: number;
}

/** Less than this is held by nothing, mm². */
const HELD_MM2 = 1;

/** What a cut would leave between the jaws if no stock stood outside the part there; undefined where none does, or that holds nothing either. */
export function ifFaced(
  cut: Cut,
  { seating, inVise: h }: InJaws,
  part: Pick<Part, 'size'>,
  solid: Solid,
): IfFaced | undefined {
  const stock = cut.before.body;
  const body = solid.body;
  const plane = (face: Face) => (FACE_AXIS[face].sign > 0 ? part.size[h.jawAxis] : 0);
  const jaws = [
    [h.fixed, h.fixedAtMm],
    [h.moving, h.movingAtMm],
  ] as const;
  const raw = jaws.filter(
    ([face, at]) => (at - plane(face)) * FACE_AXIS[face].sign > SAME && excessOver(face, stock, body) > 0,
  );
  if (raw.length === 0) return undefined;
  const faces = raw.map(([face]) => face);
  const work = lessOf(
    lessOf(
      cut.before,
      faces.flatMap((f) => facingOf(f, undefined, stock, body)),
    ),
    cut.removes,
  );
  const at = (face: Face, now: number) => (faces.includes(face) ? plane(face) : now);
  const { known, opposed } = contactOf(work, seating, {
    ...h,
    fixedAtMm: at(h.fixed, h.fixedAtMm),
    movingAtMm: at(h.moving, h.movingAtMm),
  });
  if (!known || opposed.areaMm2 < HELD_MM2) return undefined;
  const stockMm = Math.max(...faces.map((f) => excessOver(f, stock, body)));
  return { faces, stockMm, thenMm2: opposed.areaMm2 };
}
