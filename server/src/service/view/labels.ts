/** The one number that is written beside a finding's mark: how much is left, missing or too much. */
import { trimmed } from '../../rules/kit/message';
import type { Finding } from '../../rules/kit/rule';

/** For each rule the fact that tells it in a glance. */
export const TELLING: Readonly<Record<string, string>> = {
  'wall/thin': 'thickness_mm',
  'wall/slender': 'thickness_mm',
  'wall/floor': 'thickness_mm',
  'wall/deflects': 'deflection_mm',
  'wall/knife-edge': 'angle_deg',
  'corner/inside-radius': 'radius_mm',
  'corner/square': 'left_mm',
  'corner/tight': 'radius_mm',
  'corner/floor-radius': 'floor_radius_mm',
  'corner/outside-round': 'radius_mm',
  'hole/depth-ratio': 'depth_mm',
  'hole/odd-diameter': 'diameter_mm',
  'hole/too-small': 'diameter_mm',
  'hole/flat-bottom': 'depth_mm',
  'hole/point-breaks-through': 'through_mm',
  'hole/breaks-out': 'outside_mm',
  'hole/crosses': 'offset_mm',
  'hole/sloped-start': 'slope_deg',
  'hole/near-edge': 'web_mm',
  'hole/screw-head': 'diameter_mm',
  'hole/out-of-reach': 'missing_mm',
  'thread/no-room': 'room_mm',
  'thread/too-long': 'length_mm',
  'thread/too-short': 'length_mm',
  'access/covered': 'over_mm',
  'access/reach': 'missing_mm',
  'access/tilted': 'angle_deg',
  'form/overlap': 'meet_mm',
  'form/too-small-to-see': 'size_mm',
  'tol/process': 'width_mm',
  'stock/too-small': 'missing_mm',
  'stock/extra': 'extra_mm',
};
/** For rules that are not in the list: facts that mean the same wherever they stand. */
const PLAIN = ['thickness_mm', 'web_mm', 'left_mm', 'missing_mm', 'over_mm', 'out_mm'] as const;

/** `0.4 mm`, `24°`; undefined where the finding has no number of its own. `length` writes mm in the document's units. */
export function labelOf({ rule, facts }: Finding, length: (mm: number) => string): string | undefined {
  for (const key of [TELLING[rule], ...PLAIN]) {
    const value = key === undefined ? undefined : facts[key];
    if (typeof value !== 'number') continue;
    return key!.endsWith('_deg') ? `${trimmed(value, 1)}°` : length(Number(trimmed(value, 3)));
  }
  return undefined;
}
