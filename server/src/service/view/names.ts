/** What the faces of a part are called: `wall of throat`, `floor of bearing-seat`, `front`. Words of the trade. */

import type { Place } from '../../geometry/mesh/surface';
import type { ShownSurface } from '../../geometry/mesh/traced';
import type { Void } from '../../geometry/types';
import { isChannel } from '../../model/feature-kinds';
import type { Feature } from '../../model/model';
import { memberOf } from '../../rules/kit/message';
import { ROUNDING } from '../../tolerance';

/** The name of one surface; `feature`: whose it is; `siblings`: all voids of its member. */
export function surfaceName(surface: ShownSurface, feature: Feature | undefined, siblings: readonly Void[]): string {
  const { of } = surface;
  if (!of) return bodyFace(surface);
  // what facing leaves is the finished face itself
  if (!feature) return of.feature;
  return `${word(surface, of, feature, siblings)} of ${memberOf(of)}`;
}

function word(surface: ShownSurface, of: Void, feature: Feature, siblings: readonly Void[]): string {
  const { place } = surface;
  switch (of.role) {
    case 'point':
      return place === 'flank' ? 'point' : 'floor';
    case 'countersink':
      return place === 'flank' ? 'countersink' : plain(place);
    case 'counterbore':
      return place === 'wall' ? 'counterbore' : place === 'floor' ? 'seat' : plain(place);
    case 'edge':
      return feature.kind === 'edge-round' ? 'round' : 'chamfer';
    case 'undercut':
      return isChannel(feature) && feature.runOutMm !== undefined ? fromItsSide(surface) : plain(place);
    case 'slope':
      return 'slope';
    case 'groove':
      return grooveWord(surface);
    case 'pocket':
      return place === 'floor' && liesUnder(of, siblings) ? 'island top' : plain(place);
    case 'bore':
    case 'slot':
    case 'step':
    case 'contour':
    case 'engraving':
      return plain(place);
    default:
      return of.role satisfies never;
  }
}

/** Drawn from its side: what lies along the sweep is its floor. */
function fromItsSide({ place, shape }: ShownSurface): string {
  if (place !== 'wall') return 'wall';
  return shape.type === 'plane' ? 'floor' : 'run-out';
}

/** In a hole a groove has two sides and a bottom. */
function grooveWord({ place, shape }: ShownSurface): string {
  if (place !== 'wall' || shape.type !== 'cylinder') return plain(place);
  return shape.sense < 0 ? 'outer wall' : 'inner wall';
}

/** Another layer of the pocket goes on below it. */
function liesUnder(of: Void, siblings: readonly Void[]): boolean {
  return siblings.some((s) => s.role === 'pocket' && Math.abs(s.from - of.to) < ROUNDING);
}

function plain(place: Place): string {
  switch (place) {
    case 'roof':
      return 'upper side';
    case 'fillet':
      return 'floor fillet';
    case 'wall':
    case 'floor':
    case 'flank':
    case 'round':
      return place;
    default:
      return place satisfies never;
  }
}

const SIDES = [
  ['left', 'right'],
  ['front', 'back'],
  ['bottom', 'top'],
] as const;

function bodyFace({ shape }: ShownSurface): string {
  if (shape.type !== 'plane') return 'round side';
  const axis = ([0, 1, 2] as const).find((a) => Math.abs(shape.normal[a]) > 0.5) ?? 2;
  return SIDES[axis][shape.normal[axis] > 0 ? 1 : 0];
}
