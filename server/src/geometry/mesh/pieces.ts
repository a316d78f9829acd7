/**
 * A solid as pieces to be shown: the walls of each group of volumes, each face of the body, and the body's own edges. What an
 * edit does not touch stays the same piece, and what it touches is made from that alone: the pieces of a part do not
 * depend on what it was before.
 */
import type { BodyShape, Vec3, Void } from '../types';
import { cross, sub } from '../vector';
import { type Cut, cutBy, type Left } from './cut';
import { displayed, type Shown, shown } from './display';
import { isSmooth } from './edges';
import { type Facet, type Facets, facetsOf, type Stretches } from './facets';
import { type Kernel, triangulator } from './handles';
import { type Base, type Group, Mesher, type MesherOptions } from './mesher';
import { filled } from './outline';
import { seamLeft } from './seams';
import { Spots } from './spots';

interface Pieced {
  readonly pieces: readonly Shown[];
  /** Volumes that could not be drawn. */
  readonly missing: readonly Void[];
  /** Not drawn as a whole. */
  readonly isPieced: boolean;
}

/** What was made of one thing, and from what. */
interface Made<T> {
  readonly from: readonly unknown[];
  readonly it: T;
}

/** What is made of one body. */
interface OfBase {
  readonly base: Base;
  /** Absent where it is to be drawn as a whole. */
  readonly facets: Facets | undefined;
  /** Of each facet what is left by now, nine numbers a triangle. */
  readonly flats: (Made<readonly number[]> | undefined)[];
  readonly faces: (Made<Shown> | undefined)[];
  lines: Shown | undefined;
}

export class Pieces {
  readonly #kernel: Kernel;
  readonly #mesher: Mesher;
  #of: OfBase | undefined;
  #cuts = new Map<Group, Cut | undefined>();
  #whole: Made<Shown> | undefined;

  constructor(kernel: Kernel, options: MesherOptions = {}) {
    this.#kernel = kernel;
    this.#mesher = new Mesher(kernel, options);
  }

  /** Undefined without a body. */
  build(body: BodyShape, voids: readonly Void[]): Pieced | undefined {
    const parts = this.#mesher.parts(body, voids);
    if (!parts) return undefined;
    const { base, groups, missing } = parts;
    const own = this.#pieces(base, groups);
    const pieces = own ?? [this.#wholly(body, voids, [base, ...groups])];
    return { pieces, missing, isPieced: pieces === own };
  }

  /** Gives everything up. */
  dispose(): void {
    this.#of?.facets?.handle.delete();
    this.#of = undefined;
    this.#cuts.clear();
    this.#whole = undefined;
    this.#mesher.dispose();
  }

  #pieces(base: Base, groups: readonly Group[]): readonly Shown[] | undefined {
    const of = this.#ofBase(base);
    if (!of.facets) return undefined;
    const known = this.#cuts;
    this.#cuts = new Map();
    for (const g of groups) this.#cuts.set(g, known.has(g) ? known.get(g) : cutBy(of.facets, g));
    const cuts = [...this.#cuts.values()];
    if (!cuts.every((c) => c !== undefined)) return undefined;
    const body = new BodyPieces(of, of.facets, cuts, triangulator(this.#kernel)).made();
    if (!body) return undefined;
    this.#whole = undefined;
    return [...body, ...cuts.map((c) => c.walls)].filter((p) => p.triangles.length + p.edges.length > 0);
  }

  #ofBase(base: Base): OfBase {
    if (this.#of?.base === base) return this.#of;
    this.#of?.facets?.handle.delete();
    this.#cuts.clear();
    this.#of = { base, facets: facetsOf(this.#kernel, base), flats: [], faces: [], lines: undefined };
    return this.#of;
  }

  /** As one piece, where its facets cannot be told apart. */
  #wholly(body: BodyShape, voids: readonly Void[], from: readonly unknown[]): Shown {
    if (!this.#whole || !sameList(this.#whole.from, from))
      this.#whole = { from, it: shown(this.#mesher.build(body, voids)!) };
    return this.#whole.it;
  }
}

/** The body's own faces and edges after all cuts. */
class BodyPieces {
  readonly #of: OfBase;
  readonly #facets: Facets;
  readonly #triangulate: ReturnType<typeof triangulator>;
  /** By the facet's number. */
  readonly #left = new Map<number, Left[]>();

  constructor(of: OfBase, facets: Facets, cuts: readonly Cut[], triangulate: ReturnType<typeof triangulator>) {
    this.#of = of;
    this.#facets = facets;
    this.#triangulate = triangulate;
    for (const cut of cuts)
      for (const [f, left] of cut.left) {
        const known = this.#left.get(f);
        if (known) known.push(left);
        else this.#left.set(f, [left]);
      }
  }

  made(): readonly Shown[] | undefined {
    const { facets, surfaces } = this.#facets;
    const seams = this.#seams();
    if (!seams) return undefined;
    const bySurface: (readonly number[])[][] = surfaces.map(() => []);
    for (const [f, facet] of facets.entries()) {
      const flat = this.#flat(f, facet, seams);
      if (!flat) return undefined;
      bySurface[facet.surface]!.push(flat);
    }
    const faces = bySurface.map((flats, s) => {
      const known = this.#of.faces[s];
      if (known && sameList(known.from, flats)) return known.it;
      const it = faceOf(flats, surfaces[s]!);
      this.#of.faces[s] = { from: flats, it };
      return it;
    });
    return [...faces, this.#lines(seams)];
  }

  /** What is left of each edge that was cut into, by the lower and the higher of its two facets as the lower one walks it. */
  #seams(): Map<string, Stretches> | undefined {
    const seams = new Map<string, Stretches>();
    const { facets } = this.#facets;
    for (const f of this.#left.keys())
      for (const [g, whole] of facets[f]!.seams) {
        const key = f < g ? `${f} ${g}` : `${g} ${f}`;
        if (seams.has(key)) continue;
        const all = this.#left.get(f)!.flatMap((l) => (l.seams.has(g) ? [l.seams.get(g)!] : []));
        if (all.length === 0) continue;
        const together = seamLeft(whole, all);
        if (!together) return undefined;
        seams.set(key, f < g ? together : turned(together));
      }
    return seams;
  }

  #flat(f: number, facet: Facet, seams: ReadonlyMap<string, Stretches>): readonly number[] | undefined {
    const left = this.#left.get(f) ?? [];
    const known = this.#of.flats[f];
    if (known && known.from.length === left.length && left.every((l, i) => sameLeft(l, known.from[i] as Left)))
      return known.it;
    const it =
      left.length === 0 ? facet.corners : left.length === 1 ? left[0]!.corners : this.#filled(f, facet, left, seams);
    this.#of.flats[f] = it && { from: left, it };
    return it;
  }

  #filled(f: number, facet: Facet, left: readonly Left[], seams: ReadonlyMap<string, Stretches>) {
    const edges = left.flatMap((l) => l.cut);
    for (const [g, whole] of facet.seams) {
      const now = f < g ? seams.get(`${f} ${g}`) : turned(seams.get(`${g} ${f}`));
      for (const x of now ?? whole) edges.push(x);
    }
    return filled(edges, normalOf(facet), this.#triangulate);
  }

  /** Where faces of the body meet. */
  #lines(seams: ReadonlyMap<string, Stretches>): Shown {
    const { facets, surfaces } = this.#facets;
    const edges: number[] = [];
    const edgeOf: number[] = [];
    for (const [f, facet] of facets.entries())
      for (const [g, whole] of facet.seams) {
        const [s, r] = [facet.surface, facets[g]!.surface];
        if (g < f || s === r) continue;
        const [a, b] = [surfaces[s]!.shape, surfaces[r]!.shape];
        const p: Vec3 = [whole[0]!, whole[1]!, whole[2]!];
        const q: Vec3 = [whole[3]!, whole[4]!, whole[5]!];
        if (isSmooth(a, b, p, q)) continue;
        const now = seams.get(`${f} ${g}`) ?? whole;
        for (const x of now) edges.push(x);
        for (let i = 0; i < now.length; i += 6) edgeOf.push(s, r);
      }
    const known = this.#of.lines;
    if (known && sameList(known.edges, edges) && sameList(known.edgeOf, edgeOf)) return known;
    const nothing = { positions: new Float32Array(), normals: new Float32Array(), surfaceOf: new Uint32Array() };
    this.#of.lines = {
      ...nothing,
      triangles: new Uint32Array(),
      edges: Float32Array.from(edges),
      edgeOf: Uint32Array.from(edgeOf),
      surfaces,
    };
    return this.#of.lines;
  }
}

function faceOf(flats: readonly (readonly number[])[], surface: Shown['surfaces'][number]): Shown {
  const spots = new Spots();
  const corners: number[] = [];
  for (const flat of flats) for (let i = 0; i < flat.length; i += 3) corners.push(spots.of(flat, i));
  const count = corners.length / 3;
  const mesh = displayed({
    count,
    corners: Uint32Array.from(corners),
    surfaceOf: new Uint32Array(count),
    surfaces: [surface],
    spots: spots.count,
    point: (s) => spots.at(s),
  });
  return { ...mesh, edges: new Float32Array(), edgeOf: new Uint32Array() };
}

function turned(stretches: Stretches): Stretches;
function turned(stretches: Stretches | undefined): Stretches | undefined;
function turned(stretches: Stretches | undefined): Stretches | undefined {
  return stretches?.map((_, i) => stretches[6 * Math.floor(i / 6) + ((i + 3) % 6)]!);
}

function normalOf({ corners }: Facet): Vec3 {
  const sum = [0, 0, 0];
  for (let i = 0; i < corners.length; i += 9) {
    const [a, b, c] = [0, 3, 6].map((k): Vec3 => [corners[i + k]!, corners[i + k + 1]!, corners[i + k + 2]!]);
    cross(sub(b!, a!), sub(c!, a!)).forEach((x, k) => {
      sum[k]! += x;
    });
  }
  return sum as unknown as Vec3;
}

/** A cut that is made anew leaves most facets as the one before did. */
function sameLeft(a: Left, b: Left): boolean {
  if (a === b) return true;
  if (!sameList(a.corners, b.corners) || !sameList(a.cut, b.cut) || a.seams.size !== b.seams.size) return false;
  return [...a.seams].every(([g, s]) => {
    const other = b.seams.get(g);
    return other !== undefined && sameList(s, other);
  });
}

function sameList(a: ArrayLike<unknown>, b: ArrayLike<unknown>): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}
