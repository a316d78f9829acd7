/** Plates: whether one as thick as the piece lies on the rack, and the next thicker one. */

import { rackLengths, rackSection } from '../../model/bar';
import type { Part } from '../../model/model';
import type { RackItem, Shop } from '../../model/shop-model';
import { stockSizeMm } from '../../model/stock';
import { ROUNDING } from '../../tolerance';

export interface NoPlate {
  readonly thickMm: number;
  /** The thinnest that is thicker, and wide enough. */
  readonly nearMm?: number;
}

/** Undefined where a plate will do, or the rack lists none of the material. */
export function noPlate(part: Part, shop: Shop): NoPlate | undefined {
  if (part.stock.form !== 'plate' || !part.body) return undefined;
  const plates = shop.rack.filter((r) => r.form === 'plate' && r.material === part.material?.name);
  const size = stockSizeMm(part);
  if (plates.length === 0 || size.some((thick, i) => plates.some((p) => fits(p, thick, rest(size, i)))))
    return undefined;
  const thickMm = Math.min(...size);
  const others = rest(size, size.indexOf(thickMm));
  const nearMm = Math.min(
    ...plates.flatMap((p) => {
      const thick = rackSection(p)?.[1] ?? 0;
      return thick > thickMm && fits(p, thick, others) ? [thick] : [];
    }),
  );
  return { thickMm, ...(Number.isFinite(nearMm) && { nearMm }) };
}

const rest = (size: readonly number[], without: number) => size.filter((_, i) => i !== without);

function fits(plate: RackItem, thickMm: number, others: readonly number[]): boolean {
  const section = rackSection(plate);
  if (!section || Math.abs(section[1] - thickMm) > 0.1) return false;
  const [short, long] = [Math.min(...others), Math.max(...others)];
  return (
    short <= section[0] + 0.1 &&
    rackLengths(plate).some((mm) => mm >= (long > section[0] + 0.1 ? long : short) - ROUNDING)
  );
}
