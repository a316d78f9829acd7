/**
 * A swept outline as a closed triangle mesh: polygons at several depths, joined point by point, closed by a cap at either
 * end. Each triangle knows the exact surface it stands for. Undefined where edges vanish on the way: see `carve.ts`.
 */
import { ROUNDING } from '../../tolerance';
import { isSteady } from '../2d/offset';
import { insetAt, type Prism } from '../solid/prism';
import type { BodyShape, Frame, Point2, Vec3 } from '../types';
import { add, cross, dot, scale } from '../vector';
import { BEYOND_MM, grown, onFace } from './lips';
import { type Chain, chainsOf, type Ring, ringsAt } from './ring';
import { profiledSide, type Side, straightSide } from './sides';
import { planeThrough } from './surface';

/** Three numbers a point, three a triangle; `faces` names for each triangle its place in `sides`. */
export interface RawMesh {
  readonly positions: number[];
  readonly triangles: number[];
  readonly faces: number[];
  readonly sides: Side[];
}

export interface SweepOptions {
  readonly chordMm: number;
  /** Points are put on a grid this fine, so that faces meant to lie in one plane do; a power of two. */
  readonly gridMm: number;
  /** Triangles of polygons with holes, as indices into all their points. */
  triangulate(polygons: readonly (readonly Point2[])[]): readonly Vec3[];
  /** Ends that lie in a face of this body are carried on beyond it. */
  readonly body?: BodyShape;
}

interface Level {
  readonly w: number;
  readonly inset: number;
  /** Where the band below it is still the wall proper and not the fillet. */
  readonly straight: boolean;
}

/** `chains`: how finely its edges are drawn, where that is settled already. */
export function sweep(
  p: Prism,
  options: SweepOptions,
  chains: readonly Chain[] = chainsOf(p.region, p.profile, options.chordMm),
): RawMesh | undefined {
  if (p.profile.type !== 'straight' && !staysWhole(p)) return undefined;
  const levels = levelsOf(p, options);
  const rings: (readonly Ring[])[] = [];
  for (const level of levels) {
    const at = ringsAt(p.region, chains, level.inset);
    if (!at) return undefined;
    rings.push(at);
  }
  return join(p, chains, levels, rings, options);
}

/** Every edge lives from end to end of the profile. */
function staysWhole({ region, profile }: Prism): boolean {
  const [from, to] =
    profile.type === 'taper'
      ? [profile.insetFrom, profile.insetTo]
      : [0, profile.type === 'straight' ? 0 : profile.radius];
  const only = region.outer.edges[0]!;
  if (region.holes.length === 0 && region.outer.edges.length === 1 && only.type === 'arc') {
    return only.radius - Math.max(from, to) > -ROUNDING;
  }
  return isSteady(region, from, to);
}

/** Depths at which the outline is drawn: a bend in steps that keep the chord. */
export function levelsOf(p: Prism, options: SweepOptions): Level[] {
  const levels: Level[] = [];
  const add = (w: number, straight = false) => levels.push({ w, inset: insetAt(p, w), straight });
  const { profile, from, to } = p;
  if (profile.type === 'straight' || profile.type === 'taper') {
    add(from);
    add(to);
  } else {
    const r = profile.radius;
    const n = Math.max(
      2,
      Math.ceil(Math.PI / 4 / Math.acos(Math.max(0, 1 - options.chordMm / Math.max(r, options.chordMm)))),
    );
    if (profile.type === 'floor') {
      if (to - r - from > options.gridMm) add(from, true);
      for (let i = 0; i <= n; i++) add(to - r + r * Math.sin((i / n) * (Math.PI / 2)));
    } else for (let i = 0; i <= n; i++) add(from + r * (1 - Math.cos((i / n) * (Math.PI / 2))));
  }
  const first = levels[0]!;
  const last = levels[levels.length - 1]!;
  if (options.body && onFace(p.frame, 'w', -1, from, options.body)) levels.unshift({ ...first, w: from - BEYOND_MM });
  if (options.body && onFace(p.frame, 'w', 1, to, options.body)) levels.push({ ...last, w: to + BEYOND_MM });
  return levels;
}

/** Axes along the part's own: then points are put on the grid in part axes, else in the frame's. */
export function isAligned({ u, v, w }: Frame): boolean {
  return [u, v, w].every((x) => x.every((c) => c === 0 || Math.abs(c) === 1));
}

function join(
  p: Prism,
  chains: readonly Chain[],
  levels: readonly Level[],
  rings: readonly (readonly Ring[])[],
  options: SweepOptions,
): RawMesh {
  const mesh: RawMesh = { positions: [], triangles: [], faces: [], sides: [] };
  const point = placer(p.frame, options.gridMm, mesh.positions);
  const flip = isAligned(p.frame) && dot(cross(p.frame.u, p.frame.v), p.frame.w) < 0;
  const triangle = (a: number, b: number, c: number, face: number) => {
    if (a === b || b === c || c === a) return;
    if (flip) mesh.triangles.push(a, c, b);
    else mesh.triangles.push(a, b, c);
    mesh.faces.push(face);
  };
  const faceOf = sideFinder(p, chains, mesh.sides);

  const drawn = levels.map((level, i) =>
    rings[i]!.map((ring, k) => {
      const outline =
        p.profile.type === 'straight' && options.body ? grown(p.frame, ring, chains[k]!, options.body) : ring;
      return {
        ring: outline,
        at: welded(
          outline.points.map((q) => point(q.u, q.v, level.w)),
          mesh.positions,
        ),
      };
    }),
  );
  for (let i = 0; i + 1 < drawn.length; i++) {
    for (let k = 0; k < chains.length; k++) {
      const { at: upper, ring } = drawn[i]![k]!;
      const { at: lower } = drawn[i + 1]![k]!;
      const n = upper.length;
      for (let j = 0; j < n; j++) {
        const next = (j + 1) % n;
        const face = faceOf(k, ring.of[j]!, levels[i]!.straight);
        triangle(upper[j]!, upper[next]!, lower[next]!, face);
        triangle(upper[j]!, lower[next]!, lower[j]!, face);
      }
    }
  }
  const close = (end: End) => cap(p.frame, end, mesh.sides, triangle, options.triangulate);
  close({ rings: drawn[0]!, w: levels[0]!.w, roof: true });
  close({ rings: drawn[drawn.length - 1]!, w: levels[levels.length - 1]!.w, roof: false });
  return mesh;
}

interface Drawn {
  readonly ring: Ring;
  /** The vertex of each point; neighbours that fall on one spot share it. */
  readonly at: readonly number[];
}

/** Where a sweep ends. */
interface End {
  readonly rings: readonly Drawn[];
  readonly w: number;
  readonly roof: boolean;
}

/** Closes a sweep by a flat face, which becomes one of the `sides`. */
function cap(
  frame: Frame,
  { rings, w, roof }: End,
  sides: Side[],
  triangle: (a: number, b: number, c: number, face: number) => void,
  triangulate: SweepOptions['triangulate'],
): void {
  const vertices: number[] = [];
  const polygons: Point2[][] = [];
  for (const { ring, at } of rings) {
    const polygon: Point2[] = [];
    at.forEach((vertex, i) => {
      if (vertex === at[(i + at.length - 1) % at.length] && at.length > 1) return;
      polygon.push(ring.points[i]!);
      vertices.push(vertex);
    });
    if (polygon.length < 3) {
      vertices.length -= polygon.length;
      continue;
    }
    polygons.push(polygon);
  }
  if (polygons.length === 0) return;
  const face = sides.length;
  const normal = roof ? frame.w : scale(frame.w, -1);
  const level = add(frame.origin, frame.w, w);
  sides.push({ place: roof ? 'roof' : 'floor', shape: planeThrough(normal, level) });
  for (const [a, b, c] of triangulate(polygons)) {
    if (roof) triangle(vertices[a]!, vertices[c]!, vertices[b]!, face);
    else triangle(vertices[a]!, vertices[b]!, vertices[c]!, face);
  }
}

/** Finds (and enters) the surface below a stretch; lips beyond the body count as their neighbour. */
function sideFinder(p: Prism, chains: readonly Chain[], sides: Side[]) {
  const known = new Map<string, number>();
  return (chain: number, stretch: number, straight: boolean): number => {
    const key = `${chain} ${stretch} ${straight}`;
    const at = known.get(key);
    if (at !== undefined) return at;
    const edge = chains[chain]![stretch]!.of;
    const side = straight ? straightSide(p.frame, edge) : profiledSide(p, edge);
    const made = sides.length;
    // a corner that does not open leaves no triangles here
    sides.push(side ?? { place: 'wall', shape: planeThrough(p.frame.w, p.frame.origin) });
    known.set(key, made);
    return made;
  };
}

/** Puts points on the grid and into the mesh. */
export function placer(frame: Frame, grid: number, positions: number[]): (u: number, v: number, w: number) => number {
  const snap = (x: number) => Math.round(x / grid) * grid;
  const { origin: o, u: fu, v: fv, w: fw } = frame;
  const aligned = isAligned(frame);
  return (u, v, w) => {
    const n = positions.length / 3;
    if (aligned) {
      positions.push(
        snap(o[0] + u * fu[0] + v * fv[0] + w * fw[0]),
        snap(o[1] + u * fu[1] + v * fv[1] + w * fw[1]),
        snap(o[2] + u * fu[2] + v * fv[2] + w * fw[2]),
      );
    } else positions.push(snap(u), snap(v), snap(w));
    return n;
  };
}

/** Neighbours on one spot become one vertex. */
function welded(at: number[], positions: readonly number[]): readonly number[] {
  const same = (a: number, b: number) =>
    positions[3 * a] === positions[3 * b] &&
    positions[3 * a + 1] === positions[3 * b + 1] &&
    positions[3 * a + 2] === positions[3 * b + 2];
  for (let i = 1; i < at.length; i++) if (same(at[i]!, at[i - 1]!)) at[i] = at[i - 1]!;
  const last = at[at.length - 1]!;
  if (at.length > 1 && same(at[0]!, last)) for (let i = at.length - 1; i > 0 && at[i] === last; i--) at[i] = at[0]!;
  return at;
}
