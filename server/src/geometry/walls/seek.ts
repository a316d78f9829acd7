/**
 * The search for the thinnest standing place where no closed form says where it is: over the surface of a volume, on a
 * grid first and then by halving steps around the best place, to a hundredth of a micrometre of where it may stand.
 */
import { type Surroundings, stands } from '../distance/cover';
import { outlineOf, pointAlong, type Side, signedDistance } from '../distance/outline';
import { bodyDepths, shared } from '../distance/section';
import { fromFrame } from '../frame';
import { insetAt } from '../prism';
import type { Point2, Vec3, Void } from '../types';
import { heart } from './floors';

/** What lies opposite a place: its distance and nearest point; none where it is farther than of interest. */
export type Opposite = (x: Vec3) => { readonly mm: number; readonly q: Vec3 } | undefined;

export interface Place {
  readonly mm: number;
  readonly p: Vec3;
  readonly q: Vec3;
}

/** A place of the surface: on a side, `mm` along it and `w` deep; `pull` of the way from the rim of a flat end to its middle. */
interface Spot {
  readonly side: Side;
  readonly mm: number;
  readonly w: number;
  readonly pull: number;
}

const ACROSS = 12;
const DEEP = 10;

/** The thinnest place of the sides, or of the flat ends, of a volume where material stands across to what lies opposite. */
export function seek(v: Void, part: 'sides' | 'ends', opposite: Opposite, s: Surroundings): Place | undefined {
  const middle = heart(outlineOf(v.region));
  const look = (at: Spot): Place | undefined => {
    const p = placeOf(v, at, middle);
    const found = p && opposite(p);
    if (!p || !found || found.mm < 1e-6 || !stands(p, found.q, s)) return undefined;
    return { mm: found.mm, p, q: found.q };
  };
  let best: { spot: Spot; place: Place } | undefined;
  for (const spot of part === 'sides' ? sideSpots(v, s) : endSpots(v)) {
    const place = look(spot);
    if (place && (!best || place.mm < best.place.mm)) best = { spot, place };
  }
  if (!best) return undefined;
  const deep = shared(v, bodyDepths(v.frame, s.body));
  let alongStep = best.spot.side.length / ACROSS;
  let otherStep = part === 'sides' ? (deep.to - deep.from) / DEEP : 0.34;
  while (alongStep > 1e-5 || otherStep > 1e-5) {
    let moved = false;
    for (const [i, k] of [
      [1, 0],
      [-1, 0],
      [0, 1],
      [0, -1],
    ] as const) {
      const spot = step(best.spot, i * alongStep, k * otherStep, part, deep);
      const place = look(spot);
      if (!place || place.mm >= best.place.mm - 1e-12) continue;
      best = { spot, place };
      moved = true;
    }
    if (moved) continue;
    alongStep /= 2;
    otherStep /= 2;
  }
  return best.place;
}

function step(
  at: Spot,
  along: number,
  other: number,
  part: 'sides' | 'ends',
  deep: { from: number; to: number },
): Spot {
  let { side, mm, w, pull } = at;
  mm += along;
  if (mm > side.length) {
    mm = Math.min(mm - side.length, side.after.length);
    side = side.after;
  } else if (mm < 0) {
    side = side.before;
    mm = Math.max(0, side.length + mm);
  }
  if (part === 'sides') w = Math.min(deep.to, Math.max(deep.from, w + other));
  else pull = Math.min(1, Math.max(0, pull + other));
  return { side, mm, w, pull };
}

function* sideSpots(v: Void, s: Surroundings): Iterable<Spot> {
  const deep = shared(v, bodyDepths(v.frame, s.body));
  for (const side of outlineOf(v.region).sides) {
    for (let i = 0; i < ACROSS; i++) {
      const mm = (side.length * (i + 0.5)) / ACROSS;
      for (let k = 0; k < DEEP; k++)
        yield { side, mm, w: deep.from + ((deep.to - deep.from) * (k + 0.5)) / DEEP, pull: 0 };
    }
  }
}

function* endSpots(v: Void): Iterable<Spot> {
  for (const w of [v.to, v.from]) {
    for (const side of outlineOf(v.region).sides) {
      for (let i = 0; i < ACROSS; i++) {
        for (const pull of [0, 0.34, 0.67, 1]) yield { side, mm: (side.length * i) / ACROSS, w, pull };
      }
    }
  }
}

/** None where an inset side has ended at its neighbour. */
function placeOf(v: Void, at: Spot, middle: Point2): Vec3 | undefined {
  const rim = pointAlong(at.side, at.mm);
  const inset = insetAt(v, at.w);
  let { u, v: y } = rim;
  if (inset !== 0) {
    const [nu, nv] = outOf(at.side, rim);
    u -= nu * inset;
    y -= nv * inset;
    if (signedDistance(outlineOf(v.region), u, y) > 1e-6 - inset) return undefined;
  }
  return fromFrame(v.frame, u + (middle.u - u) * at.pull, y + (middle.v - y) * at.pull, at.w);
}

function outOf(s: Side, p: Point2): readonly [number, number] {
  if (!s.arc) return [s.tay, -s.tax];
  const way = (s.sweep > 0 ? 1 : -1) / s.r;
  return [(p.u - s.cx) * way, (p.v - s.cy) * way];
}
