/**
 * Which way the spindle looks at work that is held at an angle, and which way a leaning feature wants to be looked at.
 * Directions are unit vectors in part axes, from the work toward the spindle.
 */

import { inward } from '../../geometry/frame';
import type { Solid, Vec3 } from '../../geometry/types';
import { AXIS_INDEX, dot, scale, turned } from '../../geometry/vector';
import { type Axis, FACE_AXIS, FACE_PLANE, type Feature, type Part, type Setup } from '../../model/model';
import { SAME } from '../../tolerance';

/** Directions nearer than this are the same, degrees. A tilting vise is set no finer: common practice, no source. */
export const SAME_DEG = 0.05;

export interface Spindle {
  readonly toward: Vec3;
  readonly about: Axis;
  /** As a feature's own `tilt` counts: positive turns counter-clockwise seen against the axis. */
  readonly deg: number;
}

/** Undefined where the work is not held at an angle, or the text does not say enough: no face up, no axis and no leaning cut. */
export function spindleOf(setup: Setup, part: Pick<Part, 'featureByName'>): Spindle | undefined {
  const tilt = setup.hold?.type === 'angle' ? setup.hold.tilt : undefined;
  if (!tilt || !setup.up) return undefined;
  const up = setup.up.name;
  const own = FACE_PLANE[up];
  const about = tilt.about ?? setup.cuts.map((c) => axisOf(part.featureByName.get(c.name))).find((a) => a);
  if (!about || !own.includes(about)) return undefined;
  return { about, deg: tilt.angle.deg, toward: turned(outward(up), AXIS_INDEX[about], tilt.angle.deg) };
}

/** The part axis that a feature leans about; undefined for one that stands square. */
function axisOf(feature: Feature | undefined): Axis | undefined {
  if (feature?.tilt && feature.tilt.angle.deg !== 0) return feature.tilt.about;
  if (feature?.kind !== 'slope') return undefined;
  const taken = [FACE_AXIS[feature.face].axis, FACE_AXIS[feature.along.name].axis];
  return (['x', 'y', 'z'] as const).find((a) => !taken.includes(a));
}

/**
 * The direction from which a straight tool makes the feature: of a leaning one against its depth, of a slope square to
 * its plane. Undefined for a feature that stands square to the part's axes.
 */
export function wantedBy(feature: Feature, solid: Pick<Solid, 'voidsOf'>): Vec3 | undefined {
  const [first] = solid.voidsOf(feature.name);
  if (!first) return undefined;
  if (feature.kind === 'slope') {
    const a = (feature.angle.deg * Math.PI) / 180;
    const [n, side] = [outward(feature.face), outward(feature.along.name)];
    return [0, 1, 2].map((i) => n[i]! * Math.cos(a) + side[i]! * Math.sin(a)) as unknown as Vec3;
  }
  return axisOf(feature) ? scale(first.frame.w, -1) : undefined;
}

/** How far the spindle looks past what the feature wants, degrees; a through one may be cut from either end. */
export function offBy(feature: Feature, { toward }: Spindle, solid: Pick<Solid, 'voidsOf'>): number | undefined {
  const wanted = wantedBy(feature, solid);
  if (!wanted) return undefined;
  const cos = dot(wanted, toward);
  const both = feature.kind !== 'slope' && solid.voidsOf(feature.name).every((v) => v.through);
  return (Math.acos(Math.min(1, both ? Math.abs(cos) : Math.max(-1, cos))) * 180) / Math.PI;
}

/**
 * How a face would have to lean so that the spindle looks along `wanted`: degrees about an axis beside the face. Undefined
 * where it takes a turn about two axes, or more than a right angle.
 */
export function leanFor(wanted: Vec3, up: keyof typeof FACE_AXIS): { about: Axis; deg: number } | undefined {
  const n = outward(up);
  for (const about of FACE_PLANE[up]) {
    const k = AXIS_INDEX[about];
    if (Math.abs(wanted[k]) > SAME) continue;
    const side = turned(n, k, 90);
    const deg = (Math.atan2(dot(wanted, side), dot(wanted, n)) * 180) / Math.PI;
    if (Math.abs(deg) < 90 - SAME) return { about, deg: Math.round(deg * 1e6) / 1e6 };
  }
  return undefined;
}

function outward(face: keyof typeof FACE_AXIS): Vec3 {
  return scale(inward(face), -1);
}
