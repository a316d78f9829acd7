/**
 * Profiles on whose way edges of the outline vanish or loops fall apart: a ball-nosed slot, a floor fillet in a pocket
 * narrower than two of them, a chamfer wider than an island. What lies less deep inside the outline than the inset is
 * taken from the straight volume, edge by edge (or put to it where the outline widens); the library sorts out the rest.
 */

import { ROUNDING } from '../../tolerance';
import { regionEdges } from '../2d/moments';
import { fromFrame } from '../frame';
import { insetAt, type Prism } from '../solid/prism';
import { scale } from '../vector';
import { handleOf, type Kernel, type Manifold, united } from './handles';
import { BEYOND_MM } from './lips';
import { type Chain, chainsOf } from './ring';
import { profiledSide, type Side } from './sides';
import { OVERLAP_MM, stationsAlong } from './stations';
import { planeThrough } from './surface';
import { levelsOf, placer, type RawMesh, type SweepOptions, sweep } from './sweep';

export interface Difference {
  readonly handle: Manifold;
  readonly sides: readonly Side[];
}

/** Any profile; undefined where even this cannot be drawn. In part axes for aligned frames, else in the frame's. */
export function difference(kernel: Kernel, p: Prism, options: SweepOptions, id: number): Difference | undefined {
  const halves = splitAtZero(p);
  const sides: Side[] = [];
  const made: Manifold[] = [];
  for (const half of halves) {
    const handle = half ? carvedHalf(kernel, half, options, id, sides) : undefined;
    if (!handle) {
      for (const m of made) m.delete();
      return undefined;
    }
    made.push(handle);
  }
  return { handle: united(kernel, made), sides };
}

/** A taper that both widens and narrows is two, one above the other. */
function splitAtZero(p: Prism): readonly Prism[] {
  const { profile, from, to } = p;
  if (profile.type !== 'taper' || profile.insetFrom * profile.insetTo >= 0) return [p];
  const w = from + ((to - from) * profile.insetFrom) / (profile.insetFrom - profile.insetTo);
  return [
    { ...p, to: w, profile: { ...profile, insetTo: 0 } },
    { ...p, from: w, profile: { ...profile, insetFrom: 0 } },
  ];
}

function carvedHalf(kernel: Kernel, p: Prism, options: SweepOptions, id: number, sides: Side[]): Manifold | undefined {
  const chains = chainsOf(p.region, p.profile, options.chordMm);
  const edgesOnly = chains.map((chain) => chain.filter((s) => s.of.type !== 'corner'));
  const straight = sweep({ ...p, profile: { type: 'straight' } }, options, edgesOnly);
  const block = straight && handleOf(kernel, renumbered(straight, sides), id);
  if (!block) return undefined;
  const bands: Manifold[] = [];
  const section = sectionOf(p, options);
  for (const chain of chains) {
    for (let i = 0; i < chain.length; i++) {
      const raw = band(p, { chain, i }, section, options, sides);
      if (!raw) continue;
      const handle = handleOf(kernel, raw, id);
      if (handle) bands.push(handle);
    }
  }
  if (bands.length === 0) return block;
  if (section.widens) return united(kernel, [block, ...bands]);
  const off = united(kernel, bands);
  const left = block.subtract(off);
  left.numTri();
  block.delete();
  off.delete();
  return left;
}

function renumbered(raw: RawMesh, sides: Side[]): RawMesh {
  const base = sides.length;
  sides.push(...raw.sides);
  return { ...raw, faces: raw.faces.map((f) => f + base) };
}

/** Across an edge: how deep inside the outline, how far down. Steps that stand for the surface itself are told. */
interface Section {
  readonly points: readonly { readonly d: number; readonly w: number; readonly real: boolean }[];
  readonly widens: boolean;
  /** The inset farthest from 0. */
  readonly reach: number;
}

function sectionOf(p: Prism, options: SweepOptions): Section {
  const levels = levelsOf(p, options).filter((l) => !l.straight);
  // an arc ends where the inset has come to its centre: all its neighbours are drawn with a step there
  for (const e of regionEdges(p.region)) {
    const w = e.type === 'arc' ? depthAt(p, e.ccw ? e.radius : -e.radius) : undefined;
    if (w === undefined) continue;
    const i = levels.findIndex((l) => l.w > w + ROUNDING);
    if (i > 0 && levels[i - 1]!.w < w - ROUNDING) levels.splice(i, 0, { w, inset: insetAt(p, w), straight: false });
  }
  const reach = levels.reduce((far, l) => (Math.abs(l.inset) > Math.abs(far) ? l.inset : far), 0);
  const widens = reach < 0;
  const behind = widens ? OVERLAP_MM : -OVERLAP_MM;
  const first = levels[0]!;
  const last = levels[levels.length - 1]!;
  const real = levels.map((l, i) => ({ d: l.inset, w: l.w, real: i + 1 < levels.length }));
  // what is taken away must run out past the ends; what is added must end with them
  const past = widens ? 0 : BEYOND_MM;
  const head = Math.abs(first.inset) > ROUNDING && past ? [{ d: first.inset, w: first.w - past, real: false }] : [];
  const tail = Math.abs(last.inset) > ROUNDING && past ? [{ d: last.inset, w: last.w + past, real: false }] : [];
  real[real.length - 1] = { ...real[real.length - 1]!, real: false };
  const top = (head[0] ?? first).w;
  const end = (tail[0] ?? last).w;
  const points = [...head, ...real, ...tail, { d: behind, w: end, real: false }, { d: behind, w: top, real: false }];
  return { points, widens, reach };
}

/** Where the section is inset by so much; undefined where it never is. */
function depthAt({ profile, from, to }: Prism, inset: number): number | undefined {
  if (profile.type === 'straight') return undefined;
  if (profile.type === 'taper') {
    const t = (inset - profile.insetFrom) / (profile.insetTo - profile.insetFrom);
    return t > 0 && t < 1 ? from + t * (to - from) : undefined;
  }
  const r = profile.radius;
  if (!(inset > 0 && inset < r)) return undefined;
  return profile.type === 'floor'
    ? to - r + Math.sqrt(r * r - (r - inset) ** 2)
    : to - Math.sqrt(r * r - inset * inset);
}

/** The section drawn along a stretch of the outline, as a closed mesh. */
function band(
  p: Prism,
  { chain, i }: { readonly chain: Chain; readonly i: number },
  section: Section,
  options: SweepOptions,
  sides: Side[],
): RawMesh | undefined {
  const { stations, steps, closed } = stationsAlong(chain, i, section.reach);
  if (stations.length < 2) return undefined;
  const faces = new Map<number, number>();
  for (const stretch of steps) {
    if (faces.has(stretch)) continue;
    const side = profiledSide(p, chain[stretch]!.of);
    if (!side) return undefined;
    faces.set(stretch, sides.length);
    sides.push(side);
  }
  // ends of a widening outline lie in the planes of the volume's own caps
  const [roof, floor] = capsOf(p, sides);
  const mesh: RawMesh = { positions: [], triangles: [], faces: [], sides };
  const point = spots(placer(p.frame, options.gridMm, mesh.positions), mesh.positions);
  const rings = stations.map((s) =>
    section.points.map(({ d, w }) => {
      const deep = Math.min(s.most, Math.max(s.least, d));
      return point(s.at.u + s.inward.u * deep, s.at.v + s.inward.v * deep, w);
    }),
  );
  const n = section.points.length;
  const tag = (j: number, k: number) => (section.points[k]!.real ? faces.get(steps[j]!)! : k === n - 1 ? roof : floor);
  const put = (a: number, b: number, c: number, f: number) => {
    if (a === b || b === c || c === a) return;
    mesh.triangles.push(a, b, c);
    mesh.faces.push(f);
  };
  for (let j = 0; j + (closed ? 0 : 1) < rings.length; j++) {
    const [r, s] = [rings[j]!, rings[(j + 1) % rings.length]!];
    for (let k = 0; k < n; k++) {
      const m = (k + 1) % n;
      put(r[k]!, s[k]!, s[m]!, tag(j, k));
      put(r[k]!, s[m]!, r[m]!, tag(j, k));
    }
  }
  if (!closed) {
    const [first, last] = [rings[0]!, rings[rings.length - 1]!];
    for (const [a, b, c] of closing(section, options)) {
      // an end lies inside its neighbour: of it no more than rounding can show
      put(first[a]!, first[b]!, first[c]!, faces.get(steps[0]!)!);
      put(last[a]!, last[c]!, last[b]!, faces.get(steps[rings.length - 2]!)!);
    }
  }
  if (mesh.triangles.length === 0) return undefined;
  return turnedOut(mesh);
}

/** Triangles of the section, running round it as its points do. */
function closing({ points }: Section, options: SweepOptions): readonly (readonly [number, number, number])[] {
  const area = points.reduce((sum, p, k) => {
    const q = points[(k + 1) % points.length]!;
    return sum + p.d * q.w - q.d * p.w;
  }, 0);
  const sign = area < 0 ? -1 : 1;
  return options.triangulate([points.map(({ d, w }) => ({ u: sign * d, v: w }))]);
}

/** The planes that the volume itself ends in. */
function capsOf({ frame, from, to }: Prism, sides: Side[]): readonly [number, number] {
  const at = sides.length;
  sides.push(
    { place: 'roof', shape: planeThrough(frame.w, fromFrame(frame, 0, 0, from)) },
    { place: 'floor', shape: planeThrough(scale(frame.w, -1), fromFrame(frame, 0, 0, to)) },
  );
  return [at, at + 1];
}

/** One vertex for each spot. */
function spots(place: (u: number, v: number, w: number) => number, positions: number[]) {
  const known = new Map<string, number>();
  return (u: number, v: number, w: number): number => {
    const made = place(u, v, w);
    const key = `${positions[3 * made]} ${positions[3 * made + 1]} ${positions[3 * made + 2]}`;
    const at = known.get(key);
    if (at === undefined) {
      known.set(key, made);
      return made;
    }
    positions.length = 3 * made;
    return at;
  };
}

/** Faces outward, whichever way the frame and the outline turn. */
function turnedOut(mesh: RawMesh): RawMesh {
  const { positions: p, triangles: t } = mesh;
  let six = 0;
  for (let i = 0; i < t.length; i += 3) {
    const [a, b, c] = [3 * t[i]!, 3 * t[i + 1]!, 3 * t[i + 2]!];
    const [ax, ay, az] = [p[a]! - p[0]!, p[a + 1]! - p[1]!, p[a + 2]! - p[2]!];
    const [bx, by, bz] = [p[b]! - p[0]!, p[b + 1]! - p[1]!, p[b + 2]! - p[2]!];
    const [cx, cy, cz] = [p[c]! - p[0]!, p[c + 1]! - p[1]!, p[c + 2]! - p[2]!];
    six += ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx);
  }
  if (six >= 0) return mesh;
  for (let i = 0; i < t.length; i += 3) [t[i + 1], t[i + 2]] = [t[i + 2]!, t[i + 1]!];
  return mesh;
}
