/**
 * The part cut into slices square to a direction of sight, nearest first. Between two neighbouring depths its section
 * changes smoothly and one way only, so the sections at both ends say all that is seen of it.
 */

import { within } from '../../effort';
import { chainLoops, regionsOfLoops } from '../../geometry/2d/assemble-loops';
import { boundaryOf } from '../../geometry/2d/boolean';
import { reversedEdge } from '../../geometry/2d/edge';
import { type Sheet, sheetOf } from '../../geometry/2d/indexed-region';
import { momentsOf, perimeterOf, regionEdges, regionMoments } from '../../geometry/2d/moments';
import { mapRegion } from '../../geometry/2d/plane-map';
import { bodyPrism } from '../../geometry/solid/body';
import type { Prism } from '../../geometry/solid/prism';
import { sectionOf, standing } from '../../geometry/solid/section';
import { plainStopsOf } from '../../geometry/solid/stops';
import type { Edge, Region, Solid } from '../../geometry/types';
import type { AxisIndex } from '../../geometry/vector';
import { HAIR, SAME } from '../../tolerance';
import type { View } from './view';

/** Slices thinner than this are rounding, mm. */
const THIN = 1e-9;
/** Sections are taken this far inside their slice, mm: at the very end they are of two minds. Far below any tolerance. */
const INSIDE = 1e-12;

/** Where a section cannot be followed at the very end of a slice it is taken a little further in, mm. */
const FURTHER = 1e-7;

/** Material of one slice at its ends, in the drawing's coordinates. */
export interface Slice {
  readonly near: readonly Region[];
  readonly far: readonly Region[];
  /** Half-way between; for a slice in which something changes. */
  half(): readonly Region[] | undefined;
}

/** Looks at an edge that a view may cost whose slices are halved where they need it. Beyond it they are taken as they are. */
const HALVED = 3e6;

/** What is asked of the slices of a solid. */
export function ofSlices<T>(solid: Pick<Solid, 'body' | 'voids'>, view: View, ask: (slices: Slices) => T): T {
  const asked = (splits: number) => () => ask(slicesOf(solid, view, splits));
  return within({ remaining: HALVED }, asked(SPLITS), asked(0));
}

type Slices = Iterable<Slice | undefined>;

/** Seen from a face, nearest first, each made when it is asked for; undefined for one too tangled to follow. */
function* slicesOf({ body, voids }: Pick<Solid, 'body' | 'voids'>, view: View, splits: number): Slices {
  const { axis, looks } = view;
  const block = bodyPrism(body);
  const stops = turnsOf([block, ...voids], axis, body.box.min[axis], body.box.max[axis]);
  if (looks < 0) stops.reverse();
  let last: readonly Prism[] = [];
  let slice: Slice | undefined;
  for (let n = 0; n + 1 < stops.length; n++) {
    const [a, b] = [stops[n]!, stops[n + 1]!];
    const [low, high] = looks > 0 ? [a, b] : [b, a];
    const here = voids.filter((v) => v.bounds.min[axis] < high - THIN && v.bounds.max[axis] > low + THIN);
    const still = [block, ...here].every((p) => standing(p, axis) === 'along' && p.profile.type === 'straight');
    if (still && slice && last.length === here.length && last.every((p, i) => p === here[i])) continue;
    last = still ? here : [];
    if (!still) {
      slice = undefined;
      yield* changing({ block, here, view }, [a, b], splits);
      continue;
    }
    const half = () => materialAt(block, here, view, (a + b) / 2);
    const near = half();
    slice = near && { near, far: near, half };
    yield slice;
  }
}

/** So often a slice is halved, at most. */
const SPLITS = 5;

interface Stretch {
  readonly block: Prism;
  readonly here: readonly Prism[];
  readonly view: View;
}

/** What a stretch has at its ends; the last is known from the one before it. */
type Ends = readonly [near: readonly Region[] | undefined, far: readonly Region[] | undefined];

/**
 * A stretch in which the section changes. Where a lying bore widens as the round body around it does, what is left moves
 * outwards: the sections at both ends then leave out what only those between them show, and it is halved. What is cut
 * half-way is the end of both halves: it is cut once.
 */
function* changing(of: Stretch, [a, b]: readonly [number, number], splits: number, known?: Ends): Slices {
  const { block, here, view } = of;
  const middle = (a + b) / 2;
  const [near, far] = known ?? endsOf(of, [a, b]);
  let cut: readonly Region[] | undefined;
  const half = () => {
    cut ??= materialAt(block, here, view, middle);
    return cut;
  };
  if (splits > 0 && near && far && Math.abs(b - a) > HAIR && mayMove(of) && movesOn([near, far], half())) {
    yield* changing(of, [a, middle], splits - 1, [near, cut]);
    yield* changing(of, [middle, b], splits - 1, [cut, far]);
    return;
  }
  yield near && far && { near, far, half };
}

function endsOf({ block, here, view }: Stretch, [a, b]: readonly [number, number]): Ends {
  const end = (at: number, into: number) =>
    materialAt(block, here, view, at + INSIDE * into) ?? materialAt(block, here, view, at + FURTHER * into);
  return [end(a, view.looks), end(b, -view.looks)];
}

/** Leaning and rounded sides are too dear to be followed so finely. */
function mayMove({ block, here, view }: Stretch): boolean {
  const all = [block, ...here];
  const isDear = ({ profile }: Prism) => profile.type === 'floor' || profile.type === 'round';
  if (all.some((p) => isDear(p) || standing(p, view.axis) === 'oblique')) return false;
  return all.filter((p) => standing(p, view.axis) === 'across').length >= 2;
}

/** Half-way there is material that is at neither end, wide enough to be seen on paper. */
function movesOn(ends: readonly [readonly Region[], readonly Region[]], half: readonly Region[] | undefined): boolean {
  const both = half && united(...ends);
  const left = both && without(half, both);
  return left?.some((r) => (2 * regionMoments(r).area) / perimeterOf(r.outer) > SEEN) ?? false;
}
/** Narrower is not seen on paper, whose thinnest line is 0.13 mm (ISO 128-2, from memory), mm. */
const SEEN = 0.05;

/** Where sections begin and end, and where one that lies across is widest: in between they only grow, or only shrink. */
function turnsOf(prisms: readonly Prism[], axis: AxisIndex, low: number, high: number): number[] {
  const widest = prisms.flatMap((p) => {
    if (standing(p, axis) === 'along') return [];
    const { origin, u, v, w } = p.frame;
    const round = regionEdges(p.region).filter((e) => e.type === 'arc');
    return round.flatMap(({ centre }) =>
      [p.from, p.to].map((d) => origin[axis] + centre.u * u[axis] + centre.v * v[axis] + d * w[axis]),
    );
  });
  const all = [...plainStopsOf(prisms, axis, low, high), ...widest.filter((x) => x > low + THIN && x < high - THIN)];
  return all.sort((a, b) => a - b).filter((x, n) => n === 0 || x - all[n - 1]! > THIN);
}

function materialAt(block: Prism, voids: readonly Prism[], view: View, at: number): readonly Region[] | undefined {
  const cuts = voids.map((v) => clearSection(v, view, at)).filter((s) => s.edges.length > 0);
  const whole = clearSection(block, view, at);
  if (whole.edges.length === 0) return [];
  const regions = regionsFrom(boundaryOf([whole], cuts));
  return regions?.map((r) => mapRegion(view.map, r));
}

/** The section without hairs, where the plane touches a curved side: too narrow to be followed, and not to be seen. */
function clearSection(p: Prism, { axis }: View, at: number): Sheet {
  const { sheet } = sectionOf(p, axis, at);
  const { u0, u1, v0, v1 } = sheet.rect;
  if (!(u1 - u0 > THIN && v1 - v0 > THIN)) return sheetOf([]);
  if (standing(p, axis) === 'along') return sheet;
  const loops: Edge[][] = [];
  for (const e of sheet.edges) {
    const last = loops[loops.length - 1];
    const end = last?.[last.length - 1]?.b;
    if (last && end && Math.hypot(end.u - e.a.u, end.v - e.a.v) < THIN) last.push(e);
    else loops.push([e]);
  }
  if (!loops.every(isClosed)) return sheet;
  const broad = loops.filter(isWide);
  return broad.length === loops.length ? sheet : sheetOf(broad.flat(), sheet.loose);
}

function isClosed(edges: readonly Edge[]): boolean {
  const [a, b] = [edges[0]!.a, edges[edges.length - 1]!.b];
  return Math.hypot(a.u - b.u, a.v - b.v) < THIN;
}

/** Everything that any of these covers; those that are the same are looked at once. Undefined where too tangled. */
export function united(...groups: readonly (readonly Region[])[]): readonly Region[] | undefined {
  const all = [...new Set(groups.flat())];
  if (all.length < 2) return all;
  const pieces = boundaryOf(
    [],
    all.map((r) => sheetOf(regionEdges(r))),
  );
  return regionsFrom(pieces.map(reversedEdge));
}

/** What is in `all` and not in `less`. */
export function without(all: readonly Region[], less: readonly Region[]): readonly Region[] | undefined {
  if (all === less) return [];
  return regionsFrom(boundaryOf([sheetOfAll(all)], [sheetOfAll(less)]));
}

/** Regions from boundary pieces with the material on their left; hairs left out. Undefined where they do not close. */
export function regionsFrom(pieces: readonly Edge[]): readonly Region[] | undefined {
  const loops = chainLoops(pieces)?.filter(({ edges }) => isWide(edges));
  return loops && regionsOfLoops(loops)?.filter(isBroad);
}

function isWide(edges: readonly Edge[]): boolean {
  const area = Math.abs(momentsOf(edges).area);
  return area > SAME && area > (HAIR * perimeterOf({ edges })) / 2;
}

export function sheetOfAll(regions: readonly Region[]): Sheet {
  return sheetOf(regions.flatMap(regionEdges), regions.length > 1);
}

/** Hairs come from planes that touch a curved side. */
function isBroad(r: Region): boolean {
  const { area } = regionMoments(r);
  return area > SAME && area > (HAIR * perimeterOf(r.outer)) / 2;
}

/** What is seen of the whole part: its shadow. Undefined where it cannot be followed. */
export function projectionOf(solid: Pick<Solid, 'body' | 'voids'>, view: View): readonly Region[] | undefined {
  return ofSlices(solid, view, (slices) => {
    const all: (readonly Region[])[] = [];
    for (const slice of slices) {
      if (!slice) return undefined;
      all.push(slice.near, slice.far);
    }
    return united(...all);
  });
}
