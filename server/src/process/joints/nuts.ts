/** A hexagon nut in the pocket or slot that it is let into: whether it goes in, and whether it is kept from turning. */
import { featureFrame } from '../../geometry/frame';
import type { Point2, Void } from '../../geometry/types';
import { dot } from '../../geometry/vector';
import { ROUNDING } from '../../tolerance';
import { inFrame, insideBy } from '../section';
import type { Layer, MetHole } from './layers';

interface NutRoom {
  /** How far the largest nut, turned as it fits best, is inside the opening; negative: it does not go in. */
  readonly insideMm: number;
  /** The smallest nut can be turned right round. */
  readonly turns: boolean;
}

/** Undefined where the opening is not about the screw's axis, or lies across it: a nut slid in from the side. */
export function nutRoom(
  { hole, index }: Pick<MetHole, 'hole' | 'index'>,
  { piece }: Layer,
  opening: string,
  { cornersMm, leastCornersMm }: { readonly cornersMm: number; readonly leastCornersMm: number },
): NutRoom | undefined {
  const { origin, w } = featureFrame(hole, piece.part.size, hole.places[index]!);
  const about = piece.solid.voidsOf(opening).find((v) => {
    const at = inFrame(v.frame, origin);
    return Math.abs(dot(v.frame.w, w)) > 1 - ROUNDING && insideBy(v.region, at) > 0;
  });
  if (!about) return undefined;
  const middle = inFrame(about.frame, origin);
  const best = Math.max(...TURNS.map((deg) => inside(about, middle, cornersMm, deg)));
  return { insideMm: best, turns: TURNS.every((deg) => inside(about, middle, leastCornersMm, deg) >= 0) };
}

/** A hexagon is the same again after a sixth of a turn. */
const TURNS = Array.from({ length: 60 }, (_, deg) => deg);

/** How far inside the outline the corner or the middle of a side lies that is least so. */
function inside({ region }: Void, { u, v }: Point2, cornersMm: number, deg: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < 12; i++) {
    const at = ((deg + 30 * i) * Math.PI) / 180;
    const r = (cornersMm / 2) * (i % 2 === 0 ? 1 : Math.sqrt(3) / 2);
    least = Math.min(least, insideBy(region, { u: u + r * Math.cos(at), v: v + r * Math.sin(at) }));
  }
  return least;
}
