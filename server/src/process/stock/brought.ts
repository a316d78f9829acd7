/** Features that a blank has already: nothing of them is left to cut. */
import { solidOfVolumes } from '../../geometry/part-solid';
import type { Solid } from '../../geometry/types';
import { memo } from '../../memo';
import type { Feature, Part } from '../../model/model';
import { carriedOn } from './extend-to-stock';
import { stockOf } from './stock';
import type { Workpiece } from './types';

/** Less than this is nothing to cut: sums over sections are sure to a millionth. */
const NOTHING_MM3 = 0.01;
const OF_ALL = 3e-6;

/** All of it is gone before the first cut. */
export function comesCut({ name }: Pick<Feature, 'name'>, part: Part, solid: Solid): boolean {
  return part.stock.blank !== undefined && brought(solid, stockOf(part, solid.body)).has(name);
}

const brought = memo(
  (solid: Solid, stock: Workpiece): ReadonlySet<string> =>
    new Set(
      [...new Set(solid.voids.map((v) => v.feature))].filter((name) =>
        solid
          .voidsOf(name)
          .flatMap((v) => carriedOn(v, stock.body, solid.body, undefined))
          .every((v) => {
            const with_ = solidOfVolumes({ body: stock.body, voids: [...stock.voids, v] });
            return with_.aloneMm3(v) <= Math.max(NOTHING_MM3, OF_ALL * with_.insideMm3(v));
          }),
      ),
    ),
  { size: 2 },
);
