/** What one group of volumes takes from the body: its walls, and what it leaves of the facets that it meets. */
import type { Box } from '../types';
import { boxesNear } from '../vector';
import { displayed, type Shown } from './display';
import { isSmooth } from './edges';
import { type Facet, type Facets, runsOf, type Stretches, stretch } from './facets';
import { eachEdge } from './half-edges';
import type { Group } from './mesher';
import { Spots } from './spots';
import { SurfaceList } from './traced';

/** What is left of one facet. */
export interface Left {
  /** Nine numbers a triangle. */
  readonly corners: readonly number[];
  /** Its edges along the group's walls. */
  readonly cut: Stretches;
  /** Of its edges along other facets those that are not as they were, by the facet beside. */
  readonly seams: ReadonlyMap<number, Stretches>;
}

export interface Cut {
  readonly walls: Shown;
  /** By the facet's number: those that it changes. */
  readonly left: ReadonlyMap<number, Left>;
}

/** Facets so far off are not met, mm. */
const FAR_MM = 0.01;

/** Undefined where a facet gets a neighbour that it did not have: then they cannot be told apart. */
export function cutBy({ handle, id, surfaces, facets }: Facets, group: Group): Cut | undefined {
  const rest = handle.subtract(group.handle);
  try {
    return new Cutting(facets, surfaces, boxOf(group)).cut(rest.getMesh(), id, group);
  } finally {
    rest.delete();
  }
}

function boxOf({ handle }: Group): Box {
  const { min, max } = handle.boundingBox();
  return { min: [min[0], min[1], min[2]], max: [max[0], max[1], max[2]] };
}

interface Leaving {
  readonly corners: number[];
  readonly cut: number[];
  readonly seams: Map<number, number[]>;
}

class Cutting {
  readonly #facets: readonly Facet[];
  readonly #own: Facets['surfaces'];
  readonly #surfaces = new SurfaceList();
  readonly #spots = new Spots();
  /** 2: the group meets it; 1: a neighbour of one that it meets. */
  readonly #near: Uint8Array;
  readonly #corners: number[] = [];
  /** Of each triangle: its facet, −1 for a wall. */
  readonly #facetOf: number[] = [];
  readonly #surfaceOf: number[] = [];
  readonly #leaving = new Map<number, Leaving>();

  constructor(facets: readonly Facet[], surfaces: Facets['surfaces'], box: Box) {
    this.#facets = facets;
    this.#own = surfaces;
    this.#near = new Uint8Array(facets.length);
    for (const [f, facet] of facets.entries()) {
      if (!boxesNear(facet.box, box, FAR_MM)) continue;
      this.#near[f] = 2;
      this.#leaving.set(f, { corners: [], cut: [], seams: new Map() });
      for (const g of facet.seams.keys()) this.#near[g] ||= 1;
    }
  }

  cut(mesh: ReturnType<Facets['handle']['getMesh']>, id: number, { origins }: Group): Cut | undefined {
    const { vertProperties: at, numProp, triVerts, faceID } = mesh;
    const spot = new Int32Array(at.length / numProp).fill(-1);
    const body = { sides: [] };
    let walls = 0;
    for (const run of runsOf(mesh, [...origins, [id, body] as const])) {
      const wall = run.origin === body ? undefined : this.#surfaces.of(run.origin);
      for (let t = run.from; t < run.to; t++) {
        const f = wall ? -1 : faceID[t]!;
        if (f >= 0 && this.#near[f] === 0) continue;
        const own = [0, 1, 2].map((k) => {
          const v = triVerts[3 * t + k]!;
          if (spot[v]! < 0) spot[v] = this.#spots.of(at, v * numProp);
          return spot[v]!;
        });
        if (own[0] === own[1] || own[1] === own[2] || own[2] === own[0]) continue;
        this.#corners.push(...own);
        this.#facetOf.push(f);
        this.#surfaceOf.push(wall ? wall(faceID[t]!) : 0);
        if (wall) walls++;
        else this.#leaving.get(f)?.corners.push(...own.flatMap((s) => this.#spots.at(s)));
      }
    }
    const edges = this.#walk();
    const left = this.#changed();
    return left && { walls: { ...this.#walls(walls), ...edges }, left };
  }

  /** The walls come first. */
  #walls(count: number) {
    return displayed({
      count,
      corners: Uint32Array.from(this.#corners.slice(0, 3 * count)),
      surfaceOf: Uint32Array.from(this.#surfaceOf.slice(0, count)),
      surfaces: this.#surfaces.list,
      spots: this.#spots.count,
      point: (s) => this.#spots.at(s),
    });
  }

  /** Tells the facets their edges; answers the edges to be shown of the walls. */
  #walk(): Pick<Shown, 'edges' | 'edgeOf'> {
    const edges: number[] = [];
    const edgeOf: number[] = [];
    eachEdge(Uint32Array.from(this.#corners), this.#facetOf.length, (t, u, a, b) => {
      const [f, g] = [this.#facetOf[t]!, this.#facetOf[u]!];
      if (f === g && f >= 0) return;
      const [p, q] = [this.#spots.at(a), this.#spots.at(b)];
      if (f >= 0) this.#edge(f, g, [...p, ...q]);
      if (g >= 0) this.#edge(g, f, [...q, ...p]);
      if (f >= 0 && g >= 0) return;
      const [s, r] = [this.#surface(t), this.#surface(u)];
      const all = this.#surfaces.list;
      if (s === r || isSmooth(all[s]!.shape, all[r]!.shape, p, q)) return;
      edges.push(...p, ...q);
      edgeOf.push(s, r);
    });
    return { edges: Float32Array.from(edges), edgeOf: Uint32Array.from(edgeOf) };
  }

  #edge(f: number, beside: number, ends: readonly number[]): void {
    const leaving = this.#leaving.get(f);
    if (!leaving) return;
    if (beside < 0) leaving.cut.push(...ends);
    else stretch(leaving.seams, beside).push(...ends);
  }

  #surface(t: number): number {
    const f = this.#facetOf[t]!;
    return f < 0 ? this.#surfaceOf[t]! : this.#surfaces.enter(this.#own[this.#facets[f]!.surface]!);
  }

  #changed(): Map<number, Left> | undefined {
    const changed = new Map<number, Left>();
    for (const [f, { corners, cut, seams: now }] of this.#leaving) {
      const { seams: were } = this.#facets[f]!;
      const seams = new Map<number, Stretches>();
      for (const [g, before] of were) {
        const after = now.get(g) ?? [];
        if (!sameStretches(before, after)) seams.set(g, after);
      }
      for (const g of now.keys()) if (!were.has(g)) return undefined;
      if (cut.length > 0 || seams.size > 0) changed.set(f, { corners, cut, seams });
    }
    return changed;
  }
}

/** In any order. */
function sameStretches(a: Stretches, b: Stretches): boolean {
  if (a.length !== b.length) return false;
  if (a.every((x, i) => x === b[i])) return true;
  const names = (of: Stretches) =>
    Array.from({ length: of.length / 6 }, (_, i) => of.slice(6 * i, 6 * i + 6).join(' '));
  const known = new Set(names(b));
  return names(a).every((name) => known.has(name));
}
