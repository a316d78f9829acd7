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

interface SideRoom {
  /** How much wider than the nut is across its flats, and than it is high, the opening is beside the screw; negative: it does not go in. */
  readonly spareMm: number;
  /** So far the opening goes on behind the middle of the screw. */
  readonly behindMm: number;
  /** The smallest nut can be turned right round. */
  readonly turns: boolean;
}

/**
 * Of an opening that lies across the screw, into which the nut is pushed from the side with two of its flats along the
 * walls. Undefined where none does, or the screw does not come through it.
 */
export function nutSideRoom(
  { hole, index }: Pick<MetHole, 'hole' | 'index'>,
  { piece }: Layer,
  opening: string,
  nut: { readonly flatsMm: number; readonly leastCornersMm: number; readonly heightMm: number },
): SideRoom | undefined {
  const { origin, w } = featureFrame(hole, piece.part.size, hole.places[index]!);
  for (const v of piece.solid.voidsOf(opening)) {
    if (Math.abs(dot(v.frame.w, w)) > ROUNDING) continue;
    const at = inFrame(v.frame, origin);
    const along = { u: dot(w, v.frame.u), v: dot(w, v.frame.v) };
    if (at.w <= v.from || at.w >= v.to) continue;
    const most = Math.hypot(...piece.part.size);
    const middles = Array.from({ length: Math.ceil(most / STEP_MM) }, (_, i) => (i + 0.5) * STEP_MM)
      .map((t) => ({ u: at.u + t * along.u, v: at.v + t * along.v }))
      .filter((p) => insideBy(v.region, p) > 0);
    if (middles.length === 0) continue;
    const room = (acrossMm: number) =>
      Math.max(...middles.map((p) => insideBlock(v, p, along, [nut.heightMm, acrossMm])));
    return {
      spareMm: 2 * room(nut.flatsMm),
      behindMm: v.to - at.w,
      turns: room(nut.leastCornersMm) >= 0,
    };
  }
  return undefined;
}
/** A nut may sit anywhere along its screw in the opening: so far apart are the places that are looked at. */
const STEP_MM = 0.25;

/** How far inside the outline the corner or the middle of a side is that is least so; `high` along the screw, `across` beside it. */
function insideBlock(
  { region }: Void,
  middle: Point2,
  along: Point2,
  [high, across]: readonly [number, number],
): number {
  let least = Number.POSITIVE_INFINITY;
  for (const i of [-0.5, 0, 0.5])
    for (const j of [-0.5, 0, 0.5]) {
      if (i === 0 && j === 0) continue;
      const u = middle.u + i * high * along.u - j * across * along.v;
      const v = middle.v + i * high * along.v + j * across * along.u;
      least = Math.min(least, insideBy(region, { u, v }));
    }
  return least;
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
