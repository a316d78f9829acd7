/**
 * The wall of a swept outline as bands from depth to depth, each straight, leaning, or bent by a quarter circle.
 */

import type { Prism } from '../../geometry/solid/prism';
import { ROUNDING } from '../../tolerance';

export interface Band {
  readonly w0: number;
  readonly w1: number;
  /** How far the outline is inset at both ends, mm. */
  readonly i0: number;
  readonly i1: number;
  /** Of a bent one the circle's centre, as inset and depth. */
  readonly bend?: { readonly inset: number; readonly w: number };
}

export interface BentBand extends Band {
  readonly bend: NonNullable<Band['bend']>;
}
export const isBent = (band: Band): band is BentBand => band.bend !== undefined;

/** From the mouth down. A band never goes from an inset outside the outline to one inside it. */
export function bandsOf({ profile, from, to }: Pick<Prism, 'profile' | 'from' | 'to'>): readonly Band[] {
  switch (profile.type) {
    case 'straight':
      return [{ w0: from, w1: to, i0: 0, i1: 0 }];
    case 'taper': {
      const { insetFrom: i0, insetTo: i1 } = profile;
      if (i0 * i1 >= 0) return [{ w0: from, w1: to, i0, i1 }];
      const w = from + ((to - from) * i0) / (i0 - i1);
      return [
        { w0: from, w1: w, i0, i1: 0 },
        { w0: w, w1: to, i0: 0, i1 },
      ];
    }
    case 'floor': {
      const { radius } = profile;
      const start = to - radius;
      const bent = { w0: start, w1: to, i0: 0, i1: radius, bend: { inset: radius, w: start } };
      return start - from > ROUNDING ? [{ w0: from, w1: start, i0: 0, i1: 0 }, bent] : [{ ...bent, w0: from }];
    }
    case 'round':
      return [{ w0: from, w1: to, i0: 0, i1: profile.radius, bend: { inset: 0, w: to } }];
    default:
      return profile satisfies never;
  }
}

/** Which way the outline moves over the bands: 1 inward, −1 outward, 0 not at all. */
export function wayOf(band: Band): -1 | 0 | 1 {
  const most = Math.abs(band.i0) > Math.abs(band.i1) ? band.i0 : band.i1;
  return most > 0 ? 1 : most < 0 ? -1 : 0;
}
