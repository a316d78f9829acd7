/** From which faces a straight tool along the spindle can cut a feature at all, whatever stands around it. */

import type { Solid, Void } from '../geometry/types';
import { type ByForm, type Forms, ofForm } from '../model/feature-kinds';
import {
  type Contour,
  FACE_AXIS,
  FACE_PLANE,
  type Face,
  type Feature,
  OPPOSITE,
  type Part,
  type Pocket,
} from '../model/model';
import { ROUNDING, SAME } from '../tolerance';
import { undercutBoss } from './boss-undercuts';
import { discWaysOf } from './disc-ways';

/**
 * Approach faces, the feature's own first. A blind pocket has one, a through hole or contour two, a step one for each
 * face it opens to, an open slot up to three (its own face and the ends it runs out of), a leaning feature none of
 * the six. The count follows the usual tool approach directions of set-up planning.
 */
export function approachesOf(feature: Feature, part: Part, solid: Solid): readonly Face[] {
  if (feature.tilt && Math.abs(feature.tilt.angle.deg) > ROUNDING) return [];
  return ofForm(APPROACHES, feature, part, solid);
}

const APPROACHES: ByForm<[part: Part, solid: Solid], readonly Face[]> = {
  hole: ({ name, face, counterbore, countersink }, _, solid) =>
    endsThrough(name, solid) && !counterbore && !countersink ? [face, OPPOSITE[face]] : [face],
  opening: fromAboveOrBelow,
  outside: fromAboveOrBelow,
  channel: (channel, part, solid) =>
    distinct([...millApproaches(channel, solid), ...discApproaches(channel, part, solid)]),
  shoulder: ({ name, face, along }, _, solid) =>
    distinct([face, ...along.map((a) => a.name), ...through(name, face, solid)]),
  edge: edgeApproaches,
  ring: ({ face, in: within }, part, solid) => {
    const hole = within && part.featureByName.get(within.name);
    return hole ? approachesOf(hole, part, solid) : [face];
  },
  letters: ({ face }) => [face],
  slope: ({ face, along, angle }) => {
    const ends = FACE_PLANE[face].filter((axis) => axis !== FACE_AXIS[along.name].axis);
    const sides = (Object.keys(FACE_AXIS) as Face[]).filter((f) => ends.includes(FACE_AXIS[f].axis));
    // From above or from its side only a cutter that has the slope's own angle makes it.
    const flank = CHAMFER_ANGLES.some((deg) => Math.abs(deg - angle.deg) < 0.5);
    return distinct([...sides, ...(flank ? [face, along.name] : [])]);
  },
};

function fromAboveOrBelow(feature: Pocket | Contour, _: Part, solid: Solid): readonly Face[] {
  const { name, face, floorRadius } = feature;
  if (('draft' in feature && feature.draft) || undercutBoss(feature)) return [face];
  return endsThrough(name, solid) && floorRadius.mm === 0 ? [face, OPPOSITE[face]] : [face];
}

/** The feature's own volume ends on the far side of the body, nowhere on a floor: as written, or by its depth. */
export function endsThrough(name: string, solid: Solid): boolean {
  const voids = solid.voidsOf(name).filter((v) => v.role !== 'counterbore' && v.role !== 'countersink');
  // Of a pocket in layers the lowest tells.
  return voids.length > 0 && voids.some((v) => v.through || reachesFar(v, solid));
}

function reachesFar(v: Void, { body }: Solid): boolean {
  const i = v.frame.w.findIndex((c) => Math.abs(c) > 0.999) as 0 | 1 | 2;
  if (i < 0 || v.role === 'point') return false;
  return v.frame.w[i] > 0 ? v.bounds.max[i] >= body.box.max[i] - SAME : v.bounds.min[i] <= body.box.min[i] + SAME;
}

function through(name: string, face: Face, solid: Solid): readonly Face[] {
  return endsThrough(name, solid) ? [OPPOSITE[face]] : [];
}

/**
 * A straight slot that runs right through the body is also open along its line. But a mill that comes along it leaves its
 * own radius where walls and floor meet: only a slot with that radius, or one without a floor, can be cut so. An undercut
 * below a neck is never a mill's own round.
 */
function millApproaches(slot: Forms['channel'], solid: Solid): readonly Face[] {
  if (slot.runOutMm !== undefined) return [];
  // What is wider at the mouth is cut from there.
  if (slot.counterbore || slot.countersink) return [slot.face];
  const faces: Face[] = [slot.face, ...through(slot.name, slot.face, solid)];
  const floored = faces.length === 1;
  if (slot.tee || slot.dovetail || (floored && slot.floorRadius.mm === 0)) return faces;
  const ends = openEndsOf(slot, solid);
  // Open at one end only, the other is as round as the slot is wide: from the side it would come out square.
  return ends.length === 2 ? distinct([...faces, ...ends]) : faces;
}

/** From its sides, where a set-up says so, or nothing else makes its run-out. No planner looks for it elsewhere. */
function discApproaches(channel: Forms['channel'], { setups = [] }: Part, solid: Solid): readonly Face[] {
  const told = setups.filter((s) => s.cuts.some((c) => c.name === channel.name)).flatMap((s) => s.up?.name ?? []);
  if (told.length === 0 && channel.runOutMm === undefined) return [];
  const ways = discWaysOf(channel, solid.voidsOf(channel.name), solid);
  return distinct(ways.flatMap((w) => w.ups)).filter((up) => channel.runOutMm !== undefined || told.includes(up));
}

/** The sides that a straight slot along an axis runs out of. */
export function openEndsOf(slot: Forms['channel'], solid: Solid): readonly Face[] {
  const [a, b] = [slot.line[0], slot.line[slot.line.length - 1]];
  if (slot.line.length !== 2 || !a || !b) return [];
  const alongU = Math.abs(a.v - b.v) < ROUNDING;
  const alongV = Math.abs(a.u - b.u) < ROUNDING;
  if (alongU === alongV) return [];
  const axis = FACE_PLANE[slot.face][alongU ? 0 : 1];
  const index = { x: 0, y: 1, z: 2 }[axis] as 0 | 1 | 2;
  const { min, max } = solid.body.box;
  const ends: Face[] = [];
  for (const side of Object.keys(FACE_AXIS) as Face[]) {
    if (FACE_AXIS[side].axis !== axis) continue;
    const open = solid
      .voidsOf(slot.name)
      .every((v) =>
        FACE_AXIS[side].sign > 0 ? v.bounds.max[index] >= max[index] - SAME : v.bounds.min[index] <= min[index] + SAME,
      );
    if (open) ends.push(side);
  }
  return ends;
}

/**
 * A broken edge is cut with a form cutter from either face that meets in it, or with the side of an end mill from either
 * end of it; a rim from the side it opens to.
 */
function edgeApproaches(feature: Forms['edge'], _: Part, solid: Solid): readonly Face[] {
  const each = feature.edges.map((edge): readonly Face[] => {
    if (edge.type === 'face') return [edge.face];
    if (edge.type === 'edge') return [...edge.faces, ...endsOf(edge.faces)];
    return [edge.face];
  });
  const all = distinct(each.flat());
  const common = all.filter((f) => each.every((faces) => faces.includes(f)));
  return common.length > 0 || solid.voidsOf(feature.name).length === 0 ? common : all;
}

/** The faces at the two ends of the edge between two faces. */
export function endsOf([a, b]: readonly [Face, Face]): readonly Face[] {
  const taken = [FACE_AXIS[a].axis, FACE_AXIS[b].axis];
  return (Object.keys(FACE_AXIS) as Face[]).filter((f) => !taken.includes(FACE_AXIS[f].axis));
}

/** Angles that chamfer mills come in, between flank and face. Common practice: included angles of 60°, 90° and 120°. */
const CHAMFER_ANGLES = [30, 45, 60];

function distinct(faces: readonly Face[]): readonly Face[] {
  return [...new Set(faces)];
}
