/**
 * A swept outline drawn face by face and sewn: planes and cylinders over straight sides, cones, tori and spheres over
 * arcs and opened corners, flat faces at both ends. Nothing is intersected, so nothing is approximated.
 */
import type { TopoDS_Edge, TopoDS_Face } from 'replicad-opencascadejs';
import { isFullCircle, sweepOf } from '../../geometry/edge';
import { fromFrame } from '../../geometry/frame';
import { isSteady } from '../../geometry/inset';
import type { Prism } from '../../geometry/prism';
import type { Edge, Frame, Loop, Point2, Vec3 } from '../../geometry/types';
import { cross, scale, sub } from '../../geometry/vector';
import { type Band, bandsOf, wayOf } from './bands';
import { axisAt, bow, direction, done, drawFace, point, straight, vector, vectorIn, vertexAt } from './draw';
import type { Room, Shape } from './kernel';
import { apart, cornersOf, leftOf, movedRadius, type Rim, rimAt, rimLoop } from './rim';

/** Whether the outline keeps its edges from end to end, and its corners are such that no curve must be worked out. */
export function canBeSkinned(p: Prism): boolean {
  return bandsOf(p).every((band) => {
    const way = wayOf(band);
    if (way === 0) return true;
    for (const loop of [p.region.outer, ...p.region.holes]) {
      const corners = cornersOf(loop, way);
      for (let i = 0; i < corners.length; i++) {
        if (corners[i] !== 'closes') continue;
        const next = loop.edges[(i + 1) % corners.length]!;
        if (band.bend || loop.edges[i]!.type === 'arc' || next.type === 'arc') return false;
      }
    }
    return isLoneCircle(p)
      ? p.region.outer.edges.every((e) => radiusOf(e) - Math.max(band.i0, band.i1) > -1e-7)
      : isSteady(p.region, band.i0, band.i1);
  });
}

function isLoneCircle({ region }: Prism): boolean {
  const only = region.outer.edges[0]!;
  return region.holes.length === 0 && region.outer.edges.length === 1 && only.type === 'arc' && isFullCircle(only);
}

function radiusOf(e: Edge): number {
  return e.type === 'arc' ? e.radius : Number.POSITIVE_INFINITY;
}

/** The volume as a solid; only where `canBeSkinned`. */
export function skinned(room: Room, p: Prism): Shape {
  const { oc } = room;
  const bands = bandsOf(p);
  const loops = [p.region.outer, ...p.region.holes];
  const sewing = room.keep(new oc.BRepBuilderAPI_Sewing(1e-6));
  for (const band of bands)
    for (const loop of loops) for (const face of wallsOf(room, p.frame, loop, band)) sewing.Add(face);
  for (const [band, end] of [
    [bands[0]!, 0],
    [bands[bands.length - 1]!, 1],
  ] as const) {
    const way = wayOf(band) || 1;
    const rims = loops.flatMap((l) => rimLoop(l, rimAt(l, end ? band.i1 : band.i0, way), way) ?? []);
    const [outer, ...holes] = rims;
    if (outer) sewing.Add(drawFace(room, p.frame, outer, holes, end ? band.w1 : band.w0));
  }
  sewing.Perform(room.keep(new oc.Message_ProgressRange()));
  const shells = room.keep(new oc.TopExp_Explorer(room.keep(sewing.SewedShape()), 'TopAbs_SHELL', 'TopAbs_SHAPE'));
  if (!shells.More() || sewing.NbFreeEdges() > 0) throw new Error('its faces do not close');
  const maker = room.keep(new oc.BRepBuilderAPI_MakeSolid());
  for (; shells.More(); shells.Next()) maker.Add(room.keep(oc.TopoDS.Shell(room.keep(shells.Current()))));
  const solid = room.keep(maker.Solid());
  oc.BRepLib.OrientClosedSolid(solid);
  return solid;
}

function* wallsOf(room: Room, frame: Frame, loop: Loop, band: Band): Iterable<TopoDS_Face> {
  const way = wayOf(band) || 1;
  const [top, low] = [rimAt(loop, band.i0, way), rimAt(loop, band.i1, way)];
  const corners = cornersOf(loop, way);
  const n = loop.edges.length;
  for (let i = 0; i < n; i++) {
    const e = loop.edges[i]!;
    if (e.type === 'line') {
      const face = band.bend ? bentPlate(room, frame, e, i, top, low, band) : flatPlate(room, frame, i, top, low, band);
      if (face) yield face;
    } else {
      const outline = generator(room, frame, e, e.a, top.starts[i]!, low.starts[i]!, band);
      if (outline) yield turned(room, frame, outline, e.centre, isFullCircle(e) ? 2 * Math.PI : sweepOf(e));
    }
    if (corners[i] !== 'opens' || (band.i0 === 0 && band.i1 === 0)) continue;
    const outline = generator(room, frame, e, e.b, top.ends[i]!, low.ends[i]!, band);
    const angle = turnBetween(leftOf(e, e.b), leftOf(loop.edges[(i + 1) % n]!, e.b));
    if (outline) yield turned(room, frame, outline, e.b, angle);
  }
}

/** The line or bow down the wall from one rim to the other, at one place of the outline. */
function generator(
  room: Room,
  frame: Frame,
  e: Edge,
  at: Point2,
  top: Point2,
  low: Point2,
  band: Band,
): TopoDS_Edge | undefined {
  const a = fromFrame(frame, top.u, top.v, band.w0);
  const b = fromFrame(frame, low.u, low.v, band.w1);
  if (!band.bend) return straight(room, vertexAt(room, a), vertexAt(room, b));
  const n = leftOf(e, at);
  const { inset, w } = band.bend;
  const lone = e.type === 'arc' && movedRadius(e, inset) === 0;
  const centre = lone ? e.centre : { u: at.u + n.u * inset, v: at.v + n.v * inset };
  return bow(room, fromFrame(frame, centre.u, centre.v, w), a, b);
}

function turned(room: Room, frame: Frame, outline: TopoDS_Edge, centre: Point2, angle: number): TopoDS_Face {
  const axis = axisAt(room, frame, centre);
  if (angle < 0) axis.Reverse();
  const revol = room.keep(new room.oc.BRepPrimAPI_MakeRevol(outline, axis, Math.abs(angle), false));
  return room.keep(room.oc.TopoDS.Face(room.keep(revol.Shape())));
}

/** A straight side's wall between two rims: a flat face of four corners, or three where the side comes to a point. */
function flatPlate(room: Room, frame: Frame, i: number, top: Rim, low: Rim, band: Band): TopoDS_Face | undefined {
  const { oc } = room;
  const corners: Vec3[] = [];
  const put = (p: Point2, w: number) => {
    const at = fromFrame(frame, p.u, p.v, w);
    if (corners.every((c) => Math.hypot(...sub(c, at)) > 1e-7)) corners.push(at);
  };
  put(top.starts[i]!, band.w0);
  put(top.ends[i]!, band.w0);
  put(low.ends[i]!, band.w1);
  put(low.starts[i]!, band.w1);
  if (corners.length < 3) return undefined;
  const along = apart(top.starts[i]!, top.ends[i]!) ? sub(corners[1]!, corners[0]!) : sub(corners[1]!, corners[2]!);
  const down = sub(corners[corners.length - 1]!, corners[0]!);
  const plane = room.keep(new oc.gp_Pln(point(room, corners[0]!), direction(room, cross(along, down))));
  const at = corners.map((c) => vertexAt(room, c));
  const wire = room.keep(new oc.BRepBuilderAPI_MakeWire());
  for (let k = 0; k < at.length; k++) wire.Add(straight(room, at[k]!, at[(k + 1) % at.length]!));
  return room.keep(done(room, new oc.BRepBuilderAPI_MakeFace(plane, room.keep(wire.Wire()), true)).Face());
}

/** A straight side's wall that bends: a strip of a cylinder. */
function bentPlate(
  room: Room,
  frame: Frame,
  e: Edge,
  i: number,
  top: Rim,
  low: Rim,
  band: Band,
): TopoDS_Face | undefined {
  const outline = generator(room, frame, e, e.a, top.starts[i]!, low.starts[i]!, band);
  const side = { u: top.ends[i]!.u - top.starts[i]!.u, v: top.ends[i]!.v - top.starts[i]!.v };
  if (!outline || !apart(top.ends[i]!, top.starts[i]!)) return undefined;
  const prism = room.keep(new room.oc.BRepPrimAPI_MakePrism(outline, vector(room, vectorIn(frame, side)), false, true));
  return room.keep(room.oc.TopoDS.Face(room.keep(prism.Shape())));
}

/** From one unit vector to another, radians, −π … π. */
function turnBetween(a: Point2, b: Point2): number {
  return Math.atan2(a.u * b.v - a.v * b.u, a.u * b.u + a.v * b.v);
}

/** The straight sweep of an outline: a prism of its face. */
export function prismOf(
  room: Room,
  p: Prism,
  outer = p.region.outer,
  holes = p.region.holes,
  from = p.from,
  to = p.to,
): Shape {
  const face = drawFace(room, p.frame, outer, holes, from);
  const along = vector(room, scale(p.frame.w, to - from));
  return room.keep(room.keep(new room.oc.BRepPrimAPI_MakePrism(face, along, false, true)).Shape());
}
