/** The one number that is written beside a finding's mark. */

import { trimmed } from '../../rules/message';
import type { Finding } from '../../rules/rule';

/** The fact that says how bad it is; the first that a finding has. Lengths, in the order in which they tell. */
const TELLING = [
  'thickness_mm',
  'web_mm',
  'wall_mm',
  'left_mm',
  'gap_mm',
  'land_mm',
  'room_mm',
  'out_mm',
  'missing_mm',
  'excess_mm',
  'over_mm',
  'radius_mm',
  'diameter_mm',
  'depth_mm',
  'width_mm',
] as const;

/** `0.4 mm`; for findings of two places the distance between them. Undefined where it has no length of its own. */
export function labelOf({ at, facts }: Finding, length: (mm: number) => string): string | undefined {
  if (!at || at.length === 0) return undefined;
  for (const key of TELLING) {
    const mm = facts[key];
    if (typeof mm === 'number') return length(Number(trimmed(mm, 3)));
  }
  return undefined;
}
