/** Where a finding is marked on the part: where the rule says, else at the mouths of the features that it is about. */

import { centroidOf, regionMoments } from '../../geometry/2d/moments';
import { fromFrame } from '../../geometry/frame';
import type { Solid, Vec3, Void } from '../../geometry/types';
import { distance } from '../../geometry/vector';
import { readMemberName } from '../../model/member-name';
import type { Finding } from '../../rules/kit/rule';
import { HAIR } from '../../tolerance';

/** More marks of one finding than this hide the part. */
const MOST_MARKS = 24;

export function marksOf({ at, of }: Finding, solid: Solid): readonly Vec3[] {
  if (at && at.length > 0) return at;
  const marks: Vec3[] = [];
  for (const name of of) {
    const { feature, member } = readMemberName(name);
    const seen = new Set<number>();
    for (const v of solid.voidsOf(feature)) {
      if (seen.has(v.member) || (member !== undefined && v.member !== member)) continue;
      seen.add(v.member);
      marks.push(mouthOf(v));
      if (marks.length === MOST_MARKS) return marks;
    }
  }
  return marks;
}

/** Whether the finding's two points are the ends of a length that it tells, and not two places. */
export function isGap({ at, facts }: Finding): boolean {
  const [p, q, ...more] = at ?? [];
  if (!p || !q || more.length > 0) return false;
  const apart = distance(p, q);
  return Object.entries(facts).some(
    ([key, value]) => key.endsWith('_mm') && typeof value === 'number' && Math.abs(value - apart) < HAIR,
  );
}

/** The middle of the end that it is entered by; of outlines that go round something, a point of the outline. */
function mouthOf({ frame, region, from }: Void): Vec3 {
  const first = region.holes[0]?.edges[0]?.a;
  const { u, v } = first ?? centroidOf(regionMoments(region));
  return fromFrame(frame, u, v, from);
}
