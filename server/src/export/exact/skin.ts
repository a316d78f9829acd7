/**
 * A swept outline drawn face by face and sewn: planes and cylinders over straight sides, cones, tori and spheres over
 * arcs and opened corners, flat faces at both ends. Nothing is intersected, so nothing is approximated.
 */

import type { TopoDS_Edge, TopoDS_Face } from 'replicad-opencascadejs';
import { isFullCircle, sweepOf } from '../../geometry/2d/edge';
import { loopArea } from '../../geometry/2d/moments';
import { isSteady } from '../../geometry/2d/offset';
import { fromFrame } from '../../geometry/frame';
import type { Prism } from '../../geometry/solid/prism';
import type { Edge, Frame, Loop, Point2, Vec3 } from '../../geometry/types';
import { cross, dot, scale, sub } from '../../geometry/vector';
import { ROUNDING, SAME } from '../../tolerance';
import { type Band, type BentBand, bandsOf, isBent, wayOf } from './bands';
import {
  arcCurve,
  axisAt,
  direction,
  done,
  drawFace,
  point,
  straight,
  turnAxis,
  vector,
  vectorIn,
  vertexAt,
} from './draw';
import type { Room, Shape } from './kernel';
import { apart, cornersOf, HAIR_MM, leftOf, movedRadius, type Rim, rimAt, rimLoop } from './rim';

/**
 * Whether the outline keeps its edges from end to end (at the very end they may come to nothing), and no corner needs a
 * curve that is neither line nor ellipse.
 */
export function hasBuildableFaces(p: Prism): boolean {
  const loops = [p.region.outer, ...p.region.holes];
  return bandsOf(p).every((band) => {
    const way = wayOf(band);
    if (way === 0) return true;
    if (!loops.every((loop) => straightWhereClosing(loop, way) && lasts(loop, band, way))) return false;
    if (loops.every((l) => l.edges.length === 1) && loops.length === 1) return true;
    const most = 1 - SAME;
    return isSteady(p.region, band.i0 * most, band.i1 * most);
  });
}

function straightWhereClosing(loop: Loop, way: number): boolean {
  return cornersOf(loop, way).every((corner, i) => {
    const next = loop.edges[(i + 1) % loop.edges.length]!;
    return corner !== 'closes' || (loop.edges[i]!.type === 'line' && next.type === 'line');
  });
}

/** No edge has turned round at either end of the band. */
function lasts(loop: Loop, band: Band, way: number): boolean {
  return [band.i0, band.i1].every((by) => {
    const rim = rimAt(loop, by, way);
    return loop.edges.every((e, i) => {
      if (e.type === 'arc') return (e.ccw ? e.radius - by : e.radius + by) > -1e-7;
      const [a, b] = [rim.starts[i]!, rim.ends[i]!];
      return (b.u - a.u) * (e.b.u - e.a.u) + (b.v - a.v) * (e.b.v - e.a.v) > -ROUNDING;
    });
  });
}

/** The volume as a solid; only where `hasBuildableFaces`. */
export function buildFaces(room: Room, p: Prism): Shape {
  const { oc } = room;
  const bands = bandsOf(p);
  const loops = [p.region.outer, ...p.region.holes];
  const sewing = room.keep(new oc.BRepBuilderAPI_Sewing(SAME));
  for (const band of bands)
    for (const loop of loops) for (const face of wallsOf(room, p.frame, loop, band)) sewing.Add(face);
  for (const [band, end] of [
    [bands[0]!, 0],
    [bands[bands.length - 1]!, 1],
  ] as const) {
    const way = wayOf(band) || 1;
    const rims = loops.flatMap((l) => rimLoop(l, rimAt(l, end ? band.i1 : band.i0, way), way) ?? []);
    const [outer, ...holes] = rims;
    if (outer && hasArea(outer)) sewing.Add(drawFace(room, p.frame, outer, holes, end ? band.w1 : band.w0));
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

/** A ball-nosed slot's floor is a line: an outline, but no face. */
function hasArea(loop: Loop): boolean {
  return Math.abs(loopArea(loop)) > ROUNDING;
}

function* wallsOf(room: Room, frame: Frame, loop: Loop, band: Band): Iterable<TopoDS_Face> {
  const way = wayOf(band) || 1;
  const rims = [rimAt(loop, band.i0, way), rimAt(loop, band.i1, way)] as const;
  const corners = cornersOf(loop, way);
  const n = loop.edges.length;
  for (let i = 0; i < n; i++) {
    const e = loop.edges[i]!;
    const before = corners[(i + n - 1) % n]!;
    if (e.type === 'line') {
      const mitred = [before === 'closes', corners[i] === 'closes'] as const;
      const face = isBent(band)
        ? bentPlate(room, frame, { e, i, rims, mitred }, band)
        : flatPlate(room, frame, i, rims, band);
      if (face) yield face;
    } else {
      const radii = (by: number) => movedRadius(e, by);
      const spin = { centre: e.centre, from: unit(e.centre, e.a), angle: isFullCircle(e) ? 2 * Math.PI : sweepOf(e) };
      yield turned(room, frame, spin, radii, band);
    }
    if (corners[i] !== 'opens' || (band.i0 === 0 && band.i1 === 0)) continue;
    const [from, to] = [leftOf(e, e.b), leftOf(loop.edges[(i + 1) % n]!, e.b)].map((d) => ({
      u: d.u * way,
      v: d.v * way,
    }));
    const spin = { centre: e.b, from: from!, angle: turnBetween(from!, to!) };
    yield turned(room, frame, spin, (by) => Math.abs(by), band);
  }
}

/** A wall that goes round an axis: from where, and by which angle (radians, counter-clockwise in the frame). */
interface Spin {
  readonly centre: Point2;
  readonly from: Point2;
  readonly angle: number;
}

/** Cylinder, cone, sphere or torus. `radii` tells the wall's distance from the axis at an inset. */
function turned(room: Room, frame: Frame, spin: Spin, radii: (inset: number) => number, band: Band): TopoDS_Face {
  const { oc } = room;
  const at = (r: number, w: number) =>
    fromFrame(frame, spin.centre.u + r * spin.from.u, spin.centre.v + r * spin.from.v, w);
  const trim = (r: number) => (r < HAIR_MM ? 0 : r);
  const [a, b] = [at(trim(radii(band.i0)), band.w0), at(trim(radii(band.i1)), band.w1)];
  const major = band.bend ? trim(radii(band.bend.inset)) : 0;
  if (isBent(band) && major > 0 && major >= (band.w1 - band.w0) * (1 - ROUNDING))
    return ring(room, frame, spin, radii, band);
  const outline = band.bend
    ? arcCurve(room, at(major, band.bend.w), a, b)
    : straight(room, vertexAt(room, a), vertexAt(room, b));
  const axis = axisAt(room, frame, spin.centre);
  if (spin.angle < 0) axis.Reverse();
  const revol = room.keep(new oc.BRepPrimAPI_MakeRevol(outline, axis, Math.abs(spin.angle), false));
  return room.keep(oc.TopoDS.Face(room.keep(revol.Shape())));
}

/**
 * A quarter of a torus's tube. Drawn as the torus itself: turned from an arc, one whose tube just reaches the axis would
 * be no torus to the kernel. (One that reaches past it stays an arc turned; `tori.ts` writes it as the torus it is.)
 */
function ring(room: Room, frame: Frame, spin: Spin, radii: (inset: number) => number, band: BentBand): TopoDS_Face {
  const { oc } = room;
  const { bend } = band;
  const major = radii(bend.inset);
  const minor = band.w1 - band.w0;
  const axis = spin.angle < 0 ? scale(turnAxis(frame), -1) : turnAxis(frame);
  const up = dot(axis, frame.w);
  const centre = point(room, fromFrame(frame, spin.centre.u, spin.centre.v, bend.w));
  const axes = room.keep(new oc.gp_Ax2(centre, direction(room, axis), direction(room, vectorIn(frame, spin.from))));
  const whole = room.keep(new oc.BRepPrimAPI_MakeTorus(axes, major, minor));
  const faces = room.keep(new oc.TopExp_Explorer(room.keep(whole.Shape()), 'TopAbs_FACE', 'TopAbs_SHAPE'));
  const surface = room.keep(oc.BRep_Tool.Surface(room.keep(oc.TopoDS.Face(room.keep(faces.Current())))));
  const angleAt = (by: number, w: number) => Math.atan2((w - bend.w) * up, radii(by) - major);
  const v0 = angleAt(band.i0, band.w0);
  // the shorter way from one rim to the other
  let v1 = angleAt(band.i1, band.w1);
  if (v1 - v0 > Math.PI) v1 -= 2 * Math.PI;
  if (v0 - v1 > Math.PI) v1 += 2 * Math.PI;
  const [low, high] = v0 < v1 ? [v0, v1] : [v1, v0];
  const face = new oc.BRepBuilderAPI_MakeFace(surface, 0, Math.abs(spin.angle), low, high, 1e-7);
  return room.keep(done(room, face).Face());
}

/** A straight side's wall between two rims: a flat face of four corners, or three where the side comes to a point. */
function flatPlate(room: Room, frame: Frame, i: number, [top, low]: Rims, band: Band): TopoDS_Face | undefined {
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

/** The wall under one straight edge of the outline, with its rims, and whether it ends in a mitre before and after. */
interface StraightWall {
  readonly e: Edge;
  readonly i: number;
  readonly rims: Rims;
  readonly mitred: readonly [before: boolean, after: boolean];
}

/** A straight side's wall that bends: a strip of a cylinder, cut square at its ends or along a mitre. */
function bentPlate(room: Room, frame: Frame, wall: StraightWall, band: BentBand): TopoDS_Face | undefined {
  const { oc } = room;
  const { bend } = band;
  const { e } = wall;
  const [mitredBefore, mitredAfter] = wall.mitred;
  const at = (p: Point2, w: number) => fromFrame(frame, p.u, p.v, w);
  const n = leftOf(e, e.a);
  const square = (p: Point2, from: Point2, to: Point2) =>
    arcCurve(
      room,
      at({ u: p.u + n.u * bend.inset, v: p.v + n.v * bend.inset }, bend.w),
      at(from, band.w0),
      at(to, band.w1),
    );
  const [top, low] = wall.rims.map(({ starts, ends }) => [starts[wall.i]!, ends[wall.i]!] as const);
  const [[a0, b0], [a1, b1]] = [top!, low!];
  if (!mitredBefore && !mitredAfter) {
    if (!apart(a0, b0)) return undefined;
    const along = vectorIn(frame, { u: b0.u - a0.u, v: b0.v - a0.v });
    const prism = room.keep(new oc.BRepPrimAPI_MakePrism(square(e.a, a0, a1), vector(room, along), false, true));
    return room.keep(oc.TopoDS.Face(room.keep(prism.Shape())));
  }
  const mitred = (from: Point2, to: Point2) => slantedBow(room, frame, from, to, band);
  const wire = room.keep(new oc.BRepBuilderAPI_MakeWire());
  const side = (p: Point2, q: Point2, w: number) => {
    if (apart(p, q)) wire.Add(straight(room, vertexAt(room, at(p, w)), vertexAt(room, at(q, w))));
  };
  side(a0, b0, band.w0);
  wire.Add(mitredAfter ? mitred(b0, b1) : square(e.b, b0, b1));
  side(b1, a1, band.w1);
  wire.Add(mitredBefore ? mitred(a0, a1) : square(e.a, a0, a1));
  const middle = { u: e.a.u + n.u * bend.inset, v: e.a.v + n.v * bend.inset };
  const axes = new oc.gp_Ax3(
    point(room, at(middle, bend.w)),
    direction(room, vectorIn(frame, { u: n.v, v: -n.u })),
    direction(room, bend.inset > 0 ? scale(vectorIn(frame, n), -1) : vectorIn(frame, n)),
  );
  const cylinder = room.keep(new oc.gp_Cylinder(room.keep(axes), band.w1 - band.w0));
  const plain = room.keep(done(room, new oc.BRepBuilderAPI_MakeFace(cylinder, room.keep(wire.Wire()), true)).Face());
  // the kernel wants every edge drawn in the cylinder's own parameters too
  const fix = room.keep(new oc.ShapeFix_Face(plain));
  fix.Perform(room.keep(new oc.Message_ProgressRange()));
  fix.FixOrientation();
  return room.keep(fix.Face());
}

/** Where two bent walls of one radius meet: a quarter of an ellipse in the plane through the corner's bisector. */
function slantedBow(room: Room, frame: Frame, from: Point2, to: Point2, band: BentBand): TopoDS_Edge {
  const { oc } = room;
  const { bend } = band;
  const out = { u: to.u - from.u, v: to.v - from.v };
  const [major, minor] = [Math.hypot(out.u, out.v), band.w1 - band.w0];
  const sinks = bend.inset > 0;
  const centre = sinks ? to : from;
  const x = scale(vectorIn(frame, out), sinks ? -1 / major : 1 / major);
  const axes = new oc.gp_Ax2(
    point(room, fromFrame(frame, centre.u, centre.v, bend.w)),
    direction(room, cross(x, frame.w)),
    direction(room, x),
  );
  const ellipse = room.keep(new oc.gp_Elips(room.keep(axes), major, minor));
  const [a, b] = [fromFrame(frame, from.u, from.v, band.w0), fromFrame(frame, to.u, to.v, band.w1)];
  const edge = new oc.BRepBuilderAPI_MakeEdge(ellipse, vertexAt(room, a), vertexAt(room, b));
  return room.keep(done(room, edge).Edge());
}

type Rims = readonly [Rim, Rim];

function unit(from: Point2, to: Point2): Point2 {
  const l = Math.hypot(to.u - from.u, to.v - from.v);
  return { u: (to.u - from.u) / l, v: (to.v - from.v) / l };
}

/** From one unit vector to another, radians, −π … π. */
function turnBetween(a: Point2, b: Point2): number {
  return Math.atan2(a.u * b.v - a.v * b.u, a.u * b.u + a.v * b.v);
}

type Swept = Pick<Prism, 'frame' | 'region' | 'from' | 'to'>;

/** The straight sweep of an outline: a prism of its face. */
export function prismOf(room: Room, { frame, region, from, to }: Swept): Shape {
  const face = drawFace(room, frame, region.outer, region.holes, from);
  const along = vector(room, scale(frame.w, to - from));
  return room.keep(room.keep(new room.oc.BRepPrimAPI_MakePrism(face, along, false, true)).Shape());
}
