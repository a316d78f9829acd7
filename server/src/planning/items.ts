/**
 * What there is to cut, one by one: every feature, and every face with stock left on it; for each the faces from which
 * a straight tool can cut it, and what must be cut before it. Edges broken all round a part are one item for each
 * face they are cut from.
 */

import { heed } from '../effort';
import type { Solid } from '../geometry/types';
import { AXIS_INDEX } from '../geometry/vector';
import { breaksEdges, type FeatureForm, homeOf } from '../model/feature-kinds';
import { type EdgeChoice, FACE_AXIS, type Face, type Feature, type Part } from '../model/model';
import { approachesOf, endsOf } from '../process/approach';
import { bordersOf } from '../process/borders';
import { mayBeByHand } from '../process/by-hand';
import { isOffMill } from '../process/made-on';
import type { PartInShop } from '../process/part-in-shop';
import { overFace } from '../process/stock';
import { comesCut } from '../process/stock/brought';
import { LEAST_GRIP_MM } from '../process/workholding/parallels';
import { SAME } from '../tolerance';
import { coveredBy } from './covered';
import { ratherAfter, ratherBeside } from './craft';
import { DIRECTIONS, type Mask, maskOf } from './directions';
import { EDGE_STAGE, type Item } from './item';

const STAGE: Readonly<Record<FeatureForm, number>> = {
  shoulder: 2,
  slope: 2,
  opening: 3,
  channel: 3,
  hole: 4,
  ring: 5,
  outside: 6,
  edge: EDGE_STAGE,
  letters: 8,
};

/** In text order, faces with stock on them first. Of a part that is nothing but edges these are cut like anything else. */
export function itemsOf({ part, solid, shop }: PartInShop): readonly Item[] {
  const items: Item[] = [];
  const add = (item: Omit<Item, 'index' | 'after'>) => items.push({ ...item, index: items.length, after: [] });
  for (const face of DIRECTIONS) {
    const mm = overFace(face, part);
    if (mm <= SAME) continue;
    // What round bar has beside the body is no flat for jaws.
    const grips = mm >= LEAST_GRIP_MM && part.stock.extra[face] !== undefined && { grips: true };
    add({ name: face, face, overMm: mm, ...grips, from: maskOf(facingFrom(face)), stage: 0, volumeMm3: 0 });
  }
  for (const feature of part.features) {
    const voids = solid.voidsOf(feature.name);
    if (voids.length === 0 || isOffMill(feature) || comesCut(feature, part, solid)) continue;
    const volumeMm3 = voids.reduce((sum, v) => sum + solid.insideMm3(v), 0);
    // A contour that stands on a floor is cut like a pocket; one that frees the part comes last.
    const stage = feature.kind === 'contour' && !feature.depth.through ? 2 : STAGE[homeOf(feature).form];
    const byHand = mayBeByHand(feature, shop) && { byHand: true as const };
    for (const from of needsOf(feature, part, solid))
      add({ name: feature.name, feature, from, stage, volumeMm3, ...byHand });
  }
  if (items.every((i) => i.byHand)) for (const [i, { byHand: _, ...item }] of items.entries()) items[i] = item;
  return items.map((item) => {
    const brings = coveredBy(item, items, part, solid);
    const rather = ratherAfter(item, items, solid);
    const beside = ratherBeside(item, items, solid);
    return {
      ...item,
      after: beforeIt(item, items, part, solid),
      ...(rather.length > 0 && { rather }),
      ...(beside.length > 0 && { beside }),
      ...(brings.length > 0 && { brings }),
    };
  });
}

/** A face is cut off from above, or with the side of a mill from any of the four directions along it. */
function facingFrom(face: Face): readonly Face[] {
  const { axis } = FACE_AXIS[face];
  return [face, ...DIRECTIONS.filter((d) => FACE_AXIS[d].axis !== axis)];
}

/** The feature's own directions; of edges on several faces one set for each that has directions of its own. */
function needsOf(feature: Feature, part: Part, solid: Solid): readonly Mask[] {
  if (!breaksEdges(feature)) return [maskOf(approachesOf(feature, part, solid))];
  const each = feature.edges.map((edge) => maskOf(edgeFrom(edge)));
  const common = each.reduce((a, b) => a & b, 63);
  return common !== 0 ? [common] : [...new Set(each)];
}

function edgeFrom(edge: EdgeChoice): readonly Face[] {
  switch (edge.type) {
    case 'face':
      return [edge.face];
    case 'edge':
      return [...edge.faces, ...endsOf(edge.faces)];
    case 'rim':
      return [edge.face];
    default:
      return edge satisfies never;
  }
}

function beforeIt(item: Item, items: readonly Item[], part: Part, solid: Solid): readonly number[] {
  const { feature } = item;
  if (!feature) return [];
  const names = new Set<string>();
  if (feature.from) names.add(feature.from.name);
  for (const needed of homeOf(feature).needs(feature)) names.add(needed.name);
  // An edge is broken when both faces that meet in it are there.
  const faces = new Set(bordersOf(feature));
  const broken = breaksEdges(feature) ? [...faces] : [];
  if (names.size === 0 && faces.size === 0) return [];
  heed(items.length);
  return items
    .filter((other) => other !== item)
    .filter(
      (other) =>
        (other.feature && names.has(other.feature.name) && part.featureByName.has(other.name)) ||
        (other.face !== undefined && faces.has(other.face)) ||
        (other.stage < EDGE_STAGE && broken.some((face) => bounds(other, face, solid))),
    )
    .map((other) => other.index);
}

/** It takes a piece out of the outline of that face: the edge is where it leaves it. */
function bounds({ feature }: Item, face: Face, solid: Solid): boolean {
  if (!feature || feature.kind === 'hole') return false;
  const { min, max } = solid.body.box;
  return solid.voidsOf(feature.name).some((v) => {
    const touches = (f: Face) => {
      const { axis, sign } = FACE_AXIS[f];
      const i = AXIS_INDEX[axis];
      return sign > 0 ? v.bounds.max[i] >= max[i] - SAME : v.bounds.min[i] <= min[i] + SAME;
    };
    return touches(face) && DIRECTIONS.some((f) => FACE_AXIS[f].axis !== FACE_AXIS[face].axis && touches(f));
  });
}
