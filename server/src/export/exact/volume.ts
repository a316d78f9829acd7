/** One swept outline as an exact solid. */
import { isFullCircle } from '../../geometry/2d/edge';
import { fromFrame } from '../../geometry/frame';
import type { Prism } from '../../geometry/solid/prism';
import type { Vec3 } from '../../geometry/types';
import { cross, scale } from '../../geometry/vector';
import { bandsOf } from './bands';
import { arcCurve, axisAt, direction, done, point, straight, vertexAt } from './draw';
import type { Room, Shape } from './kernel';
import { buildFaces, hasBuildableFaces, prismOf } from './skin';
import { buildStrips } from './strips';

/** The volume's exact boundary in part axes, by the plainest way that serves. */
export function volumeOf(room: Room, p: Prism): Shape {
  if (p.profile.type === 'straight') return prismOf(room, p);
  if (canBeTurned(p)) return lathed(room, p);
  return hasBuildableFaces(p) ? buildFaces(room, p) : buildStrips(room, p);
}

/** A lone circle, down to its axis at most; a bend whose tube just reaches the axis is drawn face by face instead. */
function canBeTurned(p: Prism): boolean {
  const circle = p.region.outer.edges[0]!;
  if (p.region.holes.length > 0 || circle.type !== 'arc' || !isFullCircle(circle) || !hasBuildableFaces(p))
    return false;
  return bandsOf(p).every(({ bend, w0, w1 }) => {
    const major = circle.radius - (bend?.inset ?? 0);
    return !bend || Math.abs(major - (w1 - w0)) > 1e-9 * major;
  });
}

/** A round one, turned about its axis from half its section. */
function lathed(room: Room, p: Prism): Shape {
  const { oc } = room;
  const { frame } = p;
  const circle = p.region.outer.edges[0]!;
  if (circle.type !== 'arc') throw new Error('not round');
  const { u, v } = circle.centre;
  const radius = (inset: number) => {
    const r = circle.radius - inset;
    return r < 1e-7 ? 0 : r;
  };
  const at = (r: number, w: number): Vec3 => fromFrame(frame, u + r, v, w);
  const bands = bandsOf(p);
  const wire = room.keep(new oc.BRepBuilderAPI_MakeWire());
  const first = vertexAt(room, at(0, p.from));
  let last = first;
  const step = (r: number, w: number) => {
    const next = vertexAt(room, at(r, w));
    wire.Add(straight(room, last, next));
    last = next;
  };
  if (radius(bands[0]!.i0) > 0) step(radius(bands[0]!.i0), p.from);
  for (const { i0, i1, w0, w1, bend } of bands) {
    if (!bend) {
      step(radius(i1), w1);
      continue;
    }
    const edge = arcCurve(room, at(radius(bend.inset), bend.w), at(radius(i0), w0), at(radius(i1), w1));
    wire.Add(edge);
    last = vertexAt(room, at(radius(i1), w1));
  }
  if (radius(bands[bands.length - 1]!.i1) > 0) step(0, p.to);
  wire.Add(straight(room, last, first));
  const normal = direction(room, cross(frame.u, scale(frame.w, -1)));
  const plane = room.keep(new oc.gp_Pln(point(room, at(0, p.from)), normal));
  const half = room.keep(done(room, new oc.BRepBuilderAPI_MakeFace(plane, room.keep(wire.Wire()), true)).Face());
  const axis = axisAt(room, frame, circle.centre);
  return room.keep(room.keep(new oc.BRepPrimAPI_MakeRevol(half, axis, 2 * Math.PI, false)).Shape());
}
