/**
 * The part's geometry as one value, worked out when asked for. What an edit did not touch is not worked out again:
 * voids, volumes and walls are kept with the feature objects they came from.
 */

import { atOnce, type Budget, type Steps, within } from '../effort';
import { areSame, memo } from '../memo';
import type { Part } from '../model/model';
import { bodyOf, bodyPrism, sameBody } from './solid/body';
import { lumpCount } from './solid/components';
import { contacts, meetings } from './solid/contact';
import { commonVolume, measurePart, remainderOf } from './solid/measure';
import { holds } from './solid/prism';
import { neverThere } from './solid/stock-body';
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
  voids.push(...neverThere(part));
  if (before instanceof LazySolid && before.body === body && areSame(before.voids, voids)) return before;
  return new LazySolid(body, voids, byName);
}

/** A solid of given volumes: a workpiece half cut, say. */
export const solidOfVolumes = memo((of: Pick<Solid, 'body' | 'voids'>): Solid => {
  const byName = new Map<string, Void[]>();
  for (const v of of.voids) byName.set(v.feature, [...(byName.get(v.feature) ?? []), v]);
  return new LazySolid(of.body, of.voids, byName);
});

/** For a question that is asked of so many volumes or pairs: each has so much that all together cost about what one may. */
function shareOf(many: number): Budget {
  return { remaining: Math.max(LEAST_LOOKS, MOST_LOOKS / Math.max(1, many)), rough: Math.floor(many / 8) };
}

class LazySolid implements Solid {
  constructor(
    readonly body: BodyShape,
    readonly voids: readonly Void[],
    private readonly byName: ReadonlyMap<string, readonly Void[]>,
  ) {}

  voidsOf(feature: string): readonly Void[] {
    return this.byName.get(feature) ?? [];
  }

  get measures(): Measures {
    return measuresOf(this);
  }

  walls(belowMm: number, heldMm?: number): readonly Wall[] {
    return thinWalls(this, belowMm, heldMm ?? belowMm).walls;
  }

  unjudgedWalls(belowMm: number, heldMm?: number): number {
    return thinWalls(this, belowMm, heldMm ?? belowMm).unjudged;
  }

  aloneMm3(v: Void): number {
    return remainderOf(v, this.neighbours(v), this.body, shareOf(this.voids.length)).volumeMm3;
  }

  sharedMm3(a: Void, b: Void): number {
    return commonVolume(a, b, this.body, shareOf(this.voids.length ** 2 / 4));
  }

  insideMm3(v: Void): number {
    return remainderOf(v, [], this.body, { remaining: MOST_LOOKS }).volumeMm3;
  }

  isMaterial(p: Vec3): boolean {
    const { box } = this.body;
    for (const a of [0, 1, 2] as const) if (p[a] < box.min[a] || p[a] > box.max[a]) return false;
    if (this.body.form === 'round' && !holds(bodyPrism(this.body), p)) return false;
    for (const v of this.voids) if (holds(v, p)) return false;
    return true;
  }

  get pieces(): number {
    return piecesOf(this);
  }

  private neighbours(v: Void): readonly Void[] {
    const i = placesOf(this).get(v);
    if (i === undefined) return this.voids.filter((x) => x !== v);
    return meetsOf(this)[i]!.map((k) => this.voids[k]!);
  }
}

/** For each volume, those that it touches, and of these those that it may share some with. */
const touchesOf = memo(({ voids }: LazySolid) => contacts(voids));
const meetsOf = memo((s: LazySolid) => meetings(s.voids, touchesOf(s)));
const placesOf = memo(({ voids }: LazySolid) => new Map(voids.map((v, i) => [v, i])));

const measuresOf = memo(
  (s: LazySolid): Measures => measurePart(s.body, s.voids, meetsOf(s), { remaining: MOST_LOOKS }),
);

/** Too much to follow: no alarm. */
const piecesOf = memo((s: LazySolid) =>
  within(
    { remaining: MOST_LOOKS },
    () => lumpCount(s.body, s.voids, touchesOf(s)),
    () => 1,
  ),
);

/** Several rules ask, each below its own limit. */
const thinWalls = memo(
  (s: LazySolid, belowMm: number, heldMm: number): Walls =>
    wallsOf(s.body, s.voids, belowMm, (p) => s.isMaterial(p), heldMm),
  { size: 4 },
);
