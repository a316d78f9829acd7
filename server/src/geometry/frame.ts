/** Frames: where a feature's (u, v, w) lie in part axes. w points from the face into the material. */
import { FACE_AXIS, FACE_PLANE, type Face, type Feature, type Place } from '../model/model';
import type { Frame, Point2, Vec3 } from './types';
import { AXIS_INDEX, add, dot, sub, turned } from './vector';

export type Size = readonly [number, number, number];

const UNIT: readonly Vec3[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

/** Unit vector into the material from a face. */
export function inward(face: Face): Vec3 {
  const { axis, sign } = FACE_AXIS[face];
  const u = UNIT[AXIS_INDEX[axis]]!;
  return sign < 0 ? u : [-u[0], -u[1], -u[2]];
}

/** The face's plane along its axis: 0 or the body's size. */
export function levelOf(face: Face, size: Size): number {
  const { axis, sign } = FACE_AXIS[face];
  return sign < 0 ? 0 : size[AXIS_INDEX[axis]];
}

/** How far it is from a face to the opposite one, mm. */
export function extentBelow(face: Face, size: Size): number {
  return size[AXIS_INDEX[FACE_AXIS[face].axis]];
}

/** The face's own size along its u and v. */
export function faceSize(face: Face, size: Size): readonly [number, number] {
  const [u, v] = FACE_PLANE[face];
  return [size[AXIS_INDEX[u]], size[AXIS_INDEX[v]]];
}

/** Frame on a face with its origin at a place. */
export function faceFrame(face: Face, size: Size, place: Point2): Frame {
  const [au, av] = FACE_PLANE[face];
  const origin: [number, number, number] = [0, 0, 0];
  origin[AXIS_INDEX[au]] = place.u;
  origin[AXIS_INDEX[av]] = place.v;
  origin[AXIS_INDEX[FACE_AXIS[face].axis]] = levelOf(face, size);
  return { origin, u: UNIT[AXIS_INDEX[au]]!, v: UNIT[AXIS_INDEX[av]]!, w: inward(face) };
}

/** The frame of a feature at one of its places, leaning where the feature is tilted: about the place's point on the face. */
export function featureFrame(feature: Feature, size: Size, place: Place | Point2): Frame {
  const frame = faceFrame(feature.face, size, place);
  const { tilt } = feature;
  if (!tilt || tilt.angle.deg === 0) return frame;
  const axis = AXIS_INDEX[tilt.about];
  const lean = (v: Vec3) => turned(v, axis, tilt.angle.deg);
  return { origin: frame.origin, u: lean(frame.u), v: lean(frame.v), w: lean(frame.w) };
}

/** u, v, w of a point in part axes. */
export function toFrame(f: Frame, p: Vec3): Vec3 {
  const d = add(p, f.origin, -1);
  return [dot(d, f.u), dot(d, f.v), dot(d, f.w)];
}

/** The point of the part at (u, v) in a frame's plane, `w` deep. */
export function fromFrame(f: Frame, u: number, v: number, w: number): Vec3 {
  return [
    f.origin[0] + u * f.u[0] + v * f.v[0] + w * f.w[0],
    f.origin[1] + u * f.u[1] + v * f.v[1] + w * f.w[1],
    f.origin[2] + u * f.u[2] + v * f.v[2] + w * f.w[2],
  ];
}

/** A direction given in a frame, in part axes. */
export function alongFrame(f: Frame, u: number, v: number, w: number): Vec3 {
  return [
    u * f.u[0] + v * f.v[0] + w * f.w[0],
    u * f.u[1] + v * f.v[1] + w * f.w[1],
    u * f.u[2] + v * f.v[2] + w * f.w[2],
  ];
}

/** A point of the part seen in a frame: its place in the plane. */
export function intoFrame(f: Frame, p: Vec3): Point2 {
  const d = sub(p, f.origin);
  return { u: dot(d, f.u), v: dot(d, f.v) };
}

/** How deep a point of the part lies in a frame. */
export function depthOf(f: Frame, p: Vec3): number {
  return dot(sub(p, f.origin), f.w);
}
