/** The chains of a part: for every toleranced dimension what stands between its ends, as drawn and as set up. */

import type { Solid } from '../../geometry/types';
import { memo } from '../../memo';
import type { Part } from '../../model/model';
import type { Shop } from '../../model/shop-model';
import { setUpChains } from './as-set-up';
import { budgeted } from './budget';
import { chainBetween, dimensioned } from './drawn';
import { tolerancedOf } from './toleranced';
import type { Link, Toleranced } from './types';

export { type Centred, centredOf, zoneTaken } from './centred';
export { addingOf, ERRORS } from './errors';
export type * from './types';
export { budgetMm, likelyMm, worstMm } from './types';

export interface Chained {
  readonly of: Toleranced;
  /** The dimensions of the text between the ends; of a distance only: any other is a dimension itself. */
  readonly drawn?: readonly Link[];
  /** Zeros, cuts and the bar between the ends; absent without set-ups, or where they do not tell. */
  readonly asSetUp?: readonly Link[];
}

/** In text order. */
export const chainsOf = memo(
  (part: Part, solid: Solid, shop: Shop): readonly Chained[] => {
    const setUp = setUpChains({ part, solid, shop });
    return [...tolerancedOf(part)].map((of): Chained => {
      const drawn = of.given === 'distance' ? drawnOf(of, part) : undefined;
      const links = setUp?.(of.ends, of.axis);
      const asSetUp = links && budgeted(of, links, { part, solid, shop });
      return { of, ...(drawn && { drawn }), ...(asSetUp && { asSetUp }) };
    });
  },
  { owners: 2 },
);

function drawnOf({ ends, axis }: Toleranced, part: Part): readonly Link[] | undefined {
  const [a, b] = ends.map((name) => dimensioned(name, axis, part));
  return a && b && chainBetween(a, b, axis, part);
}
