/** Outlines in a frame drawn as the kernel's points, edges, wires and flat faces, in part axes. */
import type { TopoDS_Edge, TopoDS_Face, TopoDS_Vertex, TopoDS_Wire } from 'replicad-opencascadejs';
import { isFullCircle } from '../../geometry/2d/edge';
import { fromFrame } from '../../geometry/frame';
import type { Edge, Frame, Loop, Point2, Vec3 } from '../../geometry/types';
import { cross, scale, sub } from '../../geometry/vector';

import type { Room } from './kernel';

export function point(room: Room, p: Vec3) {
  return room.keep(new room.oc.gp_Pnt(p[0], p[1], p[2]));
}

export function direction(room: Room, d: Vec3) {
  return room.keep(new room.oc.gp_Dir(d[0], d[1], d[2]));
}

export function vector(room: Room, d: Vec3) {
  return room.keep(new room.oc.gp_Vec(d[0], d[1], d[2]));
}

export function vertexAt(room: Room, p: Vec3): TopoDS_Vertex {
  return room.keep(room.keep(new room.oc.BRepBuilderAPI_MakeVertex(point(room, p))).Vertex());
}

/** The way u turns to v: arcs drawn counter-clockwise turn about it by the right-hand rule. */
export function turnAxis(frame: Frame): Vec3 {
  return cross(frame.u, frame.v);
}

export function vectorIn(frame: Frame, d: Point2): Vec3 {
  return [
    d.u * frame.u[0] + d.v * frame.v[0],
    d.u * frame.u[1] + d.v * frame.v[1],
    d.u * frame.u[2] + d.v * frame.v[2],
  ];
}

export function axisAt(room: Room, frame: Frame, centre: Point2) {
  const at = point(room, fromFrame(frame, centre.u, centre.v, 0));
  return room.keep(new room.oc.gp_Ax1(at, direction(room, turnAxis(frame))));
}

/** A straight edge between two vertices. */
export function straight(room: Room, a: TopoDS_Vertex, b: TopoDS_Vertex): TopoDS_Edge {
  return room.keep(done(room, new room.oc.BRepBuilderAPI_MakeEdge(a, b)).Edge());
}

/** A circle's arc about `centre` from `a` to `b`, by the shorter way; less than half a turn. */
export function arcCurve(room: Room, centre: Vec3, a: Vec3, b: Vec3): TopoDS_Edge {
  const x = sub(a, centre);
  const normal = direction(room, cross(x, sub(b, centre)));
  const axes = room.keep(new room.oc.gp_Ax2(point(room, centre), normal, direction(room, x)));
  const circle = room.keep(new room.oc.gp_Circ(axes, Math.hypot(...x)));
  const edge = new room.oc.BRepBuilderAPI_MakeEdge(circle, vertexAt(room, a), vertexAt(room, b));
  return room.keep(done(room, edge).Edge());
}

type Ends = readonly [TopoDS_Vertex, TopoDS_Vertex];

/** One edge of an outline at depth `w`. A whole circle gets a vertex of its own. */
function drawEdge(room: Room, frame: Frame, e: Edge, w: number, [a, b]: Ends): TopoDS_Edge {
  if (e.type === 'line') return straight(room, a, b);
  const axis = turnAxis(frame);
  const out = vectorIn(frame, { u: e.a.u - e.centre.u, v: e.a.v - e.centre.v });
  const axes = room.keep(
    new room.oc.gp_Ax2(
      point(room, fromFrame(frame, e.centre.u, e.centre.v, w)),
      direction(room, e.ccw ? axis : scale(axis, -1)),
      direction(room, out),
    ),
  );
  const circle = room.keep(new room.oc.gp_Circ(axes, e.radius));
  return room.keep(done(room, new room.oc.BRepBuilderAPI_MakeEdge(circle, a, b)).Edge());
}

/** A closed outline at depth `w`; each vertex is shared by its two edges. */
function drawLoop(room: Room, frame: Frame, loop: Loop, w: number): TopoDS_Wire {
  const at = loop.edges.map((e) => vertexAt(room, fromFrame(frame, e.a.u, e.a.v, w)));
  const wire = room.keep(new room.oc.BRepBuilderAPI_MakeWire());
  loop.edges.forEach((e, i) => {
    const next = e.type === 'arc' && isFullCircle(e) ? at[i]! : at[(i + 1) % at.length]!;
    wire.Add(drawEdge(room, frame, e, w, [at[i]!, next]));
  });
  if (!wire.IsDone()) throw new Error('an outline does not close');
  return room.keep(wire.Wire());
}

/** A flat face at depth `w`: outer loops counter-clockwise in the frame, holes clockwise. */
export function drawFace(room: Room, frame: Frame, outer: Loop, holes: readonly Loop[], w: number): TopoDS_Face {
  const plane = room.keep(new room.oc.gp_Pln(point(room, fromFrame(frame, 0, 0, w)), direction(room, turnAxis(frame))));
  const face = room.keep(new room.oc.BRepBuilderAPI_MakeFace(plane, drawLoop(room, frame, outer, w), true));
  for (const hole of holes) face.Add(drawLoop(room, frame, hole, w));
  if (!face.IsDone()) throw new Error('an outline bounds no face');
  return room.keep(face.Face());
}

/** The maker, kept; throws where it made nothing. */
export function done<T extends { IsDone(): boolean; delete(): void }>(room: Room, maker: T): T {
  room.keep(maker);
  if (!maker.IsDone()) throw new Error('an edge has no length');
  return maker;
}
