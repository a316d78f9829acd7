/**
 * A swept outline whose edges do not last from end to end: its straight sweep, less (or with) a strip along every edge.
 * At each depth the outline moved inward is what lies farther than that from every edge, and moved outward what lies
 * nearer: so the kernel joins strips, and needs not be told what becomes of the edges.
 */
import type { TopoDS_Face } from 'replicad-opencascadejs';
import { isFullCircle, lengthOf, sweepOf, tangentAt } from '../../geometry/2d/edge';
import { fromFrame } from '../../geometry/frame';
import type { Prism } from '../../geometry/solid/prism';
import type { ArcEdge, Edge, Frame, Loop, Point2, Vec3 } from '../../geometry/types';
import { cross } from '../../geometry/vector';
import { type Band, bandsOf, wayOf } from './bands';
import { joined, subtract } from './boolean';
import { verified } from './cut';
import { arcCurve, axisAt, direction, done, point, straight, vector, vectorIn, vertexAt } from './draw';
import { ExactError, type Room, type Shape } from './kernel';
import { cornersOf, HAIR_MM, leftOf } from './rim';
import { prismOf } from './skin';

export function buildStrips(room: Room, p: Prism): Shape {
  const bands = bandsOf(p).map((band) => stripedBand(room, p, band));
  return bands.length === 1 ? bands[0]! : joined(room, bands);
}

function stripedBand(room: Room, p: Prism, band: Band): Shape {
  const { outer, holes } = p.region;
  const base = prismOf(room, { ...p, region: { outer, holes }, from: band.w0, to: band.w1 });
  const way = wayOf(band);
  if (way === 0) return base;
  const strips = [outer, ...holes].flatMap((loop) => [...stripsOf(room, p.frame, loop, band, way)]);
  const shape = verified(room, way > 0 ? waysToTake(room, base, strips) : waysToAdd(room, base, strips));
  if (!shape) throw new ExactError('its walls could not be joined');
  return shape;
}

/** Neighbouring strips touch along a whole side, which the kernel does not always get right at once. */
function waysToTake(room: Room, base: Shape, strips: readonly Shape[]): readonly (() => Shape)[] {
  const inTurn = (all: readonly Shape[]) => all.reduce((left, strip) => subtract(room, left, [strip]), base);
  return [
    () => subtract(room, base, strips),
    () => inTurn(strips),
    () => inTurn([...strips].reverse()),
    () => subtract(room, base, [joined(room, strips)]),
  ];
}

function waysToAdd(room: Room, base: Shape, strips: readonly Shape[]): readonly (() => Shape)[] {
  const inTurn = (all: readonly Shape[]) => all.reduce((sum, strip) => joined(room, [sum, strip]), base);
  return [() => joined(room, [base, ...strips]), () => inTurn(strips), () => inTurn([...strips].reverse())];
}

function* stripsOf(room: Room, frame: Frame, loop: Loop, band: Band, way: number): Iterable<Shape> {
  const corners = cornersOf(loop, way);
  const n = loop.edges.length;
  for (let i = 0; i < n; i++) {
    const e = loop.edges[i]!;
    yield e.type === 'line' ? alongLine(room, frame, e, band, way) : alongArc(room, frame, e, band, way);
    if (corners[i] !== 'opens') continue;
    const [from, to] = [leftOf(e, e.b), leftOf(loop.edges[(i + 1) % n]!, e.b)].map((d) => ({
      u: d.u * way,
      v: d.v * way,
    }));
    const angle = Math.atan2(from!.u * to!.v - from!.v * to!.u, from!.u * to!.u + from!.v * to!.v);
    yield spun(room, frame, section(room, frame, [e.b, from!], band, Number.POSITIVE_INFINITY), e.b, angle);
  }
}

function alongLine(room: Room, frame: Frame, e: Edge, band: Band, way: number): Shape {
  const n = leftOf(e, e.a);
  const face = section(room, frame, [e.a, { u: n.u * way, v: n.v * way }], band, Number.POSITIVE_INFINITY);
  const t = tangentAt(e, e.a);
  const l = lengthOf(e);
  const along = vector(room, vectorIn(frame, { u: t.u * l, v: t.v * l }));
  return room.keep(room.keep(new room.oc.BRepPrimAPI_MakePrism(face, along, false, true)).Shape());
}

/** Towards the arc's centre the strip ends there. */
function alongArc(room: Room, frame: Frame, e: ArcEdge, band: Band, way: number): Shape {
  const n = leftOf(e, e.a);
  const most = e.ccw === way > 0 ? e.radius : Number.POSITIVE_INFINITY;
  const face = section(room, frame, [e.a, { u: n.u * way, v: n.v * way }], band, most);
  return spun(room, frame, face, e.centre, isFullCircle(e) ? 2 * Math.PI : sweepOf(e));
}

function spun(room: Room, frame: Frame, face: TopoDS_Face, centre: Point2, angle: number): Shape {
  const axis = axisAt(room, frame, centre);
  if (angle < 0) axis.Reverse();
  return room.keep(room.keep(new room.oc.BRepPrimAPI_MakeRevol(face, axis, Math.abs(angle), false)).Shape());
}

/** A place of an outline, and a way out of it. */
type Ray = readonly [at: Point2, way: Point2];

/** The strip's section at a place of the outline, out along `way` by as much as the band is inset, `most` at most. */
function section(room: Room, frame: Frame, [at, way]: Ray, band: Band, most: number): TopoDS_Face {
  const { oc } = room;
  const place = (d: number, w: number): Vec3 => fromFrame(frame, at.u + way.u * d, at.v + way.v * d, w);
  const [d0, d1] = [Math.abs(band.i0), Math.abs(band.i1)];
  const cut = cutAt(band, d0, d1, most);
  const wire = room.keep(new oc.BRepBuilderAPI_MakeWire());
  let last: readonly [number, number] = [0, band.w0];
  const to = (d: number, w: number, bent = false) => {
    if (Math.hypot(d - last[0], w - last[1]) < 1e-7) return;
    const [a, b] = [place(...last), place(d, w)];
    const centre = band.bend && place(Math.abs(band.bend.inset), band.bend.w);
    wire.Add(bent && centre ? arcCurve(room, centre, a, b) : straight(room, vertexAt(room, a), vertexAt(room, b)));
    last = [d, w];
  };
  // from the mouth down, where the strip is as wide as may be; then back along the outline
  to(Math.min(d0, most), band.w0);
  if (cut === undefined) to(d1, band.w1, true);
  else if (d0 > d1) {
    to(most, cut);
    to(d1, band.w1, true);
  } else {
    to(most, cut, true);
    to(most, band.w1);
  }
  to(0, band.w1);
  to(0, band.w0);
  const normal = direction(room, cross(vectorIn(frame, way), frame.w));
  const plane = room.keep(new oc.gp_Pln(point(room, place(0, band.w0)), normal));
  return room.keep(done(room, new oc.BRepBuilderAPI_MakeFace(plane, room.keep(wire.Wire()), true)).Face());
}

/** The depth at which the inset passes `most`; undefined where it never does. */
function cutAt(band: Band, d0: number, d1: number, most: number): number | undefined {
  if (Math.max(d0, d1) <= most + HAIR_MM) return undefined;
  const { w0, w1, bend } = band;
  if (!bend) return w0 + ((w1 - w0) * (most - d0)) / (d1 - d0);
  const radius = w1 - w0;
  const away = most - Math.abs(bend.inset);
  const height = Math.sqrt(Math.max(0, radius * radius - away * away));
  // the circle's centre lies at one end of the band, the arc on the other side of it
  return bend.w === w0 ? bend.w + height : bend.w - height;
}
