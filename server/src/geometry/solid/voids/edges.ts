/**
 * Chamfers and rounds: of a face's outer edges, of the edge between two faces, of a feature's rim.
 *
 * Straight edges of a block are prisms along the edge; a face whose outline a contour has drawn, the end of a round
 * body and the rim of a feature are tapered (or rounded) outlines into the face.
 */

import {
  type Chamfer,
  type EdgeChoice,
  type EdgeRound,
  FACE_AXIS,
  type Face,
  type Feature,
} from '../../../model/model';
import { ROUNDING, SAME } from '../../../tolerance';
import { reversedLoop } from '../../2d/assemble-loops';
import { arc, circleEdge, line } from '../../2d/edge';
import { insetRegion } from '../../2d/offset';
import { mapRegion, type PlaneMap } from '../../2d/plane-map';
import { polygonLoop } from '../../2d/shape-outline';
import { faceFrame, faceSize } from '../../frame';
import type { Loop, Point2, Region, Void } from '../../types';
import { insetAt } from '../prism';
import { aroundFace, MARGIN_MM } from './contours';
import { faceOutline, type Rectangle } from './face-outline';
import { makeVoid, type Surroundings } from './make';
import { edgeFrame, sideOf } from './steps';

type EdgeBreak = Chamfer | EdgeRound;

/** Set-backs of the break: along the face and down the side, mm. */
interface Legs {
  readonly along: number;
  readonly down: number;
  readonly round: boolean;
}

/** What breaking the chosen edges takes; none for edges that are not there. */
export function edgeVoids(f: EdgeBreak, around: Surroundings): readonly Void[] {
  const legs = legsOf(f);
  if (!legs) return [];
  return f.edges.flatMap((choice) => voidsOfChoice(f, choice, legs, around));
}

/** A chamfer's `size` is its set-back along the face; its angle is measured from the face. */
function legsOf(f: EdgeBreak): Legs | undefined {
  if (f.kind === 'edge-round') {
    return f.radius.mm > 0 ? { along: f.radius.mm, down: f.radius.mm, round: true } : undefined;
  }
  if (!(f.size.mm > 0 && f.angle.deg > 0 && f.angle.deg < 90)) return undefined;
  return { along: f.size.mm, down: f.size.mm * slope(f.angle.deg), round: false };
}

/** Tangent of an angle; 1 for 45°, without a rounding error in every dimension made from it. */
function slope(deg: number): number {
  return deg === 45 ? 1 : Math.tan((deg * Math.PI) / 180);
}

function voidsOfChoice(f: EdgeBreak, choice: EdgeChoice, legs: Legs, around: Surroundings): readonly Void[] {
  switch (choice.type) {
    case 'rim': {
      const owner = around.part.featureByName.get(choice.feature.name);
      return owner ? (choice.far ? farRimVoids : rimVoids)(f, owner, legs, around) : [];
    }
    case 'face':
      return faceVoids(f, choice.face, legs, around);
    case 'edge': {
      const [a, b] = choice.faces;
      const [face, side] = f.face === b ? [b, a] : [a, b];
      if (around.part.body?.form !== 'box' || !sideOf(face, side)) return [];
      const outline = faceOutline(face, around.part);
      const [lu, lv] = faceSize(face, around.size);
      const rectangle = 'rectangle' in outline ? outline.rectangle : { u0: 0, v0: 0, u1: lu, v1: lv };
      return edgePrism(f, { face, side, rectangle }, legs, around);
    }
    default:
      return choice satisfies never;
  }
}

function faceVoids(f: EdgeBreak, face: Face, legs: Legs, around: Surroundings): readonly Void[] {
  const { part, size } = around;
  const [lu, lv] = faceSize(face, size);
  let outline = faceOutline(face, part);
  if (part.body?.form === 'round') {
    if (FACE_AXIS[face].axis !== part.body.axis) return [];
    if ('rectangle' in outline) {
      outline = { loops: [{ edges: [circleEdge({ u: lu / 2, v: lv / 2 }, part.body.diameter.mm / 2)] }] };
    }
  }
  if ('rectangle' in outline) {
    const { rectangle } = outline;
    const sides = (['left', 'right', 'front', 'back', 'bottom', 'top'] as const).filter((s) => sideOf(face, s));
    return sides.flatMap((side) => edgePrism(f, { face, side, rectangle }, legs, around));
  }
  return outlineVoid(f, face, outline.loops, legs, around);
}

/** The break around what is kept of a face: everything outside it, wider at the face. One void goes round all of it. */
function outlineVoid(
  f: EdgeBreak,
  face: Face,
  all: readonly Loop[],
  legs: Legs,
  { size }: Surroundings,
): readonly Void[] {
  if (all.length === 0) return [];
  // a round draws the outer side in by its radius too: it must stay clear of the body
  const outer = aroundFace(faceSize(face, size), all, MARGIN_MM + (legs.round ? legs.along : 0));
  const frame = faceFrame(face, size, { u: 0, v: 0 });
  if (!legs.round) {
    const region = { outer, holes: all.map(reversedLoop) };
    const profile = { type: 'taper', insetFrom: -legs.along, insetTo: 0 } as const;
    return [makeVoid(f, { member: 0, role: 'edge', frame, region, from: 0, to: legs.down, profile })];
  }
  const holes = all.flatMap((l) => leftAtFace(l, legs.along)).map(reversedLoop);
  const profile = { type: 'round', radius: legs.along } as const;
  return [makeVoid(f, { member: 0, role: 'edge', frame, region: { outer, holes }, from: 0, to: legs.along, profile })];
}

/** What a round leaves flat of an outline. Of a circle rounded to its centre: a point, from which the dome grows. */
function leftAtFace(kept: Loop, radius: number): readonly Loop[] {
  const only = kept.edges[0]!;
  if (kept.edges.length === 1 && only.type === 'arc') {
    return [{ edges: [circleEdge(only.centre, Math.max(SAME, only.radius - radius))] }];
  }
  return (insetRegion({ outer: kept, holes: [] }, radius) ?? []).map((r) => r.outer);
}

/** One side of what is kept of a face. */
interface KeptSide {
  readonly face: Face;
  readonly side: Face;
  readonly rectangle: Rectangle;
}

/** A prism along one side of a face's rectangle. */
function edgePrism(f: EdgeBreak, kept: KeptSide, legs: Legs, { size }: Surroundings): readonly Void[] {
  const { face, side, rectangle } = kept;
  const edge = edgeFrame(face, side, size);
  const where = sideOf(face, side);
  if (!edge || !where) return [];
  const [lu, lv] = faceSize(face, size);
  const { u0, v0, u1, v1 } = rectangle;
  const onU = where.along === 'u';
  const back = onU ? (where.low ? u0 : lu - u1) : where.low ? v0 : lv - v1;
  const [from, to] = onU ? [v0, v1] : [u0, u1];
  const { frame } = edge;
  const origin = frame.origin.map((x, i) => x + back * frame.u[i]!) as unknown as typeof frame.origin;
  return [
    makeVoid(f, {
      member: 0,
      role: 'edge',
      frame: { ...frame, origin },
      region: { outer: breakLoop(legs), holes: [] },
      from,
      to,
    }),
  ];
}

/** Cross-section of a broken edge: a triangle, or what a quarter circle leaves of the corner. */
function breakLoop({ along, down, round }: Legs): Loop {
  const p = (u: number, v: number): Point2 => ({ u, v });
  if (!round) return polygonLoop([p(0, 0), p(along, 0), p(0, down)]);
  return {
    edges: [
      line(p(0, 0), p(along, 0)),
      arc(p(along, 0), p(0, along), p(along, along), false),
      line(p(0, along), p(0, 0)),
    ],
  };
}

/** The break of a feature's edge at its own face, at every member. Islands that reach up to the face are broken too. */
function rimVoids(f: EdgeBreak, owner: Feature, legs: Legs, around: Surroundings): readonly Void[] {
  const voids = around.voidsOf(owner).filter((v) => v.role !== 'edge');
  const mouth = voids.reduce((least, v) => Math.min(least, v.from), Number.POSITIVE_INFINITY);
  const out: Void[] = [];
  for (const v of voids) {
    if (v.from > mouth + ROUNDING || v.role === 'slope') continue;
    const from = Math.max(v.from, owner.startMm);
    const base = insetAt(v, from);
    if (!legs.round) {
      const profile = { type: 'taper', insetFrom: base - legs.along, insetTo: base } as const;
      out.push(
        makeVoid(f, {
          member: v.member,
          role: 'edge',
          frame: v.frame,
          region: v.region,
          from,
          to: from + legs.down,
          profile,
        }),
      );
      continue;
    }
    const profile = { type: 'round', radius: legs.along } as const;
    const widest: readonly Region[] = insetRegion(v.region, base - legs.along) ?? [];
    for (const r of widest)
      out.push(
        makeVoid(f, {
          member: v.member,
          role: 'edge',
          frame: v.frame,
          region: r,
          from,
          to: from + legs.along,
          profile,
        }),
      );
  }
  return out;
}

/** (u, v) → (v, u): a plane seen from its other side. */
const SWAPPED: PlaneMap = { uu: 0, uv: 1, vu: 1, vv: 0, u0: 0, v0: 0 };

/** The same where the feature comes out: its outline there, seen from the opposite face. */
function farRimVoids(f: EdgeBreak, owner: Feature, legs: Legs, around: Surroundings): readonly Void[] {
  return around
    .voidsOf(owner)
    .filter((v) => v.through && v.role !== 'edge')
    .flatMap((v) => {
      const { origin, u, v: across, w } = v.frame;
      const out = origin.map((x, i) => x + v.to * w[i]!) as unknown as typeof origin;
      const back = w.map((x) => -x + 0) as unknown as typeof w;
      const frame = { origin: out, u: across, v: u, w: back };
      const region = mapRegion(SWAPPED, v.region);
      const base = insetAt(v, v.to);
      const edge = { member: v.member, role: 'edge', frame, from: 0 } as const;
      if (!legs.round) {
        const profile = { type: 'taper', insetFrom: base - legs.along, insetTo: base } as const;
        return [makeVoid(f, { ...edge, region, to: legs.down, profile })];
      }
      const profile = { type: 'round', radius: legs.along } as const;
      const widest: readonly Region[] = insetRegion(region, base - legs.along) ?? [];
      return widest.map((r) => makeVoid(f, { ...edge, region: r, to: legs.along, profile }));
    });
}
