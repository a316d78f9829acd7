/** What a chosen feature meets in the jobs that make its part: a mark for each joint, at the place that the joint names. */
import { featureFrame } from '../../geometry/frame';
import { readMemberName } from '../../model/member-name';
import { meetingsIn } from '../../report/joints';
import { list } from '../../rules/kit/message';
import { resolvePath } from '../documents';
import { keyOf } from '../file-key';
import type { JobRead, PartSnapshot } from '../snapshot';
import type { PictureSize } from './protocol';

export function metSizes(
  { checked: { part }, path }: PartSnapshot,
  name: string,
  jobs: readonly JobRead[],
): readonly PictureSize[] {
  const feature = part.featureByName.get(name);
  if (!feature) return [];
  return jobs.flatMap(({ path: home, checked: { job } }) => {
    const as = job.parts.filter((p) => resolvePath(home, p.spec.name) === keyOf(path)).map((p) => p.name);
    return job.joints.flatMap((joint): PictureSize[] => {
      const all = meetingsIn(joint);
      const own = all.filter((m) => as.includes(m.piece.name) && readMemberName(m.feature.name).feature === name);
      const place = feature.places[(readMemberName(own[0]?.feature.name ?? '').member ?? 1) - 1];
      if (own.length === 0 || !place) return [];
      const { origin } = featureFrame(feature, part.size, place);
      const others = [...new Set(all.filter((m) => !own.includes(m)).map((m) => m.text))];
      const text = others.length > 0 ? `${joint.name}: meets ${list(others)}` : joint.name;
      return [{ what: `joint ${joint.name}`, text, at: [origin, origin], job: job.name }];
    });
  });
}
