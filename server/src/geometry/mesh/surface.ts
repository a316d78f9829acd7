/**
 * The exact surfaces that a mesh stands for: planes, cylinders, cones and rings (a fillet round an arc), with the
 * direction out of the material at every point. Made from outlines and profiles in closed form, never from facets.
 */
import { ROUNDING } from '../../tolerance';
import type { Vec3 } from '../types';
import { add, dot, length, scale, sub } from '../vector';

/**
 * `sense`: +1 where the material lies on the side of the axis (a shaft, a rounded edge), −1 where the air does (a bore,
 * a fillet). A cone's `axis` points from its apex into its opening.
 */
export type ExactShape =
  | { readonly type: 'plane'; readonly normal: Vec3; readonly offsetMm: number }
  | {
      readonly type: 'cylinder';
      readonly axis: Vec3;
      readonly through: Vec3;
      readonly radiusMm: number;
      readonly sense: 1 | -1;
    }
  | {
      readonly type: 'cone';
      readonly axis: Vec3;
      readonly apex: Vec3;
      readonly halfAngleDeg: number;
      readonly sense: 1 | -1;
    }
  | {
      readonly type: 'ring';
      readonly axis: Vec3;
      readonly centre: Vec3;
      /** Of the circle that the tube's centre runs on; 0 for a ball. */
      readonly majorMm: number;
      readonly minorMm: number;
      readonly sense: 1 | -1;
    };

/** What part of its feature a surface is. `roof` closes a volume on the side it is entered from, `floor` on the other. */
export type Place = 'wall' | 'floor' | 'roof' | 'flank' | 'fillet' | 'round';

const RAD = Math.PI / 180;

/** A plane through a point, its normal out of the material. */
export function planeThrough(normal: Vec3, point: Vec3): ExactShape {
  return { type: 'plane', normal, offsetMm: dot(normal, point) };
}

/** Unit vector out of the material at a point on (or near) the surface; undefined where it has none: an apex, an axis. */
export function normalAt(shape: ExactShape, p: Vec3): Vec3 | undefined {
  switch (shape.type) {
    case 'plane':
      return shape.normal;
    case 'cylinder': {
      const out = outFrom(shape.axis, shape.through, p);
      return out && scale(out, shape.sense);
    }
    case 'cone': {
      const out = outFrom(shape.axis, shape.apex, p);
      if (!out) return undefined;
      const h = shape.halfAngleDeg * RAD;
      return scale(add(scale(out, Math.cos(h)), shape.axis, -Math.sin(h)), shape.sense);
    }
    case 'ring': {
      const out = outFrom(shape.axis, shape.centre, p);
      if (!out && shape.majorMm > ROUNDING) return undefined;
      const tube = out ? add(shape.centre, out, shape.majorMm) : shape.centre;
      return unit(scale(sub(p, tube), shape.sense));
    }
    default:
      return shape satisfies never;
  }
}

/** The same surface with the material on its other side. */
export function turnedShape(shape: ExactShape): ExactShape {
  if (shape.type === 'plane') return { ...shape, normal: scale(shape.normal, -1), offsetMm: -shape.offsetMm };
  return { ...shape, sense: shape.sense === 1 ? -1 : 1 };
}

/** The vector from an axis to a point, square to the axis. */
export function acrossAxis(axis: Vec3, through: Vec3, p: Vec3): Vec3 {
  const d = sub(p, through);
  return add(d, axis, -dot(d, axis));
}

function outFrom(axis: Vec3, through: Vec3, p: Vec3): Vec3 | undefined {
  return unit(acrossAxis(axis, through, p));
}

function unit(v: Vec3): Vec3 | undefined {
  const l = length(v);
  return l > 1e-7 ? scale(v, 1 / l) : undefined;
}
