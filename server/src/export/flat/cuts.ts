/** What a cut straight through along one axis makes of a part, and what of the part it does not make. */

import { chainLoops, regionsOfLoops } from '../../geometry/2d/assemble-loops';
import { boundaryOf } from '../../geometry/2d/boolean';
import { type Sheet, sheetOf } from '../../geometry/2d/indexed-region';
import { regionMoments } from '../../geometry/2d/moments';
import { mapEdge } from '../../geometry/2d/plane-map';
import { extentBelow } from '../../geometry/frame';
import { sectionOf, standing } from '../../geometry/solid/section';
import { plainStopsOf } from '../../geometry/solid/stops';
import type { Region, Solid, Void } from '../../geometry/types';
import { breaksEdges } from '../../model/feature-kinds';
import { FACE_AXIS, type Face, type Feature, type Part } from '../../model/model';
import { ROUNDING, SAME } from '../../tolerance';
import { projectionOf, regionsFrom, sheetOfAll, united } from './slices';
import { tidyRegion } from './tidy';
import { type View, viewOf } from './view';

export interface FlatCut {
  readonly face: Face;
  /** mm; the drawing's origin is the body's lower left corner as the face is seen. */
  readonly width: number;
  readonly height: number;
  /** What stays of the sheet. */
  readonly material: readonly Region[];
  /** Outlines of cuts from this face that do not go through, where there is still material. */
  readonly partial: readonly Region[];
  /** Features that are not, or not wholly, made so; in text order. */
  readonly notCut: readonly { readonly feature: string; readonly why: string }[];
}

/** Smaller than this is rounding, mm². */
const SPECK_MM2 = 1e-4;

/** Undefined where the outlines are too tangled to follow. */
export function cutsOf(solid: Solid, part: Part, face: Face): FlatCut | undefined {
  const view = viewOf(face, solid.body.box.max);
  const material = projectionOf(solid, view);
  if (!material) return undefined;
  const stays = sheetOfAll(material);
  const partial: Region[] = [];
  const left: { feature: string; why: string }[] = [];
  for (const feature of part.features) {
    const unmade = solid.voidsOf(feature.name).filter((v) => bites(v, view, stays, solid));
    if (unmade.length === 0) continue;
    left.push({ feature: feature.name, why: whyNot(feature, face, unmade) });
    if (feature.face !== face || feature.tilt || breaksEdges(feature)) continue;
    const shown = openings(
      unmade.filter((v) => standing(v, view.axis) === 'along'),
      view,
      stays,
    );
    if (!shown) return undefined;
    partial.push(...shown);
  }
  return {
    face,
    width: view.width,
    height: view.height,
    material: material.map(tidyRegion),
    partial: partial.map(tidyRegion),
    notCut: left,
  };
}

/** True where the void takes from what a cut straight through leaves. */
function bites(v: Void, view: View, stays: Sheet, solid: Solid): boolean {
  const { axis } = view;
  const low = Math.max(v.bounds.min[axis], solid.body.box.min[axis]);
  const high = Math.min(v.bounds.max[axis], solid.body.box.max[axis]);
  if (!(high - low > SAME)) return false;
  const stops = plainStopsOf([v], axis, low, high);
  return stops.slice(1).some((b, n) => {
    const a = stops[n]!;
    return [a + 1e-7, (a + b) / 2, b - 1e-7].some((at) => {
      const edges = sectionOf(v, axis, at).sheet.edges.map((e) => mapEdge(view.map, e));
      return edges.length > 0 && areaOf(boundaryOf([stays, sheetOf(edges, true)], [])) > SPECK_MM2;
    });
  });
}

function areaOf(edges: Parameters<typeof chainLoops>[0]): number {
  const loops = chainLoops(edges);
  return (loops ?? []).reduce((sum, l) => sum + regionMoments({ outer: l, holes: [] }).area, 0);
}

/** The sections of these voids at their ends, together, as far as there is material. */
function openings(voids: readonly Void[], view: View, stays: Sheet): readonly Region[] | undefined {
  const all: Region[] = [];
  for (const v of voids) {
    const [a, b] = [v.from, v.to].map((w) => v.frame.origin[view.axis] + v.frame.w[view.axis] * w) as [number, number];
    for (const t of v.profile.type === 'straight' ? [0.5] : [ROUNDING, 1 - ROUNDING]) {
      const loops = chainLoops(sectionOf(v, view.axis, a + (b - a) * t).sheet.edges.map((e) => mapEdge(view.map, e)));
      const regions = loops && regionsOfLoops(loops);
      if (!regions) return undefined;
      all.push(...regions);
    }
  }
  const one = united(all);
  if (!one) return undefined;
  return regionsFrom(boundaryOf([stays, sheetOfAll(one)], []));
}

/** Why a cut straight through does not make it: its kind, its lean, its side, which part of it. */
function whyNot(feature: Feature, face: Face, unmade: readonly Void[]): string {
  if (breaksEdges(feature)) return 'broken edge';
  if (feature.tilt) return 'leaning';
  if (FACE_AXIS[feature.face].axis !== FACE_AXIS[face].axis) return `from ${feature.face}`;
  if (feature.kind === 'slope') return 'slanted';
  const mouths = ['counterbore', 'countersink'] as const;
  const only = mouths.find((role) => unmade.every((v) => v.role === role));
  const why = only ? `its ${only}` : 'not all the way';
  return feature.face === face ? why : `from ${feature.face}, ${why}`;
}

/** The face from which most features go all the way through; of two opposite ones the one that names more of them. */
export function faceWithMostCuts(solid: Solid, part: Part): Face {
  const throughs = part.features.filter((f) => solid.voidsOf(f.name).some((v) => v.through));
  const score = (face: Face) => {
    const { axis } = FACE_AXIS[face];
    const along = throughs.filter((f) => FACE_AXIS[f.face].axis === axis);
    const own = along.filter((f) => f.face === face).length;
    const thickness = extentBelow(face, solid.body.box.max);
    return [along.length, own, -thickness, part.features.filter((f) => f.face === face).length] as const;
  };
  const faces: readonly Face[] = ['top', 'front', 'right', 'bottom', 'back', 'left'];
  return faces.reduce((best, face) => (isMore(score(face), score(best)) ? face : best));
}

function isMore(a: readonly number[], b: readonly number[]): boolean {
  const i = a.findIndex((x, n) => x !== b[n]);
  return i >= 0 && a[i]! > b[i]!;
}
