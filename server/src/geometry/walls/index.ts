/**
 * Walls: wherever less material than a limit is left between two removed volumes, between one and the outside, or
 * between the arms of one. Pairs are found by their bounds; what was worked out for a pair is kept as long as the two
 * volumes, the body and the volumes around the gap are the same objects.
 */

import { spend } from '../../effort';
import type { Face } from '../../model/model';
import { jointsOf, type Surroundings } from '../distance/line-of-material';
import { parallel } from '../distance/section';
import { type Plane, planesOf } from '../solid/body-faces';
import type { BodyShape, Box, Vec3, Void, Wall } from '../types';
import { boxesNear, sharedBox } from '../vector';
import { pairKey, Searches, shapeOf } from './alike';
import { planeWall, roundWall } from './faces';
import { compareVoids, STANDS, sameCut } from './order';
import { areStacked, armsWall, mayFaceItself, pairWall } from './pairs';
import { isSlope, slopeWall } from './slopes';

/** What a gap's measure depends on, and the measure. */
interface Kept {
  readonly body: string;
  /** Which volumes lay about the gap: by number, so that an old one is not kept alive. */
  readonly near: string;
  readonly wall: Wall | undefined;
  /** What lay about both volumes when this was last found to hold: while that is so, it holds without a look. */
  mark: string;
  /** Where it had to be searched for: to what pairs lie alike. */
  readonly searched: string | undefined;
}
type Partner = Void | Face | 'round' | 'arms';
interface Shelf {
  /** The largest limit asked for yet. */
  belowMm: number;
  /** By the limits it was looked for below: a search that ends early may end elsewhere under another. */
  readonly volumes: WeakMap<Void, Map<string, Kept>>;
  readonly outside: Map<string, Map<string, Kept>>;
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

function shelfOf(v: Void): Shelf {
  let shelf = shelves.get(v);
  if (!shelf) {
    shelf = { belowMm: 0, volumes: new WeakMap(), outside: new Map() };
    shelves.set(v, shelf);
  }
  return shelf;
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
  heldMm = belowMm,
): Walls {
  const search = new Search(body, voids, belowMm, isMaterial, heldMm);
  const walls = withoutShadows(search.run().sort(byThickness));
  return { walls, unjudged: search.unjudged };
}

/** Of the same walls those between two cuts alone: their other volumes count, and what else takes material away. */
export function wallsBetween(
  [a, b]: readonly [Void, Void],
  body: BodyShape,
  voids: readonly Void[],
  belowMm: number,
  isMaterial: (p: Vec3) => boolean,
): readonly Wall[] {
  const search = new Search(body, voids, belowMm, isMaterial, belowMm);
  const asked = (x: Void, y: Void) => (sameCut(x, a) && sameCut(y, b)) || (sameCut(x, b) && sameCut(y, a));
  return withoutShadows(search.run(asked).sort(byThickness));
}

export interface Walls {
  readonly walls: readonly Wall[];
  /** Pairs of volumes between which none was looked for: there are too many that run into each other. */
  readonly unjudged: number;
}

/**
 * Of the walls between the same two cuts, those that another one matches or beats in thickness and height are left out.
 * Walls as thick as each other but for rounding are alike: which of them comes first must not decide.
 */
function withoutShadows(walls: readonly Wall[]): readonly Wall[] {
  const groups = new Map<string, Wall[]>();
  const name = (v: Void) => `${v.feature}[${v.member}]`;
  const key = (w: Wall) => `${w.type} ${[name(w.a), typeof w.b === 'string' ? w.b : name(w.b)].sort().join(' ')}`;
  for (const w of walls) {
    const group = groups.get(key(w));
    if (group) group.push(w);
    else groups.set(key(w), [w]);
  }
  const shadowed = new Set<Wall>();
  for (const group of groups.values()) {
    group.forEach((w, i) => {
      if (group.some((x, k) => k !== i && shadows(x, w, k < i))) shadowed.add(w);
    });
  }
  return walls.filter((w) => !shadowed.has(w));
}

function shadows(x: Wall, w: Wall, before: boolean): boolean {
  const thinner = w.thicknessMm - x.thicknessMm;
  const higher = x.heightMm - w.heightMm;
  if (thinner < -SAME || higher < -SAME) return false;
  return before || thinner > SAME || higher > SAME;
}

/** Thicknesses and heights nearer to each other than this are the same, mm. */
const SAME = 1e-9;

function cutsOf(a: Void, b: Void): string {
  return [a, b].map((v) => `${v.feature}[${v.member}]`).join(' ');
}

/** Cuts that lie among more than this many others are drawn into each other: nothing stands between them to be judged. */
const CROWD = 64;

/** A volume with everything near it. */
interface Item {
  readonly v: Void;
  readonly shelf: Shelf;
  readonly near: Item[];
  mark: string;
  /** Too many others are near. */
  crowded: boolean;
}

/** What a pair costs, as `spend` counts it. */
const PAIR = 20;

/** Two volumes of different cuts, near each other. */
type Pair = readonly [a: Item, b: Item];

class Search {
  private readonly walls: Wall[] = [];
  private readonly searches = new Searches();
  private readonly shapes = new Map<Void, string>();
  /** What a wall upright between two cuts leaves to be found: below this, mm. */
  private readonly upright = new Map<string, number>();
  unjudged = 0;
  private readonly bodyKey: string;
  constructor(
    private readonly body: BodyShape,
    private readonly voids: readonly Void[],
    private readonly belowMm: number,
    private readonly isMaterial: (p: Vec3) => boolean,
    /** For what lies askew and cannot bend: the long search stops there. */
    private readonly heldMm: number,
  ) {
    this.bodyKey = JSON.stringify(body);
  }

  /** All, or those of the pairs that are asked for. */
  run(asked?: (a: Void, b: Void) => boolean): Wall[] {
    const items = this.items();
    const planes = planesOf(this.body);
    const later: Pair[] = [];
    for (const a of items) {
      if (a.v.role === 'edge') continue;
      if (!asked) this.around(a, planes);
      for (const b of a.near) {
        if (asked && !asked(a.v, b.v)) continue;
        if (b.v.role === 'edge') this.underSlope(a, b);
        if (b.v.role === 'edge' || sameCut(a.v, b.v) || compareVoids(a.v, b.v) > 0) continue;
        if (compareVoids(a.v, b.v) === 0 && numberOf(a.v) > numberOf(b.v)) continue;
        const askew = parallel(a.v.frame.w, b.v.frame.w) === 0;
        const below = askew && !(STANDS.has(a.v.role) && STANDS.has(b.v.role)) ? this.heldMm : this.belowMm;
        if (!boxesNear(a.v.bounds, b.v.bounds, below)) continue;
        spend(PAIR);
        if (a.crowded && b.crowded) {
          // Strokes of letters have no walls between them that anybody counts.
          if (a.v.role !== 'engraving' && b.v.role !== 'engraving') this.unjudged++;
        } else if (areStacked(a.v, b.v)) later.push([a, b]);
        else this.beside(a, b, below);
      }
    }
    // What is left between an end and what lies beyond it has no height: a wall of the same two cuts that stands and is
    // no thicker puts it in the shade, so that it need only be looked for below that.
    for (const [a, b] of later) this.between(a, b, this.belowMm, this.upright.get(cutsOf(a.v, b.v)));
    return this.walls;
  }

  /** Between a cut and a broken edge wide enough to have a slope. */
  private underSlope(a: Item, b: Item): void {
    const below = Math.min(this.belowMm, this.heldMm);
    if (a.v.role === 'engraving' || a.crowded || !isSlope(b.v) || !boxesNear(a.v.bounds, b.v.bounds, below)) return;
    spend(PAIR);
    const gap = (limit: number) => sharedBox(a.v.bounds, b.v.bounds, limit);
    this.keep(a, b, gap, `${a.mark}/${b.mark}`, (s) => slopeWall(a.v, b.v, s), [below, below]);
  }

  private beside(a: Item, b: Item, belowMm: number): void {
    const before = this.walls.length;
    this.between(a, b, belowMm);
    const wall = this.walls[before];
    if (!wall || wall.heightMm <= SAME || wall.type !== 'wall') return;
    const cuts = cutsOf(a.v, b.v);
    this.upright.set(cuts, Math.min(this.upright.get(cuts) ?? belowMm, wall.thicknessMm - SAME));
  }

  /** Every volume with those whose bounds come near, found by a sweep along x. */
  private items(): readonly Item[] {
    let limit = this.belowMm;
    const items = this.voids.map((v): Item => ({ v, shelf: shelfOf(v), near: [], mark: '', crowded: false }));
    for (const { shelf } of items) {
      shelf.belowMm = Math.max(shelf.belowMm, this.belowMm);
      limit = Math.max(limit, shelf.belowMm);
    }
    items.sort((a, b) => a.v.bounds.min[0] - b.v.bounds.min[0] || compareVoids(a.v, b.v));
    items.forEach((a, i) => {
      for (let j = i + 1; j < items.length; j++) {
        const b = items[j]!;
        if (b.v.bounds.min[0] - limit > a.v.bounds.max[0]) break;
        if (!boxesNear(a.v.bounds, b.v.bounds, limit)) continue;
        a.near.push(b);
        b.near.push(a);
      }
    });
    for (const a of items) {
      const near = (b: Item) => boxesNear(a.v.bounds, b.v.bounds, this.belowMm);
      a.crowded = a.near.length > CROWD && a.near.filter(near).length > CROWD;
    }
    for (const a of items) a.mark = `${limit}:${a.near.map((b) => numberOf(b.v)).join()}`;
    return items;
  }

  private between(a: Item, b: Item, below: number, besideMm = below): void {
    const gap = (limit: number) => sharedBox(a.v.bounds, b.v.bounds, limit);
    this.keep(a, b, gap, `${a.mark}/${b.mark}`, (s) => pairWall(a.v, b.v, s, besideMm), [below, besideMm]);
  }

  private around(a: Item, planes: readonly Plane[]): void {
    const { v, mark } = a;
    const gap = (limit: number) => sharedBox(v.bounds, v.bounds, limit);
    for (const plane of planes) {
      const { k } = plane;
      const mm = plane.at - (plane.normal[k]! > 0 ? v.bounds.max[k] : -v.bounds.min[k]);
      // A volume that starts or ends at a face has nothing over or under it there.
      const ends = Math.abs(mm) < 1e-6 && Math.abs(v.frame.w[k]) > 1 - 1e-12;
      if (mm < this.belowMm && !ends) this.keep(a, plane.face, gap, mark, (s) => planeWall(v, plane, s));
    }
    if (this.body.form === 'round') this.keep(a, 'round', gap, mark, (s) => roundWall(v, s));
    if (v.role !== 'engraving' && mayFaceItself(v)) this.keep(a, 'arms', gap, mark, (s) => armsWall(v, s));
  }

  private keep(
    a: Item,
    b: Item | Exclude<Partner, Void>,
    gap: (limit: number) => Box,
    mark: string,
    measure: (s: Surroundings) => Wall | undefined,
    [belowMm, besideMm] = [this.belowMm, this.belowMm],
  ): void {
    const { bodyKey } = this;
    const limits = `${belowMm} ${besideMm}`;
    let byLimit = typeof b === 'string' ? a.shelf.outside.get(b) : a.shelf.volumes.get(b.v);
    if (!byLimit) {
      byLimit = new Map();
      if (typeof b === 'string') a.shelf.outside.set(b, byLimit);
      else a.shelf.volumes.set(b.v, byLimit);
    }
    let kept = byLimit.get(limits);
    if (!kept || kept.body !== bodyKey || !this.holdsStill(kept, a, b, gap(belowMm), mark)) {
      const near = this.near(a, b, gap(belowMm));
      kept = this.measured(typeof b === 'string' ? [a.v] : [a.v, b.v], near, mark, [belowMm, besideMm], measure);
      if (!kept) return;
      byLimit.set(limits, kept);
    } else if (kept.searched !== undefined && !this.mayBeKnown(kept, kept.searched)) return;
    if (kept.wall && kept.wall.thicknessMm < belowMm) this.walls.push(kept.wall);
  }

  /** Worked out anew; nothing where that would be one search too many. */
  private measured(
    own: readonly Void[],
    near: readonly Void[],
    mark: string,
    [belowMm, besideMm]: readonly [number, number],
    measure: (s: Surroundings) => Wall | undefined,
  ): Kept | undefined {
    const { body, bodyKey, isMaterial } = this;
    let searched: string | undefined;
    let next: ReturnType<Searches['next']> = 'look';
    const maySearch = () => {
      const gap = sharedBox(own[0]!.bounds, own[1]!.bounds, belowMm);
      searched = `${belowMm} ${besideMm} ${pairKey(own, near, (v) => this.shapeOf(v), gap, body)}`;
      next = this.searches.next(searched);
      return next === 'look';
    };
    const around = { body, belowMm, isMaterial, own, near, joints: jointsOf([...own, ...near]) };
    const wall = measure(own.length > 1 ? { ...around, maySearch } : around);
    if (!this.counted(next)) return undefined;
    if (searched !== undefined && !wall) this.searches.inVain(searched);
    return { body: bodyKey, near: near.map(numberOf).join(), wall, mark, searched };
  }

  /** What was searched for counts as if it were again, so that the same is left out whatever is known. */
  private mayBeKnown(kept: Kept, key: string): boolean {
    const next = this.searches.next(key);
    if (next === 'look' && !kept.wall) this.searches.inVain(key);
    return this.counted(next) && next === 'look';
  }

  private counted(next: ReturnType<Searches['next']>): boolean {
    if (next === 'over') this.unjudged++;
    return next !== 'over';
  }

  private shapeOf(v: Void): string {
    const known = this.shapes.get(v) ?? shapeOf(v, numberOf(v));
    this.shapes.set(v, known);
    return known;
  }

  private holdsStill(kept: Kept, a: Item, b: Item | string, gap: Box, mark: string): boolean {
    if (kept.mark === mark) return true;
    if (this.near(a, b, gap).map(numberOf).join() !== kept.near) return false;
    kept.mark = mark;
    return true;
  }

  private near(a: Item, b: Item | string, gap: Box): readonly Void[] {
    return a.near.filter((x) => x !== b && boxesNear(x.v.bounds, gap, 0)).map((x) => x.v);
  }
}

function byThickness(x: Wall, y: Wall): number {
  if (x.thicknessMm !== y.thicknessMm) return x.thicknessMm - y.thicknessMm;
  const other = (w: Wall) => (typeof w.b === 'string' ? w.b : `${w.b.feature}[${w.b.member}]`);
  const [one, two] = [other(x), other(y)];
  return compareVoids(x.a, y.a) || (one < two ? -1 : one > two ? 1 : 0);
}
