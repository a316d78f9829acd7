/**
 * Walls: wherever less material than a limit is left between two removed volumes, between one and the outside, or
 * between the arms of one. Pairs are found by their bounds; what was worked out for a pair is kept as long as the two
 * volumes, the body and the volumes around the gap are the same objects.
 */

import { spend } from '../../effort';
import { memo } from '../../memo';
import type { Face } from '../../model/model';
import { DIGITS, ROUNDING, SAME } from '../../tolerance';
import { jointsOf, type Surroundings } from '../distance/line-of-material';
import { parallel } from '../distance/section';
import { type Plane, planesOf } from '../solid/body-faces';
import type { BodyShape, Box, Vec3, Void, Wall } from '../types';
import { boxesNear, sharedBox } from '../vector';
import { pairKey, Searches, shapeOf } from './alike';
import { planeWall, roundWall } from './faces';
import { areCells, compareVoids, STANDS, sameCut } from './order';
import { areStacked, armsWall, mayFaceItself, pairWall } from './pairs';
import { isSlope, slopeWall } from './slopes';

/** Beside a volume, where it is no other volume. */
type Outside = Face | 'round' | 'arms';

/** A name for what is not compared. */
const numberOf = memo((_: Void) => ++count);
let count = 0;

/** What the measure of a gap turns on, and how it is taken. */
interface Gap {
  readonly body: BodyShape;
  /** What lies about it. */
  readonly near: readonly Void[];
  /** Walls are looked for below the one, and beside each other below the other. */
  readonly limits: readonly [belowMm: number, besideMm: number];
  readonly measure: () => Measured;
}
interface Measured {
  readonly wall: Wall | undefined;
  /** Where it had to be searched for: to what pairs lie alike. */
  readonly searched: string | undefined;
}
const turnsOn = ({ limits, body, near }: Gap) => [limits, body, near];

const measuredBetween = memo((_a: Void, _b: Void, gap: Gap) => gap.measure(), {
  owners: 2,
  size: 4,
  by: (_a, b, gap) => [b, ...turnsOn(gap)],
});
const measuredOutside = memo((_: Void, _b: Outside, gap: Gap) => gap.measure(), {
  size: 32,
  by: (_, b, gap) => [b, ...turnsOn(gap)],
});

/** One search too many: nothing is known, and nothing is kept. */
const OVER = new Error('too many searches');

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
  if (thinner < -ROUNDING || higher < -ROUNDING) return false;
  return before || thinner > ROUNDING || higher > ROUNDING;
}

function cutsOf(a: Void, b: Void): string {
  return [a, b].map((v) => `${v.feature}[${v.member}]`).join(' ');
}

/** Cuts that lie among more than this many others are drawn into each other: nothing stands between them to be judged. */
const CROWD = 64;

/** A volume with everything near it. */
interface Item {
  readonly v: Void;
  readonly near: Item[];
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

  constructor(
    private readonly body: BodyShape,
    private readonly voids: readonly Void[],
    private readonly belowMm: number,
    private readonly isMaterial: (p: Vec3) => boolean,
    /** For what lies askew and cannot bend: the long search stops there. */
    private readonly heldMm: number,
  ) {}

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
        else if ((!sameCut(a.v, b.v) || areCells(a.v, b.v)) && compareVoids(a.v, b.v) <= 0) this.amongTwo(a, b, later);
      }
    }
    // What is left between an end and what lies beyond it has no height: a wall of the same two cuts that stands and is
    // no thicker puts it in the shade, so that it need only be looked for below that.
    for (const [a, b] of later) this.between(a, b, this.belowMm, this.upright.get(cutsOf(a.v, b.v)));
    return this.walls;
  }

  /** Between two cuts where they are near; those that stand over one another wait for `later`. */
  private amongTwo(a: Item, b: Item, later: Pair[]): void {
    const askew = parallel(a.v.frame.w, b.v.frame.w) === 0;
    const below = askew && !(STANDS.has(a.v.role) && STANDS.has(b.v.role)) ? this.heldMm : this.belowMm;
    if (!boxesNear(a.v.bounds, b.v.bounds, below)) return;
    spend(PAIR);
    if (a.crowded && b.crowded) {
      // Strokes of letters have no walls between them that anybody counts.
      if (a.v.role !== 'engraving' && b.v.role !== 'engraving') this.unjudged++;
    } else if (areStacked(a.v, b.v)) later.push([a, b]);
    else this.beside(a, b, below);
  }

  /** Between a cut and a broken edge wide enough to have a slope. */
  private underSlope(a: Item, b: Item): void {
    const below = Math.min(this.belowMm, this.heldMm);
    if (a.v.role === 'engraving' || a.crowded || !isSlope(b.v) || !boxesNear(a.v.bounds, b.v.bounds, below)) return;
    spend(PAIR);
    const gap = (limit: number) => sharedBox(a.v.bounds, b.v.bounds, limit);
    this.keep(a, b, gap, (s) => slopeWall(a.v, b.v, s), [below, below]);
  }

  private beside(a: Item, b: Item, belowMm: number): void {
    const before = this.walls.length;
    this.between(a, b, belowMm);
    const wall = this.walls[before];
    if (!wall || wall.heightMm <= ROUNDING || wall.type !== 'wall') return;
    const cuts = cutsOf(a.v, b.v);
    this.upright.set(cuts, Math.min(this.upright.get(cuts) ?? belowMm, wall.thicknessMm - ROUNDING));
  }

  /** Every volume with those whose bounds come near, found by a sweep along x. */
  private items(): readonly Item[] {
    const limit = this.belowMm;
    const items = this.voids.map((v): Item => ({ v, near: [], crowded: false }));
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
    for (const a of items) a.crowded = a.near.length > CROWD;
    return items;
  }

  private between(a: Item, b: Item, below: number, besideMm = below): void {
    const gap = (limit: number) => sharedBox(a.v.bounds, b.v.bounds, limit);
    this.keep(a, b, gap, (s) => pairWall(a.v, b.v, s, besideMm), [below, besideMm]);
  }

  private around(a: Item, planes: readonly Plane[]): void {
    const { v } = a;
    const gap = (limit: number) => sharedBox(v.bounds, v.bounds, limit);
    for (const plane of planes) {
      const { k } = plane;
      const mm = plane.at - (plane.normal[k]! > 0 ? v.bounds.max[k] : -v.bounds.min[k]);
      // A volume that starts or ends at a face has nothing over or under it there.
      const ends = Math.abs(mm) < SAME && Math.abs(v.frame.w[k]) > 1 - DIGITS;
      if (mm < this.belowMm && !ends) this.keep(a, plane.face, gap, (s) => planeWall(v, plane, s));
    }
    if (this.body.form === 'round') this.keep(a, 'round', gap, (s) => roundWall(v, s));
    if (v.role !== 'engraving' && mayFaceItself(v)) this.keep(a, 'arms', gap, (s) => armsWall(v, s));
  }

  private keep(
    a: Item,
    b: Item | Outside,
    gap: (limit: number) => Box,
    measure: (s: Surroundings) => Wall | undefined,
    [belowMm, besideMm] = [this.belowMm, this.belowMm],
  ): void {
    const outside = typeof b === 'string';
    const own = outside ? [a.v] : [a.v, b.v];
    const box = gap(belowMm);
    const near = a.near.filter((x) => x !== b && boxesNear(x.v.bounds, box, 0)).map((x) => x.v);
    const limits = [belowMm, besideMm] as const;
    let isNew = false;
    const take = () => {
      isNew = true;
      return this.measured(own, near, limits, measure);
    };
    const asked = { body: this.body, near, limits, measure: take };
    try {
      const { wall, searched } = outside ? measuredOutside(a.v, b, asked) : measuredBetween(a.v, b.v, asked);
      if (!isNew && searched !== undefined && !this.mayBeKnown(wall, searched)) return;
      if (wall && wall.thicknessMm < belowMm) this.walls.push(wall);
    } catch (failure) {
      if (failure !== OVER) throw failure;
      this.unjudged++;
    }
  }

  /** Worked out anew; nothing where that would be one search too many. */
  private measured(
    own: readonly Void[],
    near: readonly Void[],
    [belowMm, besideMm]: Gap['limits'],
    measure: (s: Surroundings) => Wall | undefined,
  ): Measured {
    const { body, isMaterial } = this;
    let searched: string | undefined;
    const search = { next: 'look' as ReturnType<Searches['next']> };
    const maySearch = () => {
      const gap = sharedBox(own[0]!.bounds, own[1]!.bounds, belowMm);
      searched = `${belowMm} ${besideMm} ${pairKey(own, near, (v) => this.shapeOf(v), gap, body)}`;
      search.next = this.searches.next(searched);
      return search.next === 'look';
    };
    const around = { body, belowMm, isMaterial, own, near, joints: jointsOf([...own, ...near]) };
    const wall = measure(own.length > 1 ? { ...around, maySearch } : around);
    if (search.next === 'over') throw OVER;
    if (searched !== undefined && !wall) this.searches.inVain(searched);
    return { wall, searched };
  }

  /** What was searched for counts as if it were again, so that the same is left out whatever is known. */
  private mayBeKnown(wall: Wall | undefined, searched: string): boolean {
    const next = this.searches.next(searched);
    if (next === 'over') throw OVER;
    if (next === 'look' && !wall) this.searches.inVain(searched);
    return next === 'look';
  }

  private shapeOf(v: Void): string {
    const known = this.shapes.get(v) ?? shapeOf(v, numberOf(v));
    this.shapes.set(v, known);
    return known;
  }
}

function byThickness(x: Wall, y: Wall): number {
  if (x.thicknessMm !== y.thicknessMm) return x.thicknessMm - y.thicknessMm;
  const other = (w: Wall) => (typeof w.b === 'string' ? w.b : `${w.b.feature}[${w.b.member}]`);
  const [one, two] = [other(x), other(y)];
  return compareVoids(x.a, y.a) || (one < two ? -1 : one > two ? 1 : 0);
}
