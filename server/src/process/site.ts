/**
 * A feature where it lies: what it takes, and all that a line along the spindle through that can meet. It is the same object
 * from edit to edit as long as nothing there changes, so that what is kept with it need not be compared, nor worked out again.
 */

import type { Solid, Void } from '../geometry/types';
import { memo } from '../memo';
import type { Feature } from '../model/model';
import { beside, type Place } from './column';

export interface Site extends Place {
  readonly own: readonly Void[];
}

export function siteOf({ name }: Feature, solid: Solid): Site {
  return siteIn(solid.voidsOf(name), solid);
}

const siteIn = memo(
  (own: readonly Void[], solid: Solid): Site => {
    const [one, ...more] = own;
    if (one && more.length === 0) return asBefore(own, solid.body, beside(one, solid));
    const met = new Set(own.flatMap((v) => beside(v, solid)));
    return asBefore(
      own,
      solid.body,
      solid.voids.filter((v) => met.has(v)),
    );
  },
  { owners: 'second' },
);

/** The text as it was before an edit may come back. */
const KEEP = 2;

const asBefore = memo(
  (own: readonly Void[], body: Place['body'], voids: readonly Void[]): Site => ({ own, body, voids }),
  {
    size: KEEP,
  },
);
