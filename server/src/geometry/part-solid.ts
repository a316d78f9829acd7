/**
 * The part's geometry as one value, worked out when asked for. What an edit did not touch is not worked out again:
 * voids, volumes and walls are kept with the feature objects they came from.
 */

import { atOnce, type Budget, type Steps, within } from '../effort';
import type { Part } from '../model/model';
import { bodyOf, bodyPrism, sameBody } from './solid/body';
import { lumpCount } from './solid/components';
import { contacts } from './solid/contact';
import { commonVolume, measurePart, remainderOf } from './solid/measure';
import { holds } from './solid/prism';
import { voidsOfFeature } from './solid/voids';
import type { BodyShape, Measures, Solid, Vec3, Void, Wall } from './types';
import { type Walls, wallsOf } from './walls';

/**
 * Looks at an edge that one question to a solid may cost: about half a second’s worth; the largest of ours takes a
 * twentieth. Each question has its own: an answer does not turn on what else was asked.
 */
const MOST_LOOKS = 3e6;
const LEAST_LOOKS = 2e4;

/** The part's geometry. Parts of it are worked out when first asked for; what did not change comes from `before`. */
export function solidOf(part: Part, before?: Solid): Solid {
  return atOnce(makingSolid(part, before));
}

/** The same, a step for each feature. */
export function* makingSolid(part: Part, before?: Solid): Steps<Solid> {
  const fresh = bodyOf(part);
  const body = before && sameBody(before.body, fresh) ? before.body : fresh;
  const byName = new Map<string, readonly Void[]>();
  const voids: Void[] = [];
  for (const feature of part.features) {
    yield;
    const made = voidsOfFeature(feature, part);
    byName.set(feature.name, made);
    voids.push(...made);
  }
  if (before instanceof LazySolid && before.body === body && sameVoids(before.voids, voids)) return before;
  return new LazySolid(body, voids, byName);
}

const volumes = new WeakMap<Pick<Solid, 'body' | 'voids'>, Solid>();

/** A solid of given volumes: a workpiece half cut, say. Kept with the object it is asked for. */
export function solidOfVolumes(of: Pick<Solid, 'body' | 'voids'>): Solid {
  let made = volumes.get(of);
  if (!made) {
    const byName = new Map<string, Void[]>();
    for (const v of of.voids) byName.set(v.feature, [...(byName.get(v.feature) ?? []), v]);
    made = new LazySolid(of.body, of.voids, byName);
    volumes.set(of, made);
  }
  return made;
}

function sameVoids(a: readonly Void[], b: readonly Void[]): boolean {
  return a.length === b.length && a.every((v, i) => v === b[i]);
}

/** For a question that is asked of so many volumes or pairs: each has so much that all together cost about what one may. */
function shareOf(many: number): Budget {
  return { left: Math.max(LEAST_LOOKS, MOST_LOOKS / Math.max(1, many)), rough: Math.floor(many / 8) };
}

class LazySolid implements Solid {
  private meets: readonly (readonly number[])[] | undefined;
  private index: Map<Void, number> | undefined;
  private measured: Measures | undefined;
  private lumps: number | undefined;
  private readonly thin = new Map<string, Walls>();

  constructor(
    readonly body: BodyShape,
    readonly voids: readonly Void[],
    private readonly byName: ReadonlyMap<string, readonly Void[]>,
  ) {}

  voidsOf(feature: string): readonly Void[] {
    return this.byName.get(feature) ?? [];
  }

  get measures(): Measures {
    this.measured ??= measurePart(this.body, this.voids, this.contacts(), { left: MOST_LOOKS });
    return this.measured;
  }

  walls(belowMm: number, heldMm?: number): readonly Wall[] {
    return this.wallsWith(belowMm, heldMm).walls;
  }

  unjudgedWalls(belowMm: number, heldMm?: number): number {
    return this.wallsWith(belowMm, heldMm).unjudged;
  }

  private wallsWith(belowMm: number, heldMm = belowMm): Walls {
    const key = `${belowMm} ${heldMm}`;
    let found = this.thin.get(key);
    if (!found) {
      found = wallsOf(this.body, this.voids, belowMm, (p) => this.isMaterial(p), heldMm);
      this.thin.set(key, found);
    }
    return found;
  }

  aloneMm3(v: Void): number {
    return remainderOf(v, this.neighbours(v), this.body, shareOf(this.voids.length)).volumeMm3;
  }

  sharedMm3(a: Void, b: Void): number {
    return commonVolume(a, b, this.body, shareOf(this.voids.length ** 2 / 4));
  }

  insideMm3(v: Void): number {
    return remainderOf(v, [], this.body, { left: MOST_LOOKS }).volumeMm3;
  }

  isMaterial(p: Vec3): boolean {
    const { box } = this.body;
    for (const a of [0, 1, 2] as const) if (p[a] < box.min[a] || p[a] > box.max[a]) return false;
    if (this.body.form === 'round' && !holds(bodyPrism(this.body), p)) return false;
    for (const v of this.voids) if (holds(v, p)) return false;
    return true;
  }

  get pieces(): number {
    // Too much to follow: no alarm.
    this.lumps ??= within(
      { left: MOST_LOOKS },
      () => lumpCount(this.body, this.voids, contacts(this.voids, -1e-7)),
      () => 1,
    );
    return this.lumps;
  }

  private contacts(): readonly (readonly number[])[] {
    this.meets ??= contacts(this.voids);
    return this.meets;
  }

  private neighbours(v: Void): readonly Void[] {
    this.index ??= new Map(this.voids.map((x, i) => [x, i]));
    const i = this.index.get(v);
    if (i === undefined) return this.voids.filter((x) => x !== v);
    return this.contacts()[i]!.map((k) => this.voids[k]!);
  }
}
