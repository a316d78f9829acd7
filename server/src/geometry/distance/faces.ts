/** How a removed volume lies to the outside: gaps to the faces, and where its side breaks out. */

import type { Face } from '../../model/model';
import { ROUNDING, SAME } from '../../tolerance';
import { fromFrame, intoFrame } from '../frame';
import { bodyAxis, faceTowards, isFlat, middleOf, type Plane, planeOf, planesOf } from '../solid/body-faces';
import { insetAt } from '../solid/prism';
import type { BodyShape, Vec3, Void } from '../types';
import { add, cross, dot, length, scale, sub } from '../vector';
import { type Outline, outlineOf } from './outline';
import { outlineReach, piecesOf } from './pieces';
import { bodyDepths, shared, widest } from './section';

interface Gap {
  /** Negative where the volume reaches through the face, by how far. */
  readonly mm: number;
  /** The volume's place nearest to (or furthest through) the face. */
  readonly at: Vec3;
}

/** Gap between a volume and a face of the body. The round side of a round body goes by any of its four names. */
export function gapToFace(v: Void, body: BodyShape, face: Face): Gap {
  if (body.form === 'box' || isFlat(body, face)) {
    const plane = planeOf(body, face);
    let best: Vec3 | undefined;
    for (const piece of piecesOf(v).list) {
      const p = piece.support(plane.normal);
      if (!best || dot(p, plane.normal) > dot(best, plane.normal)) best = p;
    }
    return { mm: plane.at - dot(best!, plane.normal), at: best! };
  }
  const axis = bodyAxis(body);
  const off = (p: Vec3) => {
    const d = sub(p, middleOf(body));
    return length(add(d, axis, -dot(d, axis)));
  };
  let far: Vec3 | undefined;
  for (const p of surface(v, body)) if (!far || off(p) > off(far)) far = p;
  return { mm: body.radius - off(far!), at: far! };
}

/** Places of the surface that hold the furthest from the axis: the ends of arcs and lines, and arcs' far points. */
function surface(v: Void, body: BodyShape): readonly Vec3[] {
  const centre = intoFrame(v.frame, middleOf(body));
  const wide = widest(v);
  const found: Vec3[] = [];
  for (const w of [v.from, v.to, wide.from, wide.to]) {
    const inset = insetAt(v, w);
    for (const s of outlineOf(v.region).sides) {
      const rim = [{ u: s.ax, v: s.ay }];
      if (s.arc) {
        const [du, dv] = [s.cx - centre.u, s.cy - centre.v];
        const angle = Math.atan2(dv, du);
        const more = Array.from({ length: 32 }, (_, i) => s.start + (s.sweep * i) / 32);
        for (const t of [angle, ...more]) rim.push({ u: s.cx + s.r * Math.cos(t), v: s.cy + s.r * Math.sin(t) });
      }
      for (const p of rim) {
        const towards = Math.hypot(p.u - centre.u, p.v - centre.v) || 1;
        const k = 1 - inset / towards;
        found.push(fromFrame(v.frame, centre.u + (p.u - centre.u) * k, centre.v + (p.v - centre.v) * k, w));
      }
    }
  }
  return found;
}

/** A face that stands along the volume's axis, or nearly: not the one it enters by, nor the opposite. */
const isBeside = (v: Void, plane: Plane) => Math.abs(dot(plane.normal, v.frame.w)) < Math.SQRT1_2;

interface Breakout {
  readonly face: Face;
  /** How far the side reaches beyond the face. */
  readonly byMm: number;
}

/** Faces other than those it enters and leaves by that the side of a volume reaches through. */
export function breaksOut(v: Void, body: BodyShape): readonly Breakout[] {
  const o = outlineOf(v.region);
  const within = insideDepths(v, body, o);
  if (within.to - within.from < ROUNDING) return [];
  const found: Breakout[] = [];
  const reach = (n: Vec3): number => Math.max(...[within.from, within.to].map((w) => reachAt(v, o, w, n)));
  for (const plane of planesOf(body)) {
    if (!isBeside(v, plane)) continue;
    const byMm = reach(plane.normal) - plane.at;
    if (byMm > SAME) found.push({ face: plane.face, byMm });
  }
  if (body.form === 'round') {
    const axis = bodyAxis(body);
    const upright = Math.abs(dot(axis, v.frame.w)) > Math.SQRT1_2;
    if (upright) {
      const gap = gapToFace(v, body, faceTowards(body, middleOf(body)));
      if (gap.mm < -SAME) found.push({ face: faceTowards(body, gap.at), byMm: -gap.mm });
    } else {
      // Across the body: its side leaves where it reaches past the round's widest.
      const side = cross(axis, v.frame.w);
      const unit = scale(side, 1 / length(side));
      for (const n of [unit, scale(unit, -1)]) {
        const byMm = reach(n) - dot(middleOf(body), n) - body.radius;
        if (byMm > SAME) found.push({ face: faceTowards(body, add(middleOf(body), n, body.radius)), byMm });
      }
    }
  }
  return found.sort((a, b) => b.byMm - a.byMm);
}

/** Furthest along n at a depth. */
function reachAt(v: Void, o: Outline, w: number, n: Vec3): number {
  const [du, dv] = [dot(n, v.frame.u), dot(n, v.frame.v)];
  const p = outlineReach(o, du, dv);
  return dot(fromFrame(v.frame, p.u, p.v, w), n) - insetAt(v, w) * Math.hypot(du, dv);
}

/** The depths at which the middle of the volume lies between the planes it enters and leaves by. */
function insideDepths(v: Void, body: BodyShape, o: Outline): { from: number; to: number } {
  const deep = shared(v, bodyDepths(v.frame, body));
  let { from, to } = deep;
  const start = fromFrame(v.frame, (o.minU + o.maxU) / 2, (o.minV + o.maxV) / 2, 0);
  for (const plane of planesOf(body)) {
    if (isBeside(v, plane)) continue;
    const slope = dot(plane.normal, v.frame.w);
    const at = (plane.at - dot(plane.normal, start)) / slope;
    if (slope > 0) to = Math.min(to, at);
    else from = Math.max(from, at);
  }
  return { from, to };
}
