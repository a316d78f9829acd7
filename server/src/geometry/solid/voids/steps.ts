/** Steps along an edge or in a corner of the body, and slopes. */

import { FACE_PLANE, type Face, type Slope, type Step } from '../../../model/model';
import { ROUNDING } from '../../../tolerance';
import { polygonLoop, rectLoop } from '../../2d/shape-outline';
import { extentBelow, faceFrame, faceSize, inward, levelOf, type Size } from '../../frame';
import type { Frame, Region, Vec3, Void } from '../../types';
import { AXIS_INDEX } from '../../vector';
import { depthRange, floorProfile, makeVoid, type Surroundings } from './make';

/** What a step takes: everything beyond its width on each of its sides. Nothing where no side borders the face. */
export function stepVoids(step: Step, { size }: Surroundings): readonly Void[] {
  const [lu, lv] = faceSize(step.face, size);
  // with a fillet on the floor the outline runs on past the open sides, where there is no wall to blend into
  const past = step.floorRadius.mm > 0 ? step.floorRadius.mm + 1 : 0;
  let [u0, v0, u1, v1] = [-past, -past, lu + past, lv + past];
  let known = 0;
  step.along.forEach(({ name }, i) => {
    const width = step.widths[i]?.mm ?? 0;
    const side = sideOf(step.face, name);
    if (!side || !(width > 0)) return;
    known++;
    if (side.along === 'u') {
      if (side.low) u1 = Math.min(u1, width);
      else u0 = Math.max(u0, lu - width);
    } else if (side.low) v1 = Math.min(v1, width);
    else v0 = Math.max(v0, lv - width);
  });
  if (known === 0 || u1 - u0 <= ROUNDING || v1 - v0 <= ROUNDING) return [];
  const region: Region = { outer: rectLoop(u0, v0, u1, v1), holes: [] };
  const range = depthRange(step, step.depth, size, region);
  if (!range) return [];
  const frame = faceFrame(step.face, size, { u: 0, v: 0 });
  const profile = floorProfile(step.floorRadius.mm, range);
  return [
    makeVoid(step, {
      member: 0,
      role: 'step',
      frame,
      region,
      from: range.from,
      to: range.to,
      profile,
      through: range.through,
    }),
  ];
}

/** Which side of a face another face bounds: `low` at the small end of u or v. Undefined for itself and its opposite. */
export function sideOf(face: Face, other: Face): { along: 'u' | 'v'; low: boolean } | undefined {
  const [u, v] = FACE_PLANE[face];
  const into = inward(other);
  if (into[AXIS_INDEX[u]] !== 0) return { along: 'u', low: into[AXIS_INDEX[u]] > 0 };
  if (into[AXIS_INDEX[v]] !== 0) return { along: 'v', low: into[AXIS_INDEX[v]] > 0 };
  return undefined;
}

/**
 * The frame of the edge between two faces: u runs into the body along `face`, v down along `side`, w along the edge
 * from its low end; `length` is the edge's.
 */
export function edgeFrame(face: Face, side: Face, size: Size): { frame: Frame; length: number } | undefined {
  if (!sideOf(face, side)) return undefined;
  const u = inward(side);
  const v = inward(face);
  const w: Vec3 = [
    u[0] === 0 && v[0] === 0 ? 1 : 0,
    u[1] === 0 && v[1] === 0 ? 1 : 0,
    u[2] === 0 && v[2] === 0 ? 1 : 0,
  ];
  const along = w[0] ? 0 : w[1] ? 1 : 2;
  const origin: [number, number, number] = [0, 0, 0];
  for (const f of [face, side]) {
    const n = inward(f);
    const axis = n[0] !== 0 ? 0 : n[1] !== 0 ? 1 : 2;
    origin[axis] = levelOf(f, size);
  }
  return { frame: { origin, u, v, w }, length: size[along] };
}

/** A wedge along an edge of the face. */
export function slopeVoids(slope: Slope, { size }: Surroundings): readonly Void[] {
  const edge = edgeFrame(slope.face, slope.along.name, size);
  const { widthMm, depthMm } = slope;
  if (!edge || !(widthMm > 0 && depthMm > 0 && edge.length > 0)) return [];
  const outer = polygonLoop([
    { u: 0, v: 0 },
    { u: widthMm, v: 0 },
    { u: 0, v: depthMm },
  ]);
  const through = widthMm >= extentBelow(slope.along.name, size) && depthMm >= extentBelow(slope.face, size);
  return [
    makeVoid(slope, {
      member: 0,
      role: 'slope',
      frame: edge.frame,
      region: { outer, holes: [] },
      from: 0,
      to: edge.length,
      through,
    }),
  ];
}
