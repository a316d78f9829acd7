/** Faces, axes and frames of the part, from the text's own words. */
import { FACE_AXIS, FACE_PLANE, type Face, type Feature, type Part } from '../../server/src/model/model';
import type { Outline } from './outline';

export type Vec = readonly [number, number, number];
export interface Frame {
  readonly origin: Vec;
  readonly u: Vec;
  readonly v: Vec;
  readonly w: Vec;
}
export interface Taken {
  readonly feature: string;
  readonly member: number;
  readonly frame: Frame;
  readonly outline: Outline;
  readonly from: number;
  readonly to: number;
  /** A point is in it when its distance to the outline is less than this at its depth. */
  readonly grow: (depth: number) => number;
  /** The largest that `grow` comes to. */
  readonly most: number;
  /** Its width changes with depth: layers must be thin there. */
  readonly sloped: boolean;
  /** Only its two ends in depth matter: it has no walls of its own (a broken edge's far ends). */
  readonly open?: boolean;
  readonly what: 'bore' | 'point' | 'counterbore' | 'countersink' | 'floor' | 'edge' | 'undercut' | 'groove' | 'slope';
}

export const AXIS = { x: 0, y: 1, z: 2 } as const;
const UNIT: readonly Vec[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];
export const RAD = Math.PI / 180;
export const FAR = 1000;

export function axisOf(face: Face): 0 | 1 | 2 {
  return AXIS[FACE_AXIS[face].axis];
}
function intoOf(face: Face): Vec {
  const { sign } = FACE_AXIS[face];
  return UNIT[axisOf(face)]!.map((x) => x * -sign) as unknown as Vec;
}
function levelOf(face: Face, part: Part): number {
  return FACE_AXIS[face].sign > 0 ? part.size[axisOf(face)] : 0;
}
export function planeOf(face: Face): readonly [0 | 1 | 2, 0 | 1 | 2] {
  return [AXIS[FACE_PLANE[face][0]], AXIS[FACE_PLANE[face][1]]];
}

export function frameOn(face: Face, part: Part, u: number, v: number): Frame {
  const [a, b] = planeOf(face);
  const origin = [0, 0, 0];
  origin[a] = u;
  origin[b] = v;
  origin[axisOf(face)] = levelOf(face, part);
  return { origin: origin as unknown as Vec, u: UNIT[a]!, v: UNIT[b]!, w: intoOf(face) };
}

export function leaning(f: Feature, frame: Frame): Frame {
  if (!f.tilt || f.tilt.angle.deg === 0) return frame;
  const k = AXIS[f.tilt.about];
  const [i, j] = [(k + 1) % 3, (k + 2) % 3] as [number, number];
  const [c, s] = [Math.cos(f.tilt.angle.deg * RAD), Math.sin(f.tilt.angle.deg * RAD)];
  const turn = (p: Vec): Vec => {
    const q = [...p];
    q[i] = c * p[i]! - s * p[j]!;
    q[j] = s * p[i]! + c * p[j]!;
    return q as unknown as Vec;
  };
  return { origin: frame.origin, u: turn(frame.u), v: turn(frame.v), w: turn(frame.w) };
}

/** u into the body from `side`, v into it from `face`, w along their edge. */
export function edgeFrame(face: Face, side: Face, part: Part): Frame {
  const [u, v] = [intoOf(side), intoOf(face)];
  const along = 3 - axisOf(face) - axisOf(side);
  const origin = [0, 0, 0];
  origin[axisOf(face)] = levelOf(face, part);
  origin[axisOf(side)] = levelOf(side, part);
  return { origin: origin as unknown as Vec, u, v, w: UNIT[along]! };
}
