/** What a coat does to sizes and threads: the text says them coated, the machine cuts them bare. */
import { memo } from '../../memo';
import { featureNameOf } from '../../model/member-name';
import type { Coating, Hole, Part } from '../../model/model';
import { type Size, sizesOf } from './sizes';

interface CoatedSize {
  readonly size: Size;
  /** Deviations to cut to, so that the coated size comes out within its own; upper under lower where that cannot be. */
  readonly lowerMm: number;
  readonly upperMm: number;
}

/** Toleranced sizes between or over coated surfaces, as they are to be cut. */
export const coatedSizes = memo((part: Part): readonly CoatedSize[] => {
  const { coating } = part;
  if (!coating || coating.growsMm[1] === 0) return [];
  const [least, most] = coating.growsMm;
  return [...sizesOf(part)].flatMap((size) => {
    const { side, tolerance, feature } = size;
    const { lowerMm, upperMm } = tolerance;
    if (side === 'neither' || lowerMm === undefined || upperMm === undefined) return [];
    if (feature && isMasked(feature.name, coating)) return [];
    // Both sides grow: an opening closes, and what stands gets wider.
    const made =
      side === 'inside'
        ? { lowerMm: lowerMm + 2 * most, upperMm: upperMm + 2 * least }
        : { lowerMm: lowerMm - 2 * least, upperMm: upperMm - 2 * most };
    return [{ size, ...made }];
  });
});

/** On the flanks of a thread of 60° a coat counts twice of each side: the pitch diameter closes by four times its growth. */
const FLANKS = 4;

/** Tapped holes that are coated, with how much their pitch diameter closes at most. */
export function* coatedThreads(part: Part): Generator<{ readonly hole: Hole; readonly closesMm: number }> {
  const { coating } = part;
  if (!coating) return;
  const closesMm = FLANKS * coating.growsMm[1];
  for (const hole of part.features)
    if (hole.kind === 'hole' && hole.thread && !isMasked(hole.name, coating)) yield { hole, closesMm };
}

function isMasked(name: string, { masked }: Coating): boolean {
  return masked.some((m) => featureNameOf(m.name) === name);
}
