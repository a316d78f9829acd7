/**
 * Walls: wherever less material than a limit is left between two removed volumes, between one and the outside, or
 * between the arms of one. Pairs are found by their bounds; what was worked out for a pair is kept as long as the two
 * volumes, the body and the volumes around the gap are the same objects.
 */
import type { Face } from '../spec/model';
import type { Surroundings } from './distance/cover';
import { boxesMeet, sharedBox } from './distance/vector';
import type { BodyShape, Box, Vec3, Void, Wall } from './types';
import { type Plane, planesOf, planeWall, roundWall } from './walls/faces';
import { compareVoids, sameCut } from './walls/order';
import { armsWall, pairWall } from './walls/pairs';

/** What a gap's measure depends on, and the measure. */
interface Kept {
  /** Found among walls thinner than this; holds for every smaller limit too. */
  readonly belowMm: number;
  readonly body: string;
  /** Which volumes lay about the gap: by number, so that an old one is not kept alive. */
  readonly near: string;
  readonly wall: Wall | undefined;
}
type Partner = Void | Face | 'round' | 'arms';
interface Shelf {
  readonly volumes: WeakMap<Void, Kept>;
  readonly outside: Map<string, Kept>;
}
const shelves = new WeakMap<Void, Shelf>();
const numbers = new WeakMap<Void, number>();
let count = 0;

function numberOf(v: Void): number {
  let n = numbers.get(v);
  if (n === undefined) {
    n = ++count;
    numbers.set(v, n);
  }
  return n;
}

/**
 * Every wall thinner than `belowMm`, thinnest first, one for each pair of volumes and each volume and face.
 * `isMaterial` answers for the finished part. Volumes of one cut (the same member of the same feature) have none between
 * them, and broken edges (chamfers, rounds) have none at all: what they leave beside them is the wall of another cut.
 */
export function wallsOf(
  body: BodyShape,
  voids: readonly Void[],
  belowMm: number,
  isMaterial: (p: Vec3) => boolean,
): readonly Wall[] {
  const sorted = [...voids].sort((a, b) => a.bounds.min[0] - b.bounds.min[0]);
  const cuts = sorted.filter((v) => v.role !== 'edge');
  const search = new Search(body, sorted, belowMm, isMaterial);
  const planes = planesOf(body);
  cuts.forEach((a, i) => {
    search.around(a, planes);
    for (let j = i + 1; j < cuts.length; j++) {
      const b = cuts[j]!;
      if (b.bounds.min[0] - belowMm >= a.bounds.max[0]) break;
      if (!sameCut(a, b) && boxesMeet(a.bounds, b.bounds, belowMm)) search.between(a, b);
    }
  });
  return withoutShadows(search.walls.sort(byThickness));
}

/** Of the walls between the same two cuts, those that another one matches or beats in thickness and height are left out. */
function withoutShadows(walls: readonly Wall[]): readonly Wall[] {
  const groups = new Map<string, Wall[]>();
  return walls.filter((w) => {
    const name = (v: Void) => `${v.feature}[${v.member}]`;
    const key = `${w.type} ${[name(w.a), typeof w.b === 'string' ? w.b : name(w.b)].sort().join(' ')}`;
    const group = groups.get(key);
    if (!group) groups.set(key, [w]);
    else if (group.some((x) => x.heightMm >= w.heightMm - 1e-9)) return false;
    else group.push(w);
    return true;
  });
}

class Search {
  readonly walls: Wall[] = [];
  private readonly bodyKey: string;
  constructor(
    private readonly body: BodyShape,
    private readonly sorted: readonly Void[],
    private readonly belowMm: number,
    private readonly isMaterial: (p: Vec3) => boolean,
  ) {
    this.bodyKey = JSON.stringify(body);
  }

  between(one: Void, two: Void): void {
    const [a, b] = compareVoids(one, two) <= 0 ? [one, two] : [two, one];
    this.keep(
      a,
      b,
      (limit) => sharedBox(a.bounds, b.bounds, limit),
      (s) => pairWall(a, b, s),
    );
  }

  around(v: Void, planes: readonly Plane[]): void {
    const gap = (limit: number) => sharedBox(v.bounds, v.bounds, limit);
    for (const plane of planes) {
      const k = plane.normal.findIndex((x) => x !== 0) as 0 | 1 | 2;
      const nearest = plane.normal[k]! > 0 ? v.bounds.max[k] : -v.bounds.min[k];
      if (plane.at - nearest < this.belowMm) this.keep(v, plane.face, gap, (s) => planeWall(v, plane, s));
    }
    if (this.body.form === 'round') this.keep(v, 'round', gap, (s) => roundWall(v, s));
    if (v.role !== 'engraving') this.keep(v, 'arms', gap, (s) => armsWall(v, s));
  }

  private keep(a: Void, b: Partner, gap: (limit: number) => Box, measure: (s: Surroundings) => Wall | undefined): void {
    let shelf = shelves.get(a);
    if (!shelf) {
      shelf = { volumes: new WeakMap(), outside: new Map() };
      shelves.set(a, shelf);
    }
    const { body, bodyKey, isMaterial } = this;
    let kept = typeof b === 'string' ? shelf.outside.get(b) : shelf.volumes.get(b);
    const belowMm = Math.max(this.belowMm, kept?.belowMm ?? 0);
    const around = this.near(gap(belowMm), a, b);
    const near = around.map(numberOf).join();
    if (!kept || kept.belowMm < belowMm || kept.body !== bodyKey || kept.near !== near) {
      const wall = measure({ body, belowMm, isMaterial, near: around });
      kept = { belowMm, body: bodyKey, near, wall };
      if (typeof b === 'string') shelf.outside.set(b, kept);
      else shelf.volumes.set(b, kept);
    }
    if (kept.wall && kept.wall.thicknessMm < this.belowMm) this.walls.push(kept.wall);
  }

  private near(gap: Box, a: Void, b: Partner): readonly Void[] {
    const found: Void[] = [];
    for (const v of this.sorted) {
      if (v.bounds.min[0] > gap.max[0]) break;
      if (v !== a && v !== b && boxesMeet(v.bounds, gap, 0)) found.push(v);
    }
    return found;
  }
}

function byThickness(x: Wall, y: Wall): number {
  const other = (w: Wall) => (typeof w.b === 'string' ? w.b : `${w.b.feature}[${w.b.member}]`);
  return (
    x.thicknessMm - y.thicknessMm || compareVoids(x.a, y.a) || (other(x) < other(y) ? -1 : other(x) > other(y) ? 1 : 0)
  );
}
