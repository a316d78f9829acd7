/**
 * Profiles on whose way edges of the outline vanish or loops fall apart: a ball-nosed slot, a floor fillet in a pocket
 * narrower than two of them, a chamfer wider than an island. What lies less deep inside the outline than the inset is
 * taken from the straight volume, edge by edge (or put to it where the outline widens); the library sorts out the rest.
 */
import { startAngle, sweepOf, tangentAt } from '../edge';
import { fromFrame } from '../frame';
import type { Prism } from '../prism';
import type { Point2 } from '../types';
import { scale } from '../vector';
import { handleOf, type Kernel, type Manifold, united } from './handles';
import { BEYOND_MM } from './lips';
import { type Chain, chainsOf, type Stretch } from './ring';
import { circleOf, profiledSide, type Side } from './sides';
import { planeThrough } from './surface';
import { levelsOf, placer, type RawMesh, type SweepOptions, sweep } from './sweep';

export interface Carved {
  readonly handle: Manifold;
  readonly sides: readonly Side[];
}

/** How far neighbouring bands run over into each other, mm: the error is the square of it. */
const OVERLAP_MM = 0.004;
const EPS = 1e-9;

/** Any profile; undefined where even this cannot be drawn. In part axes for aligned frames, else in the frame's. */
export function carved(kernel: Kernel, p: Prism, options: SweepOptions, id: number): Carved | undefined {
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
  const straight = sweep({ ...p, profile: { type: 'straight' } }, options);
  const block = straight && handleOf(kernel, renumbered(straight, sides), id);
  if (!block) return undefined;
  const section = sectionOf(p, options);
  const bands: Manifold[] = [];
  for (const chain of chainsOf(p.region, p.profile, options.chordMm)) {
    for (const stretch of chain) {
      const raw = band(p, chain, stretch, section, options, sides);
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
}

function sectionOf(p: Prism, options: SweepOptions): Section {
  const levels = levelsOf(p, options).filter((l) => !l.straight);
  const reach = levels.reduce((far, l) => (Math.abs(l.inset) > Math.abs(far) ? l.inset : far), 0);
  const widens = reach < 0;
  const behind = widens ? OVERLAP_MM : -OVERLAP_MM;
  const first = levels[0]!;
  const last = levels[levels.length - 1]!;
  const real = levels.map((l, i) => ({ d: l.inset, w: l.w, real: i + 1 < levels.length }));
  // what is taken away must run out past the ends; what is added must end with them
  const past = widens ? 0 : BEYOND_MM;
  const head = Math.abs(first.inset) > EPS && past ? [{ d: first.inset, w: first.w - past, real: false }] : [];
  const tail = Math.abs(last.inset) > EPS && past ? [{ d: last.inset, w: last.w + past, real: false }] : [];
  real[real.length - 1] = { ...real[real.length - 1]!, real: false };
  const top = (head[0] ?? first).w;
  const end = (tail[0] ?? last).w;
  const points = [...head, ...real, ...tail, { d: behind, w: end, real: false }, { d: behind, w: top, real: false }];
  return { points, widens };
}

interface Station {
  readonly at: Point2;
  /** Into the outline. */
  readonly inward: Point2;
  /** Deeper than this lies beyond the arc's centre. */
  readonly most: number;
  /** Less deep than this (negative: outside) likewise. */
  readonly least: number;
}

function stationsOf({ of, steps }: Stretch): { stations: readonly Station[]; closed: boolean } {
  const inf = Number.POSITIVE_INFINITY;
  if (of.type === 'line') {
    const t = tangentAt(of, of.a);
    const inward = { u: -t.v, v: t.u };
    const ends = [beyond(of.a, t, -1), beyond(of.b, t, 1)];
    return { stations: ends.map((at) => ({ at, inward, most: inf, least: -inf })), closed: false };
  }
  const { centre, radius, sigma } = circleOf(of);
  const most = sigma < 0 ? radius : inf;
  const least = sigma > 0 ? -radius : -inf;
  if (of.type === 'corner') throw new Error('a corner has no stations of its own');
  const sweepAngle = sweepOf(of);
  const closed = Math.abs(sweepAngle) > 2 * Math.PI - 1e-12;
  const stations: Station[] = [];
  for (let k = 0; k <= steps - (closed ? 1 : 0); k++) {
    const at =
      k === 0 ? of.a : k === steps ? of.b : turnedAbout(centre, radius, startAngle(of) + (sweepAngle * k) / steps);
    const inward = { u: (sigma * (at.u - centre.u)) / radius, v: (sigma * (at.v - centre.v)) / radius };
    stations.push({ at, inward, most, least });
  }
  if (!closed) {
    const [first, last] = [stations[0]!, stations[stations.length - 1]!];
    stations.unshift({ ...first, at: beyond(first.at, tangentAt(of, of.a), -1) });
    stations.push({ ...last, at: beyond(last.at, tangentAt(of, of.b), 1) });
  }
  return { stations, closed };
}

function turnedAbout(c: Point2, r: number, angle: number): Point2 {
  return { u: c.u + r * Math.cos(angle), v: c.v + r * Math.sin(angle) };
}

function beyond(p: Point2, way: Point2, sign: number): Point2 {
  return { u: p.u + sign * OVERLAP_MM * way.u, v: p.v + sign * OVERLAP_MM * way.v };
}

/** A fan about a corner, from the inward side of the edge before it to that of the edge after it. */
function fan(chain: Chain, stretch: Stretch): readonly Station[] {
  const i = chain.indexOf(stretch);
  const before = chain[(i + chain.length - 1) % chain.length]!.of;
  const after = chain[(i + 1) % chain.length]!.of;
  if (stretch.of.type !== 'corner' || before.type === 'corner' || after.type === 'corner') return [];
  const { at, inward } = stretch.of;
  const [s, t] = [tangentAt(before, before.b), tangentAt(after, after.a)];
  const start = Math.atan2(s.u, -s.v);
  const turn = Math.atan2(s.u * t.v - s.v * t.u, s.u * t.u + s.v * t.v);
  const inf = Number.POSITIVE_INFINITY;
  return Array.from({ length: stretch.steps + 1 }, (_, k) => {
    const angle = start + (turn * k) / stretch.steps;
    return {
      at,
      inward: { u: Math.cos(angle), v: Math.sin(angle) },
      most: inward ? inf : 0,
      least: inward ? 0 : -inf,
    };
  });
}

/** The section drawn along a stretch of the outline, as a closed mesh. */
function band(
  p: Prism,
  chain: Chain,
  stretch: Stretch,
  section: Section,
  options: SweepOptions,
  sides: Side[],
): RawMesh | undefined {
  const { stations, closed } =
    stretch.of.type === 'corner' ? { stations: fan(chain, stretch), closed: false } : stationsOf(stretch);
  if (stations.length < 2) return undefined;
  const side = profiledSide(p, stretch.of);
  if (!side) return undefined;
  const face = sides.length;
  sides.push(side);
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
  const tag = (k: number) => (section.points[k]!.real ? face : k === n - 1 ? roof : floor);
  const put = (a: number, b: number, c: number, f: number) => {
    if (a === b || b === c || c === a) return;
    mesh.triangles.push(a, b, c);
    mesh.faces.push(f);
  };
  for (let i = 0; i + (closed ? 0 : 1) < rings.length; i++) {
    const [r, s] = [rings[i]!, rings[(i + 1) % rings.length]!];
    for (let k = 0; k < n; k++) {
      const m = (k + 1) % n;
      put(r[k]!, s[k]!, s[m]!, tag(k));
      put(r[k]!, s[m]!, r[m]!, tag(k));
    }
  }
  if (!closed) {
    const [first, last] = [rings[0]!, rings[rings.length - 1]!];
    for (const [a, b, c] of closing(section, options)) {
      put(first[a]!, first[b]!, first[c]!, face);
      put(last[a]!, last[c]!, last[b]!, face);
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
